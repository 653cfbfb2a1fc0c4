package outline

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// randomOptions has cells so small that a µm is a good part of them: then the
// plain judge can look at every µm.
func randomOptions(rng *rand.Rand) Options {
	o := Options{Cell: shape.Um(8 + rng.IntN(9)), Corners: project.Join}
	if rng.IntN(5) == 0 {
		o.Corners = project.Apart
	}
	if rng.IntN(4) == 0 {
		o.Join = shape.Um(1 + rng.IntN(int(o.Cell)/2))
	}
	for i := range 5 {
		o.Stocks = append(o.Stocks, Stock{Index: (i * 2) % 5, LeastStrip: shape.Um(1 + rng.IntN(7)), Kerf: shape.Um(rng.IntN(200))})
	}
	if rng.IntN(3) == 0 {
		o.Floats = []int{1 + rng.IntN(3)}
	}
	if rng.IntN(3) == 0 {
		o.Backer = &Backer{Stock: Stock{Index: 5 + rng.IntN(2), LeastStrip: shape.Um(1 + rng.IntN(8)), Kerf: 2}}
		if rng.IntN(8) == 0 {
			o.Backer.Stock.Index = 1 // cut from a colour's stock
		}
		if rng.IntN(2) == 0 {
			o.Backer.Border = shape.Um(1 + rng.IntN(24))
			o.Backer.Edge = project.Square
		}
		o.Backer.FillIn = rng.IntN(2) == 0
	}
	return o
}

func (o Options) joinable(c stack.Colour) bool {
	_, ok := Joinable(o.Cell, o.Stocks[min(int(c), len(o.Stocks))-1].LeastStrip, o.Join)
	return ok && o.Corners == project.Join
}

// checkRough holds what is told at once against the layout: the same parts in
// the same layers, their bounds no smaller, and larger only by what is drawn back
// or opened.
func checkRough(t *testing.T, f *stack.Forest, l *Layout, o Options) {
	t.Helper()
	rough, err := Rough(f, o)
	require.NoError(t, err)
	require.Equal(t, l.Heights, rough.Heights)
	require.Len(t, rough.Layers, len(l.Layers))
	for i, layer := range rough.Layers {
		want := l.Layers[i]
		require.Equal(t, [4]int{want.Number, want.Height, want.Stock, len(want.Parts)}, [4]int{layer.Number, layer.Height, layer.Stock, len(layer.Parts)})
		for k, p := range layer.Parts {
			require.Equal(t, [3]int{want.Parts[k].Index, want.Parts[k].On, want.Parts[k].Tree}, [3]int{p.Index, p.On, p.Tree})
			b, r := want.Parts[k].Bounds, p.Bounds
			away := rough.Grid.Sub(l.Grid)
			for _, less := range []shape.Um{
				b.Min.X + away.X - r.Min.X, b.Min.Y + away.Y - r.Min.Y, r.Max.X - b.Max.X - away.X, r.Max.Y - b.Max.Y - away.Y,
			} {
				require.GreaterOrEqual(t, less, shape.Um(0))
				require.Less(t, less, o.Cell)
			}
		}
	}
}

// check holds a layout against the plain judge.
func check(t *testing.T, d stack.Drawing, f *stack.Forest, o Options) {
	t.Helper()
	l, err := Build(f, o)
	require.NoError(t, err)
	checkLayout(t, f, l)
	checkRough(t, f, l, o)
	j := judge(f, o, l)
	require.Equal(t, j.differing(d), l.Corner, "area that differs from the drawing")
	require.NoError(t, j.overhang())
	for i, r := range j.parts {
		pieces, holes := r.pieces()
		require.Equal(t, 1, pieces, "part %d", i)
		x, y, pinched := r.pinch()
		require.False(t, pinched, "part %d at %d, %d", i, x, y)
		if plain := j.cells[i]; plain.at != nil {
			_, before := plain.pieces()
			require.Equal(t, before, holes, "holes of part %d before and after its edges are drawn back", i)
		}
	}
	for _, y := range l.Layers { // parts of one layer are apart
		all := newRaster(int(l.Size.X), int(l.Size.Y))
		n := 0
		for _, p := range y.Parts {
			for i, v := range j.parts[p.Index].at {
				if v && all.at[i] {
					require.Fail(t, "parts overlap", "layer %d", y.Number)
				}
				all.at[i] = all.at[i] || v
			}
			n++
		}
		pieces, _ := all.pieces()
		require.Equal(t, n, pieces, "pieces of layer %d", y.Number)
		_, _, pinched := all.pinch()
		require.False(t, pinched, "layer %d touches itself in a point", y.Number)
	}
	if o.Backer == nil || o.Backer.Border > 0 {
		// Drawing edges back changes nothing that shows.
		plain := make([]raster, len(j.parts))
		for i := range plain {
			if plain[i] = j.cells[i]; plain[i].at == nil {
				plain[i] = j.parts[i]
			}
		}
		for y := range int(l.Size.Y) {
			for x := range int(l.Size.X) {
				if was, is := j.shown(plain, x, y), j.shown(j.parts, x, y); was != is {
					require.Equal(t, was, is, "what shows at %d, %d", x, y)
				}
			}
		}
	}
}

