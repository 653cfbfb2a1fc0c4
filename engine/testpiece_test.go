package engine

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

var laser = project.NewMachine("Laser", project.LaserCutter)

// The gauge as one reads it: a kerf lets the last block move by as many kerfs as
// there are cuts to the left of it; then the first of its ticks says the whole
// millimetres, and that which stands over one of the scale the tenths.
func TestGaugeIsReadByItsVernier(t *testing.T) {
	g := kerfGauge(laser, project.Starter()[0], project.Use{})
	require.Equal(t, KerfGauge, g.Kind)
	var slot shape.Rect
	var scale, vernier, across []shape.Um
	for _, s := range g.Sheet.Route.Strokes {
		if s.Kind == route.Cutting && bool(s.Closed) && bool(g.Sheet.Loops[s.Source].Inner) {
			slot = s.Path.Bounds()
		}
	}
	for _, s := range g.Sheet.Route.Strokes {
		if s.Kind != route.Cutting || bool(s.Closed) {
			continue
		}
		b := s.Path.Bounds()
		switch {
		case b.Min.Y == slot.Min.Y && b.Max.Y == slot.Max.Y:
			across = append(across, b.Min.X)
		case b.Max.Y < slot.Min.Y:
			scale = append(scale, b.Min.X)
		default:
			require.True(t, b.Min.Y > slot.Min.Y && b.Max.Y < slot.Max.Y, "on the last block")
			vernier = append(vernier, b.Min.X)
		}
	}
	slices.SortFunc(scale, func(a, b shape.Um) int { return int(b - a) })
	slices.SortFunc(vernier, func(a, b shape.Um) int { return int(b - a) })
	require.Len(t, scale, 17)
	require.Len(t, vernier, 11)
	last := slices.Max(across)
	assert.Less(t, last, vernier[10], "the whole vernier is on the last block")
	left := 1 + len(across) // the slot's end, and all that cut the strip
	for kerf := shape.Um(5); kerf <= 300; kerf += 5 {
		moved := shape.Um(left) * kerf
		whole := slices.IndexFunc(scale, func(x shape.Um) bool { return x <= vernier[0]-moved })
		if scale[whole] != vernier[0]-moved {
			whole--
		}
		tenths := slices.IndexFunc(vernier, func(x shape.Um) bool { return slices.Contains(scale, x-moved) })
		require.GreaterOrEqual(t, tenths, 0, "kerf %d", kerf)
		reading := shape.Um(whole)*shape.Mm + shape.Um(tenths)*100
		assert.Equal(t, moved, reading)
		assert.Equal(t, kerf, KerfOfReading(reading))
	}
}

// Every power with every speed, once; rows and columns are labelled.
func TestLadder(t *testing.T) {
	l := ladder(laser, project.Starter()[0], project.Use{}, Range{10, 60, 6}, Range{5, 31, 5})
	seen := map[[2]int]bool{}
	for _, u := range l.Uses {
		seen[[2]int{u.Power, u.Speed}] = true
	}
	assert.Len(t, seen, 30)
	for _, p := range []int{10, 20, 30, 40, 50, 60} {
		for _, s := range []int{5, 12, 18, 25, 31} {
			assert.True(t, seen[[2]int{p, s}], "%d %% at %d", p, s)
		}
	}
	squares, labels := 0, 0
	for _, s := range l.Sheet.Route.Strokes {
		b := s.Path.Bounds()
		assert.True(t, b.Min.X >= 0 && b.Min.Y >= 0 && b.Max.X <= l.Sheet.Size.Width && b.Max.Y <= l.Sheet.Size.Height)
		if s.Kind == route.Cutting {
			squares++
		} else {
			labels++
		}
	}
	assert.Equal(t, 30, squares)
	assert.Greater(t, labels, 30)
}

// The worst places of random drawings: on 60 × 40 mm, a join where there is one,
// tabs and a number always; nothing overlaps.
func TestWorstPlaces(t *testing.T) {
	joins, strips := 0, 0
	for seed := range uint64(12) {
		p := sheetedProject(seed)
		p.Settings.Hold, p.Settings.Corners, p.Settings.Border = project.Tabs, project.Join, 0
		kerf := shape.Um(120)
		p.Settings.Kerf = &kerf
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		pieces, err := TestPieces(p, plan, Range{10, 60, 6}, Range{5, 30, 6})
		require.NoError(t, err)
		require.Len(t, pieces, 3*len(stocksInOrder(p, plan)))
		for _, w := range pieces {
			if w.Kind != Worst {
				continue
			}
			assert.LessOrEqual(t, w.Sheet.Size.Width, 60*shape.Mm)
			assert.LessOrEqual(t, w.Sheet.Size.Height, 40*shape.Mm)
			for _, s := range w.Samples {
				if s[:6] == "a join" {
					joins++
				}
				if s[:5] == "the n" {
					strips++
				}
			}
			assert.NotEmpty(t, w.Sheet.Marks, "a number")
			open := 0
			for _, s := range w.Sheet.Route.Strokes {
				b := s.Path.Bounds()
				assert.True(t, b.Min.X >= 0 && b.Min.Y >= 0 && b.Max.X <= w.Sheet.Size.Width && b.Max.Y <= w.Sheet.Size.Height)
				if s.Kind == route.Cutting && !bool(s.Closed) {
					open++
				}
			}
			assert.GreaterOrEqual(t, open, 2, "lines between tabs")
		}
	}
	assert.Positive(t, joins)
	assert.Positive(t, strips)
}

func TestKerfOfReading(t *testing.T) {
	for _, c := range [][2]shape.Um{{0, 0}, {2000, 100}, {2300, 115}, {4000, 200}, {2310, 116}, {2309, 115}} {
		assert.Equal(t, c[1], KerfOfReading(c[0]), "%d", c[0])
	}
	assert.Equal(t, shape.Um(115), cut.HalfKerf(KerfOfReading(2300)*2))
}
