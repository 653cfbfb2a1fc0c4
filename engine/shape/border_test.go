package shape

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestChamferedBorderIsTheUnionOfOctagons: grown by a convex shape, a region
// is the union of its rectangles grown by it, and a rectangle grown by an
// octagon has eight corners. Shapely unites them.
func TestChamferedBorderIsTheUnionOfOctagons(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 17))
	var cases []shapelyCase
	var ours [][]Outline
	for i := range 200 {
		cell := Um(1000 + 13*i)
		d := cell*Um(1+rng.IntN(250))/100 + 1
		r := randomCells(rng, 1+rng.IntN(8), 1+rng.IntN(8), cell, 0.1+0.6*rng.Float64()).Grow(2)
		if r.Empty() {
			continue
		}
		k := octagonFlat(d)
		var octagons [][]Ring
		for _, c := range r.Rects() {
			a, b := c.Min, c.Max
			octagons = append(octagons, []Ring{{
				{a.X - k, a.Y - d}, {b.X + k, a.Y - d}, {b.X + d, a.Y - k}, {b.X + d, b.Y + k},
				{b.X + k, b.Y + d}, {a.X - k, b.Y + d}, {a.X - d, b.Y + k}, {a.X - d, a.Y - k},
			}})
		}
		border := r.Border(d, ChamferedCorners)
		var flat []Polygon
		for _, o := range border {
			require.NoError(t, o.Validate(), "case %d", i)
			require.True(t, o.Outer.Straight())
			flat = append(flat, o.Polygon())
		}
		ours = append(ours, border)
		cases = append(cases, shapelyCase{octagons, 0, "mitre", ringsOf(flat)})
	}
	for i, a := range askShapely(t, cases) {
		holes, length := 0, Um(0)
		for _, o := range ours[i] {
			holes += len(o.Holes)
			length += o.Length()
		}
		require.Equal(t, [2]int{a.Pieces, a.Holes}, [2]int{len(ours[i]), holes}, "case %d", i)
		require.LessOrEqual(t, a.Differs, float64(length), "case %d", i)
		require.LessOrEqual(t, a.Near, 1.0, "case %d", i)
	}
}

// TestBorderOnTheCellsGrid has borders that are simple fractions of the cell,
// where edges and corners meet exactly.
func TestBorderOnTheCellsGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 23))
	for i := range 600 {
		cell := Um(600)
		d := []Um{100, 150, 200, 300, 500, 600, 750, 900, 1000, 1200, 1500}[i%11]
		r := randomCells(rng, 1+rng.IntN(9), 1+rng.IntN(9), cell, 0.1+0.5*rng.Float64())
		if r.Empty() {
			continue
		}
		var areas [3]Um2
		for look := SquareCorners; look <= RoundCorners; look++ {
			for _, o := range r.Border(d, look) {
				require.NoError(t, o.Validate(), "case %d, look %d", i, look)
				areas[look] += o.Area()
			}
		}
		require.Equal(t, r.Border(d, RoundCorners), r.Border(d, RoundCorners))
		// A disc lies in its octagon, that in its square; all the more so the
		// areas, but for a gap that one look fills because it touches itself.
		if noContacts(r, d) {
			require.LessOrEqual(t, areas[RoundCorners], areas[ChamferedCorners])
			require.LessOrEqual(t, areas[ChamferedCorners], areas[SquareCorners])
			require.Equal(t, r.Grow(d).Area(), areas[SquareCorners])
		}
	}
}

func noContacts(r Region, d Um) bool {
	return !slices.ContainsFunc([]kernel{
		{SquareCorners, d, d}, {ChamferedCorners, d, octagonFlat(d)}, {RoundCorners, d, 0},
	}, func(k kernel) bool { return len(k.contacts(r)) > 0 })
}

// TestBorderNeverTouchesItselfInAPoint: two cells whose corners are apart by
// just twice the border.
func TestBorderNeverTouchesItselfInAPoint(t *testing.T) {
	two := func(dx, dy Um) Region {
		return FromRects([]Rect{{Point{0, 0}, Point{1000, 1000}}, {Point{1000 + dx, 1000 + dy}, Point{2000 + dx, 2000 + dy}}})
	}
	k := octagonFlat(500)
	for _, c := range []struct {
		look   Look
		dx, dy Um
		pieces int
	}{
		{SquareCorners, 1000, 1000, 1}, {SquareCorners, 1000, 999, 1}, {SquareCorners, 1001, 1000, 2},
		{RoundCorners, 600, 800, 1}, {RoundCorners, 600, 801, 1}, {RoundCorners, 600, 803, 2}, {RoundCorners, 600, 799, 1},
		{ChamferedCorners, 1000, 2 * k, 1}, {ChamferedCorners, 1000, 2*k - 1, 1}, {ChamferedCorners, 1001, 2 * k, 2},
	} {
		border := two(c.dx, c.dy).Border(500, c.look)
		require.Len(t, border, c.pieces, "%+v", c)
		for _, o := range border {
			require.NoError(t, o.Validate(), "%+v", c)
		}
	}
}

// Two cells with one empty cell between them, grown by more than half of it:
// the arcs of the two corners meet in the notch, 3 mm apart, at
// √(2² − 1.5²) mm above and below the corners.
func ExampleRegion_Border() {
	r := FromRects([]Rect{{Point{0, 0}, Point{3000, 3000}}, {Point{6000, 0}, Point{9000, 3000}}})
	for _, v := range r.Border(2000, RoundCorners)[0].Outer {
		if v.Arc == nil {
			fmt.Println(v.Point)
		} else {
			fmt.Println(v.Point, "arc about", v.Arc.Centre)
		}
	}
	// Output:
	// {0 5000} arc about {0 3000}
	// {-2000 3000}
	// {-2000 0} arc about {0 0}
	// {0 -2000}
	// {3000 -2000} arc about {3000 0}
	// {4500 -1323} arc about {6000 0}
	// {6000 -2000}
	// {9000 -2000} arc about {9000 0}
	// {11000 0}
	// {11000 3000} arc about {9000 3000}
	// {9000 5000}
	// {6000 5000} arc about {6000 3000}
	// {4500 4323} arc about {3000 3000}
	// {3000 5000}
}
