package viewport

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFitShowsAllOfIt(t *testing.T) {
	for _, area := range []Area{{0, 56, 820, 660}, {10, 60, 370, 400}, {0, 0, 1500, 1000}, {5, 5, 30, 20}} {
		for _, g := range [][2]int{{1, 1}, {24, 32}, {48, 16}, {256, 256}, {256, 1}} {
			v := View{W: g[0], H: g[1]}
			v.SetArea(area)
			w, h := v.Cell*float64(v.W), v.Cell*float64(v.H)
			if area.W > 100 {
				assert.GreaterOrEqual(t, v.X, area.X)
				assert.LessOrEqual(t, v.X+w, area.X+area.W)
				assert.GreaterOrEqual(t, v.Y, area.Y)
				assert.LessOrEqual(t, v.Y+h, area.Y+area.H)
			}
			assert.InDelta(t, area.X+area.W/2, v.X+w/2, 0.51, "in the middle")
			if v.Cell >= 4 {
				assert.Equal(t, math.Floor(v.Cell), v.Cell)
			}
			assert.True(t, v.Fitted)
		}
	}
	// As large as it can be: one pixel more a cell would not fit.
	v := View{W: 24, H: 32}
	v.SetArea(Area{0, 56, 820, 664})
	assert.Equal(t, 20.0, v.Cell)
}

func TestZoomKeepsThePointUnderTheFinger(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		v := View{W: 32, H: 32}
		v.SetArea(Area{0, 0, 800, 600})
		p := Point{300 + r.Float64()*200, 200 + r.Float64()*200}
		x, y := v.ToCells(p)
		v.Zoom(p, math.Exp2(r.Float64()*6-2))
		x2, y2 := v.ToCells(p)
		assert.InDelta(t, x, x2, 1e-9)
		assert.InDelta(t, y, y2, 1e-9)
		assert.False(t, v.Fitted)
		back := v.ToPage(v.ToCells(p))
		assert.InDelta(t, p.X, back.X, 1e-9)
	}
}

func TestPinchMovesAndZoomsAtOnce(t *testing.T) {
	v := View{W: 32, H: 32}
	v.SetArea(Area{0, 0, 800, 600})
	from, to := Point{400, 300}, Point{430, 280}
	x, y := v.ToCells(from)
	v.Pinch(from, to, 2)
	x2, y2 := v.ToCells(to)
	assert.InDelta(t, x, x2, 1e-9)
	assert.InDelta(t, y, y2, 1e-9)
	assert.Equal(t, 36.0, v.Cell)
}

func TestTheDrawingNeverGetsLost(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2))
	for range 300 {
		v := View{W: 1 + r.IntN(256), H: 1 + r.IntN(256)}
		v.SetArea(Area{r.Float64() * 50, r.Float64() * 50, 50 + r.Float64()*1000, 50 + r.Float64()*1000})
		for range 60 {
			switch r.IntN(6) {
			case 0:
				v.Pan(r.NormFloat64()*500, r.NormFloat64()*500)
			case 1:
				v.Zoom(Point{r.Float64() * 800, r.Float64() * 800}, math.Exp2(r.NormFloat64()*3))
			case 2:
				v.Pinch(Point{r.Float64() * 800, 3}, Point{4, r.Float64() * 800}, 0)
			case 3:
				v.SetArea(Area{0, 0, 20 + r.Float64()*1000, 20 + r.Float64()*1000})
			case 4:
				v.SetGrid(1+r.IntN(256), 1+r.IntN(256))
			case 5:
				v.Zoom(Point{math.NaN(), 1}, math.Inf(1))
			}
			a, w, h := v.Area, v.Cell*float64(v.W), v.Cell*float64(v.H)
			seenX := min(v.X+w, a.X+a.W) - max(v.X, a.X)
			seenY := min(v.Y+h, a.Y+a.H) - max(v.Y, a.Y)
			assert.Greater(t, seenX, 0.0)
			assert.Greater(t, seenY, 0.0)
			assert.LessOrEqual(t, v.Cell, MaxCell)
			assert.Greater(t, v.Cell, 0.0)
		}
		if t.Failed() {
			return
		}
	}
}

func TestAFittedDrawingStaysFitted(t *testing.T) {
	v := View{W: 24, H: 32}
	v.SetArea(Area{0, 0, 800, 600})
	v.SetArea(Area{0, 0, 600, 800})
	fresh := View{W: 24, H: 32}
	fresh.SetArea(Area{0, 0, 600, 800})
	assert.Equal(t, fresh, v)
	v.SetGrid(48, 16)
	fresh.SetGrid(48, 16)
	assert.Equal(t, fresh, v)

	// A zoomed one keeps what is in the middle.
	v.Zoom(v.Middle(), 3)
	x, y := v.ToCells(v.Middle())
	v.SetArea(Area{100, 50, 500, 900})
	x2, y2 := v.ToCells(v.Middle())
	assert.InDelta(t, x, x2, 1e-9)
	assert.InDelta(t, y, y2, 1e-9)
}

func TestShowBringsACellIntoView(t *testing.T) {
	v := View{W: 64, H: 64}
	v.SetArea(Area{10, 20, 400, 300})
	v.Zoom(v.Middle(), 6)
	for _, c := range [][2]int{{0, 0}, {63, 0}, {30, 63}, {63, 63}} {
		v.Show(c[0], c[1])
		p := v.ToPage(float64(c[0]), float64(c[1]))
		assert.GreaterOrEqual(t, p.X, 10-1e-9)
		assert.GreaterOrEqual(t, p.Y, 20-1e-9)
		assert.LessOrEqual(t, p.X+v.Cell, 410+1e-9)
		assert.LessOrEqual(t, p.Y+v.Cell, 320+1e-9)
	}
	was := v
	v.Show(63, 63)
	assert.Equal(t, was, v, "a cell in view moves nothing")
}
