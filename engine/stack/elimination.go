package stack

import "math/bits"

// standing is an order laid as a tree of patches: above a patch stands the one
// that is laid next on its piece. Sparse matrices know it as the elimination
// tree (Liu, The role of elimination trees in sparse factorization, 1990).
// What an order costs is a sum over the tree's edges, and moving one patch in
// the order only turns the few edges that it passes; so a move is counted in
// much less time than laying all patches anew. Joins that show are counted apart.
type standing[W word] struct {
	rules   *Rules
	g       *patches
	touches []W  // neighbours
	cuts    bool // Cost.Cut is counted, too, which takes longer

	node   []standingNode[W]
	parent []int32 // -1: a root
	roots  W
	sum    Cost // without Heights and Joins
	broken int

	// What the last shift changed, to be taken back.
	before struct {
		nodes  []savedNode[W]
		parent []savedParent
		roots  W
		sum    Cost
		broken int
	}
	saved []uint32 // stamp of the shift that saved a node
	stamp uint32
}

// standingNode is a patch and the piece that it leads: itself with all below it.
type standingNode[W word] struct {
	kids, members W
	mask          Colours
	box           box
	height, cut   int32
}

type savedNode[W word] struct {
	patch int32
	node  standingNode[W]
}

type savedParent struct{ patch, parent int32 }

func newStanding[W word](g *patches, rules *Rules) *standing[W] {
	n := len(g.colour)
	s := &standing[W]{
		rules: rules, g: g, touches: make([]W, n),
		node: make([]standingNode[W], n), parent: make([]int32, n), saved: make([]uint32, n),
	}
	for p := range g.colour {
		for _, l := range g.neighbours(int32(p)) {
			s.touches[p] = with(s.touches[p], l.to)
		}
	}
	return s
}

// begin lays an order of all patches.
func (s *standing[W]) begin(o order, d detail) {
	s.cuts = d == withCut
	var laid, none W
	s.roots, s.sum, s.broken = none, Cost{}, 0
	lead := make([]int32, len(o))
	for _, p := range o {
		lead[p] = p
		n := &s.node[p]
		n.kids = none
		near := and(s.touches[p], laid)
		for !isEmpty(near) {
			q := find(lead, first(near))
			n.kids = with(n.kids, q)
			near = andNot(near, s.node[q].members)
			s.parent[q], lead[q] = p, p
		}
		s.parent[p] = -1
		s.gather(p)
		s.node[p].height = s.heightOf(p)
		s.roots = with(andNot(s.roots, n.kids), p)
		laid = with(laid, p)
		s.sum.Parts++
		for q := range members(n.kids) {
			s.count(q, p, 1)
		}
	}
	for p := range members(s.roots) {
		s.count(p, -1, 1)
	}
}

// first is the least patch of a set that isn't empty.
func first[W word](s W) int32 {
	for i := range len(s) {
		if s[i] != 0 {
			return int32(i<<6 + bits.TrailingZeros64(s[i]))
		}
	}
	return -1
}

// members are the patches of a set, ascending.
func members[W word](s W) func(func(int32) bool) {
	return func(yield func(int32) bool) {
		for i := range len(s) {
			for b := s[i]; b != 0; b &= b - 1 {
				if !yield(int32(i<<6 + bits.TrailingZeros64(b))) {
					return
				}
			}
		}
	}
}

// gather reads off a patch's kids what is known of its piece, but for the height.
func (s *standing[W]) gather(p int32) {
	n := &s.node[p]
	for i := range len(n.members) {
		n.members[i] = 0
	}
	mask, b, cut := Colours(1)<<s.g.colour[p], s.g.box[p], s.g.sides[p]
	for i := range len(n.kids) {
		for k := n.kids[i]; k != 0; k &= k - 1 {
			kid := &s.node[i<<6+bits.TrailingZeros64(k)]
			for j := range len(n.members) {
				n.members[j] |= kid.members[j]
			}
			mask |= kid.mask
			b = b.union(kid.box)
			cut += kid.cut
		}
	}
	if s.cuts {
		for _, l := range s.g.neighbours(p) {
			if n.members[l.to>>6]>>(l.to&63)&1 != 0 {
				cut -= 2 * l.shared
			}
		}
	}
	n.members[p>>6] |= 1 << (p & 63)
	n.mask, n.box, n.cut = mask, b, cut
}

