package cut

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// box is a rectangle's contour, anticlockwise.
func box(x0, y0, x1, y1 shape.Um) shape.Contour {
	return shape.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}.Contour()
}

// Common practice, no source: with a kerf of 0.2 mm a part of 2 × 4 mm is drawn
// 2.2 × 4.2 mm, an opening of 2 × 4 mm is drawn 1.8 × 3.8 mm.
func TestKerfOfAPlate(t *testing.T) {
	for _, c := range []struct {
		kerf, part, hole shape.Um // widths that are cut
		faults           int
	}{
		{0, 2000, 1000, 0},
		{200, 2200, 800, 0},
		{150, 2150, 850, 0},
		{151, 2152, 848, 0}, // half a kerf is whole µm
		{998, 2998, 2, 0},
		{999, 0, 0, 1},
		{1000, 0, 0, 1}, // the hole is as wide as the kerf
		{1300, 0, 0, 1},
	} {
		o := shape.Outline{Outer: box(0, 0, 2000, 4000), Holes: []shape.Contour{box(500, 500, 1500, 2500).Reversed()}}
		line, faults := Kerfed(o, c.kerf)
		require.Len(t, faults, c.faults, "kerf %d", c.kerf)
		if c.faults > 0 {
			assert.Equal(t, shape.Point{X: 1000, Y: 1500}, faults[0].At, "the hole's middle")
			continue
		}
		w, h := line.Bounds().Size()
		assert.Equal(t, [2]shape.Um{c.part, c.part + 2000}, [2]shape.Um{w, h})
		w, h = line.Holes[0].Bounds().Size()
		assert.Equal(t, [2]shape.Um{c.hole, c.hole + 1000}, [2]shape.Um{w, h})
	}
}

// raster is a drawing of squares of 100 µm, with an empty rim.
type raster struct {
	side int
	on   []bool
}

func (r raster) at(x, y int) bool {
	return x >= 0 && y >= 0 && x < r.side && y < r.side && r.on[y*r.side+x]
}

// spread is the plain way to grow by one square (what any of the nine squares
// around has), or to shrink (what all have).
func (r raster) spread(all bool) raster {
	out := raster{r.side, make([]bool, len(r.on))}
	for y := range r.side {
		for x := range r.side {
			is := all
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if v := r.at(x+dx, y+dy); v != all {
						is = v
					}
				}
			}
			out.on[y*r.side+x] = is
		}
	}
	return out
}

// pinched says whether two squares touch at a corner only.
func (r raster) pinched() bool {
	for y := range r.side - 1 {
		for x := range r.side - 1 {
			a, b, c, d := r.at(x, y), r.at(x+1, y), r.at(x, y+1), r.at(x+1, y+1)
			if a == d && b == c && a != b {
				return true
			}
		}
	}
	return false
}

// Random shapes with a kerf of two squares: what a raster says is cut exactly,
// what a raster says closes is refused.
func TestKerfAgreesWithARaster(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	cut, refused := 0, 0
	for range 4000 {
		side := 8 + r.IntN(6)
		g := raster{side, make([]bool, side*side)}
		for range 2 + r.IntN(5) {
			x, y := 2+r.IntN(side-5), 2+r.IntN(side-5)
			for j := y; j < min(side-2, y+1+r.IntN(4)); j++ {
				for i := x; i < min(side-2, x+1+r.IntN(6)); i++ {
					g.on[j*side+i] = true
				}
			}
		}
		var rects []shape.Rect
		for i, on := range g.on {
			if at := (shape.Point{X: shape.Um(i % side), Y: shape.Um(i / side)}); on {
				rects = append(rects, shape.Rect{
					Min: shape.Point{X: at.X * 100, Y: at.Y * 100}, Max: shape.Point{X: at.X*100 + 100, Y: at.Y*100 + 100},
				})
			}
		}
		ps := shape.FromRects(rects).Polygons(shape.BySides)
		if len(ps) != 1 || g.pinched() {
			continue
		}
		o := shape.Outline{Outer: ps[0].Outer.Contour()}
		for _, h := range ps[0].Holes {
			o.Holes = append(o.Holes, h.Contour())
		}
		grown := g.spread(false)
		back := grown.spread(true)
		closes := grown.pinched()
		for i := range back.on {
			closes = closes || back.on[i] != g.on[i]
		}
		line, faults := Kerfed(o, 200)
		if closes {
			assert.NotEmpty(t, faults)
			refused++
			continue
		}
		cut++
		require.Empty(t, faults)
		assert.Len(t, line.Holes, len(o.Holes))
		assert.Len(t, line.Outer, len(o.Outer), "vertex by vertex")
		is := shape.FromPolygons(line.Polygon())
		for y := range side {
			for x := range side {
				p := shape.Point{X: shape.Um(x) * 100, Y: shape.Um(y) * 100}
				square := shape.FromRects([]shape.Rect{{Min: p, Max: p.Add(shape.Point{X: 100, Y: 100})}})
				assert.Equal(t, grown.at(x, y), !is.Intersect(square).Empty())
			}
		}
	}
	assert.Greater(t, cut, 500)
	assert.Greater(t, refused, 100)
}

// A circle's cut is a circle half a kerf further out, a round hole's further in;
// a hole as small as the kerf is refused.
func TestKerfOfRings(t *testing.T) {
	ring := func(r shape.Um, turn shape.Turn) shape.Contour {
		c := shape.Point{X: 9000, Y: 9000}
		return shape.Contour{
			{Point: shape.Point{X: 9000 + r, Y: 9000}, Arc: &shape.Arc{Turn: turn, Centre: c, Radius: r}},
			{Point: shape.Point{X: 9000 - r, Y: 9000}, Arc: &shape.Arc{Turn: turn, Centre: c, Radius: r}},
		}
	}
	for _, c := range []struct {
		hole, kerf shape.Um
		faults     int
	}{{2000, 150, 0}, {75, 150, 1}, {80, 150, 0}} {
		o := shape.Outline{Outer: ring(5000, shape.Anticlockwise), Holes: []shape.Contour{ring(c.hole, shape.Clockwise)}}
		line, faults := Kerfed(o, c.kerf)
		require.Len(t, faults, c.faults, "%+v", c)
		if c.faults == 0 {
			assert.Equal(t, ring(5075, shape.Anticlockwise), line.Outer)
			assert.Equal(t, ring(c.hole-75, shape.Clockwise), line.Holes[0])
		}
	}
}
