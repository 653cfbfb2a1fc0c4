package export

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// randomSheeted is a project of small noisy sprites with random settings of all
// that sheets depend on.
func randomSheeted(seed uint64) *project.Project {
	r := rand.New(rand.NewPCG(seed, 15))
	var pictures []stack.Drawing
	for range 1 + r.IntN(3) {
		w, h := 1+r.IntN(12), 1+r.IntN(12)
		last, rows := byte('a'), []string(nil)
		for y := range h {
			row := ""
			for x := range w {
				if r.IntN(3) == 0 || x == 0 && y == 0 {
					last = "abc..aab"[r.IntN(8)]
				}
				row += string(last)
			}
			rows = append(rows, row)
		}
		rows[0] = "a" + rows[0][1:]
		pictures = append(pictures, grid(rows...))
	}
	p := drawn(3000, pictures...)
	for i := range p.Sprites {
		s := &p.Sprites[i]
		s.Cell = []shape.Um{2000, 3000, 3333, 5000}[r.IntN(4)]
		s.Copies = 1 + r.IntN(3)
		s.Stack.Style = []project.Style{project.Fewest, project.Fewest, project.SideBySide}[r.IntN(3)]
		s.Stack.Float = []int{0, 2, 3}[r.IntN(3)]
		if s.Stack.Style == project.SideBySide {
			s.Stack.Float = min(s.Stack.Float, 2)
		}
	}
	set := &p.Settings
	set.SheetW, set.SheetH = shape.Um(60+r.IntN(150))*shape.Mm, shape.Um(60+r.IntN(150))*shape.Mm
	set.Margin, set.Gap, set.Effort = shape.Um(r.IntN(8000)), []shape.Um{0, 1, 500, 1000, 2500}[r.IntN(5)], 0
	kerf := shape.Um(r.IntN(300))
	set.Kerf = &kerf
	set.Hold = []project.Hold{project.Tabs, project.Light}[r.IntN(2)]
	set.Tab = []shape.Um{400, 400, 650}[r.IntN(3)]
	set.Border = []shape.Um{0, 0, 1500, 2345}[r.IntN(4)]
	set.Edge = []project.Edge{project.Square, project.Round, project.Chamfered}[r.IntN(3)]
	set.Corners = []project.Corners{project.Join, project.Join, project.Apart}[r.IntN(3)]
	set.Layout = []project.Layout{"", "", project.InRegister}[r.IntN(3)]
	set.Group = []project.Grouping{"", project.BySprite}[r.IntN(2)]
	m := project.NewMachine("Machine", []project.MachineKind{project.LaserCutter, project.LaserCutter, project.Knife, project.Hand}[r.IntN(4)])
	m.Origin = []project.BedCorner{project.LowerLeft, project.LowerRight, project.UpperLeft, project.UpperRight}[r.IntN(4)]
	m.Beam, m.Unit = []project.Beam{project.M3, project.M4}[r.IntN(2)], []project.SpeedUnit{project.PerSecond, project.PerMinute}[r.IntN(2)]
	m.BladeOffset, m.Overcut = []shape.Um{0, 250, 333, 1100}[r.IntN(4)], []shape.Um{0, 500, 1234, 5000}[r.IntN(4)]
	m.Marks = []project.Marks{project.DrawMarks, project.DrawMarks, project.NoMarks}[r.IntN(3)]
	m.FullPower = []int{1, 100, 255, 1000}[r.IntN(4)]
	if r.IntN(3) == 0 {
		m.BedW, m.BedH = 150*shape.Mm, 150*shape.Mm
	}
	m.Left, m.Bottom = shape.Um(r.IntN(9000)), shape.Um(r.IntN(9000))
	for i := range p.Stocks {
		p.Stocks[i].Face = []project.Face{"", project.FaceDown}[r.IntN(2)]
		p.Stocks[i].Grain = []project.Grain{"", project.LongGrain}[r.IntN(2)]
	}
	b := laserBench(p, m)
	for i := range b.Uses {
		b.Uses[i].Passes, b.Uses[i].Power = 1+r.IntN(3), 1+r.IntN(100)
		if r.IntN(4) == 0 {
			b.Uses[i].MarkPower = 0
		}
		b.Uses[i].Order = []project.Passes{project.ContourByContour, project.WholeSheet}[r.IntN(2)]
	}
	if err := p.PlanOn(b, ""); err != nil {
		panic(err)
	}
	return p
}