// heightOf is how many parts lie one on the other in a patch's piece.
func (s *standing[W]) heightOf(p int32) int32 {
	n := &s.node[p]
	h, c := int32(0), s.g.colour[p]
	for i := range len(n.kids) {
		for k := n.kids[i]; k != 0; k &= k - 1 {
			q := i<<6 + bits.TrailingZeros64(k)
			below := s.node[q].height
			if s.g.colour[q] == c {
				below--
			}
			h = max(h, below)
		}
	}
	return h + 1
}

// count adds or (times -1) takes off what an edge costs: two patches of one
// colour share a part, else the lower piece's part ends there.
func (s *standing[W]) count(p, above int32, times int) {
	n := &s.node[p]
	if above >= 0 {
		c := s.g.colour[above]
		if s.rules.Below[c]&n.mask != 0 {
			s.broken += times
		}
		if s.g.colour[p] == c {
			s.sum.Parts -= times
			return
		}
	}
	s.end(n, times)
}

// shift moves patch p to place to of the order, in which place tells where
// each patch is before the move. It returns how many patches p passed that it
// hangs together with: if none, it is the same forest.
func (s *standing[W]) shift(p int32, place []int32, to int) (turned int) {
	s.stamp++
	s.before.nodes, s.before.parent = s.before.nodes[:0], s.before.parent[:0]
	s.before.roots, s.before.sum, s.before.broken = s.roots, s.sum, s.broken
	if int(place[p]) < to {
		for above := s.parent[p]; above >= 0 && int(place[above]) <= to; above = s.parent[p] {
			s.turn(p, above)
			s.node[above].height = s.heightOf(above)
			turned++
		}
		if turned > 0 {
			s.raise(p, 1) // and what stood on the last that it passed
		}
		return turned
	}
	for {
		last := int32(-1)
		for i := range len(s.node[p].kids) {
			for k := s.node[p].kids[i]; k != 0; k &= k - 1 {
				q := int32(i<<6 + bits.TrailingZeros64(k))
				if last < 0 || place[q] > place[last] {
					last = q
				}
			}
		}
		if last < 0 || int(place[last]) < to {
			break
		}
		s.turn(last, p)
		turned++
	}
	if turned > 0 {
		s.raise(p, turned+1)
	}
	return turned
}

// raise counts the heights anew from p upwards: that of p and of the next
// least patches above it, and on until nothing changes.
func (s *standing[W]) raise(p int32, least int) {
	for ; p >= 0; p = s.parent[p] {
		h := s.heightOf(p)
		if h == s.node[p].height && least <= 0 {
			return
		}
		s.keep(p)
		s.node[p].height = h
		least--
	}
}

// turn lets p, which stands right below above, be laid after it. What the edges
// cost is counted as count does, but for what cancels out: this is where a
// search spends its time.
func (s *standing[W]) turn(p, above int32) {
	top := s.parent[above]
	s.keep(p)
	s.keep(above)
	a, b := &s.node[p], &s.node[above]
	ca, cb := s.g.colour[p], s.g.colour[above]
	underA, underB := s.rules.Below[ca], s.rules.Below[cb]
	// above's piece, led by p from now on, keeps what it costs on top unless it
	// shared a part there, or will.
	if top >= 0 && ca != cb {
		s.reshare(b, s.g.colour[top], cb, ca)
	}
	if underB&a.mask != 0 {
		s.broken--
	}
	if ca != cb {
		s.end(a, -1)
	}
	// The pieces below p that touch above are laid beneath it now.
	near := &s.touches[above]
	for i := range len(a.kids) {
		for k := a.kids[i]; k != 0; k &= k - 1 {
			q := int32(i<<6 + bits.TrailingZeros64(k))
			kid := &s.node[q]
			if !meet(&kid.members, near) {
				continue
			}
			if underA&kid.mask != 0 {
				s.broken--
			}
			if underB&kid.mask != 0 {
				s.broken++
			}
			if ca != cb {
				s.reshare(kid, s.g.colour[q], ca, cb)
			}
			a.kids[i] &^= k & -k
			b.kids[q>>6] |= 1 << (q & 63)
			s.hang(q, above)
		}
	}
	b.kids[p>>6] &^= 1 << (p & 63)
	a.kids[above>>6] |= 1 << (above & 63)
	a.members, a.mask, a.box, a.cut = b.members, b.mask, b.box, b.cut
	s.gather(above)
	s.hang(p, top)
	s.hang(above, p)
	if top >= 0 {
		s.keep(top)
		t := &s.node[top]
		t.kids[above>>6] &^= 1 << (above & 63)
		t.kids[p>>6] |= 1 << (p & 63)
	} else {
		s.roots[above>>6] &^= 1 << (above & 63)
		s.roots[p>>6] |= 1 << (p & 63)
	}
	if underA&b.mask != 0 {
		s.broken++
	}
	if ca != cb {
		s.end(b, 1)
	}
}

