package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

// Every word of the guide comes from the table: with another one, no word of the
// first is left, and all of the other's are met, whatever is told: spacers, foam,
// faces, tiles, inches, copies, pins, frames, jigs, pieces.
func TestEveryWordComesFromTheTable(t *testing.T) {
	was := english
	projecttest.Foreign(&english, "language")
	defer func() { english = was }()
	variants := map[string]func(p *project.Project){
		"pins, a layer left whole": func(p *project.Project) {
			p.Settings.Pins = project.LeastPin
			p.Sprites[0].Stack.Jigs = []project.Jig{{Height: 1, Stock: p.Stocks[0].ID}, {Height: 2, Stock: p.Stocks[0].ID}}
			// The large patch carries three parts, and as many go beside it.
			p.Sprites = append(p.Sprites, pier(p), sketch(p, "..............", ".ooooooo.o.o.o", ".oxoxoxo......", ".ooooooo......"))
			// Of the two corners farthest apart one lies under one part more.
			p.Sprites = append(p.Sprites, sketch(p, "................", "....oooooooxxxx.", "...ooooooooxxxx.", ".ooooooooooxxxx.", ".oooooooooooo...", "................"))
			p.Sprites[1].Name, p.Sprites[2].Name, p.Sprites[3].Name = "№ 9", "№ 10", "№ 11"
			p.Sprites[2].Stack.Lowest, p.Sprites[2].Stack.Highest = string(p.Palette[0].Key), string(p.Palette[2].Key)
			p.Sprites[3].Stack.Float, p.Sprites[3].Stack.FloatBy = 2, 2*shape.Mm
			p.Sprites[3].Stack.Style, p.Sprites[3].Stack.Order = project.ByHand, string([]byte{p.Palette[0].Key, p.Palette[1].Key, p.Palette[2].Key})
		},
		"pieces, no name": func(p *project.Project) {
			p.Name = "灯台"
			p.Sprites[0] = pier(p)
			p.Sprites[0].Name, p.Sprites[0].Copies = "№ 8", 1
			p.Settings.Large, p.Settings.SheetW, p.Settings.SheetH = project.LargeSplit, 60*shape.Mm, 50*shape.Mm
		},
		"spacers, copies, faces, inches": func(p *project.Project) {
			p.Sprites[0].Copies, p.Sprites[0].Cell = 3, 9*shape.Mm
			p.Sprites[0].Stack.FoamStock = p.Stocks[0].ID
			p.Settings.SheetW, p.Settings.SheetH = 500*shape.Mm, 700*shape.Mm
			p.Settings.Units, p.Settings.Pins = project.MmAndInch, project.UsualPin
			for i := range p.Stocks {
				p.Stocks[i].Face = project.FaceDown
			}
		},
		"one part": func(p *project.Project) {
			p.Sprites[0].W, p.Sprites[0].H = 1, 1
			p.Sprites[0].Frames = []project.Frame{{Cells: []byte{p.Palette[0].Key}}}
			p.Settings.Hold, p.Sprites[0].Stack.Foam = project.Light, 0
		},
	}
	told := ""
	for name, change := range variants {
		j := harbour(t, 1, func(p *project.Project) {
			p.Name, p.Sprites[0].Name = "№ 7", "№ 8"
			for i := range p.Stocks {
				p.Stocks[i].Name = strings.Repeat("#", i+1)
			}
			change(p)
		})
		for i := range j.Sheets {
			j.Sheets[i] = "№ 9"
		}
		j.Plan.Findings = append(j.Plan.Findings, inspect.Finding{Code: inspect.ShelfShort, Text: "№ 10"})
		pdf, err := Write(j)
		require.NoError(t, err)
		path := saved(t, pdf)
		_, title, _ := strings.Cut(asked(t, "pdfinfo", path), "Title:")
		title, _, _ = strings.Cut(title, "\n")
		told += title + asked(t, "pdftotext", path, "-")
		text := regexp.MustCompile(`[A-HJ-NP-Z]+[0-9]+-[0-9]+|[A-D]\s+№`).ReplaceAllString(asked(t, "pdftotext", path, "-"), "") // numbers, the sprite's letter
		for _, line := range append(strings.Split(text, "\n"), title) {
			assert.NotRegexp(t, `[A-Za-z]`, line, name)
		}
		assert.Equal(t, name == "one part", !strings.Contains(text, english.parts[1][len("%d"):]), name)
	}
	assert.Empty(t, projecttest.Unused(&english, told, "language"))
}
