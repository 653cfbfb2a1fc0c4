package shape

import (
	"errors"
	"fmt"
	"slices"
)

// Validate names the first rule of a Ring that r breaks: at least four
// points, none twice in a row, no three in one line, edges parallel to an
// axis, touching itself nowhere.
func (r Ring) Validate() error {
	if len(r) < 4 {
		return fmt.Errorf("ring has %d points, at least 4 are needed", len(r))
	}
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p != q && p.X != q.X && p.Y != q.Y {
			return fmt.Errorf("edge %d from %v to %v is parallel to no axis", i, p, q)
		}
	}
	if err := r.checkPoints(); err != nil {
		return err
	}
	return untouched([]Ring{r})
}

func (r Ring) checkPoints() error {
	for i, p := range r {
		if p == r[(i+1)%len(r)] {
			return fmt.Errorf("point %d %v is there twice in a row", i, p)
		}
	}
	for i, p := range r {
		q, s := r[(i+1)%len(r)], r[(i+2)%len(r)]
		if cross(q.Sub(p), s.Sub(q)) == 0 {
			return fmt.Errorf("points %d to %d near %v lie in one line", i, i+2, q)
		}
	}
	return nil
}

// Validate names the first rule that p breaks: each ring's own, outer ring
// anticlockwise, holes clockwise, inside the outer ring and not in one
// another, no two rings touching.
func (p Polygon) Validate() error {
	rings := append([]Ring{p.Outer}, p.Holes...)
	for i, r := range rings {
		if len(r) < 4 {
			return fmt.Errorf("%s: ring has %d points, at least 4 are needed", ringName(i), len(r))
		}
		for k, a := range r {
			if b := r[(k+1)%len(r)]; a != b && a.X != b.X && a.Y != b.Y {
				return fmt.Errorf("%s: edge %d from %v to %v is parallel to no axis", ringName(i), k, a, b)
			}
		}
	}
	return checkRings(rings)
}

func ringName(i int) string {
	if i == 0 {
		return "outer ring"
	}
	return fmt.Sprintf("hole %d", i-1)
}

// checkRings checks the outer ring and holes that a piece consists of,
// slanted edges allowed.
func checkRings(rings []Ring) error {
	for i, r := range rings {
		if err := r.checkPoints(); err != nil {
			return fmt.Errorf("%s: %w", ringName(i), err)
		}
		if a := r.twiceArea(); i == 0 && a <= 0 || i > 0 && a >= 0 {
			return fmt.Errorf("%s runs the wrong way round, its area is %d µm²", ringName(i), a/2)
		}
	}
	if err := untouched(rings); err != nil {
		return err
	}
	for i, h := range rings[1:] {
		if !rings[0].Holds(h) {
			return fmt.Errorf("hole %d near %v lies outside the outer ring", i, h[0])
		}
		for j, g := range rings[1:] {
			if i != j && g.Bounds().holds(h[0]) && g.Holds(h) {
				return fmt.Errorf("hole %d near %v lies in hole %d", i, h[0], j)
			}
		}
	}
	return nil
}

func (r Rect) holds(p Point) bool {
	return r.Min.X <= p.X && p.X <= r.Max.X && r.Min.Y <= p.Y && p.Y <= r.Max.Y
}

// Validate names the first rule of a Contour that c breaks: no point twice in
// a row, arcs with a radius that their ends keep to within 1 µm, touching
// itself nowhere (arcs taken as chords that leave them by at most 1 µm).
func (c Contour) Validate() error {
	if err := c.checkArcs(); err != nil {
		return err
	}
	r := c.Flatten(1)
	if len(r) < 3 {
		return errors.New("contour encloses nothing")
	}
	return untouched([]Ring{r})
}

