package shape

import (
	"cmp"
	"slices"
)

// groups is sets of numbers that can be united (union–find).
type groups []int

func (g groups) of(i int) int {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

func (g groups) unite(i, j int) { g[g.of(j)] = g.of(i) }

// groupRects puts rectangles of r that share a stretch of a side into one group.
func groupRects(r Region, rects []Rect) groups {
	g := make(groups, len(rects))
	for i := range g {
		g[i] = i
	}
	for k := 1; k < len(r.bands); k++ {
		lo, up := r.bands[k-1], r.bands[k]
		if lo.y1 != up.y0 {
			continue
		}
		for i, j := lo.i0/2, up.i0/2; i < lo.i1/2 && j < up.i1/2; {
			a, c := rects[i], rects[j]
			if a.Min.X < c.Max.X && c.Min.X < a.Max.X {
				g.unite(i, j)
			}
			if a.Max.X < c.Max.X {
				i++
			} else {
				j++
			}
		}
	}
	return g
}

// join links the pieces end to end. Of the contours that come from one
// connected piece of stock the largest is its outer one.
func (b *borderline) join() []Outline {
	starts := map[Point][]int{}
	for i, p := range b.pieces {
		starts[p.a] = append(starts[p.a], i)
	}
	used := make([]bool, len(b.pieces))
	contours := map[int][]Contour{}
	for i := range b.pieces {
		if used[i] {
			continue
		}
		var c Contour
		for k := i; k >= 0; {
			p := b.pieces[k]
			used[k] = true
			v := Vertex{Point: p.a}
			if p.turn != Straight {
				v.Arc = &Arc{p.turn, p.centre, b.reach}
			}
			c = append(c, v)
			k = -1
			if p.b == b.pieces[i].a {
				break
			}
			for _, n := range starts[p.b] {
				if !used[n] && (k < 0 || b.groups.of(b.pieces[n].group) == b.groups.of(p.group)) {
					k = n
				}
			}
			if k < 0 {
				panic("shape: the outline of a grown region isn't closed")
			}
		}
		if c = c.simplified(); len(c) > 1 {
			g := b.groups.of(b.pieces[i].group)
			contours[g] = append(contours[g], c)
		}
	}
	var out []Outline
	for _, cs := range contours {
		out = append(out, nested(cs))
	}
	slices.SortFunc(out, func(p, q Outline) int { return byTop(p.Outer, q.Outer) })
	return out
}

// nested makes the largest contour the outer one; slivers that run the wrong
// way after rounding enclose less than the rounding and are left out.
func nested(cs []Contour) Outline {
	areas := make([]Um2, len(cs))
	largest := 0
	for i, c := range cs {
		areas[i] = c.Area()
		if areas[i] > areas[largest] {
			largest = i
		}
	}
	o := Outline{Outer: cs[largest]}
	for i, c := range cs {
		if i != largest && areas[i] < 0 {
			o.Holes = append(o.Holes, c)
		}
	}
	slices.SortFunc(o.Holes, byTop)
	return o
}

// byTop orders contours by their topmost, then leftmost vertex.
func byTop(p, q Contour) int {
	a, b := p[0].Point, q[0].Point
	return cmp.Or(cmp.Compare(b.Y, a.Y), cmp.Compare(a.X, b.X))
}

// simplified is c without straight vertices in line, begun at its topmost,
// then leftmost vertex.
func (c Contour) simplified() Contour {
	out := c[:0:0]
	n := len(c)
	for i, v := range c {
		before, after := c[(i+n-1)%n], c[(i+1)%n]
		if before.Arc == nil && v.Arc == nil && cross(v.Sub(before.Point), after.Sub(v.Point)) == 0 {
			continue
		}
		out = append(out, v)
	}
	if len(out) < n && len(out) > 0 {
		return out.simplified()
	}
	first := 0
	for i := range out {
		if byTop(out[i:i+1], out[first:first+1]) < 0 {
			first = i
		}
	}
	return append(out[first:len(out):len(out)], out[:first]...)
}
