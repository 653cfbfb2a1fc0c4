package assemble

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// hull is the convex hull of all corners of the rectangles, anticlockwise: the
// upper and the lower chain in turn (A. M. Andrew, "Another efficient algorithm
// for convex hulls in two dimensions", 1979).
func hull(rects []shape.Rect) shape.Ring {
	var ps []shape.Point
	for _, r := range rects {
		ps = append(ps, r.Min, r.Max, shape.Point{X: r.Min.X, Y: r.Max.Y}, shape.Point{X: r.Max.X, Y: r.Min.Y})
	}
	slices.SortFunc(ps, func(a, b shape.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	ps = slices.Compact(ps)
	var ring shape.Ring
	for pass := range 2 {
		base := len(ring)
		for _, p := range ps {
			for len(ring) >= base+2 && turn(ring[len(ring)-2], ring[len(ring)-1], p) <= 0 {
				ring = ring[:len(ring)-1]
			}
			ring = append(ring, p)
		}
		ring = ring[:len(ring)-1] // the next chain begins with it
		if pass == 0 {
			slices.Reverse(ps)
		}
	}
	return ring
}

// turn is positive where a, b, c turn left.
func turn(a, b, c shape.Point) shape.Um2 {
	p, q := b.Sub(a), c.Sub(a)
	return shape.Um2(p.X)*shape.Um2(q.Y) - shape.Um2(p.Y)*shape.Um2(q.X)
}

// within says whether p lies in a convex ring or on its line.
func within(p shape.Point, ring shape.Ring) bool {
	for i, a := range ring {
		if turn(a, ring[(i+1)%len(ring)], p) < 0 {
			return false
		}
	}
	return len(ring) > 0
}

// outward is the way out through the side of a convex ring that p lies outside
// of the farthest.
func outward(p shape.Point, ring shape.Ring) shape.Point {
	var way shape.Point
	least := shape.Um2(0)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if t := turn(a, b, p); t < least {
			d := b.Sub(a)
			least, way = t, shape.Point{X: d.Y, Y: -d.X}
		}
	}
	return way
}
