package cut

import (
	"math"

	"sheetsprite/engine/shape"
)

// HalfKerf is by how much a contour is moved: half the kerf, an odd one
// rounded up to whole µm.
func HalfKerf(kerf shape.Um) shape.Um { return (kerf + 1) / 2 }

// offset moves an outline's contours away from the stock by d, or into it by
// −d: each edge along its normal, each arc to another radius, with square
// (mitred) corners. Vertices keep their number and order. Edges along an axis
// are exact; other meeting points are rounded to the nearest µm. ok is false
// where an arc would lose its radius.
func offset(o shape.Outline, d shape.Um) (moved shape.Outline, ok bool) {
	moved.Outer, ok = offsetContour(o.Outer, d)
	for _, h := range o.Holes {
		c, fine := offsetContour(h, d)
		moved.Holes = append(moved.Holes, c)
		ok = ok && fine
	}
	return moved, ok
}

// offsetContour moves a contour to its right by d: the stock is to the left of
// an outer contour and of a hole alike.
func offsetContour(c shape.Contour, d shape.Um) (shape.Contour, bool) {
	out := make(shape.Contour, len(c))
	ok := true
	for i, v := range c {
		before := c[(i+len(c)-1)%len(c)]
		next := c[(i+1)%len(c)]
		if v.Arc != nil {
			v.Arc = &shape.Arc{Turn: v.Arc.Turn, Centre: v.Arc.Centre, Radius: v.Arc.Radius + d*shape.Um(v.Arc.Turn)}
			ok = ok && v.Arc.Radius > 0
		}
		out[i] = v
		out[i].Point = meeting(before, c[i], next.Point, d)
	}
	return out, ok
}

// meeting is where the moved ways before and after a vertex meet.
func meeting(before, v shape.Vertex, next shape.Point, d shape.Um) shape.Point {
	if before.Arc == nil && v.Arc == nil {
		a, b := v.Point.Sub(before.Point), next.Sub(v.Point)
		if (a.X == 0 || a.Y == 0) && (b.X == 0 || b.Y == 0) {
			// Along the axes: the corner moves by the sum of both normals,
			// or by one where the contour goes straight on.
			n, m := right(a), right(b)
			if n == m {
				return v.Point.Add(shape.Point{X: n.X * d, Y: n.Y * d})
			}
			return v.Point.Add(shape.Point{X: (n.X + m.X) * d, Y: (n.Y + m.Y) * d})
		}
	}
	return curved(before, v, next, d)
}

// right is the unit step to the right of a vector along an axis.
func right(v shape.Point) shape.Point {
	sign := func(u shape.Um) shape.Um {
		switch {
		case u > 0:
			return 1
		case u < 0:
			return -1
		}
		return 0
	}
	return shape.Point{X: sign(v.Y), Y: -sign(v.X)}
}

// vec is a place or a direction whose parts are rounded only at the end. All it
// takes is sums, products, quotients and square roots, which every machine
// rounds alike.
type vec struct{ x, y float64 }

func toVec(p shape.Point) vec      { return vec{float64(p.X), float64(p.Y)} }
func (a vec) plus(b vec) vec       { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec      { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(f float64) vec  { return vec{float64(a.x * f), float64(a.y * f)} }
func (a vec) dot(b vec) float64    { return float64(a.x*b.x) + float64(a.y*b.y) }
func (a vec) cross(b vec) float64  { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a vec) length() float64      { return math.Sqrt(a.dot(a)) }
func (a vec) unit() vec            { return a.times(1 / a.length()) }
func (a vec) nearest() shape.Point { return shape.Point{X: nearest(a.x), Y: nearest(a.y)} }
func nearest(x float64) shape.Um   { return shape.Um(math.Floor(x + 0.5)) }
func (a vec) rightwards() vec      { return vec{a.y, -a.x} }
func (a vec) towards(t int) vec    { return vec{float64(-t) * a.y, float64(t) * a.x} }
func near(a, b, to vec) vec {
	if a.minus(to).dot(a.minus(to)) <= b.minus(to).dot(b.minus(to)) {
		return a
	}
	return b
}

// curved is meeting for slanted edges and arcs. All is seen from the vertex, so
// that a place far from the origin loses nothing.
func curved(before, v shape.Vertex, next shape.Point, d shape.Um) shape.Point {
	here := v.Point
	in, out := wayOf(before, here, here, d), wayOf(v, here, next, d)
	// Where both have one direction the vertex moves along their normal.
	turn := in.along.cross(out.along)
	if turn < 1e-6 && turn > -1e-6 {
		return here.Add(in.along.rightwards().times(float64(d)).nearest())
	}
	var p vec
	switch {
	case !in.round && !out.round:
		t := out.at.minus(in.at).cross(out.along) / turn
		p = in.at.plus(in.along.times(t))
	case in.round && out.round:
		p = circlesMeet(in, out)
	case in.round:
		p = lineMeets(out, in)
	default:
		p = lineMeets(in, out)
	}
	return here.Add(p.nearest())
}

// way is a moved edge or arc at a vertex, which is the origin.
type way struct {
	at     vec // a point of the line
	along  vec // its direction at the vertex before it was moved
	round  bool
	centre vec
	radius float64
}

// wayOf is the way that begins at v and runs to end, seen from here, which is
// v's place or end.
func wayOf(v shape.Vertex, here, end shape.Point, d shape.Um) way {
	if v.Arc == nil {
		along := toVec(end.Sub(v.Point)).unit()
		return way{at: along.rightwards().times(float64(d)), along: along}
	}
	spoke := toVec(here.Sub(v.Arc.Centre))
	return way{
		along: spoke.unit().towards(int(v.Arc.Turn)), round: true,
		centre: toVec(v.Arc.Centre.Sub(here)), radius: float64(v.Arc.Radius + d*shape.Um(v.Arc.Turn)),
	}
}

// lineMeets is where a line meets a circle, next to the vertex; the point of
// the line nearest to the circle where they miss by rounding.
func lineMeets(line, circle way) vec {
	foot := line.at.plus(line.along.times(circle.centre.minus(line.at).dot(line.along)))
	off := foot.minus(circle.centre)
	rest := math.Sqrt(max(0, float64(circle.radius*circle.radius)-off.dot(off)))
	step := line.along.times(rest)
	return near(foot.plus(step), foot.minus(step), vec{})
}

// circlesMeet is where two circles meet, next to the vertex.
func circlesMeet(a, b way) vec {
	between := b.centre.minus(a.centre)
	dist := between.length()
	if dist == 0 {
		return a.at
	}
	t := (float64(a.radius*a.radius) - float64(b.radius*b.radius) + float64(dist*dist)) / (2 * dist)
	rest := math.Sqrt(max(0, float64(a.radius*a.radius)-float64(t*t)))
	dir := between.unit()
	foot := a.centre.plus(dir.times(t))
	step := dir.rightwards().times(rest)
	return near(foot.plus(step), foot.minus(step), vec{})
}
