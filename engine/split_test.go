package engine

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// splitProject is a sheeted one with parts that are larger than its sheets.
func splitProject(seed uint64) *project.Project {
	r := rand.New(rand.NewPCG(seed, 6))
	w, h := 10+r.IntN(12), 8+r.IntN(12)
	rows := make([][]byte, h)
	for y := range rows {
		rows[y] = bytes.Repeat([]byte{'k'}, w)
	}
	for range 9 { // boxes of all colours, and of none at the edges
		x0, y0 := r.IntN(w), r.IntN(h)
		c := "rwkr."[r.IntN(5)]
		for y := y0; y < min(h, y0+1+r.IntN(6)); y++ {
			for x := x0; x < min(w, x0+1+r.IntN(8)); x++ {
				rows[y][x] = c
			}
		}
	}
	p := sheetedProject(seed)
	like := p.Sprites[0].Stack
	p.Sprites = drawn(string(bytes.Join(rows, []byte("\n")))).Sprites
	p.Sprites[0].Stack = like
	set := &p.Settings
	set.SheetW, set.SheetH = shape.Um(34+r.IntN(30))*shape.Mm, shape.Um(34+r.IntN(30))*shape.Mm
	set.Margin, set.Large = shape.Um(r.IntN(4000)), project.LargeSplit
	set.Edge = []project.Edge{project.Square, project.Round, project.Chamfered}[r.IntN(3)]
	kerf := shape.Um(2 * r.IntN(80))
	set.Kerf = &kerf
	for i := range p.Sprites {
		p.Sprites[i].Cell = []shape.Um{3000, 3333, 5000}[r.IntN(3)]
	}
	m := project.NewMachine("Laser", project.LaserCutter)
	switch seed % 4 {
	case 1:
		set.Hold = project.Light
		m.Left, m.Top = 2*shape.Mm, shape.Mm
	case 2:
		m = project.NewMachine("Knife plotter", project.Knife)
		m.BladeOffset = 250
	case 3:
		m = project.NewMachine("By hand", project.Hand)
	}
	p.Bench = &project.Bench{Machines: []project.Machine{m}}
	return p
}

// A part that fits no sheet is cut in pieces along lines of the grid: they sum to
// the part exactly, each is cut half a kerf outside it, no seam runs through a
// join, no tab and no mark lies on a seam, and each has its own number and place.
func TestSplitPartsLoseNothing(t *testing.T) {
	rounds := uint64(24)
	if testing.Short() {
		rounds = 4
	}
	split, round, seams := 0, 0, 0
	for seed := range rounds {
		p := splitProject(seed)
		require.NoError(t, p.Validate())
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		require.NoError(t, PlanSheets(p, plan, Options{}))
		s := plan.Sheets
		for i, sp := range plan.Sprites {
			for k := range s.Pieces[i] {
				whole := &s.Pieces[i][k]
				if len(whole.Pieces) == 0 {
					assert.Empty(t, whole.Seams)
					continue
				}
				split++
				seams += len(whole.Seams)
				where := fmt.Sprintf("seed %d, %s", seed, whole.Number)
				checkPieces(t, where, p, sp, whole)
				if !whole.Straight() {
					round++
				}
			}
		}
		for i, part := range s.Parts {
			if part.Sheet < 0 {
				assert.True(t, slices.ContainsFunc(plan.Findings, func(f inspect.Finding) bool {
					return f.Code == inspect.KerfCloses || f.Code == inspect.PartTooLarge
				}), "seed %d: part %d has no sheet and nothing says why", seed, i)
			}
		}
	}
	assert.Greater(t, split, int(rounds))
	assert.Greater(t, seams, split)
	if !testing.Short() {
		assert.Positive(t, round, "backers with round or slanted edges are among them")
	}
}

func checkPieces(t *testing.T, where string, p *project.Project, sp Sprite, whole *cut.Piece) {
	t.Helper()
	rule := cut.Rules(p, sp.Stocks)[whole.Layer.Stock]
	half := cut.HalfKerf(rule.Kerf)
	var sum shape.Region
	var area shape.Um2
	numbers := map[string]bool{}
	for _, c := range whole.Cut() {
		assert.Equal(t, whole.Number, c.Called(), where)
		numbers[c.Number] = true
		area += c.Part.Outline.Area()
		w, h := c.Part.Bounds.Size()
		assert.True(t, rule.Holds(w, h), "%s: %s fits no sheet", where, c.Number)
		for _, x := range []shape.Um{c.Within.Min.X, c.Within.Max.X} {
			onLine := (x-sp.Layout.Grid.X)%sp.Layout.Cell == 0
			assert.True(t, onLine || x == whole.Part.Bounds.Min.X || x == whole.Part.Bounds.Max.X, where)
		}
		if c.Straight() {
			o := region(c.Part.Outline)
			assert.Len(t, o.Polygons(shape.BySides), 1, "%s: one piece", where)
			assert.Equal(t, region(c.Line), o.Grow(half), where)
			assert.True(t, region(c.Line).Shrink(half).Equal(o), where)
			assert.True(t, o.Intersect(sum).Empty(), "%s: pieces lie over one another", where)
			sum = sum.Union(o)
			for _, m := range slices.Concat(c.Places, c.Ticks) {
				for _, v := range m {
					assert.NotEqual(t, shape.Outside, c.Part.Outline.Polygon().Where(v.Point), "%s: a mark beside the piece", where)
				}
			}
		}
		for _, tab := range c.Tabs {
			if tab.Contour > 0 {
				continue
			}
			o := c.Part.Outline.Outer
			a, b := o[tab.Edge].Point, o[(tab.Edge+1)%len(o)].Point
			for _, seam := range whole.Seams {
				on := a.X == b.X && a.X == seam.From.X && seam.From.X == seam.To.X && max(min(a.Y, b.Y), seam.From.Y) < min(max(a.Y, b.Y), seam.To.Y) ||
					a.Y == b.Y && a.Y == seam.From.Y && seam.From.Y == seam.To.Y && max(min(a.X, b.X), seam.From.X) < min(max(a.X, b.X), seam.To.X)
				assert.False(t, on, "%s: a tab of %s on a seam", where, c.Number)
			}
		}
	}
	assert.Len(t, numbers, len(whole.Pieces), where)
	if whole.Straight() {
		assert.Equal(t, whole.Part.Outline.Area(), area, where)
		assert.True(t, sum.Equal(region(whole.Part.Outline)), where)
	} else {
		assert.InDelta(t, float64(whole.Part.Outline.Area()), float64(area), 64, where) // each piece rounds its arcs
	}
	for _, seam := range whole.Seams {
		d := seam.To.Sub(seam.From)
		assert.True(t, (d.X == 0) != (d.Y == 0) && d.X+d.Y > 0, where)
		assert.LessOrEqual(t, seam.Shows, d.X+d.Y, where)
		for _, j := range sp.Layout.Joins {
			if j.Part != whole.Part.Index {
				continue
			}
			through := d.X == 0 && j.At.X == seam.From.X && seam.From.Y < j.At.Y && j.At.Y < seam.To.Y ||
				d.Y == 0 && j.At.Y == seam.From.Y && seam.From.X < j.At.X && j.At.X < seam.To.X
			assert.False(t, through, "%s: a seam through a join", where)
		}
	}
}
