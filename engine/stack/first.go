package stack

import (
	"math"
	"slices"
)

// first is the first step: at each region all patches of the chosen colour
// show. It is exact for that rule. What a region costs depends on nothing but
// the region: the part cut from it shows every patch of the chosen colour, and
// each connected piece of what is left is a region of its own, with one colour
// less. So the best choice for a region follows from the best choices for
// those pieces, and a region reached in several ways is worked out once. The
// number of regions is bounded by that of the sets of colours times the
// patches; real drawings need few of them.
//
// Ties make the cost not quite a sum: heights count as a maximum. So each
// region keeps its best cost for every number of heights it may use.
type first struct {
	*flood
	rules Rules
	seen  map[regionKey]*best
	limit int // operations after which no new region is worked out exactly
}

// regionKey names a region: it is the connected piece of the drawing's patches
// in its own colours that holds its first patch.
type regionKey struct {
	colours Colours
	first   int32
}

// best are the cheapest ways to cut a region.
type best struct {
	region region
	within []choice // within[h-1]: using at most h heights, h up to the number of colours
}

// choice is a region's colour, and what the region then costs in all.
type choice struct {
	colour Colour // 0: it can't be done in so few heights
	cost   Cost
}

// firstBound is how many operations the first step may take, in links
// followed, for each connected piece: about a tenth of a second.
const firstBound = 20_000_000

func newFirst(f *flood, rules Rules) *first {
	return &first{flood: f, rules: rules, seen: map[regionKey]*best{}, limit: f.work + firstBound}
}

// solve works out the best ways to cut r; nil where the bound was met.
func (f *first) solve(r region) *best {
	key := regionKey{r.colours, slices.Min(r.patches)}
	if b, ok := f.seen[key]; ok {
		return b
	}
	if f.work > f.limit {
		return nil
	}
	k := r.colours.Len()
	b := &best{region: r, within: make([]choice, k)}
	own := f.measure(r, f.rules)
	for c := Colour(1); c <= MaxColours; c++ {
		if !f.mayLie(r, c) {
			continue
		}
		part := own
		part.Joins = f.newJoins(r, c)
		pieces := f.split(r.patches, func(p int32) bool { return f.g.colour[p] != c })
		solved := make([]*best, len(pieces))
		for i, q := range pieces {
			if solved[i] = f.solve(q); solved[i] == nil {
				return nil
			}
		}
		for h := 1; h <= k; h++ {
			if cost, ok := together(solved, h-1); ok {
				b.within[h-1].offer(choice{c, cost.on(part)})
			}
		}
	}
	for h := 1; h < k; h++ {
		b.within[h].offer(b.within[h-1])
	}
	f.seen[key] = b
	return b
}

// offer takes d where it is better. Heights don't count here: the slot bounds them.
func (c *choice) offer(d choice) {
	if d.colour == 0 {
		return
	}
	if c.colour == 0 || d.cost.lessWithin(c.cost) {
		*c = d
	}
}

// at is the best choice within h heights.
func (b *best) at(h int) (choice, bool) {
	if h == 0 {
		return choice{}, false
	}
	c := b.within[min(h, len(b.within))-1]
	return c, c.colour != 0
}

// together is the cost of all regions side by side, each within h heights.
func together(regions []*best, h int) (Cost, bool) {
	var sum Cost
	for _, b := range regions {
		c, ok := b.at(h)
		if !ok {
			return Cost{}, false
		}
		sum = sum.beside(c.cost)
	}
	return sum, true
}

// grow lays out the best tree for a region within h heights.
func (f *first) grow(t tree, b *best, on, h int) tree {
	c, _ := b.at(h)
	p := treePart{colour: c.colour, on: on}
	for _, q := range b.region.patches {
		if f.g.colour[q] == c.colour {
			p.shows = append(p.shows, q)
		}
	}
	at := len(t)
	t = append(t, p)
	for _, q := range f.split(b.region.patches, func(p int32) bool { return f.g.colour[p] != c.colour }) {
		t = f.grow(t, f.solve(q), at, min(h, len(b.within))-1)
	}
	return t
}

// options are the ways to cut the piece r; nil where the bound was met.
func (f *first) options(r region) *options {
	b := f.solve(r)
	if b == nil {
		return nil
	}
	var o options
	for h := 1; h <= len(b.within); h++ {
		if c, ok := b.at(h); ok {
			o.add(c.cost, h, func() tree { return f.grow(nil, b, -1, h) })
		}
	}
	return &o
}

// newJoins counts the corners of r that are held by a join that shows once c
// is taken away: both ends are still there and no cell beside them is.
func (f *first) newJoins(r region, c Colour) int {
	g := f.g
	if len(g.corners) == 0 {
		return 0
	}
	f.stamp++
	for _, p := range r.patches {
		f.mark[p] = f.stamp
	}
	left := func(p int32) bool { return p >= 0 && f.mark[p] == f.stamp && g.colour[p] != c }
	n := 0
	for _, p := range r.patches {
		if g.colour[p] != c {
			continue
		}
		for _, k := range g.beside[g.besideFirst[p]:g.besideFirst[p+1]] {
			f.work++
			q := g.corners[k]
			// Where both cells beside go at once, count it with the first.
			if q.b != p && q.b >= 0 && f.mark[q.b] == f.stamp {
				if g.colour[q.b] == c {
					continue
				}
			}
			if left(q.a) && left(q.d) && !left(q.b) && !left(q.c) {
				n++
			}
		}
	}
	return n
}

// infinite is worse than any forest.
var infinite = Cost{Parts: math.MaxInt}
