package readback

import (
	"fmt"
	"math"
)

// A knife's machine file holds the way that the machine drives. The blade hangs in a
// swivel and its tip trails behind: this follows the tip, so that what it cuts can be
// held against the drawing.

// bladeSlack is how far, in µm, the tip may be off where it doesn't run along the
// axes: the file rounds every place.
const bladeSlack = 3

// tip is where the tip of a blade is and where the machine is.
type tip struct {
	offset float64
	x, y   float64 // of the tip
	dx, dy float64 // from it to the machine, of length 1
	path   contour
}

// undo puts the tip's way in the place of each stroke's. The blade begins along the
// sheet's x and then points as it was left.
func (t tool) undo(strokes []stroke) error {
	b := tip{offset: float64(t.offset), dx: 1}
	for i := range strokes {
		s := &strokes[i]
		p := s.path
		b.x, b.y = float64(p[0].x)-b.offset*b.dx, float64(p[0].y)-b.offset*b.dy
		b.path = contour{b.vertex()}
		for k, v := range p[:len(p)-1] {
			if err := b.drag(v, p[k+1], s.centres[k]); err != nil {
				return fmt.Errorf("line %d: %w", s.line, err)
			}
		}
		s.path, s.near = b.path, bladeSlack
	}
	return nil
}

// vertex is the tip's place to the nearest µm.
func (b *tip) vertex() vertex { return vertex{x: int64(math.Round(b.x)), y: int64(math.Round(b.y))} }

// drag moves the machine from p to q: round the tip, which then stays and turns; or
// onwards, with the tip straight behind or beside on a smaller circle.
func (b *tip) drag(p, q vertex, centre xy) error {
	px, py, qx, qy := float64(p.x), float64(p.y), float64(q.x), float64(q.y)
	aslant := func() error {
		return fmt.Errorf("the blade at (%s, %s) mm is dragged aslant", mm(int64(b.x)), mm(int64(b.y)))
	}
	if p.arc == 0 {
		long := hypot(qx-px, qy-py)
		if b.offset > 0 {
			off := (b.x-px)*(qy-py)/long - (b.y-py)*(qx-px)/long
			ahead := b.dx*(qx-px) + b.dy*(qy-py)
			if math.Abs(off) > bladeSlack || ahead <= 0 {
				return aslant()
			}
			b.point(qx, qy)
		}
		b.x, b.y = qx-b.offset*b.dx, qy-b.offset*b.dy
		b.path = append(b.path, b.vertex())
		return nil
	}
	cx, cy := float64(centre.x), float64(centre.y)
	r := hypot(px-cx, py-cy)
	if b.offset > 0 && hypot(b.x-cx, b.y-cy) <= bladeSlack && math.Abs(r-b.offset) <= bladeSlack {
		b.point(qx, qy)
		return nil
	}
	inner := math.Sqrt(math.Max(0, r*r-b.offset*b.offset))
	turn := float64(step(p.arc))
	// The tip lags behind by the angle whose sine is offset / r.
	behind := func(x, y float64) (float64, float64) {
		x, y = (x-cx)/r, (y-cy)/r
		lag, along := b.offset/r*turn, inner/r
		return cx + inner*(x*along+y*lag), cy + inner*(y*along-x*lag)
	}
	if x, y := behind(px, py); inner == 0 || hypot(x-b.x, y-b.y) > bladeSlack {
		return aslant()
	}
	b.path[len(b.path)-1].arc = int64(math.Round(inner)) * step(p.arc)
	b.x, b.y = behind(qx, qy)
	b.point(qx, qy)
	b.path = append(b.path, b.vertex())
	return nil
}

// point turns the blade towards the machine.
func (b *tip) point(x, y float64) {
	if long := hypot(x-b.x, y-b.y); long > 0 {
		b.dx, b.dy = (x-b.x)/long, (y-b.y)/long
	}
}

// once is a closed line's way once round, where the tip goes on along it by the
// overcut, or all round again where the line is shorter.
func (s *stroke) once(overcut int64) (round contour, ok bool) {
	p := s.path
	n := 1
	for n < len(p) && !sameSpot(p[n], p[0], s.near) {
		n++
	}
	if n >= len(p) {
		return nil, false
	}
	round = append(append(contour(nil), p[:n]...), vertex{x: p[n].x, y: p[n].y})
	rest := p[n:]
	left := math.Min(float64(overcut), pathLength(round))
	for i := 0; i+1 < len(rest); i++ {
		at, next, want := rest[i], rest[i+1], round[i%n]
		if !sameSpot(at, want, s.near) || step(at.arc) != step(want.arc) {
			return nil, false
		}
		left -= pathLength(rest[i : i+2])
		if i+2 < len(rest) {
			continue
		}
		// The last one ends on the way to the line's next vertex.
		off := math.Inf(1)
		for _, c := range chords(vertex{x: round[i%n].x, y: round[i%n].y, arc: want.arc}, round[i%n+1]) {
			off = math.Min(off, toSegment(next, c[0], c[1]))
		}
		if off > bladeSlack+1 {
			return nil, false
		}
	}
	return round, math.Abs(left) <= bladeSlack*float64(len(rest)+1)
}

// pathLength is an open line's.
func pathLength(c contour) float64 {
	sum := 0.0
	for i := 0; i+1 < len(c); i++ {
		chord := hypot(float64(c[i+1].x-c[i].x), float64(c[i+1].y-c[i].y))
		if r := math.Abs(float64(c[i].arc)); r > 0 {
			chord = 2 * r * math.Asin(math.Min(1, chord/(2*r)))
		}
		sum += chord
	}
	return sum
}
