package stack

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// showing says which patches of a region's colour may show on its part.
type showing int

const (
	allShow showing = iota // the first step: all of them
	anyShow                // the second: any of them, the others higher up
)

// solver finds the best forest for a connected piece by recursion with memory.
//
// It is exact for its rule. What a region costs depends on nothing but the
// region: the part cut from it shows some patches of one colour, and each
// connected piece of what is left is a region of its own. So the best choice
// for a region follows from the best choices for those pieces, and a region
// reached in several ways is worked out once. With allShow a region is given by
// the colours taken away and one of its patches, so that there are at most
// 2^colours regions for each patch, and real drawings need few of them.
//
// Ties make the cost not quite a sum: heights count as a maximum. So each
// region keeps its best cost for every number of heights it may use.
type solver[W word] struct {
	g       *patches
	rules   Rules
	show    showing
	limit   int // most heights
	touches []W // neighbours
	of      [MaxColours + 1]W
	seen    map[W]*best[W]
	left    int // operations that it may still take
}

// best are the cheapest ways to cut a region.
type best[W word] struct {
	within []choice[W] // within[h-1]: using at most h heights
}

// choice is what shows of a region, and what the region then costs in all.
type choice[W word] struct {
	colour Colour // 0: it can't be done in so few heights
	shows  W
	cost   Cost
}

// Bounds, in patches looked at. Beyond its bound the first step is left to the
// beam; beyond exactBound, or for more than exactMost patches, the second one is
// left to the annealing. Up to fewColours, of which there are at most 256 sets,
// the first step may take its time; it rarely takes a tenth of it.
const (
	fewColours = 8
	fewBound   = 4_000_000
	solveBound = 200_000
	exactBound = 1_000_000
	exactMost  = 18
)

// solve returns the best ways to cut g, which hangs together, within limit
// heights; nil where the bound was met or g is too large.
func solve(g *patches, r Rules, show showing, limit, bound int) *options {
	switch n := len(g.colour); {
	case n <= 64:
		return newSolver[[1]uint64](g, r, show, limit, bound).options()
	case n <= 128:
		return newSolver[[2]uint64](g, r, show, limit, bound).options()
	case n <= wordMost:
		return newSolver[[4]uint64](g, r, show, limit, bound).options()
	}
	return nil
}

func newSolver[W word](g *patches, r Rules, show showing, limit, bound int) *solver[W] {
	s := &solver[W]{g: g, rules: r, show: show, limit: limit, seen: map[W]*best[W]{}, left: bound}
	s.touches = make([]W, len(g.colour))
	for p, c := range g.colour {
		s.of[c] = with(s.of[c], int32(p))
		for _, l := range g.neighbours(int32(p)) {
			s.touches[p] = with(s.touches[p], l.to)
		}
	}
	return s
}

func (s *solver[W]) options() *options {
	var all W
	for p := range s.g.colour {
		all = with(all, int32(p))
	}
	b := s.solve(all)
	if b == nil {
		return nil
	}
	var o options
	for h := 1; h <= len(b.within); h++ {
		if c, ok := b.at(h); ok {
			o.add(c.cost, h, func() tree { return s.grow(nil, all, -1, h) })
		}
	}
	return &o
}

// solve works out the best ways to cut r; nil where the bound was met.
func (s *solver[W]) solve(r W) *best[W] {
	if b, ok := s.seen[r]; ok {
		return b
	}
	if s.left < 0 {
		return nil
	}
	most := min(s.limit, size(r))
	if s.show == allShow {
		most = min(most, s.colours(r).Len())
	}
	b := &best[W]{within: make([]choice[W], most)}
	own := s.measure(r)
	least := math.MaxInt // parts of the best choice so far
	var split []W        // pieces of a view that knows none
	solved := make([]*best[W], 0, 8)
	views, known := s.views(r)
	for _, v := range views {
		if v.bound > least {
			break
		}
		solved = solved[:0]
		pieces := known[v.from:v.to]
		if s.show == anyShow {
			split = s.pieces(split[:0], andNot(r, v.shows))
			pieces = split
		}
		s.left -= v.work
		bound := 1
		for _, q := range pieces {
			bound += s.leastParts(q)
		}
		for _, q := range pieces {
			if bound > least {
				break
			}
			bound -= s.leastParts(q)
			p := s.solve(q)
			if p == nil {
				return nil
			}
			bound += s.leastParts(q)
			solved = append(solved, p)
		}
		if bound > least {
			continue
		}
		part := own
		part.Joins = s.newJoins(andNot(r, v.shows), v.shows)
		if s.show == allShow {
			// A choice with more parts is never taken: parts count first,
			// and no choice needs more heights than there are colours.
			least = bound
		}
		for h := 1; h <= most; h++ {
			if cost, ok := together(solved, h-1); ok {
				b.within[h-1].offer(choice[W]{v.colour, v.shows, cost.on(part)})
			}
		}
	}
	for h := 1; h < most; h++ {
		b.within[h].offer(b.within[h-1])
	}
	s.seen[r] = b
	return b
}

// view is a choice for a region before it is worked out.
type view[W word] struct {
	colour Colour
	shows  W
	bound  int // with allShow: the fewest parts that can come of it
	from   int // with allShow: its pieces among those of all views
	to     int
	work   int // that finding them took; taken again, as looking at them is work too
}

