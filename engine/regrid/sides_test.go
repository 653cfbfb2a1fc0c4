package regrid

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/regrid/picture"
)

// desk is one colour with a screen on it, and on the screen a drawing that is not
// rectangular, with a strip of light ground between it and the upper side.
func desk(inside func(x, y int) bool) *picture.Raster {
	r := picture.NewRaster(300, 240)
	for y := range r.H {
		for x := range r.W {
			p := [4]uint8{180, 184, 190, 255}
			if inside(x, y) {
				p = [4]uint8{250, 250, 250, 255}
				if y >= 48 && x > 90 && x < 200 && y < 150+x/8 {
					p = [4]uint8{20, 20, 24, 255}
				}
			}
			r.Set(x, y, p)
		}
	}
	return r
}

// The side is where the light strip begins, not where the dark drawing does.
func TestSidesBeforeTheDrawing(t *testing.T) {
	r := desk(func(x, y int) bool { return x >= 50 && x < 250 && y >= 40 && y < 200 })
	want := Corners{{50, 40}, {250, 40}, {250, 200}, {50, 200}}
	for _, off := range []float64{0, 3, -4} {
		c := want
		for i := range c {
			c[i].X += off
			c[i].Y -= off
		}
		got, ok := sharpened(r, c, 12)
		require.True(t, ok)
		for i := range got {
			assert.InDelta(t, want[i].X, got[i].X, 0.6, "off by %g: %v", off, got)
			assert.InDelta(t, want[i].Y, got[i].Y, 0.6, "off by %g: %v", off, got)
		}
	}
}

// A frame of four cells is the screen's, one of a cell was drawn.
func TestFrames(t *testing.T) {
	in := rectified{corners: Corners{{100, 100}, {300, 110}, {310, 290}, {90, 300}}, grid: placed{x: axisFit{lattice: whole(20, 400)}, y: axisFit{lattice: whole(16, 320)}}}
	in.lens = unbending(picture.NewRaster(400, 400))
	view, ok := viewOf(in.corners, in.lens)
	require.True(t, ok)
	outer := func(cells float64) (c Corners) {
		for i, p := range [4]Point{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			c[i].X, c[i].Y = view.at(0.5+p.X*(0.5+cells/20), 0.5+p.Y*(0.5+cells/16))
		}
		return c
	}
	assert.True(t, in.frames(outer(1)))
	assert.True(t, in.frames(outer(1.1)))
	assert.False(t, in.frames(outer(0.6)))
	assert.False(t, in.frames(outer(2)))
	assert.False(t, in.frames(outer(4)))
}

// A place comes back from where it is seen.
func TestViewBack(t *testing.T) {
	l := unbending(picture.NewRaster(400, 300))
	for _, bend := range []float64{0, -0.07, 0.09} {
		l.bend = bend
		v, ok := viewOf(Corners{{60, 40}, {330, 70}, {350, 260}, {40, 280}}, l)
		require.True(t, ok)
		for _, p := range []Point{{0, 0}, {1, 0.2}, {0.5, 0.5}, {-0.1, 1.1}} {
			x, y := v.back(pointOf(v.at(p.X, p.Y)))
			assert.InDelta(t, p.X, x, 1e-5)
			assert.InDelta(t, p.Y, y, 1e-5)
		}
	}
}

func pointOf(x, y float64) Point { return Point{x, y} }

// Strips thinner than seven pixels go, and what is broader stays as it is.
func TestOpened(t *testing.T) {
	const w, h = 40, 30
	in := make([]bool, w*h)
	for y := range h {
		for x := range w {
			in[y*w+x] = x >= 10 && x < 30 && y >= 5 && y < 25 || y >= 12 && y < 16
		}
	}
	out := opened(in, w, h)
	for y := range h {
		for x := range w {
			assert.Equal(t, x >= 10 && x < 30 && y >= 5 && y < 25, out[y*w+x], "%d, %d", x, y)
		}
	}
}

// What lies behind a sudden change isn't reached, be the surroundings of one colour or
// change evenly all over.
func TestUnreached(t *testing.T) {
	r := picture.NewRaster(60, 50)
	within := func(x, y int) bool { return x >= 20 && x < 45 && y >= 10 && y < 35 }
	for y := range r.H {
		for x := range r.W {
			v := uint8(60 + 2*x)
			if within(x, y) {
				v = uint8(250 - x)
			}
			r.Set(x, y, [4]uint8{v, v, v, 255})
		}
	}
	for i, in := range unreached(r) {
		assert.Equal(t, within(i%r.W, i/r.W), in, "%d, %d", i%r.W, i/r.W)
	}
}
