package stack

import (
	"cmp"
	"slices"
)

// beam is the first step for a region whose recursion takes too long. It
// chooses a colour by looking two choices ahead at the fewest parts that could
// come of it, a part for each colour in each piece, and goes on with the
// pieces, exactly as soon as they have few enough colours.
type beam struct {
	*flood
	rules Rules
}

// beamExact is the most colours of a region that is cut exactly within a beam:
// 128 sets of colours at the most. beamWidth is how many colours are looked at
// twice.
const (
	beamExact = 7
	beamWidth = 3
)

// cut lays out r on part on.
func (f *beam) cut(t tree, r region, on int) tree {
	if n := len(r.patches); r.colours.Len() <= beamExact && n <= wordMost {
		slices.Sort(r.patches)
		if o := solve(f.g.sub(r.patches), f.rules, allShow, beamExact, fewBound); o != nil {
			best, _ := o.renamed(r.patches).within(beamExact)
			return t.graft(best.grow(), on)
		}
	}
	wide := f.views(r)
	wide = wide[:min(len(wide), beamWidth)]
	v := slices.MinFunc(wide, func(a, b beamView) int { return cmp.Compare(f.ahead(a), f.ahead(b)) })
	p := treePart{colour: v.colour, on: on}
	for _, q := range r.patches {
		if f.g.colour[q] == v.colour {
			p.shows = append(p.shows, q)
		}
	}
	at := len(t)
	t = append(t, p)
	for _, q := range v.pieces {
		t = f.cut(t, q, at)
	}
	return t
}

// beamView is a colour chosen for a region and what it leaves.
type beamView struct {
	colour Colour
	pieces []region
	bound  int // the fewest parts that the pieces can take
}

// views are all choices for r that the rules allow, the most promising first.
func (f *beam) views(r region) []beamView {
	var out []beamView
	for c := Colour(1); c <= MaxColours; c++ {
		if !r.colours.Has(c) || f.rules.Below[c]&r.colours&^Of(c) != 0 {
			continue
		}
		v := beamView{colour: c, pieces: f.split(r.patches, func(p int32) bool { return f.g.colour[p] != c })}
		for _, q := range v.pieces {
			v.bound += q.colours.Len()
		}
		out = append(out, v)
	}
	slices.SortStableFunc(out, func(a, b beamView) int { return cmp.Compare(a.bound, b.bound) })
	return out
}

// ahead is the fewest parts that can come of v after one more choice in each piece.
func (f *beam) ahead(v beamView) int {
	n := 0
	for _, q := range v.pieces {
		n += 1 + f.views(q)[0].bound
	}
	return n
}
