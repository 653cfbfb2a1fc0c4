package inspect

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// sweep walks an axis-parallel shape from below and gives, for every height at
// which its outline changes, where a level line just above enters and leaves it.
type sweep struct {
	edges []upright // by lower end, then x
	ys    []shape.Um
	next0 int // edges before this one have begun
	live  []upright
	i     int
}

// upright is a vertical edge.
type upright struct{ x, y0, y1 shape.Um }

func newSweep(rings []shape.Ring) *sweep {
	s := &sweep{}
	for _, r := range rings {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			if p.X == q.X {
				s.edges = append(s.edges, upright{p.X, min(p.Y, q.Y), max(p.Y, q.Y)})
				s.ys = append(s.ys, p.Y, q.Y)
			}
		}
	}
	slices.SortFunc(s.edges, func(a, b upright) int {
		return cmp.Or(cmp.Compare(a.y0, b.y0), cmp.Compare(a.x, b.x))
	})
	slices.Sort(s.ys)
	s.ys = slices.Compact(s.ys)
	return s
}

// next gives the next height and the crossings above it, in and out by turns;
// more is false at the top, where there are none.
func (s *sweep) next() (y shape.Um, xs []shape.Um, more bool) {
	if s.i >= len(s.ys) {
		return 0, nil, false
	}
	y = s.ys[s.i]
	s.i++
	s.live = slices.DeleteFunc(s.live, func(e upright) bool { return e.y1 <= y })
	begun := s.next0
	for s.next0 < len(s.edges) && s.edges[s.next0].y0 == y {
		s.next0++
	}
	s.live = append(s.live, s.edges[begun:s.next0]...)
	slices.SortFunc(s.live, func(a, b upright) int { return cmp.Compare(a.x, b.x) })
	xs = make([]shape.Um, len(s.live))
	for i, e := range s.live {
		xs[i] = e.x
	}
	return y, xs, s.i < len(s.ys)
}

// swapped mirrors rings at the diagonal, so that level edges become upright.
// The rings then run the other way about.
func swapped(rings []shape.Ring) []shape.Ring {
	out := make([]shape.Ring, len(rings))
	for i, r := range rings {
		out[i] = make(shape.Ring, len(r))
		for j, p := range r {
			out[i][j] = shape.Point{X: p.Y, Y: p.X}
		}
	}
	return out
}

func swapRect(r shape.Rect) shape.Rect {
	return shape.Rect{
		Min: shape.Point{X: r.Min.Y, Y: r.Min.X},
		Max: shape.Point{X: r.Max.Y, Y: r.Max.X},
	}
}

// squared gives an outline's rings with round and slanted edges replaced by the
// square corner outside them. Such edges lie only about outer corners of a
// border, where they take nothing from a place that is narrow between edges or
// inner corners.
func squared(o shape.Outline) []shape.Ring {
	rings := []shape.Ring{squaredContour(o.Outer)}
	for _, h := range o.Holes {
		rings = append(rings, squaredContour(h))
	}
	return rings
}

func squaredContour(c shape.Contour) shape.Ring {
	var r shape.Ring
	for i, v := range c {
		r = append(r, v.Point)
		w := c[(i+1)%len(c)].Point
		if v.X == w.X || v.Y == w.Y {
			continue
		}
		// The shape lies to the left, so the corner outside lies to the right.
		corner := shape.Point{X: v.X, Y: w.Y}
		if (w.X-v.X)*(corner.Y-v.Y)-(w.Y-v.Y)*(corner.X-v.X) > 0 {
			corner = shape.Point{X: w.X, Y: v.Y}
		}
		r = append(r, corner)
	}
	return withoutStraight(r)
}

// withoutStraight drops points that repeat or lie on a straight run.
func withoutStraight(r shape.Ring) shape.Ring {
	for changed := true; changed; {
		changed = false
		var out shape.Ring
		for i, p := range r {
			prev, next := r[(i+len(r)-1)%len(r)], r[(i+1)%len(r)]
			if len(out) > 0 {
				prev = out[len(out)-1]
			}
			if p == prev || (prev.X == p.X && p.X == next.X) || (prev.Y == p.Y && p.Y == next.Y) {
				changed = true
				continue
			}
			out = append(out, p)
		}
		r = out
	}
	return r
}
