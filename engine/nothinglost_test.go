package engine

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

// What shows is the drawing: in thousands of random sprites of all sizes the
// topmost part over each cell's middle, and over the middle of each of its sides,
// 1 µm inside, is of the cell's colour, and over an empty cell there is none. (The
// corners, where joins lie, are held to the µm² by export/readback on every bundle.)
func TestNothingIsLost(t *testing.T) {
	rounds := 2500
	if testing.Short() {
		rounds = 150
	}
	r := rand.New(rand.NewPCG(11, 12))
	for n := range rounds {
		p := randomSprite(r, n)
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		checkShown(t, p, plan.Sprites[0], fmt.Sprintf("sprite %d\n%v", n, p.Sprites[0].Stack))
	}
}

// randomSprite is a project of one sprite: most are small, one in a hundred is
// large, up to the limit.
func randomSprite(r *rand.Rand, n int) *project.Project {
	side := 1 + r.IntN(9)
	switch {
	case n%500 == 499:
		side = project.MaxSide
	case n%100 == 99:
		side = 1 + r.IntN(64)
	}
	p := projecttest.Cards(1+r.IntN(7), func(stock *project.Stock) {
		if r.IntN(6) == 0 {
			stock.LeastStrip = shape.Um(100 + r.IntN(3000))
		}
	})
	s := project.NewSprite("sprite", 1+r.IntN(side), 1+r.IntN(side))
	s.Cell = project.MinCell + shape.Um(r.IntN(4000))
	s.Stack.Style = []project.Style{project.Fewest, project.Fewest, project.SideBySide, project.ByHand}[n%4]
	if r.IntN(4) == 0 {
		p.Settings.Corners = project.Apart
	}
	projecttest.Patches(r, &s, p.Palette)
	p.Sprites = []project.Sprite{s}
	return p
}

// checkShown looks at a sprite's parts from the front.
func checkShown(t *testing.T, p *project.Project, s Sprite, name string) {
	t.Helper()
	drawing, l := &p.Sprites[s.Index], s.Layout
	if drawing.Stack.Style == project.SideBySide && l.Layers[0].Parts[0].Tree < 0 {
		// The backer shows in empty places near the drawing only if it is larger.
		require.Zero(t, p.Settings.Border, name)
	}
	step, half := l.Cell, l.Cell/2
	shown := make([]int, l.Cols*l.Rows*5) // stock plus 1, by cell and place
	for _, layer := range l.Layers {
		for _, part := range layer.Parts {
			shape := part.Outline.Polygon()
			x0, x1 := int((part.Bounds.Min.X-l.Grid.X)/step), int((part.Bounds.Max.X-l.Grid.X-1)/step)
			y0, y1 := int((part.Bounds.Min.Y-l.Grid.Y)/step), int((part.Bounds.Max.Y-l.Grid.Y-1)/step)
			for y := max(0, y0); y <= min(l.Rows-1, y1); y++ {
				for x := max(0, x0); x <= min(l.Cols-1, x1); x++ {
					for k, at := range places(l.Grid, step, half, x, y) {
						if inside(shape, at) {
							shown[(y*l.Cols+x)*5+k] = layer.Stock + 1
						}
					}
				}
			}
		}
	}
	for y := range l.Rows {
		for x := range l.Cols {
			want := 0
			if key := drawing.At(x, l.Rows-1-y); key != project.Empty {
				stock, _ := p.StockOf(key)
				for i := range s.Stocks {
					if s.Stocks[i].ID == stock.ID {
						want = i + 1
						break
					}
				}
			}
			for k := range 5 {
				require.Equal(t, want, shown[(y*l.Cols+x)*5+k], "%s: column %d, row %d, place %d", name, x+1, l.Rows-y, k)
			}
		}
	}
}

// places are a cell's middle and the middles of its sides, 1 µm inside.
func places(grid shape.Point, step, half shape.Um, x, y int) [5]shape.Point {
	o := grid.Add(shape.Point{X: shape.Um(x) * step, Y: shape.Um(y) * step})
	return [5]shape.Point{
		o.Add(shape.Point{X: half, Y: half}),
		o.Add(shape.Point{X: 1, Y: half}),
		o.Add(shape.Point{X: step - 1, Y: half}),
		o.Add(shape.Point{X: half, Y: 1}),
		o.Add(shape.Point{X: half, Y: step - 1}),
	}
}

// inside counts the upright edges left of a point: a rule of its own, so that
// shape's isn't its own judge.
func inside(p shape.Polygon, at shape.Point) bool {
	in := false
	for _, ring := range append([]shape.Ring{p.Outer}, p.Holes...) {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if a.X == b.X && a.X <= at.X && (a.Y <= at.Y) != (b.Y <= at.Y) {
				in = !in
			}
		}
	}
	return in
}
