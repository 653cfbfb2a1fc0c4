package stack

// The second step for drawings whose stocks differ: what can't join corners
// lies either over everything that can, where it does no harm, or as low as
// possible, where a region falls into the fewest pieces. Between such parts the
// drawing hangs together in one way, and the search for plain drawings does.

// mixedRounds is the annealing's effort for one region, mixedLayings how many
// patches are laid in all before no further stock is tried below.
const (
	mixedRounds  = 6000
	mixedLayings = 200 * usualRounds
)

// best is the best tree known for a region within limit heights, nil where
// none keeps to them.
func (m *mixed) best(r crossing, limit int) tree {
	if limit < 1 {
		return nil
	}
	var best tree
	var least Cost
	offer := func(t tree) {
		if t == nil {
			return
		}
		if c := m.cost(t); c.Heights <= limit && (best == nil || c.Compare(least) < 0) {
			best, least = t, c
		}
	}
	offer(m.stiffOnTop(r, limit))
	for c := Colour(1); c <= MaxColours; c++ {
		if !m.rules.Joins.Has(c) && m.mayLie(r, c) && (best == nil || m.layings > 0 && !m.rules.stopped()) {
			offer(m.below(r, c, limit))
		}
	}
	return best
}

// below puts colour c, which can't join corners, under all of r.
func (m *mixed) below(r crossing, c Colour, limit int) tree {
	var t tree
	for _, piece := range m.pieces(r, c) {
		if !piece.colours.Has(c) {
			u := m.best(piece, limit)
			if u == nil {
				return nil
			}
			t = t.graft(u, -1)
			continue
		}
		shows := m.allOf(c)(piece)
		at := len(t)
		t = append(t, treePart{colour: c, on: -1, shows: shows})
		for _, q := range m.rest(piece, shows) {
			u := m.best(q, limit-1)
			if u == nil {
				return nil
			}
			t = t.graft(u, at)
		}
	}
	return t
}

// stiffOnTop is the best tree in which what can't join corners lies over
// everything that can; nil where the rules forbid it.
func (m *mixed) stiffOnTop(r crossing, limit int) tree {
	rules := m.rules
	stiff := r.colours &^ rules.Joins
	for c := Colour(1); c <= MaxColours; c++ {
		if stiff.Has(c) {
			rules.Below[c] |= rules.Joins
		}
	}
	if rules.Validate() != nil {
		return nil
	}
	if rules.Rounds == 0 {
		rules.Rounds = mixedRounds
	}
	// Setting a search up is worth some rounds, too.
	m.layings -= (rules.Rounds + mixedRounds/2) * (len(r.patches) + 10)
	t, _ := search(m.graph(r), rules, limit)
	for i := range t {
		for k, p := range t[i].shows {
			t[i].shows[k] = r.patches[p]
		}
	}
	return t
}

// graph is the region as the plain search sees it. Two patches that can't be
// joined don't hang together by a corner: nothing lies under them that could.
func (m *mixed) graph(r crossing) *patches {
	g := m.g.sub(r.patches)
	across := make([][]int32, len(r.patches))
	for _, k := range m.within(r.patches, m.cornersOf(r)) {
		q := m.corners[k]
		if !m.rules.Joins.Has(m.g.colour[q.a]) && !m.rules.Joins.Has(m.g.colour[q.d]) {
			continue
		}
		a, d := index(r.patches, q.a), index(r.patches, q.d)
		across[a] = append(across[a], d)
		across[d] = append(across[d], a)
	}
	links := g.link
	g.link = nil
	from := g.first[0]
	for p := range r.patches {
		to := g.first[p+1]
		g.link = append(g.link, links[from:to]...)
		for _, q := range across[p] {
			g.link = append(g.link, link{q, 0})
		}
		from, g.first[p+1] = to, int32(len(g.link))
	}
	return g
}

// cornersOf are the corners of r's patches that are not apart, each once.
func (m *mixed) cornersOf(r crossing) []int32 {
	var out []int32
	for _, p := range r.patches {
		for _, k := range m.at[p] {
			if m.corners[k].a == p && index(r.apart, k) < 0 {
				out = append(out, k)
			}
		}
	}
	return out
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
