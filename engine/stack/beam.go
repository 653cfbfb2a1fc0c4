package stack

// beam cuts a region for which the first step's recursion would take too long.
// It chooses a colour by looking two choices ahead at the fewest parts that
// could come of it, a part for each colour in each piece, and goes on with the
// pieces, exactly as soon as they have few enough colours.
func (f *first) beam(t tree, r region, on int) tree {
	if r.colours.Len() <= beamExact {
		f.limit = f.work + firstBound
		if b := f.solve(r); b != nil {
			return f.grow(t, b, on, len(b.within))
		}
	}
	type view struct {
		colour Colour
		pieces []region
		bound  int
	}
	var wide []view // the most promising ones, best first
	for c := Colour(1); c <= MaxColours; c++ {
		if !f.mayLie(r, c) {
			continue
		}
		v := view{colour: c, pieces: f.split(r.patches, func(p int32) bool { return f.g.colour[p] != c })}
		v.bound = leastParts(v.pieces)
		at := len(wide)
		for at > 0 && v.bound < wide[at-1].bound {
			at--
		}
		wide = append(wide, view{})
		copy(wide[at+1:], wide[at:])
		wide[at] = v
		wide = wide[:min(len(wide), beamWidth)]
	}
	chosen, least := 0, -1
	for i, v := range wide {
		sum := 0
		for _, q := range v.pieces {
			sum += f.ahead(q)
		}
		if least < 0 || sum < least {
			chosen, least = i, sum
		}
	}
	v := wide[chosen]
	p := treePart{colour: v.colour, on: on}
	for _, q := range r.patches {
		if f.g.colour[q] == v.colour {
			p.shows = append(p.shows, q)
		}
	}
	at := len(t)
	t = append(t, p)
	for _, q := range v.pieces {
		t = f.beam(t, q, at)
	}
	return t
}

// beamExact is the most colours of a region that is cut exactly within a beam:
// 128 sets of colours at the most. beamWidth is how many colours are looked at
// twice.
const (
	beamExact = 7
	beamWidth = 3
)

// mayLie says whether the rules let a part of colour c lie under the rest of r.
func (f *first) mayLie(r region, c Colour) bool {
	return r.colours.Has(c) && f.rules.Below[c]&r.colours&^Of(c) == 0
}

// leastParts is a lower bound of the parts that the regions need.
func leastParts(regions []region) int {
	n := 0
	for _, q := range regions {
		n += q.colours.Len()
	}
	return n
}

// ahead is the least bound after one more choice in r.
func (f *first) ahead(r region) int {
	least := -1
	for c := Colour(1); c <= MaxColours; c++ {
		if f.mayLie(r, c) {
			n := 1 + leastParts(f.split(r.patches, func(p int32) bool { return f.g.colour[p] != c }))
			if least < 0 || n < least {
				least = n
			}
		}
	}
	return least
}
