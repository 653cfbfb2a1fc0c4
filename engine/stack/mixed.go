package stack

import (
	"fmt"
	"slices"
)

// mixed cuts drawings of which some stocks can hold two cells together at a
// corner and others can't. A region then hangs together by sides and by those
// corners that no part below it left apart, so it takes its corners with it.
//
// Patches hang together by sides here, since a patch can fall apart at a corner.
type mixed struct {
	g       *patches
	rules   Rules
	corners []corner // all at which two patches of the drawing touch across a corner
	at      [][]int32
	mark    []int32
	stamp   int32
	seen    map[string]mixedBest
	left    int // links the first step may still follow
	layings int // patches that the second step may still lay
}

// reach says how far a region hangs together.
type reach int

const (
	bySides   reach = iota // cells that share a side
	byCorners              // cells that share a corner, too
)

// crossing is a region and the corners, by index, at which it is apart.
type crossing struct {
	region
	apart []int32 // ascending
}

type mixedBest struct {
	colour Colour
	cost   Cost
}

// mixedBound is how many links the first step may follow before it only looks
// one choice ahead.
const mixedBound = 3_000_000

func newMixed(d Drawing, r Rules) *mixed {
	m := &mixed{g: findPatches(d, 0), rules: r, seen: map[string]mixedBest{}, left: mixedBound, layings: mixedLayings}
	m.at = make([][]int32, len(m.g.colour))
	m.mark = make([]int32, len(m.g.colour))
	add := func(a, d, b, c int32, x, y int, rising bool) {
		if a < 0 || d < 0 || a == d || a == b || a == c || d == b || d == c {
			return
		}
		k := int32(len(m.corners))
		m.corners = append(m.corners, corner{a, d, b, c, int32(x), int32(y), rising})
		m.at[a] = append(m.at[a], k)
		m.at[d] = append(m.at[d], k)
	}
	for y := 1; y < d.H; y++ {
		for x := 1; x < d.W; x++ {
			ul, ur, ll, lr := m.g.at(x-1, y-1), m.g.at(x, y-1), m.g.at(x-1, y), m.g.at(x, y)
			add(ul, lr, ur, ll, x, y, false)
			add(ll, ur, ul, lr, x, y, true)
		}
	}
	return m
}

// fewestMixed is Fewest for drawings whose stocks differ in what they join.
func fewestMixed(d Drawing, r Rules) *Forest {
	m := newMixed(d, r)
	all := make([]int32, len(m.g.colour))
	for p := range all {
		all[p] = int32(p)
	}
	var t tree
	for _, piece := range m.split(all, nil, byCorners, func(int32) bool { return true }) {
		t = m.lay(t, piece, -1, m.firstChoice)
	}
	bounded := m.left < 0
	if r.Rounds >= 0 {
		limit := d.Colours().Len() + max(0, r.ExtraHeights)
		whole := crossing{region: region{all, d.Colours()}}
		if u := m.best(whole, limit); u != nil && m.cost(u).Compare(m.cost(t)) < 0 {
			t = u
		}
	}
	f := t.forest(m.g)
	f.Bounded = bounded
	return f
}

// split returns the connected pieces of those members for which keep holds.
func (m *mixed) split(members, apart []int32, r reach, keep func(int32) bool) []crossing {
	m.stamp++
	for _, p := range members {
		if keep(p) {
			m.mark[p] = m.stamp
		}
	}
	in := m.stamp
	var out []crossing
	for _, p := range members {
		if m.mark[p] != in {
			continue
		}
		m.mark[p] = 0
		queue := []int32{p}
		take := func(q int32) {
			if m.mark[q] == in {
				m.mark[q] = 0
				queue = append(queue, q)
			}
		}
		var colours Colours
		for i := 0; i < len(queue); i++ {
			q := queue[i]
			colours |= Of(m.g.colour[q])
			for _, l := range m.g.neighbours(q) {
				take(l.to)
			}
			m.left -= len(m.g.neighbours(q)) + 1
			if r == bySides {
				continue
			}
			for _, k := range m.at[q] {
				if index(apart, k) < 0 {
					take(m.corners[k].a + m.corners[k].d - q)
				}
			}
			m.left -= len(m.at[q])
		}
		slices.Sort(queue)
		out = append(out, crossing{region{queue, colours}, m.within(queue, apart)})
	}
	return out
}

