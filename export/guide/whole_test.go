package guide

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// space is what poppler may put between words, by where lines end.
var space = regexp.MustCompile(`\s+`)

// sketch is a drawing in the first three colours: ., o and x.
func sketch(p *project.Project, rows ...string) project.Sprite {
	s := project.NewSprite("Sketch", len(rows[0]), len(rows))
	for i, c := range strings.Join(rows, "") {
		s.Frames[0].Cells[i] = p.Palette[strings.IndexRune(".ox", c)].Key
	}
	return s
}

// pier is two copies of a drawing with three parts on its ground that stay in one
// frame.
func pier(p *project.Project) project.Sprite {
	s := sketch(p, "............", ".ooo.oo.ooo.", ".ooo.oo.ooo.", ".ooo....ooo.", "............")
	s.Cell, s.Copies, s.Stack.Highest = 5*shape.Mm, 2, string(p.Palette[1].Key)
	for _, st := range p.Stocks {
		s.Stack.Whole = append(s.Stack.Whole, project.Whole{Height: 2, Stock: st.ID})
	}
	return s
}

// Where a layer that is left whole is cut for two copies, on two sheets, the step
// names both.
func TestAStepNamesTheSheetOfEachFrame(t *testing.T) {
	j := harbour(t, 1, func(p *project.Project) {
		p.Sprites[0] = pier(p)
		p.Settings.SheetW, p.Settings.SheetH = 95*shape.Mm, 60*shape.Mm // one frame's room
	})
	var names []string
	for _, sh := range j.Plan.Sheets.List {
		if len(sh.Frames) > 0 {
			names = append(names, fmt.Sprintf(english.sheet, sh.Stock.Name, sh.Number))
		}
	}
	require.Len(t, names, 2)
	pdf, err := Write(j)
	require.NoError(t, err)
	text := space.ReplaceAllString(asked(t, "pdftotext", saved(t, pdf), "-"), " ")
	assert.Contains(t, text, "stay in their frame from "+joined(names)+".")
}