// views are all choices for r that the rules allow, the most promising first,
// and with allShow the pieces that they leave.
func (s *solver[W]) views(r W) (out []view[W], pieces []W) {
	colours := s.colours(r)
	out = make([]view[W], 0, colours.Len())
	if s.show == allShow {
		pieces = make([]W, 0, 2*colours.Len())
	}
	for left := colours; left != 0; left &= left - 1 {
		c := Colour(bits.TrailingZeros32(uint32(left)))
		if s.rules.Below[c]&colours&^Of(c) != 0 {
			continue
		}
		mine := and(s.of[c], r)
		if s.show == anyShow {
			for shows := mine; !isEmpty(shows); shows = nextSubset(shows, mine) {
				out = append(out, view[W]{colour: c, shows: shows})
			}
			continue
		}
		v := view[W]{colour: c, shows: mine, bound: 1, from: len(pieces), work: s.left}
		pieces = s.pieces(pieces, andNot(r, mine))
		v.to = len(pieces)
		v.work -= s.left
		for _, q := range pieces[v.from:] {
			v.bound += s.leastParts(q)
		}
		out = append(out, v)
	}
	slices.SortStableFunc(out, func(a, b view[W]) int { return cmp.Compare(a.bound, b.bound) })
	return out, pieces
}

// leastParts is a lower bound of the parts that a region takes: a part for each
// colour, or what is known already. With anyShow nothing is bounded: a limit on
// heights can ask for more parts.
func (s *solver[W]) leastParts(r W) int {
	if s.show == anyShow {
		return 0
	}
	if b, ok := s.seen[r]; ok {
		c, _ := b.at(len(b.within))
		return c.cost.Parts
	}
	return s.colours(r).Len()
}

// offer takes d where it is better.
func (c *choice[W]) offer(d choice[W]) {
	if d.colour != 0 && (c.colour == 0 || d.cost.lessWithin(c.cost)) {
		*c = d
	}
}

// at is the best choice within h heights.
func (b *best[W]) at(h int) (choice[W], bool) {
	if h == 0 {
		return choice[W]{}, false
	}
	c := b.within[min(h, len(b.within))-1]
	return c, c.colour != 0
}

// together is the cost of all regions side by side, each within h heights.
func together[W word](regions []*best[W], h int) (Cost, bool) {
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

// grow lays out the best tree for r within h heights.
func (s *solver[W]) grow(t tree, r W, on, h int) tree {
	b := s.seen[r]
	c, _ := b.at(h)
	p := treePart{colour: c.colour, on: on}
	each(c.shows, func(q int32) { p.shows = append(p.shows, q) })
	at := len(t)
	t = append(t, p)
	for _, q := range s.pieces(nil, andNot(r, c.shows)) {
		t = s.grow(t, q, at, min(h, len(b.within))-1)
	}
	return t
}

// pieces appends the connected pieces of rest.
func (s *solver[W]) pieces(to []W, rest W) []W {
	for !isEmpty(rest) {
		q := s.reach(rest)
		rest = andNot(rest, q)
		to = append(to, q)
	}
	return to
}

// reach is the connected piece of rest that holds its first patch.
func (s *solver[W]) reach(rest W) W {
	q := lowest(rest)
	for edge := q; !isEmpty(edge); {
		var next W
		for i := range len(edge) {
			for b := edge[i]; b != 0; b &= b - 1 {
				near := &s.touches[i<<6+bits.TrailingZeros64(b)]
				for j := range len(next) {
					next[j] |= (*near)[j]
				}
				s.left--
			}
		}
		for j := range len(edge) {
			edge[j] = next[j] & rest[j] &^ q[j]
			q[j] |= edge[j]
		}
	}
	return q
}

// colours of a region's patches.
func (s *solver[W]) colours(r W) Colours {
	var out Colours
	for i := range len(r) {
		for b := r[i]; b != 0; b &= b - 1 {
			out |= 1 << s.g.colour[i<<6+bits.TrailingZeros64(b)]
		}
	}
	return out
}

// measure is what one part cut from all of r costs by itself.
func (s *solver[W]) measure(r W) Cost {
	c := Cost{Parts: 1, Heights: 1}
	b := box{math.MaxInt32, math.MaxInt32, math.MinInt32, math.MinInt32}
	for i := range len(r) {
		for left := r[i]; left != 0; left &= left - 1 {
			p := int32(i<<6 + bits.TrailingZeros64(left))
			b = b.union(s.g.box[p])
			c.Cut += int(s.g.sides[p])
			for _, l := range s.g.neighbours(p) {
				if r[l.to>>6]>>(l.to&63)&1 != 0 {
					c.Cut -= int(l.shared)
				}
			}
		}
	}
	if b.side() <= s.rules.SmallCells {
		c.Small = 1
	}
	return c
}

// newJoins counts the corners held by a join that shows once shows is taken
// away: both ends are in rest and no cell beside them is any more.
func (s *solver[W]) newJoins(rest, shows W) int {
	n := 0
	each(shows, func(p int32) {
		for _, i := range s.g.beside[s.g.besideFirst[p]:s.g.besideFirst[p+1]] {
			k := &s.g.corners[i]
			// Where both cells beside go at once, count it with the first.
			if p == k.c && k.b != p && has(shows, k.b) {
				continue
			}
			if has(rest, k.a) && has(rest, k.d) && !has(rest, k.b) && !has(rest, k.c) {
				n++
			}
		}
	})
	return n
}

// firstBound is the first step's bound for a piece.
func firstBound(r region) int {
	if r.colours.Len() <= fewColours {
		return fewBound
	}
	return solveBound
}
