package outline

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// seenArea is the area where what is seen isn't the drawing, by laying the
// layers over one another from the top as regions. The backer is taken as the
// drawing's cells: what it shows elsewhere is as it should be.
func seenArea(d stack.Drawing, l *Layout, o Options) shape.Um2 {
	cells := map[int][]shape.Rect{} // by stock
	var all []shape.Rect
	for i, c := range d.Cells {
		if c == 0 {
			continue
		}
		at := l.Grid.Add(shape.Point{X: shape.Um(i%d.W) * l.Cell, Y: shape.Um(d.H-1-i/d.W) * l.Cell})
		r := shape.Rect{Min: at, Max: at.Add(shape.Point{X: l.Cell, Y: l.Cell})}
		cells[o.Stocks[c-1].Index] = append(cells[o.Stocks[c-1].Index], r)
		all = append(all, r)
	}
	var over shape.Region
	var wrong shape.Um2
	for i := len(l.Layers) - 1; i >= 0; i-- {
		y := l.Layers[i]
		var layer shape.Region
		if y.Parts[0].Tree < 0 {
			layer = shape.FromRects(all)
		} else {
			var ps []shape.Polygon
			for _, p := range y.Parts {
				ps = append(ps, p.Outline.Polygon())
			}
			layer = shape.FromPolygons(ps...)
		}
		wrong += layer.Subtract(over).Subtract(shape.FromRects(cells[y.Stock])).Area()
		over = over.Union(layer)
	}
	return wrong + shape.FromRects(all).Subtract(over).Area()
}

func TestSpritesShowTheirDrawing(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 37))
	edges := []project.Edge{project.Square, project.Chamfered, project.Round}
	for i := range 36 {
		d := stacktest.Sprite32(i, 4+i%4)
		o := Options{Cell: 3000, Corners: project.Join}
		for c := range 8 {
			o.Stocks = append(o.Stocks, Stock{Index: c, LeastStrip: 600, Kerf: 100})
		}
		switch i % 4 {
		case 1: // two stocks can't be joined
			o.Stocks[1].LeastStrip, o.Stocks[3].LeastStrip = 1500, 2000
		case 2:
			o.Floats = []int{2}
		}
		if i%3 > 0 {
			o.Backer = &Backer{
				Stock: Stock{Index: 9, LeastStrip: 1500, Kerf: 150}, Edge: edges[i/3%3],
				Border: shape.Um(1+rng.IntN(16)) * 500, FillIn: i%2 == 0,
			}
		}
		var f *stack.Forest
		var err error
		if i%5 == 4 {
			f = stack.SideBySide(d, o.rules(), 1)
		} else {
			f, err = stack.First(d, o.rules())
		}
		require.NoError(t, err)
		l := build(t, f, o)
		require.Equal(t, seenArea(d, l, o), l.Corner, "sprite %d", i)
		again, err := Build(f, o)
		require.NoError(t, err)
		require.Equal(t, l, again)
	}
}

func BenchmarkBuild(b *testing.B) {
	for _, c := range []struct {
		name string
		d    stack.Drawing
	}{
		{"32x32x8", stacktest.Sprite32(3, 8)},
		{"128x128x16", stacktest.Tile(128, 16)},
		{"256x256x16", stacktest.Tile(256, 16)},
	} {
		o := Options{Cell: 3000, Corners: project.Join}
		for i := range 16 {
			o.Stocks = append(o.Stocks, Stock{Index: i, LeastStrip: 600, Kerf: 100})
		}
		f, err := stack.First(c.d, o.rules())
		require.NoError(b, err)
		for _, backer := range []*Backer{nil, {Stock: Stock{Index: 16}, Border: 4000, Edge: project.Round}} {
			o.Backer = backer
			name := c.name
			if backer != nil {
				name += "/round border"
			}
			b.Run(name, func(b *testing.B) {
				for b.Loop() {
					if _, err := Build(f, o); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
