package stack

import (
	"cmp"
	"math"
)

// options are the ways to cut one connected piece that are worth having: for
// each number of heights the best one known.
type options struct{ list []option } // by heights, each better than those before it

type option struct {
	heights int
	cost    Cost
	grow    func() tree
}

// lessWithin compares costs of forests that may all have the heights they have.
func (c Cost) lessWithin(d Cost) bool {
	c.Heights, d.Heights = 0, 0
	return c.Compare(d) < 0
}

// add notes a forest of so many heights; calls come in order of heights.
func (o *options) add(c Cost, heights int, grow func() tree) {
	if len(o.list) == 0 || c.lessWithin(o.list[len(o.list)-1].cost) {
		o.list = append(o.list, option{heights, c, grow})
	}
}

// within is the best option that has at most h heights.
func (o *options) within(h int) (option, bool) {
	for i := len(o.list) - 1; i >= 0; i-- {
		if o.list[i].heights <= h {
			return o.list[i], true
		}
	}
	return option{}, false
}

// combine chooses an option for each piece, so that together they cost least
// within limit heights: pieces may use what heights the tallest one needs.
func combine(pieces []*options, limit int) (tree, Cost) {
	sum := func(h int) (Cost, bool) {
		var c Cost
		for _, p := range pieces {
			o, ok := p.within(h)
			if !ok {
				return Cost{}, false
			}
			c = c.beside(o.cost)
		}
		return c, true
	}
	best, at := Cost{Parts: math.MaxInt}, 0
	for h := 1; h <= limit; h++ {
		if c, ok := sum(h); ok && cmp.Or(cmp.Compare(c.Parts, best.Parts), cmp.Compare(c.Small, best.Small)) < 0 {
			best, at = c, h
		}
	}
	var t tree
	for _, p := range pieces {
		o, _ := p.within(at)
		t = t.graft(o.grow(), -1)
	}
	return t, best
}

// orBetter are the best of both.
func (o *options) orBetter(p *options) *options {
	var out options
	for i, k := 0, 0; i < len(o.list) || k < len(p.list); {
		var next option
		if k == len(p.list) || i < len(o.list) && o.list[i].heights <= p.list[k].heights {
			next = o.list[i]
			i++
		} else {
			next = p.list[k]
			k++
		}
		// Of two with the same heights the better one stays.
		if n := len(out.list); n > 0 && out.list[n-1].heights == next.heights && next.cost.lessWithin(out.list[n-1].cost) {
			out.list = out.list[:n-1]
		}
		out.add(next.cost, next.heights, next.grow)
	}
	return &out
}
