package export

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

// data is what a README may hold in any language: numbers of parts, names of
// files, layers' and stocks' IDs, colours, units.
var data = regexp.MustCompile(`[A-HJ-NP-Z]+[0-9]+-[0-9]+|sprites/[0-9]+/|jigs/[0-9]+/height-[0-9]+-(plate|rim)\.dxf|[0-9]+-(spacers-)?№|№-[0-9]+\.dxf|#[0-9a-f]{6}|mm/(s|min)`)

// Every word of README.txt comes from the table: with another one, no word of the
// first is left, whatever is told: spacers, pieces, loose parts, faces, a knife, a hand.
func TestEveryWordComesFromTheTable(t *testing.T) {
	was := english
	projecttest.Foreign(&english)
	defer func() { english = was }()
	for _, kind := range []project.MachineKind{project.LaserCutter, project.Knife, project.Hand} {
		m := project.NewMachine("№ 1", kind)
		m.BladeOffset = 250
		p := quay(t, m, nil)
		p.Name, p.Settings.Pins = "№ 2", project.UsualPin
		p.Settings.SheetW, p.Settings.SheetH, p.Settings.Large = 62*shape.Mm, 62*shape.Mm, project.LargeSplit
		for i := range p.Stocks {
			p.Stocks[i].Name, p.Stocks[i].Weight = "№ 3", 220
			if i%2 == 0 {
				p.Stocks[i].Face = project.FaceDown
			}
		}
		for i := range p.Sprites {
			s := &p.Sprites[i]
			s.Name, s.Copies = strings.Repeat("1", i+1), i+1
			s.Cell, s.Stack.FoamStock = 9*shape.Mm, p.Stocks[0].ID
		}
		for i := range p.Sprites {
			p.Sprites[i].Stack.Jigs = []project.Jig{{Height: 1, Stock: p.Stocks[0].ID}, {Height: 2, Stock: p.Stocks[0].ID}}
		}
		j := sheeted(t, p)
		j.Plan.Findings = []inspect.Finding{{Code: inspect.PartTiny, Text: "№ 4", Sprite: p.Sprites[0].Name, Places: []inspect.Place{{Part: "A1-1"}}}}
		files, sheets := nameFiles(j)
		text := string(readme(j, files, sheets, nameJigs(j, files)))
		require.Contains(t, text, "№ 4 (A1-1)")
		require.Contains(t, text, "A1-1/2", "something is cut in pieces")
		for _, st := range p.Stocks {
			text = strings.ReplaceAll(text, st.ID, "№")
		}
		for line := range strings.SplitSeq(text, "\n") {
			assert.NotRegexp(t, `[A-Za-z]`, data.ReplaceAllString(line, ""), string(kind))
		}
	}
}

// A finding's line names its sprite once.
func TestAFindingNamesItsSpriteOnce(t *testing.T) {
	f := inspect.Finding{Sprite: "Gull", Text: "“Gull”: 2 parts are small."}
	assert.Equal(t, "“Gull”: 2 parts are small.", findingLine(f))
	f.Text = "2 parts are small."
	assert.Equal(t, "Gull: 2 parts are small.", findingLine(f))
}
