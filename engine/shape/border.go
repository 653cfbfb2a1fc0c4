package shape

import "slices"

// Look is how the convex corners of a border look.
type Look int8

// The looks of a border.
const (
	SquareCorners    Look = iota
	ChamferedCorners      // cut at 45°, as far out as keeps the border as wide as its edges
	RoundCorners          // arcs about the corners
)

// Border is the outlines of r grown by d > 0 (its Minkowski sum with a square,
// an octagon or a disc of that half-width), from the top, left to right. Gaps
// and holes no wider than 2d close. Straight edges are exact. Where an arc or
// a slanted edge ends at another one, that point is rounded to the nearest µm.
//
// Where the border would touch itself in a point only (arcs: pass itself at
// less than 2 µm), the rectangle between the two corners of r, at least 2 µm
// wide, counts as part of r, so that there is never a contact of no width.
func (r Region) Border(d Um, look Look) []Outline {
	k := kernel{look: look, reach: d}
	switch look {
	case SquareCorners:
		k.flat = d
	case ChamferedCorners:
		k.flat = octagonFlat(d)
	}
	for {
		gaps := k.contacts(r)
		if len(gaps) == 0 {
			break
		}
		r = r.Union(FromRects(gaps))
	}
	var out []Outline
	if look == SquareCorners {
		for _, p := range r.Grow(d).Polygons(BySides) {
			out = append(out, p.Outline())
		}
		return out
	}
	return k.outlines(r)
}

// kernel is what a region is grown by: |x| and |y| at most reach and, outside
// the flat middle of each side, a chamfer or an arc.
type kernel struct {
	look  Look
	reach Um
	flat  Um // half the length of a flat side: reach for a square, 0 for a disc
}

// octagonFlat is half a side of the octagon around the circle of radius d:
// (√2−1)·d, rounded up.
func octagonFlat(d Um) Um {
	n := 2 * Um2(d) * Um2(d)
	s := root(n)
	if s*s < n {
		s++
	}
	return Um(s) - d
}

// tip is a convex corner of a ring with the way out of it on both axes.
type tip struct {
	at     Point
	sx, sy Um // ±1: the empty quadrant opposite the stock
}

func (r Region) tips(ps []Polygon) []tip {
	var out []tip
	for _, p := range ps {
		for _, ring := range append([]Ring{p.Outer}, p.Holes...) {
			n := len(ring)
			for i, v := range ring {
				in, on := v.Sub(ring[(i+n-1)%n]), ring[(i+1)%n].Sub(v)
				if cross(in, on) > 0 {
					out = append(out, tip{v, sign(in.X) - sign(on.X), sign(in.Y) - sign(on.Y)})
				}
			}
		}
	}
	return out
}

func sign(x Um) Um {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// contacts is the gaps between corners whose grown tips meet in a point only.
func (k kernel) contacts(r Region) []Rect {
	size := 2*k.reach + 2
	type bucket struct{ x, y Um }
	of := func(p Point) bucket { return bucket{floorDiv(p.X, size), floorDiv(p.Y, size)} }
	tips := r.tips(r.Polygons(BySides))
	near := map[bucket][]tip{}
	for _, t := range tips {
		near[of(t.at)] = append(near[of(t.at)], t)
	}
	var gaps []Rect
	for _, t := range tips {
		if t.sy < 0 {
			continue // each pair once
		}
		b := of(t.at)
		for dx := Um(-1); dx <= 1; dx++ {
			for dy := Um(-1); dy <= 1; dy++ {
				for _, u := range near[bucket{b.x + dx, b.y + dy}] {
					d := u.at.Sub(t.at)
					if u.sx != -t.sx || u.sy != -t.sy || d.X*t.sx < 0 || d.Y*t.sy < 0 || !k.touches(d) {
						continue
					}
					if !k.hides(r, t.at, u.at) {
						gaps = append(gaps, gapBetween(t.at, u.at))
					}
				}
			}
		}
	}
	return gaps
}

// touches says whether two kernels d apart meet in a point only.
func (k kernel) touches(d Point) bool {
	x, y := abs(d.X), abs(d.Y)
	if k.look == RoundCorners {
		d2, lo, hi := Um2(x)*Um2(x)+Um2(y)*Um2(y), Um2(2*k.reach), Um2(2*k.reach+2)
		return lo*lo <= d2 && d2 <= hi*hi
	}
	return x == 2*k.reach && y == 2*k.flat || x == 2*k.flat && y == 2*k.reach
}

// hides says whether the middle between p and q is within r grown, so that a
// contact there doesn't matter.
func (k kernel) hides(r Region, p, q Point) bool {
	m := p.Add(q) // at twice the size
	hidden := false
	r.near(rectBetween(p, q), k.reach, func(c Rect) {
		ex := max(2*c.Min.X-m.X, m.X-2*c.Max.X, 0)
		ey := max(2*c.Min.Y-m.Y, m.Y-2*c.Max.Y, 0)
		if k.look == RoundCorners {
			hidden = hidden || Um2(ex)*Um2(ex)+Um2(ey)*Um2(ey) < 4*Um2(k.reach)*Um2(k.reach)
		} else {
			hidden = hidden || ex < 2*k.reach && ey < 2*k.reach && ex+ey < 2*(k.reach+k.flat)
		}
	})
	return hidden
}

// near calls visit for all rectangles of r that come within d of b.
func (r Region) near(b Rect, d Um, visit func(Rect)) {
	i, _ := slices.BinarySearchFunc(r.bands, b.Min.Y-d, func(c band, y Um) int {
		if c.y1 < y {
			return -1
		}
		return 1
	})
	for ; i < len(r.bands) && r.bands[i].y0 <= b.Max.Y+d; i++ {
		xs := r.row(r.bands[i])
		j, _ := slices.BinarySearch(xs, b.Min.X-d)
		for j &^= 1; j < len(xs) && xs[j] <= b.Max.X+d; j += 2 {
			if xs[j+1] >= b.Min.X-d {
				visit(Rect{Point{xs[j], r.bands[i].y0}, Point{xs[j+1], r.bands[i].y1}})
			}
		}
	}
}

func rectBetween(p, q Point) Rect {
	return Rect{Point{min(p.X, q.X), min(p.Y, q.Y)}, Point{max(p.X, q.X), max(p.Y, q.Y)}}
}

// gapBetween is rectBetween, but never without area.
func gapBetween(p, q Point) Rect {
	r := rectBetween(p, q)
	if p.X == q.X {
		r.Min.X, r.Max.X = p.X-1, p.X+1
	}
	if p.Y == q.Y {
		r.Min.Y, r.Max.Y = p.Y-1, p.Y+1
	}
	return r
}

func floorDiv(a, b Um) Um {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
