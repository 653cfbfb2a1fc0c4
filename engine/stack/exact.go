package stack

import "math/bits"

// exact finds the best of all forests of a small piece: at each region it
// tries each colour and each choice of that colour's patches to show. It works
// like the first step, only that what shows is any set of the colour's patches.
type exact struct {
	g       *patches
	rules   Rules
	limit   int // most heights
	touches [exactMost]uint64
	of      [MaxColours + 1]uint64 // patches of each colour
	seen    map[uint64]*exactBest
	left    int // choices that may still be tried
}

// exactMost is the most patches for which exact is tried at all, exactBound
// how many choices it may try before it gives up: some hundredths of a second.
const (
	exactMost  = 18
	exactBound = 60_000
)

type exactBest struct {
	within []exactChoice
}

type exactChoice struct {
	shows  uint64 // 0: it can't be done in so few heights
	colour Colour
	cost   Cost
}

// solveExactly returns the best ways to cut the piece, nil where it is too
// large for that.
func solveExactly(g *patches, rules Rules, limit int) *options {
	n := len(g.colour)
	if n > exactMost {
		return nil
	}
	e := &exact{g: g, rules: rules, limit: min(limit, n), seen: map[uint64]*exactBest{}, left: exactBound}
	for p := range n {
		e.of[g.colour[p]] |= 1 << p
		for _, l := range g.neighbours(int32(p)) {
			e.touches[p] |= 1 << l.to
		}
	}
	all := uint64(1)<<n - 1
	b := e.solve(all)
	if b == nil {
		return nil
	}
	var o options
	for h := 1; h <= len(b.within); h++ {
		if b.within[h-1].shows != 0 {
			o.add(b.within[h-1].cost, h, func() tree { return e.grow(nil, all, -1, h) })
		}
	}
	return &o
}

// solve works out the best ways to cut r; nil where the bound was met.
func (e *exact) solve(r uint64) *exactBest {
	if b, ok := e.seen[r]; ok {
		return b
	}
	most := min(e.limit, bits.OnesCount64(r))
	b := &exactBest{within: make([]exactChoice, most)}
	own := e.measure(r)
	var colours Colours
	for c := Colour(1); c <= MaxColours; c++ {
		if e.of[c]&r != 0 {
			colours |= Of(c)
		}
	}
	for c := Colour(1); c <= MaxColours; c++ {
		mine := e.of[c] & r
		if mine == 0 || e.rules.Below[c]&colours&^Of(c) != 0 {
			continue
		}
		for shows := mine; shows != 0; shows = (shows - 1) & mine {
			if e.left--; e.left < 0 {
				return nil
			}
			part := own
			part.Joins = e.newJoins(r&^shows, shows)
			var pieces [exactMost]*exactBest
			k := 0
			for rest := r &^ shows; rest != 0; k++ {
				q := e.reach(rest)
				rest &^= q
				if pieces[k] = e.solve(q); pieces[k] == nil {
					return nil
				}
			}
			for h := 1; h <= most; h++ {
				sum, ok := Cost{}, true
				for _, q := range pieces[:k] {
					c, can := q.at(h - 1)
					ok = ok && can
					sum = sum.beside(c.cost)
				}
				if ok {
					b.within[h-1].offer(exactChoice{shows, c, sum.on(part)})
				}
			}
		}
	}
	for h := 1; h < most; h++ {
		b.within[h].offer(b.within[h-1])
	}
	e.seen[r] = b
	return b
}

func (c *exactChoice) offer(d exactChoice) {
	if d.shows != 0 && (c.shows == 0 || d.cost.lessWithin(c.cost)) {
		*c = d
	}
}

func (b *exactBest) at(h int) (exactChoice, bool) {
	if h == 0 {
		return exactChoice{}, false
	}
	c := b.within[min(h, len(b.within))-1]
	return c, c.shows != 0
}

// grow lays out the best tree for r within h heights.
func (e *exact) grow(t tree, r uint64, on, h int) tree {
	c, _ := e.seen[r].at(h)
	at := len(t)
	p := treePart{colour: c.colour, on: on}
	for s := c.shows; s != 0; s &= s - 1 {
		p.shows = append(p.shows, int32(bits.TrailingZeros64(s)))
	}
	t = append(t, p)
	for rest := r &^ c.shows; rest != 0; {
		q := e.reach(rest)
		rest &^= q
		t = e.grow(t, q, at, min(h, len(e.seen[r].within))-1)
	}
	return t
}

// reach is the connected piece of rest that holds its first patch.
func (e *exact) reach(rest uint64) uint64 {
	q := rest & -rest
	for edge := q; edge != 0; {
		next := uint64(0)
		for ; edge != 0; edge &= edge - 1 {
			next |= e.touches[bits.TrailingZeros64(edge)]
		}
		edge = next & rest &^ q
		q |= edge
	}
	return q
}

// measure is what one part cut from all of r costs by itself.
func (e *exact) measure(r uint64) Cost {
	c := Cost{Parts: 1, Heights: 1}
	b := e.g.box[bits.TrailingZeros64(r)]
	for s := r; s != 0; s &= s - 1 {
		p := bits.TrailingZeros64(s)
		b = b.union(e.g.box[p])
		c.Cut += int(e.g.sides[p])
		for _, l := range e.g.neighbours(int32(p)) {
			if r>>l.to&1 != 0 {
				c.Cut -= int(l.shared)
			}
		}
	}
	if b.side() <= e.rules.SmallCells {
		c.Small = 1
	}
	return c
}

// newJoins counts the corners whose ends are in rest while no cell beside them
// is any more.
func (e *exact) newJoins(rest, shows uint64) int {
	has := func(s uint64, p int32) bool { return p >= 0 && s>>p&1 != 0 }
	n := 0
	for _, k := range e.g.corners {
		if has(rest, k.a) && has(rest, k.d) && !has(rest, k.b) && !has(rest, k.c) && (has(shows, k.b) || has(shows, k.c)) {
			n++
		}
	}
	return n
}
