package route

import (
	"math"

	"sheetsprite/engine/shape"
)

// Blade is a knife that hangs in a swivel: its tip trails behind the place that the
// machine drives to and points where it was last drawn.
type Blade struct {
	Offset  shape.Um // from the machine's place to the tip
	Overcut shape.Um // how far it runs on past the beginning of a closed cut, once round at most
}

// swivelLeast is how far, in µm, the machine's place must move for the blade to be
// turned at a corner; less is rounding where straight goes over into round.
const swivelLeast = 2

// Cut turns the cuts into what the machine drives, so that the blade's tip runs
// along them: in front of the tip by the offset, at each corner on past it and round
// it in an arc until the blade points along the next edge; concentric with what is
// round; at the end on along the contour by the overcut, where it is closed. At
// first the blade points along the sheet's x, from then on to where it was left.
// Common practice, no source.
func (b Blade) Cut(r *Route, start shape.Point, end End) {
	at := heading{1, 0}
	r.Cut = 0
	for i := range r.Strokes {
		s := &r.Strokes[i]
		if s.Kind != Cutting {
			continue
		}
		d := driver{offset: float64(b.Offset), at: at}
		d.run(b.path(*s))
		s.Drive, at = d.way, d.at
		r.Cut += Stroke{Path: s.Drive}.Length()
	}
	r.measureTravel(start, end)
}

// path is the tip's way: an open line, with the overcut where the cut is closed.
func (b Blade) path(s Stroke) shape.Contour {
	if !s.Closed {
		return s.Path
	}
	n := len(s.Path)
	out := append(s.Path[:n:n], s.Path[0])
	left := b.Overcut
	for i := 0; i < n && left > 0; i++ {
		v, end := s.Path[i], s.Path[(i+1)%n].Point
		long := edgeLength(v, end)
		if left < long {
			end = partOf(v, end, float64(left)/float64(long))
		}
		left -= long
		out[len(out)-1] = v
		out = append(out, shape.Vertex{Point: end})
	}
	last := &out[len(out)-1]
	last.Arc = nil
	return out
}

// heading is a direction of length 1.
type heading struct{ x, y float64 }

func towards(x, y float64) heading {
	n := math.Sqrt(float64(x*x) + float64(y*y))
	return heading{x / n, y / n}
}

// driver drives a blade along a line.
type driver struct {
	offset float64
	at     heading // where the blade points
	way    shape.Contour
}

// ahead is the machine's place when the tip stands at p.
func (d *driver) ahead(p shape.Point) shape.Point {
	return p.Add(shape.Point{
		X: shape.Um(math.Floor(float64(d.offset*d.at.x) + 0.5)),
		Y: shape.Um(math.Floor(float64(d.offset*d.at.y) + 0.5)),
	})
}

func (d *driver) run(tip shape.Contour) {
	d.way = shape.Contour{{Point: d.ahead(tip[0].Point)}}
	for i, v := range tip[:len(tip)-1] {
		end := tip[i+1].Point
		if v.Point == end {
			continue
		}
		from, to := headings(v, end)
		d.swivel(v.Point, from)
		last := &d.way[len(d.way)-1]
		last.Arc = nil
		if v.Arc != nil {
			last.Arc = &shape.Arc{Turn: v.Arc.Turn, Centre: v.Arc.Centre, Radius: length(v.Arc.Centre, last.Point)}
		}
		d.at = to
		d.way = append(d.way, shape.Vertex{Point: d.ahead(end)})
	}
}

// swivel turns the blade about its tip at p, the shorter way round.
func (d *driver) swivel(p shape.Point, to heading) {
	d.at = to
	last, next := &d.way[len(d.way)-1], d.ahead(p)
	if length(last.Point, next) <= swivelLeast {
		return
	}
	a, b := last.Point.Sub(p), next.Sub(p)
	turn := shape.Anticlockwise
	if a.X*b.Y-a.Y*b.X < 0 {
		turn = shape.Clockwise
	}
	last.Arc = &shape.Arc{Turn: turn, Centre: p, Radius: shape.Um(d.offset)}
	d.way = append(d.way, shape.Vertex{Point: next})
}

// headings are the directions in which the way from v to end begins and ends.
func headings(v shape.Vertex, end shape.Point) (from, to heading) {
	if v.Arc == nil {
		d := vector(end.Sub(v.Point))
		from = towards(d[0], d[1])
		return from, from
	}
	a, b := tangent(v, v.Point), tangent(v, end)
	return towards(a[0], a[1]), towards(b[0], b[1])
}

// partOf is the point that lies a share of the way from v to end. On an arc it is
// found by halving, which needs nothing that machines round differently.
func partOf(v shape.Vertex, end shape.Point, share float64) shape.Point {
	round := func(x, y float64) shape.Point {
		return shape.Point{X: shape.Um(math.Floor(x + 0.5)), Y: shape.Um(math.Floor(y + 0.5))}
	}
	if v.Arc == nil {
		d := vector(end.Sub(v.Point))
		return v.Point.Add(round(float64(d[0]*share), float64(d[1]*share)))
	}
	r := float64(v.Arc.Radius)
	a, b := v.Sub(v.Arc.Centre), end.Sub(v.Arc.Centre)
	low, high := towards(float64(a.X), float64(a.Y)), towards(float64(b.X), float64(b.Y))
	for range 30 {
		mid := heading{low.x + high.x, low.y + high.y}
		if float64(mid.x*mid.x)+float64(mid.y*mid.y) < 1e-6 { // half a turn: the middle lies across
			mid = heading{-float64(v.Arc.Turn) * low.y, float64(v.Arc.Turn) * low.x}
		}
		mid = towards(mid.x, mid.y)
		share *= 2
		if share >= 1 {
			low, share = mid, share-1
		} else {
			high = mid
		}
	}
	return v.Arc.Centre.Add(round(float64(r*low.x), float64(r*low.y)))
}