func (c Contour) checkArcs() error {
	if len(c) < 2 {
		return fmt.Errorf("contour has %d vertices, at least 2 are needed", len(c))
	}
	for i, v := range c {
		w := c[(i+1)%len(c)]
		if v.Point == w.Point {
			return fmt.Errorf("vertex %d %v is there twice in a row", i, v.Point)
		}
		if v.Arc == nil {
			if u := c[(i+2)%len(c)]; w.Arc == nil && cross(w.Point.Sub(v.Point), u.Point.Sub(w.Point)) == 0 {
				return fmt.Errorf("vertices %d to %d near %v lie in one line", i, i+2, w.Point)
			}
			continue
		}
		if v.Arc.Radius <= 0 {
			return fmt.Errorf("arc at vertex %d has radius %d µm", i, v.Arc.Radius)
		}
		for _, p := range []Point{v.Point, w.Point} {
			d, lo, hi := distance2(p, v.Arc.Centre), Um2(v.Arc.Radius-1), Um2(v.Arc.Radius+1)
			if d < lo*lo || d > hi*hi {
				return fmt.Errorf("arc at vertex %d: %v isn't %d µm from its centre %v", i, p, v.Arc.Radius, v.Arc.Centre)
			}
		}
		if turn := cross(v.Point.Sub(v.Arc.Centre), w.Point.Sub(v.Arc.Centre)); turn*Um2(v.Arc.Turn) < 0 {
			return fmt.Errorf("arc at vertex %d is more than a half turn", i)
		}
	}
	return nil
}

// Validate names the first rule that o breaks, as for Polygon; arcs are taken
// as chords that leave them by at most 1 µm.
func (o Outline) Validate() error {
	rings := make([]Ring, 0, 1+len(o.Holes))
	for i, c := range append([]Contour{o.Outer}, o.Holes...) {
		if err := c.checkArcs(); err != nil {
			return fmt.Errorf("%s: %w", ringName(i), err)
		}
		r := c.Flatten(1)
		if len(r) < 3 {
			return fmt.Errorf("%s encloses nothing", ringName(i))
		}
		rings = append(rings, r)
	}
	return checkRings(rings)
}

// segmentRef is an edge of one of several rings.
type segmentRef struct {
	a, b       Point
	ring, edge int
}

// untouched says where edges of the rings meet that aren't neighbours. Edges
// are visited from the left; those that a vertical line meets at once are
// compared pair by pair.
func untouched(rings []Ring) error {
	var segs []segmentRef
	for i, r := range rings {
		for k, a := range r {
			segs = append(segs, segmentRef{a, r[(k+1)%len(r)], i, k})
		}
	}
	slices.SortStableFunc(segs, func(s, t segmentRef) int {
		return int(min(s.a.X, s.b.X) - min(t.a.X, t.b.X))
	})
	var active []segmentRef
	for _, s := range segs {
		left := min(s.a.X, s.b.X)
		keep := active[:0]
		for _, t := range active {
			if max(t.a.X, t.b.X) < left {
				continue
			}
			keep = append(keep, t)
			if max(s.a.Y, s.b.Y) < min(t.a.Y, t.b.Y) || max(t.a.Y, t.b.Y) < min(s.a.Y, s.b.Y) {
				continue
			}
			n := len(rings[s.ring])
			neighbours := s.ring == t.ring && ((s.edge+1)%n == t.edge || (t.edge+1)%n == s.edge)
			if !neighbours && meet(s.a, s.b, t.a, t.b) {
				return fmt.Errorf("%s and %s touch between %v and %v", ringName(s.ring), ringName(t.ring), s.a, s.b)
			}
		}
		active = append(keep, s)
	}
	return nil
}

// meet says whether two closed segments share a point, exactly.
func meet(a, b, c, d Point) bool {
	side := func(p, q, r Point) int {
		switch k := cross(q.Sub(p), r.Sub(p)); {
		case k > 0:
			return 1
		case k < 0:
			return -1
		}
		return 0
	}
	s1, s2 := side(a, b, c), side(a, b, d)
	s3, s4 := side(c, d, a), side(c, d, b)
	if s1 != s2 && s3 != s4 {
		return true
	}
	on := func(s int, p, q, r Point) bool {
		return s == 0 && min(p.X, q.X) <= r.X && r.X <= max(p.X, q.X) && min(p.Y, q.Y) <= r.Y && r.Y <= max(p.Y, q.Y)
	}
	return on(s1, a, b, c) || on(s2, a, b, d) || on(s3, c, d, a) || on(s4, c, d, b)
}
