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
	limit := colours.Len() + max(0, r.ExtraHeights)
	first, bounded, ok := r.Begun.first(d, r, limit)
	if !ok {
		first, bounded = firstStep(g, r, limit)
	}
	if r.Rounds < 0 {
		r.Begun.keep(d, r, limit, first, bounded)
	}
	f := secondStep(g, r, limit, first).forest(g)
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
	first, bounded := firstStep(g, r, limit)
	return secondStep(g, r, limit, first), bounded
}

// firstStep is how each connected piece is cut best if all patches of a region's
// colour show.
func firstStep(g *patches, r Rules, limit int) (pieces []*options, bounded bool) {
	fl := newFlood(g)
	for _, piece := range fl.whole() {
		slices.Sort(piece.patches)
		o := solve(g.sub(piece.patches), r, allShow, limit, firstBound(piece))
		if o != nil {
			o = o.renamed(piece.patches)
		} else {
			bounded = true
			o = throughBeam(fl, r, piece)
		}
		pieces = append(pieces, o)
	}
	return pieces, bounded
}

// secondStep betters the first step's pieces, unless the rules give it no
// rounds, and puts them together.
func secondStep(g *patches, r Rules, limit int, first []*options) tree {
	s := newSecond(g, r, limit)
	pieces := slices.Clone(first)
	for i, o := range pieces {
		if r.Rounds >= 0 {
			best, _ := o.within(limit)
			pieces[i] = o.orBetter(s.options(best.grow()))
		}
	}
	t, _ := combine(pieces, limit)
	return t
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
