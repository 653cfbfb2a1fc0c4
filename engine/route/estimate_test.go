package route

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func square(x, y, side shape.Um) shape.Contour {
	return shape.Ring{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}.Contour()
}

// By hand, with 1000 mm/s² (v²/2a is the way to full speed, v/a the time):
//
// Travel to (30, 40): 50 mm at 200 mm/s. Up and down 2 × 20 mm in 2 × 0.2 s,
// 10 mm at full speed 0.05 s: 0.45 s.
// A square of 20 mm at 50 mm/s, right angles, so each side from rest to rest:
// 2 × 1.25 mm in 2 × 0.05 s, 17.5 mm at full speed 0.35 s: 0.45 s, four sides 1.8 s.
// Back the 50 mm: 0.45 s. In all 2.7 s.
func TestTimeOfASquareIsWhatIsSummedByHand(t *testing.T) {
	s := Sheet{Loops: []Loop{{Contour: square(30*shape.Mm, 40*shape.Mm, 20*shape.Mm)}}, End: AtStart}
	r, err := Plan(s)
	require.NoError(t, err)
	assert.Equal(t, 80*shape.Mm, r.Cut)
	assert.Equal(t, 100*shape.Mm, r.Travel)
	m := Motion{Cut: 50 * shape.Mm, Travel: 200 * shape.Mm, Accel: 1000 * shape.Mm}
	assert.Equal(t, 2700*time.Millisecond, r.Estimate(s.Start, s.End, m))
}

func TestTimeOfMoves(t *testing.T) {
	const mm = shape.Mm
	line := func(ps ...shape.Point) Stroke {
		return Stroke{Path: shape.Ring(ps).Contour()}
	}
	p := func(x, y shape.Um) shape.Point { return shape.Point{X: x * mm, Y: y * mm} }
	for _, c := range []struct {
		name   string
		stroke Stroke
		want   time.Duration
	}{
		// 1 mm is too short for 50 mm/s at 1000 mm/s²: up for 0.5 mm, √(2·0.5/1000) s = 31.6 ms, and down again.
		{"a triangle of speed", line(p(0, 0), p(1, 0)), 63 * time.Millisecond},
		// 10 mm: 0.05 s + 7.5/50 s + 0.05 s, and a point on the way changes nothing.
		{"straight on", line(p(0, 0), p(4, 0), p(10, 0)), 250 * time.Millisecond},
		// Two sides of 10 mm, at rest in the corner.
		{"a right angle", line(p(0, 0), p(10, 0), p(10, 10)), 500 * time.Millisecond},
		{"back the way it came", line(p(0, 0), p(10, 0), p(0, 0)), 500 * time.Millisecond},
		// A turn whose cosine is 0.8 (3-4-5): the corner at 40 mm/s. Each side of 10 mm:
		// up 1.25 mm in 0.05 s, 50 to 40 mm/s 0.45 mm in 0.01 s, 8.3 mm at 50 mm/s 0.166 s: 0.226 s.
		{"a blunt corner", line(p(0, 0), p(10, 0), p(18, 6)), 452 * time.Millisecond},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Route{Strokes: []Stroke{c.stroke}}
			m := Motion{Cut: 50 * mm, Travel: 200 * mm, Accel: 1000 * mm}
			assert.Equal(t, c.want, r.Estimate(shape.Point{}, Anywhere, m))
		})
	}
}

// A full circle of radius 2.5 mm: √(1000·2.5) = 50 mm/s is just allowed. Its
// 15.708 mm take 0.1 s for the ramps (2.5 mm) and 13.208/50 s: 0.364 s.
// Of radius 0.625 mm: 25 mm/s, 3.927 mm, 0.05 s for 0.625 mm, 3.302/25 s: 0.182 s.
func TestArcsAreRunAsFastAsTheirRadiusAllows(t *testing.T) {
	for _, c := range []struct {
		radius shape.Um
		want   time.Duration
	}{{2500, 364 * time.Millisecond}, {625, 182 * time.Millisecond}} {
		circle := shape.Contour{
			{Point: shape.Point{X: c.radius}, Arc: &shape.Arc{Turn: shape.Anticlockwise, Radius: c.radius}},
			{Point: shape.Point{X: -c.radius}, Arc: &shape.Arc{Turn: shape.Anticlockwise, Radius: c.radius}},
		}
		r := Route{Strokes: []Stroke{{Path: circle, Closed: true}}}
		m := Motion{Cut: 60 * shape.Mm, Travel: 1, Accel: 1000 * shape.Mm}
		assert.Equal(t, c.want, r.Estimate(circle[0].Point, Anywhere, m))
	}
}
