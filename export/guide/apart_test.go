package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// Beside the stack pulled apart each height tells how many parts it has, however long
// the names of its stocks are.
func TestEveryHeightTellsItsParts(t *testing.T) {
	j := harbour(t, 1, func(p *project.Project) {
		for i := range p.Stocks {
			p.Stocks[i].Name = strings.Repeat("Long ", 12) + p.Stocks[i].Name
		}
	})
	pdf, err := Write(j)
	require.NoError(t, err)
	want := map[string]int{}
	for _, sp := range j.Plan.Sprites {
		parts := map[int]int{}
		for _, l := range sp.Layout.Layers {
			parts[l.Height] += len(l.Parts)
		}
		for _, n := range parts {
			want[english.counted(n, english.parts)]++
		}
	}
	told := map[string]int{}
	for _, m := range regexp.MustCompile(`(\d+ parts?), Long`).FindAllStringSubmatch(asked(t, "pdftotext", "-layout", saved(t, pdf), "-"), -1) {
		told[m[1]]++
	}
	for n, times := range want {
		assert.GreaterOrEqual(t, told[n], times, n)
	}
}