// checkLayout is what holds for every layout, whatever its size.
func checkLayout(t *testing.T, f *stack.Forest, l *Layout) {
	t.Helper()
	bounds := shape.Rect{}
	index := map[int]bool{}
	joins, trees := 0, 0
	for i, y := range l.Layers {
		require.Equal(t, i+1, y.Number)
		if i > 0 {
			before := l.Layers[i-1]
			require.True(t, before.Height < y.Height || before.Height == y.Height && before.Stock < y.Stock, "order of layers")
		}
		require.NotEmpty(t, y.Parts)
		joins += y.Joins
		for k, p := range y.Parts {
			require.NoError(t, p.Outline.Validate(), "part %d", p.Index)
			require.Equal(t, p.Outline.Bounds(), p.Bounds)
			require.False(t, index[p.Index])
			require.True(t, k == 0 || y.Parts[k-1].Index < p.Index)
			index[p.Index] = true
			bounds = bounds.Union(p.Bounds)
			if p.Tree >= 0 {
				trees++
			}
		}
	}
	for i := range len(index) {
		require.True(t, index[i], "part %d is missing", i)
	}
	require.Equal(t, len(f.Parts), trees)
	require.Equal(t, shape.Rect{Max: l.Size}, bounds)
	require.Equal(t, len(l.Joins), joins)
	type at struct {
		col, row int
		rising   bool
	}
	apart := map[at]int{} // lowest height
	for _, c := range l.Opened {
		require.Zero(t, c.Side%2)
		if h, ok := apart[at{c.Col, c.Row, c.Rising}]; !ok || c.Height < h {
			apart[at{c.Col, c.Row, c.Rising}] = c.Height
		}
	}
	sides := map[[2]int]shape.Um{}
	for i, k := range l.Joins {
		require.Zero(t, k.Side%2)
		if h, ok := apart[at{k.Col, k.Row, k.Rising}]; ok {
			require.Less(t, k.Height, h, "a corner apart at one height is joined above")
		}
		if s, ok := sides[[2]int{k.Col, k.Row}]; ok {
			require.Equal(t, s, k.Side, "one side at one corner")
		}
		sides[[2]int{k.Col, k.Row}] = k.Side
		if i > 0 {
			b := l.Joins[i-1]
			require.True(t, b.Row < k.Row || b.Row == k.Row && (b.Col < k.Col || b.Col == k.Col && b.Height < k.Height), "order of joins")
		}
	}
}

func TestRandomForestsShowTheirDrawing(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 19))
	for range 450 {
		o := randomOptions(rng)
		d := randomDrawing(rng, 1+rng.IntN(6), 1+rng.IntN(6), 1+rng.IntN(5), 0.4*rng.Float64())
		f := randomForest(rng, d, o.joinable)
		if len(f.Parts) > 0 {
			check(t, d, f, o)
		}
	}
}

// rules are stack's for the options.
func (o Options) rules() stack.Rules {
	r := stack.Rules{Rounds: 2, ExtraHeights: 3}
	for c := range o.Stocks {
		if o.joinable(stack.Colour(c + 1)) {
			r.Joins |= stack.Of(stack.Colour(c + 1))
		}
	}
	return r
}

// TestEveryStyleShowsItsDrawing takes the forests of the step before.
func TestEveryStyleShowsItsDrawing(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 29))
	for i := range 210 {
		o := randomOptions(rng)
		d := randomDrawing(rng, 1+rng.IntN(6), 1+rng.IntN(6), 1+rng.IntN(5), 0.3*rng.Float64())
		var f *stack.Forest
		var err error
		switch i % 3 {
		case 0:
			f, err = stack.Fewest(d, o.rules())
		case 1:
			f = stack.SideBySide(d, o.rules(), 1)
		case 2:
			f, err = stack.ByHand(d, o.rules(), []stack.Colour{3, 1, 5, 2, 4})
		}
		require.NoError(t, err)
		if len(f.Parts) > 0 {
			check(t, d, f, o)
		}
	}
}

// TestAllTinyDrawings is exhaustive: every drawing of 3×2 and 2×3 cells in two
// colours and empty, every forest style, joined and apart.
func TestAllTinyDrawings(t *testing.T) {
	o := Options{Cell: 8, Stocks: []Stock{{Index: 0, LeastStrip: 1}, {Index: 1, LeastStrip: 3}}}
	for _, corners := range []project.Corners{project.Join, project.Apart} {
		o.Corners = corners
		for n := range 729 {
			for _, size := range [][2]int{{3, 2}, {2, 3}} {
				d := stack.Drawing{W: size[0], H: size[1]}
				for k := n; len(d.Cells) < 6; k /= 3 {
					d.Cells = append(d.Cells, stack.Colour(k%3))
				}
				f, err := stack.Fewest(d, o.rules())
				require.NoError(t, err)
				if len(f.Parts) > 0 {
					check(t, d, f, o)
					check(t, d, stack.SideBySide(d, o.rules(), 0), o)
				}
			}
		}
	}
}
