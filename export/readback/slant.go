package readback

import (
	"cmp"
	"slices"
)

// slant is an edge of a backer that stands out: upright, slanted or, where an
// arc is, its chord. Arcs bend outwards, so the chord bounds what is there for
// certain. Solid lies to its right where sign is 1, to its left where it is −1.
type slant struct {
	x0, y0, x1, y1 int64 // y0 < y1
	part, sign     int
}

func newSlant(v, n vertex, part int) slant {
	if v.y > n.y {
		return slant{n.x, n.y, v.x, v.y, part, 1}
	}
	return slant{v.x, v.y, n.x, n.y, part, -1}
}

// within are the bounds of x, whole µm, between two heights.
func (s slant) within(ya, yb int64) (lo, hi int64) {
	at := func(y int64) (lo, hi int64) {
		n, d := (s.x1-s.x0)*(y-s.y0), s.y1-s.y0
		q := n / d
		if n%d < 0 {
			q--
		}
		lo, hi = s.x0+q, s.x0+q
		if n%d != 0 {
			hi++
		}
		return lo, hi
	}
	a, b := at(ya)
	c, d := at(yb)
	return min(a, c), max(b, d)
}

// across are the edges of what the parts surely fill from ya to yb.
func across(edges []slant, ya, yb int64) []edge {
	type crossing struct {
		slant
		lo, hi int64
	}
	all := make([]crossing, len(edges))
	for i, s := range edges {
		lo, hi := s.within(ya, yb)
		all[i] = crossing{s, lo, hi}
	}
	slices.SortFunc(all, func(a, b crossing) int {
		return cmp.Or(cmp.Compare(a.lo+a.hi, b.lo+b.hi), cmp.Compare(a.sign, b.sign))
	})
	out := make([]edge, 0, len(all))
	for i, c := range all {
		if c.sign > 0 && i+1 < len(all) && all[i+1].sign < 0 && all[i+1].part == c.part {
			if c.hi < all[i+1].lo { // else the band shows nothing of it for certain
				out = append(out, newEdge(c.hi, ya, yb, c.part, 1), newEdge(all[i+1].lo, ya, yb, c.part, -1))
			}
			continue
		}
		if c.sign < 0 && i > 0 && all[i-1].sign > 0 && all[i-1].part == c.part {
			continue
		}
		out = append(out, newEdge((c.lo+c.hi)/2, ya, yb, c.part, c.sign)) // out of order: the walk refuses it
	}
	return out
}