// Whatever a project asks for, its sheets are read back and found right: nothing
// that can be cut is refused.
func TestRandomSheetsAreReadBack(t *testing.T) {
	rounds := uint64(40)
	if testing.Short() {
		rounds = 10
	}
	sheets, machineFiles := 0, 0
	for seed := range rounds {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			p := randomSheeted(seed)
			require.NoError(t, p.Validate())
			j := planned(t, p)
			require.NoError(t, engine.PlanSheets(p, j.Plan, engine.Options{}))
			bundle, err := Build(j)
			require.NoError(t, err)
			sheets += len(j.Plan.Sheets.List)
			_, files := contents(t, bundle)
			_, names := nameFiles(j)
			for i, f := range names {
				sh := &j.Plan.Sheets.List[i]
				if f.gcode == "" {
					continue
				}
				machineFiles++
				var c cutter
				c.run(t, files[f.gcode])
				w, h := float64(sh.Size.Width)/1000, float64(sh.Size.Height)/1000
				require.True(t, c.least[0] >= 0 && c.least[1] >= 0 && c.most[0] <= w && c.most[1] <= h, "on the sheet")
				burnt := sh.Route.Cut + sh.Route.Leads
				if sh.Use.MarkPower > 0 {
					burnt += sh.Route.Marked
				}
				off := 0.0005 * float64(strings.Count(files[f.gcode], "\n")) // each move is rounded to the µm
				require.InDelta(t, float64(burnt)/1000, c.burnt, off)
				require.InDelta(t, float64(sh.Route.Travel)/1000, c.moved, off)
			}
			pieces, err := engine.TestPieces(p, j.Plan, engine.Range{Low: 10, High: 60, Steps: 3}, engine.Range{Low: 5, High: 30, Steps: 3})
			require.NoError(t, err)
			_, err = TestPieces(p, pieces)
			require.NoError(t, err)
		})
	}
	require.Positive(t, sheets)
	require.Positive(t, machineFiles)
}

// Side by side, where a join takes a corner of the next part's cell, the backer's
// inner corner is drawn back below both of them: farther than the join reaches
// under a floating height.
func TestAJoinHangsBesideAnotherPart(t *testing.T) {
	for _, rows := range [][]string{{"a.", "ba"}, {".a", "ab"}, {"ba", "a."}, {"ab", ".a"}} {
		p := drawn(2000, grid(rows...))
		p.Sprites[0].Stack.Style, p.Sprites[0].Stack.Float = project.SideBySide, 2
		p.Settings.Corners, p.Settings.Border = project.Join, 0
		_, err := Build(planned(t, p))
		require.NoError(t, err, rows)
	}
}

// Round borders of two cells a corner of each of which faces the other across a gap just
// twice the border wide, touch in a point, which is bridged 2 µm wide.
func TestRoundBordersThatTouch(t *testing.T) {
	for _, rows := range [][]string{{"aa...", "...aa"}, {"...a", "aa.."}, {"a.", "a.", "..", ".a"}, {"aaaaaa", "aa...a", "a..aaa"}} {
		for _, border := range []shape.Um{1500, 1499} {
			p := drawn(3000, grid(rows...))
			p.Settings.Border, p.Settings.Edge = border, project.Round
			_, err := Build(planned(t, p))
			require.NoError(t, err, "%v %d", rows, border)
		}
	}
}
