package outline

import (
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

func TestJoinable(t *testing.T) {
	for _, c := range []struct {
		cell, strip, override, side shape.Um
		ok                          bool
	}{
		{3000, 600, 0, 850, true}, // √2 × 0.6 mm is 848.5 µm, up to even
		{4000, 600, 0, 1000, true},
		{3998, 600, 0, 1000, true}, // 999.5, up to 1000
		{4001, 600, 0, 1002, true}, // 1000.25, up to even
		{1700, 600, 0, 850, true},  // just half the cell
		{1699, 600, 0, 850, false},
		{3000, 1500, 0, 2122, false},
		{3000, 1500, 1000, 1000, true}, // as the maker asks
		{3000, 1500, 999, 1000, true},
		{3000, 600, 1501, 1502, false},
		{1000, 0, 0, 250, true},
		{50000, 20000, 0, 28286, false},
	} {
		side, ok := Joinable(c.cell, c.strip, c.override)
		require.Equal(t, c.side, side, "%+v", c)
		require.Equal(t, c.ok, ok, "%+v", c)
		require.True(t, c.override > 0 || side*side >= 2*c.strip*c.strip, "%+v", c)
	}
	for s := shape.Um2(0); s < 3000; s++ {
		r := rootUp(s)
		require.True(t, shape.Um2(r*r) >= s && (r == 0 || shape.Um2((r-1)*(r-1)) < s), "√%d", s)
	}
}

func TestOpeningIsEvenAndLeavesTheCell(t *testing.T) {
	for _, c := range []struct{ cell, kerf, want shape.Um }{
		{3000, 0, 100}, {3000, 49, 102}, {3000, 48, 100}, {3000, 100, 202}, {3000, 151, 306}, {6000, 800, 1602}, {500, 1000, 250}, {501, 999, 250},
	} {
		require.Equal(t, c.want, opening(c.cell, c.kerf), "%+v", c)
	}
}

// drawn makes a drawing from rows; '.' is empty, 'a' is colour 1.
func drawn(rows ...string) stack.Drawing {
	d := stack.Drawing{W: len(rows[0]), H: len(rows)}
	for _, r := range rows {
		for _, c := range []byte(r) {
			if c == '.' {
				d.Cells = append(d.Cells, 0)
			} else {
				d.Cells = append(d.Cells, stack.Colour(c-'a'+1))
			}
		}
	}
	return d
}

// pile makes a forest with one part for each picture, each lying on the one
// before; '#' is a cell of the part.
func pile(colours []stack.Colour, pictures ...[]string) *stack.Forest {
	f := &stack.Forest{W: len(pictures[0][0]), H: len(pictures[0]), Heights: len(pictures)}
	for i, rows := range pictures {
		p := stack.Part{Colour: colours[i], Height: i + 1, On: i - 1}
		for y, row := range rows {
			for x := 0; x < len(row); x++ {
				if row[x] != '#' {
					continue
				}
				x0 := x
				for x < len(row) && row[x] == '#' {
					x++
				}
				p.Cells = append(p.Cells, stack.Run{Y: int32(y), X0: int32(x0), X1: int32(x)})
			}
		}
		f.Parts = append(f.Parts, p)
	}
	return f
}

var card = []Stock{
	{Index: 0, LeastStrip: 600, Kerf: 100},
	{Index: 1, LeastStrip: 600, Kerf: 100},
	{Index: 2, LeastStrip: 600, Kerf: 100},
}

func build(t *testing.T, f *stack.Forest, o Options) *Layout {
	t.Helper()
	l, err := Build(f, o)
	require.NoError(t, err)
	checkLayout(t, f, l)
	return l
}

func outer(l *Layout, layer int) shape.Ring { return l.Layers[layer].Parts[0].Outline.Outer.Ring() }

func TestHiddenEdgesAreDrawnBack(t *testing.T) {
	o := Options{Cell: 3000, Stocks: card, Corners: project.Join}
	// The right half is covered: a strip goes on three sides of it.
	l := build(t, pile([]stack.Colour{1, 2}, []string{"##", "##"}, []string{".#", ".#"}), o)
	require.Equal(t, shape.Ring{{X: 0, Y: 6000}, {X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 300}, {X: 5700, Y: 300}, {X: 5700, Y: 5700}, {X: 3000, Y: 5700}, {X: 3000, Y: 6000}}, outer(l, 0))
	require.Equal(t, shape.Point{X: 6000, Y: 6000}, l.Size)

	// Twice as far where the part above floats, but a quarter of the cell at most.
	o.Floats = []int{2}
	l = build(t, pile([]stack.Colour{1, 2}, []string{"##", "##"}, []string{".#", ".#"}), o)
	require.Equal(t, shape.Rect{Max: shape.Point{X: 5400, Y: 6000}}, l.Layers[0].Parts[0].Bounds)
	o.Cell = 2000
	l = build(t, pile([]stack.Colour{1, 2}, []string{"##", "##"}, []string{".#", ".#"}), o)
	require.Equal(t, shape.Rect{Max: shape.Point{X: 3500, Y: 4000}}, l.Layers[0].Parts[0].Bounds)

	// A strip of one cell keeps the least strip, whether straight or at its end.
	o = Options{Cell: 1000, Stocks: card, Corners: project.Join}
	l = build(t, pile([]stack.Colour{1, 2}, []string{"####"}, []string{".##."}), o)
	require.Equal(t, shape.Ring{{X: 0, Y: 1000}, {X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 200}, {X: 3000, Y: 200}, {X: 3000, Y: 0}, {X: 4000, Y: 0}, {X: 4000, Y: 1000}, {X: 3000, Y: 1000}, {X: 3000, Y: 800}, {X: 1000, Y: 800}, {X: 1000, Y: 1000}}, outer(l, 0))
	o.Stocks = []Stock{{LeastStrip: 1200}, {Index: 1}}
	l = build(t, pile([]stack.Colour{1, 2}, []string{"####"}, []string{".##."}), o)
	require.Len(t, outer(l, 0), 4, "a stock that wants more than the cell is left as it is")
}

func TestInnerCornersNeedAllThreeCellsCovered(t *testing.T) {
	o := Options{Cell: 3000, Stocks: card, Corners: project.Join}
	below := []string{"##.", "###", "###"}  // its inner corner is at 6000, 6000
	square := shape.Point{X: 5850, Y: 5850} // the middle of what may be off there
	for _, c := range []struct {
		above []string
		want  shape.Place
	}{
		{[]string{".#.", ".##", "..."}, shape.Outside},
		{[]string{".#.", ".#.", "..."}, shape.Inside}, // the cell to the right shows
		{[]string{"...", ".##", "..."}, shape.Inside}, // the cell above shows
		{[]string{".#.", "..#", "..#"}, shape.Inside}, // the cell itself shows
	} {
		f := pile([]stack.Colour{1, 2}, below, c.above)
		l := build(t, f, o)
		require.Equal(t, c.want, l.Layers[0].Parts[0].Outline.Polygon().Where(square), "%v", c.above)
	}
}

func TestJoinsKeepTheirNecks(t *testing.T) {
	o := Options{Cell: 3000, Stocks: card, Corners: project.Join}
	diagonal := []string{"#.", ".#"}
	l := build(t, pile([]stack.Colour{1, 2}, diagonal, diagonal), o)
	// Join of 850: 425 to each side, and 300 beside it aren't drawn back.
	require.Equal(t, shape.Ring{
		{X: 300, Y: 5700}, {X: 300, Y: 3300}, {X: 2275, Y: 3300}, {X: 2275, Y: 3000}, {X: 2575, Y: 3000},
		{X: 2575, Y: 2575}, {X: 3000, Y: 2575}, {X: 3000, Y: 2275}, {X: 3300, Y: 2275}, {X: 3300, Y: 300},
		{X: 5700, Y: 300}, {X: 5700, Y: 2700}, {X: 3725, Y: 2700}, {X: 3725, Y: 3000}, {X: 3425, Y: 3000},
		{X: 3425, Y: 3425}, {X: 3000, Y: 3425}, {X: 3000, Y: 3725}, {X: 2700, Y: 3725}, {X: 2700, Y: 5700},
	}, outer(l, 0))
	require.Len(t, l.Joins, 2)
	require.Equal(t, Join{Corner: Corner{1, 1, shape.Point{X: 3000, Y: 3000}, 850}, Height: 1, Part: 0}, l.Joins[0])
	require.Equal(t, 1, l.Layers[0].Joins)
	require.Equal(t, shape.Um2(2*425*425), l.Corner, "two quarters show outside the cells")
}

func TestAllHeightsUseTheLargestJoin(t *testing.T) {
	stocks := []Stock{{Index: 0, LeastStrip: 900}, {Index: 1, LeastStrip: 500}}
	diagonal := []string{".#", "#."}
	l := build(t, pile([]stack.Colour{1, 2}, diagonal, diagonal), Options{Cell: 3000, Stocks: stocks, Corners: project.Join})
	for _, j := range l.Joins {
		require.Equal(t, shape.Um(1274), j.Side)
		require.True(t, j.Rising)
	}
}

func TestApartCornersAreOpened(t *testing.T) {
	o := Options{Cell: 3000, Stocks: card, Corners: project.Apart}
	// One part that touches itself: a ring of cells with a gap at a corner.
	l := build(t, pile([]stack.Colour{1}, []string{"###", "#.#", "##."}), o)
	require.Len(t, l.Opened, 1)
	require.Equal(t, Opening{Corner: Corner{2, 2, shape.Point{X: 6000, Y: 3000}, 202}, Height: 1, Parts: [2]int{0, 0}, Rising: true}, l.Opened[0])
	require.Empty(t, l.Layers[0].Parts[0].Outline.Holes, "the hole is open to the outside")
	require.Equal(t, shape.Um2(202*202/2), l.Corner)
	require.Equal(t, shape.Um2(7*9000000-202*202/2), l.Layers[0].Parts[0].Outline.Area())

	o.Corners = project.Join
	l = build(t, pile([]stack.Colour{1}, []string{"###", "#.#", "##."}), o)
	require.Empty(t, l.Opened)
	require.Len(t, l.Layers[0].Parts[0].Outline.Holes, 1)
}

func TestSideBySideJoinsTakeTheirSquare(t *testing.T) {
	d := drawn("ab", "ba")
	f := stack.SideBySide(d, stack.Rules{Joins: stack.Of(1, 2)}, 2)
	l := build(t, f, Options{Cell: 3000, Stocks: card, Corners: project.Join})
	require.Len(t, l.Joins, 1)
	require.True(t, l.Joins[0].Rising, "the outline's colour is joined")
	require.Equal(t, shape.Um2(2*425*425), l.Corner)
	var area shape.Um2
	for _, y := range l.Layers {
		for _, p := range y.Parts {
			area += p.Outline.Area()
		}
	}
	require.Equal(t, shape.Um2(36e6), area, "the parts lie side by side without gap or overlap")
}

func TestBackers(t *testing.T) {
	hollow := drawn("aaaa", "a..a", "a..a", "aaaa")
	f, err := stack.Fewest(hollow, stack.Rules{Joins: stack.Of(1)})
	require.NoError(t, err)
	board := Stock{Index: 7, LeastStrip: 1500, Kerf: 150}
	for _, c := range []struct {
		name   string
		backer Backer
		area   shape.Um2
		size   shape.Um
		holes  int
	}{
		{"no border", Backer{Stock: board}, 11400*11400 - 6600*6600, 12000, 1},
		{"square", Backer{Stock: board, Border: 2000, Edge: project.Square}, 16000*16000 - 2000*2000, 16000, 1},
		{"hole closed", Backer{Stock: board, Border: 3000, Edge: project.Square}, 18000 * 18000, 18000, 0},
		{"filled in", Backer{Stock: board, Border: 2000, Edge: project.Square, FillIn: true}, 16000 * 16000, 16000, 0},
		{"chamfered", Backer{Stock: board, Border: 2000, Edge: project.Chamfered}, 16000*16000 - 2000*2000 - 2*1171*1171, 16000, 1},
		// (4 − π)·2² mm² off the corners
		{"round", Backer{Stock: board, Border: 2000, Edge: project.Round}, 16000*16000 - 2000*2000 - 3433629, 16000, 1},
	} {
		l := build(t, f, Options{Cell: 3000, Stocks: card, Corners: project.Join, Backer: &c.backer})
		require.Len(t, l.Layers, 2, c.name)
		b := l.Layers[0]
		require.Equal(t, [3]int{1, 1, 7}, [3]int{b.Number, b.Height, b.Stock}, c.name)
		require.Equal(t, 2, l.Layers[1].Height, c.name)
		require.Equal(t, 2, l.Heights, c.name)
		require.Equal(t, -1, b.Parts[0].Tree, c.name)
		require.Equal(t, 0, l.Layers[1].Parts[0].On, c.name)
		require.Equal(t, c.area, b.Parts[0].Outline.Area(), c.name)
		require.Len(t, b.Parts[0].Outline.Holes, c.holes, c.name)
		require.Equal(t, shape.Point{X: c.size, Y: c.size}, l.Size, c.name)
		require.Equal(t, shape.Point{X: c.backer.Border, Y: c.backer.Border}, l.Grid, c.name)
		require.Zero(t, l.Corner, c.name)
	}
}

// TestBackersInPieces: each part lies on the piece below it.
func TestBackersInPieces(t *testing.T) {
	f, err := stack.Fewest(drawn("a....", ".....", "b...a"), stack.Rules{})
	require.NoError(t, err)
	l := build(t, f, Options{Cell: 3000, Stocks: card, Backer: &Backer{Stock: Stock{Index: 5}, Border: 4000, Edge: project.Round}})
	require.Len(t, l.Layers[0].Parts, 2)
	require.Equal(t, []int{0, 0, 1}, []int{partAt(l, 2).On, partAt(l, 3).On, partAt(l, 4).On})
}

func partAt(l *Layout, index int) Part {
	for _, y := range l.Layers {
		for _, p := range y.Parts {
			if p.Index == index {
				return p
			}
		}
	}
	return Part{}
}

func TestBuildRefuses(t *testing.T) {
	good := func() *stack.Forest { return pile([]stack.Colour{1, 2}, []string{"##"}, []string{".#"}) }
	for want, c := range map[string]struct {
		spoil func(f *stack.Forest, o *Options)
	}{
		"cell size":        {func(_ *stack.Forest, o *Options) { o.Cell = 0 }},
		"3 stocks":         {func(f *stack.Forest, _ *Options) { f.Parts[1].Colour = 4 }},
		"the border is":    {func(_ *stack.Forest, o *Options) { o.Backer = &Backer{Border: -1} }},
		"stands out over":  {func(f *stack.Forest, _ *Options) { f.Parts[0].Cells[0].X1 = 1 }},
		"outside the draw": {func(f *stack.Forest, _ *Options) { f.Parts[0].Cells[0].X1 = 3 }},
		"lies on part":     {func(f *stack.Forest, _ *Options) { f.Parts[1].Height = 3 }},
		"falls into 2": {func(f *stack.Forest, o *Options) {
			*f = *pile([]stack.Colour{1}, []string{"#.", ".#"})
			o.Stocks = []Stock{{LeastStrip: 1500}}
		}},
	} {
		f, o := good(), Options{Cell: 3000, Stocks: card, Corners: project.Join}
		c.spoil(f, &o)
		_, err := Build(f, o)
		require.ErrorContains(t, err, want)
	}
}
