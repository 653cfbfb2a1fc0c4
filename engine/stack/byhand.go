package stack

import "fmt"

// ByHand lays the colours in the order given, lowest first: in each region the
// first of them that occurs there is the part, and all its patches show.
// Colours that the order leaves out come above, in their own order. r's rules on
// what lies over what don't apply.
//
// Errors: a colour named twice or out of range.
func ByHand(d Drawing, r Rules, order []Colour) (*Forest, error) {
	var named Colours
	for _, c := range order {
		if c < 1 || c > MaxColours {
			return nil, fmt.Errorf("the order names colour %d: colours are numbered from 1 to %d", c, MaxColours)
		}
		if named.Has(c) {
			return nil, fmt.Errorf("the order names colour %d twice: name each colour once", c)
		}
		named |= Of(c)
	}
	for c := Colour(1); c <= MaxColours; c++ {
		if !named.Has(c) {
			order = append(order[:len(order):len(order)], c)
		}
	}
	m := newMixed(d, r)
	choose := func(q crossing) (Colour, func(crossing) []int32) {
		for _, c := range order {
			if q.colours.Has(c) {
				return c, m.allOf(c)
			}
		}
		panic(fmt.Sprintf("a region without colours: %v", q))
	}
	all := make([]int32, len(m.g.colour))
	for p := range all {
		all[p] = int32(p)
	}
	var t tree
	for _, piece := range m.split(all, nil, byCorners, func(int32) bool { return true }) {
		t = m.lay(t, piece, -1, choose)
	}
	return t.forest(m.g), nil
}
