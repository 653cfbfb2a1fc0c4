package stack

import "slices"

// improve searches orders from t's own on, as the second step does, but lays
// each from below: what hangs together above depends on what lies below.
func (m *mixed) improve(t tree, limit int) tree {
	if len(m.g.colour) < 3 {
		return t
	}
	rules := m.rules
	a := newAnnealer(m.g, rules, limit)
	rounds := min(mixedRounds, mixedRounds*150/len(m.g.colour))
	count := func(o order) (Cost, int) {
		t := m.tree(o)
		return m.cost(t), m.brokenBy(t)
	}
	start := t.orderOf()
	best := a.cool(start, rounds, coarse, 220, 50, count, nil)
	found, broken := count(best)
	if before := m.cost(t); broken == 0 && found.Heights <= limit && found.Compare(before) < 0 {
		return m.tree(best)
	}
	return t
}

// tree lays the order from below.
func (m *mixed) tree(o order) tree {
	place := make([]int32, len(m.g.colour))
	for i, p := range o {
		place[p] = int32(i)
	}
	var t tree
	for _, piece := range m.split(slices.Sorted(slices.Values(o)), nil, byCorners, func(int32) bool { return true }) {
		t = m.lay(t, piece, -1, m.byOrder(place))
	}
	return t
}

// byOrder chooses the colour of the region's last patch in the order. In each
// piece the last patch of that colour shows, and what comes to be last in a
// region above it as long as that has the same colour.
func (m *mixed) byOrder(place []int32) chooser {
	last := func(members []int32) int32 {
		l := members[0]
		for _, p := range members {
			if place[p] > place[l] {
				l = p
			}
		}
		return l
	}
	return func(r crossing) (Colour, func(crossing) []int32) {
		c := m.g.colour[last(r.patches)]
		return c, func(piece crossing) []int32 {
			var mine []int32
			for _, p := range piece.patches {
				if m.g.colour[p] == c {
					mine = append(mine, p)
				}
			}
			shows := []int32{last(mine)}
			for again := true; again; {
				again = false
				for _, q := range m.rest(piece, shows) {
					if p := last(q.patches); m.g.colour[p] == c {
						shows = append(shows, p)
						again = true
					}
				}
				slices.Sort(shows)
			}
			return shows
		}
	}
}

// cost counts a tree's parts, small parts, heights and cut; not joins.
func (m *mixed) cost(t tree) Cost {
	h := t.heights()
	members := make([][]int32, len(t))
	var c Cost
	for i := len(t) - 1; i >= 0; i-- {
		members[i] = append(members[i], t[i].shows...)
		if t[i].on >= 0 {
			members[t[i].on] = append(members[t[i].on], members[i]...)
		}
		own := m.measure(crossing{region: region{patches: members[i]}})
		own.Heights = h[i]
		c = c.beside(own)
	}
	return c
}

// brokenBy counts the rules that a tree breaks.
func (m *mixed) brokenBy(t tree) int {
	n := 0
	above := make([]Colours, len(t))
	for i := len(t) - 1; i >= 0; i-- {
		if m.rules.Below[t[i].colour]&above[i] != 0 {
			n++
		}
		if t[i].on >= 0 {
			above[t[i].on] |= above[i] | Of(t[i].colour)
		}
	}
	return n
}