// reshare counts what changes where one end of the edge above a piece keeps its
// colour and the other end, which was of one, becomes of another: a part that was
// shared is two, or two become one.
func (s *standing[W]) reshare(n *standingNode[W], kept, was, becomes Colour) {
	switch kept {
	case was:
		s.sum.Parts++
		s.end(n, 1)
	case becomes:
		s.sum.Parts--
		s.end(n, -1)
	}
}

// end adds or (times -1) takes off what a piece costs whose lowest part ends
// with it.
func (s *standing[W]) end(n *standingNode[W], times int) {
	s.sum.Cut += times * int(n.cut)
	if n.box.side() <= s.rules.SmallCells {
		s.sum.Small += times
	}
}

// hang gives a patch another one above it.
func (s *standing[W]) hang(p, above int32) {
	s.before.parent = append(s.before.parent, savedParent{p, s.parent[p]})
	s.parent[p] = above
}

// keep remembers a node before it changes.
func (s *standing[W]) keep(p int32) {
	if s.saved[p] != s.stamp {
		s.saved[p] = s.stamp
		s.before.nodes = append(s.before.nodes, savedNode[W]{p, s.node[p]})
	}
}

// back takes the last shift back.
func (s *standing[W]) back() {
	for i := range s.before.nodes {
		b := &s.before.nodes[i]
		s.node[b.patch] = b.node
	}
	for i := len(s.before.parent) - 1; i >= 0; i-- {
		b := s.before.parent[i]
		s.parent[b.patch] = b.parent
	}
	s.roots, s.sum, s.broken = s.before.roots, s.before.sum, s.before.broken
}

// cost is what the order costs but for joins that show, and how many rules it
// breaks.
func (s *standing[W]) cost() (Cost, int) {
	c := s.sum
	if !s.cuts {
		c.Cut = 0
	}
	for i := range len(s.roots) {
		for k := s.roots[i]; k != 0; k &= k - 1 {
			c.Heights = max(c.Heights, int(s.node[i<<6+bits.TrailingZeros64(k)].height))
		}
	}
	return c, s.broken
}

// joins counts the joins that show: at a corner whose ends are laid before the
// patches beside them, on other parts than the first of these.
func (s *standing[W]) joins(place []int32) int {
	n := 0
	for i := range s.g.corners {
		k := &s.g.corners[i]
		p := k.b
		if p < 0 || k.c >= 0 && place[k.c] < place[p] {
			p = k.c
		}
		if at := place[p]; place[k.a] < at && place[k.d] < at && !s.share(k.a, p) && !s.share(k.d, p) {
			n++
		}
	}
	return n
}

// share says whether patch q, laid before p and on its piece, shows on p's part.
func (s *standing[W]) share(q, p int32) bool {
	for c := s.g.colour[p]; s.g.colour[q] == c; q = s.parent[q] {
		if q == p {
			return true
		}
	}
	return false
}

// layer lays an order and counts again after each move.
type layer interface {
	begin(o order, d detail)
	shift(p int32, place []int32, to int) (turned int)
	back()
	cost() (c Cost, broken int) // Joins is 0
	joins(place []int32) int    // Cost.Joins, from where each patch is in the order
}

// detail says what a layer counts.
type detail int

const (
	withoutCut detail = iota // Cost.Cut is 0
	withCut
)

// newLayer is a layer for a graph; nil where it has too many patches.
func newLayer(g *patches, rules *Rules) layer {
	switch n := len(g.colour); {
	case n <= 64:
		return newStanding[[1]uint64](g, rules)
	case n <= 128:
		return newStanding[[2]uint64](g, rules)
	case n <= wordMost:
		return newStanding[[4]uint64](g, rules)
	}
	return nil
}
