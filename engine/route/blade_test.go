package route

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// By hand: a square of 10 mm begun in the middle of its lower edge, offset 0.25 mm,
// overcut 1 mm. The machine stands 0.25 mm in front of the tip, at each corner it runs
// 0.25 mm past it and turns a quarter about it, and stops 1.25 mm past the beginning.
func TestBladeRoundASquare(t *testing.T) {
	s := Stroke{Path: shape.Ring{{X: 5000}, {X: 10000}, {X: 10000, Y: 10000}, {Y: 10000}, {}}.Contour(), Closed: true}
	r := Route{Strokes: []Stroke{s}}
	Blade{Offset: 250, Overcut: 1000}.Cut(&r, shape.Point{}, AtStart)
	p := func(x, y shape.Um) shape.Vertex { return shape.Vertex{Point: shape.Point{X: x, Y: y}} }
	round := func(x, y, cx, cy shape.Um) shape.Vertex {
		return shape.Vertex{Point: shape.Point{X: x, Y: y}, Arc: &shape.Arc{Turn: shape.Anticlockwise, Centre: shape.Point{X: cx, Y: cy}, Radius: 250}}
	}
	assert.Equal(t, shape.Contour{
		p(5250, 0), round(10250, 0, 10000, 0), p(10000, 250), round(10000, 10250, 10000, 10000), p(9750, 10000),
		round(-250, 10000, 0, 10000), p(0, 9750), round(0, -250, 0, 0), p(250, 0), p(5250, 0), p(6250, 0),
	}, r.Strokes[0].Drive)
	// Each side is as long as it was; four quarters of 0.25 mm come to 2π · 0.25 mm.
	assert.InDelta(t, 40000+1000+2*math.Pi*250, float64(r.Cut), 4)
	assert.Equal(t, shape.Um(5250+6250), r.Travel)
	assert.Equal(t, shape.Point{X: 6250}, r.Strokes[0].To())
}

// The next cut begins with the blade pointing where the one before left it: it is
// turned on the spot. An open line has no overcut; a round one is driven on a circle
// whose square is larger by the offset's.
func TestBladeTurnsWhereItGoesDown(t *testing.T) {
	up := Stroke{Path: shape.Ring{{X: 0, Y: 0}, {X: 0, Y: 5000}}.Contour()}
	disc := Stroke{Path: shape.Contour{
		{Point: shape.Point{X: 9000}, Arc: &shape.Arc{Turn: shape.Clockwise, Centre: shape.Point{X: 6000}, Radius: 3000}},
		{Point: shape.Point{X: 3000}, Arc: &shape.Arc{Turn: shape.Clockwise, Centre: shape.Point{X: 6000}, Radius: 3000}},
	}, Closed: true}
	r := Route{Strokes: []Stroke{up, disc}}
	Blade{Offset: 400, Overcut: 1000}.Cut(&r, shape.Point{}, Anywhere)
	first := r.Strokes[0].Drive
	require.Len(t, first, 3)
	assert.Equal(t, shape.Vertex{Point: shape.Point{X: 400}, Arc: &shape.Arc{Turn: shape.Anticlockwise, Radius: 400}}, first[0])
	assert.Equal(t, shape.Point{Y: 400}, first[1].Point)
	assert.Equal(t, shape.Point{Y: 5400}, first[2].Point)
	second := r.Strokes[1].Drive
	assert.Equal(t, shape.Point{X: 9000, Y: 400}, second[0].Point, "the tip stands where the cut begins, the blade points up")
	turned := false
	for i, v := range second[:len(second)-1] {
		if v.Arc.Centre == (shape.Point{X: 6000}) {
			for _, q := range []shape.Point{v.Point, second[i+1].Point} {
				assert.InDelta(t, math.Sqrt(3000*3000+400*400), float64(length(q, v.Arc.Centre)), 2)
			}
			assert.Equal(t, shape.Clockwise, v.Arc.Turn)
			continue
		}
		assert.Equal(t, shape.Point{X: 9000}, v.Arc.Centre)
		turned = true
	}
	assert.True(t, turned)
	tipEnd := length(second[len(second)-1].Point, shape.Point{X: 6000})
	assert.InDelta(t, math.Sqrt(3000*3000+400*400), float64(tipEnd), 2)
	// The overcut of 1 mm is a third of the radius: 1/3 of a radian below the beginning,
	// and the machine is ahead of the tip by the angle whose tangent is 400 / 3000.
	at := second[len(second)-1].Point
	assert.InDelta(t, -(1.0/3 + math.Atan(400.0/3000)), math.Atan2(float64(at.Y), float64(at.X-6000)), 0.001)
}

// An overcut longer than the contour goes round once more, no further; none changes
// nothing but the way of telling it.
func TestOvercutGoesRoundOnceAtMost(t *testing.T) {
	s := Stroke{Path: square(0, 0, 500), Closed: true}
	for overcut, want := range map[shape.Um]shape.Um{0: 2000, 700: 2700, 2000: 4000, 9000: 4000} {
		r := Route{Strokes: []Stroke{s}}
		Blade{Overcut: overcut}.Cut(&r, shape.Point{}, Anywhere)
		assert.Equal(t, want, r.Cut)
		assert.Equal(t, shape.Um(0), r.Travel)
	}
}
