package nest

import (
	"slices"

	"sheetsprite/engine/shape"
)

// arcSlack is how far chords may leave their arcs while a round outline is
// covered; the cover is grown by it, so it never lies inside the outline.
const arcSlack = 10 * shape.Um(1)

// cover is an axis-parallel region that holds the outline's stock, moved so
// that the outline's bounds start at 0, 0. It is the outline itself where
// that is axis-parallel; else rows that are at most 0.25 mm (at most 1/64 of
// the height for large ones) high and reach as far as the outline does
// anywhere in the row.
func cover(o shape.Outline) shape.Region {
	b := o.Bounds()
	o = o.Moved(shape.Point{X: -b.Min.X, Y: -b.Min.Y})
	if axisParallel(o) {
		return shape.FromPolygons(o.Polygon())
	}
	p := o.Flatten(arcSlack)
	w, h := b.Size()
	step := max(h/64, shape.Mm/4)
	ys := []shape.Um{0, h}
	for y := step; y < h; y += step {
		ys = append(ys, y)
	}
	for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
		for i, a := range r { // level edges become rows' ends, exactly
			if a.Y == r[(i+1)%len(r)].Y {
				ys = append(ys, min(max(a.Y, 0), h))
			}
		}
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	var rects []shape.Rect
	for i := 0; i+1 < len(ys); i++ {
		for _, s := range reach(p, ys[i], ys[i+1]) {
			rects = append(rects, shape.Rect{
				Min: shape.Point{X: max(0, s[0]-arcSlack), Y: max(0, ys[i]-arcSlack)},
				Max: shape.Point{X: min(w, s[1]+arcSlack), Y: min(h, ys[i+1]+arcSlack)},
			})
		}
	}
	return shape.FromRects(rects)
}

func axisParallel(o shape.Outline) bool {
	for _, c := range append([]shape.Contour{o.Outer}, o.Holes...) {
		for i, v := range c {
			q := c[(i+1)%len(c)]
			if v.Arc != nil || v.X != q.X && v.Y != q.Y {
				return false
			}
		}
	}
	return true
}

// reach are spans of x that hold every point of p with y0 ≤ y ≤ y1: what is
// inside at the middle of the row, and what each edge passes over in the row.
// A point of p in the row either is inside straight above or below at the
// middle, or an edge lies between.
func reach(p shape.Polygon, y0, y1 shape.Um) [][2]shape.Um {
	var spans [][2]shape.Um
	var middle []shape.Um // crossings with the middle, in 1/2 µm of y
	m2 := y0 + y1
	for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if a.Y > b.Y {
				a, b = b, a
			}
			if b.Y < y0 || a.Y > y1 {
				continue
			}
			lo, hi := a.X, b.X
			if a.Y < y0 {
				lo = at(a, b, 2*y0)
			}
			if b.Y > y1 {
				hi = at(a, b, 2*y1)
			}
			// one more on each side for what at rounds
			spans = append(spans, [2]shape.Um{min(lo, hi) - 1, max(lo, hi) + 1})
			if (2*a.Y > m2) != (2*b.Y > m2) {
				middle = append(middle, at(a, b, m2))
			}
		}
	}
	slices.Sort(middle)
	for i := 0; i+1 < len(middle); i += 2 {
		spans = append(spans, [2]shape.Um{middle[i] - 1, middle[i+1] + 1})
	}
	return spans
}

// at is the x at which the edge from a up to b passes y2 half µm, rounded down.
func at(a, b shape.Point, y2 shape.Um) shape.Um {
	n, d := (b.X-a.X)*(y2-2*a.Y), 2*(b.Y-a.Y)
	q := n / d
	if n%d < 0 {
		q--
	}
	return a.X + q
}
