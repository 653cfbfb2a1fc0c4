package guide

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// A guide tells only of what is cut now: some sprites, or one lost part.
func TestGuideOfWhatIsChosen(t *testing.T) {
	for _, c := range []struct {
		choice project.Choice
		has    []string
		hasNot []string
	}{
		{project.Choice{Sprites: []project.Chosen{{Sprite: "Gull", Copies: 3}}}, []string{"Gull × 3", "B1-1, 3 of these"}, []string{"Lighthouse"}},
		{project.Choice{Parts: []string{"A7-2"}}, []string{"1 sprite, 1 part", "A7-2 on A6-1."}, []string{"Gull"}},
	} {
		pdf, err := Write(harbour(t, 2, func(p *project.Project) { p.Choice = c.choice }))
		require.NoError(t, err)
		text := asked(t, "pdftotext", "-layout", saved(t, pdf), "-")
		for _, s := range c.has {
			assert.Contains(t, text, s)
		}
		for _, s := range c.hasNot {
			assert.False(t, strings.Contains(text, s), s)
		}
	}
}
