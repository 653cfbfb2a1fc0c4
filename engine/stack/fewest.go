package stack

import "slices"

// First is the forest of the first step: at each region all patches of the
// chosen colour show. It honours r and has at most as many heights as d has
// colours.
//
// Errors: a *ContradictionError where r's rules can't all be met.
func First(d Drawing, r Rules) (*Forest, error) {
	r.Rounds = -1
	return Fewest(d, r)
}

// Fewest is the forest with the fewest parts that the search finds, ties by
// Cost, with at most r.ExtraHeights heights beyond the number of colours. It is
// never worse than First, and the same drawing and rules always give the same
// forest.
//
// Errors: a *ContradictionError where r's rules can't all be met.
func Fewest(d Drawing, r Rules) (*Forest, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	colours := d.Colours()
	r.Joins &= colours
	if r.Joins != 0 && r.Joins != colours {
		return fewestMixed(d, r), nil
	}
	g := findPatches(d, r.Joins)
	t, bounded := search(g, r, colours.Len()+max(0, r.ExtraHeights))
	f := t.forest(g)
	f.Bounded = bounded
	return f, nil
}

// Colours are the colours that d shows.
func (d Drawing) Colours() Colours {
	var s Colours
	for _, c := range d.Cells {
		s |= Of(c)
	}
	return s &^ Of(0)
}

// search finds the best tree for a graph, within limit heights, whose regions
// hang together as its links say. bounded: the first step took a beam.
func search(g *patches, r Rules, limit int) (best tree, bounded bool) {
	fl := newFlood(g)
	s := newSecond(g, r, limit)
	var pieces []*options
	for _, piece := range fl.whole() {
		slices.Sort(piece.patches)
		o := solve(g.sub(piece.patches), r, allShow, limit, firstBound(piece))
		if o != nil {
			o = o.renamed(piece.patches)
		} else {
			bounded = true
			o = throughBeam(fl, r, piece)
		}
		if r.Rounds >= 0 {
			best, _ := o.within(limit)
			o = o.orBetter(s.options(best.grow()))
		}
		pieces = append(pieces, o)
	}
	t, _ := combine(pieces, limit)
	return t, bounded
}

// throughBeam cuts a piece that is too large to be solved.
func throughBeam(fl *flood, r Rules, piece region) *options {
	lay := newTrial(fl.g, r)
	order := (&beam{fl, r}).cut(nil, piece, -1).orderOf()
	c, _ := lay.cost(order)
	t := lay.tree(order)
	var o options
	o.add(c, c.Heights, func() tree { return t })
	return &o
}