// within are the corners of which both ends are among members, ascending.
func (m *mixed) within(members, corners []int32) []int32 {
	var out []int32
	for _, k := range corners {
		if index(members, m.corners[k].a) >= 0 && index(members, m.corners[k].d) >= 0 {
			out = append(out, k)
		}
	}
	return out
}

// index is p's place in ascending s, -1 where it isn't there.
func index(s []int32, p int32) int32 {
	if i, ok := slices.BinarySearch(s, p); ok {
		return int32(i)
	}
	return -1
}

// pieces are what the region falls into when colour c is chosen for it.
func (m *mixed) pieces(r crossing, c Colour) []crossing {
	if m.rules.Joins.Has(c) {
		return []crossing{r}
	}
	// Every corner across which the region touches itself comes apart.
	has := func(p int32) bool { return index(r.patches, p) >= 0 }
	apart := slices.Clone(r.apart)
	for _, p := range r.patches {
		for _, k := range m.at[p] {
			q := m.corners[k]
			if q.a == p && has(q.d) && !has(q.b) && !has(q.c) {
				apart = append(apart, k)
			}
		}
	}
	slices.Sort(apart)
	apart = slices.Compact(apart)
	return m.split(r.patches, apart, bySides, func(int32) bool { return true })
}

// rest are the regions left when a piece's patches in shows are taken away.
func (m *mixed) rest(piece crossing, shows []int32) []crossing {
	return m.split(piece.patches, piece.apart, byCorners, func(p int32) bool {
		return index(shows, p) < 0
	})
}

// chooser picks a region's colour, and what shows of it in one of its pieces.
type chooser func(r crossing) (c Colour, shows func(piece crossing) []int32)

// lay cuts r as choose says and puts its parts on part on.
func (m *mixed) lay(t tree, r crossing, on int, choose chooser) tree {
	c, shows := choose(r)
	for _, piece := range m.pieces(r, c) {
		if !piece.colours.Has(c) {
			t = m.lay(t, piece, on, choose)
			continue
		}
		s := shows(piece)
		at := len(t)
		t = append(t, treePart{colour: c, on: on, shows: s})
		for _, q := range m.rest(piece, s) {
			t = m.lay(t, q, at, choose)
		}
	}
	return t
}

// mayLie says whether the rules let a part of colour c lie under the rest of r.
func (m *mixed) mayLie(r crossing, c Colour) bool {
	return r.colours.Has(c) && m.rules.Below[c]&r.colours&^Of(c) == 0
}

// allOf are the patches of colour c among members.
func (m *mixed) allOf(c Colour) func(crossing) []int32 {
	return func(piece crossing) []int32 {
		var s []int32
		for _, p := range piece.patches {
			if m.g.colour[p] == c {
				s = append(s, p)
			}
		}
		return s
	}
}

// firstChoice is the first step: all patches of the best colour show.
func (m *mixed) firstChoice(r crossing) (Colour, func(crossing) []int32) {
	c := m.solve(r).colour
	return c, m.allOf(c)
}

// solve is the best colour for r and what r then costs; joins aren't counted.
func (m *mixed) solve(r crossing) mixedBest {
	key := fmt.Sprint(r.patches, r.apart)
	if b, ok := m.seen[key]; ok {
		return b
	}
	var b mixedBest
	for c := Colour(1); c <= MaxColours; c++ {
		if !m.mayLie(r, c) {
			continue
		}
		var sum Cost
		for _, piece := range m.pieces(r, c) {
			if !piece.colours.Has(c) {
				sum = sum.beside(m.bound(piece))
				continue
			}
			own := m.measure(piece)
			var above Cost
			for _, q := range m.rest(piece, m.allOf(c)(piece)) {
				above = above.beside(m.bound(q))
			}
			sum = sum.beside(above.on(own))
		}
		if b.colour == 0 || sum.Compare(b.cost) < 0 {
			b = mixedBest{c, sum}
		}
	}
	m.seen[key] = b
	return b
}

// bound is what r costs at best, or, once the bound is met, a part for each colour.
func (m *mixed) bound(r crossing) Cost {
	if m.left < 0 {
		n := r.colours.Len()
		return Cost{Parts: n, Heights: n}
	}
	return m.solve(r).cost
}

// measure is what one part cut from the whole piece costs by itself.
func (m *mixed) measure(r crossing) Cost {
	f := flood{g: m.g, mark: m.mark, stamp: m.stamp}
	c := f.measure(r.region, m.rules)
	m.stamp = f.stamp
	return c
}
