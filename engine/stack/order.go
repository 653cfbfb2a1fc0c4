package stack

import "slices"

// order is a connected piece's patches from the top down. It stands for one
// forest: laid down one by one from the top, each patch goes beneath the
// pieces that it touches, which become one; where such a piece's lowest part
// has the patch's own colour the patch shows on that part, else the piece lies
// on a new part. Every forest in which no two parts could be one has an order,
// so a search over orders misses none that matters.
type order []int32

// trial lays orders and counts what they cost. It keeps its memory between calls.
type trial struct {
	g     *patches
	rules Rules

	lead []int32 // union-find over patches laid: leads to the piece
	// of the piece led by patch p:
	part   []int32 // its lowest part, named by the patch that began it
	root   []Colour
	mask   []Colours // colours shown
	box    []box
	cut    []int32
	height []int32

	partLead []int32 // union-find over parts
	laid     []int32 // stamp
	stamp    int32
}

func newTrial(g *patches, rules Rules) *trial {
	n := len(g.colour)
	return &trial{
		g: g, rules: rules,
		lead: make([]int32, n), part: make([]int32, n), root: make([]Colour, n),
		mask: make([]Colours, n), box: make([]box, n), cut: make([]int32, n), height: make([]int32, n),
		partLead: make([]int32, n), laid: make([]int32, n),
	}
}

func find(lead []int32, p int32) int32 {
	for lead[p] != p {
		lead[p] = lead[lead[p]]
		p = lead[p]
	}
	return p
}

// cost lays the order and counts what it costs, and how many rules it breaks.
func (t *trial) cost(o order) (Cost, int) {
	g := t.g
	t.stamp++
	broken := 0
	var sum Cost
	for _, p := range o {
		c := g.colour[p]
		lower := t.rules.Below[c]
		t.lead[p], t.partLead[p], t.laid[p] = p, p, t.stamp
		part := int32(-1)
		mask, b, cut, height := Of(c), g.box[p], g.sides[p], int32(0)
		for _, l := range g.link[g.first[p]:g.first[p+1]] {
			q := l.to
			if t.laid[q] != t.stamp {
				continue
			}
			cut -= 2 * l.shared
			q = find(t.lead, q)
			if q == p {
				continue
			}
			t.lead[q] = p
			if lower&t.mask[q] != 0 {
				broken++
			}
			cut += t.cut[q]
			if t.root[q] == c {
				own := t.part[q]
				if part < 0 {
					part = own
				} else {
					t.partLead[own] = part
					sum.Parts--
				}
				height = max(height, t.height[q]-1)
			} else {
				t.finish(&sum, q)
				height = max(height, t.height[q])
			}
			mask |= t.mask[q]
			b = b.union(t.box[q])
		}
		if part < 0 {
			part = p
			sum.Parts++
		}
		t.partLead[p] = part
		t.part[p], t.root[p], t.mask[p], t.box[p], t.cut[p], t.height[p] = part, c, mask, b, cut, height+1
		sum.Joins += t.newJoins(p, part)
	}
	for _, p := range o {
		if t.lead[p] == p {
			t.finish(&sum, p)
			sum.Heights = max(sum.Heights, int(t.height[p]))
		}
	}
	return sum, broken
}

// finish counts the lowest part of the piece led by q, which grows no more.
func (t *trial) finish(sum *Cost, q int32) {
	sum.Cut += int(t.cut[q])
	if t.box[q].side() <= t.rules.SmallCells {
		sum.Small++
	}
}

// newJoins counts the corners held by a join that shows now that p is laid
// beside them: both ends lie on parts that are already covered from below.
func (t *trial) newJoins(p, part int32) int {
	g := t.g
	if len(g.corners) == 0 {
		return 0
	}
	n := 0
	for _, k := range g.beside[g.besideFirst[p]:g.besideFirst[p+1]] {
		q := &g.corners[k]
		other := q.b
		if other == p {
			other = q.c
		}
		if other >= 0 && other != p && t.laid[other] == t.stamp {
			continue
		}
		if t.laid[q.a] != t.stamp || t.laid[q.d] != t.stamp {
			continue
		}
		if find(t.partLead, q.a) != part && find(t.partLead, q.d) != part {
			n++
		}
	}
	return n
}

// tree lays the order and returns the forest that it stands for, lowest part first.
func (t *trial) tree(o order) tree {
	t.cost(o)
	// The last patch laid on a part lies under everything on it, so walking
	// the order backwards meets each part before those on it.
	index := map[int32]int{}
	var out tree
	for _, p := range slices.Backward(o) {
		k := find(t.partLead, p)
		i, ok := index[k]
		if !ok {
			i = len(out)
			index[k] = i
			out = append(out, treePart{colour: t.g.colour[p], on: -1})
		}
		out[i].shows = append(out[i].shows, p)
	}
	// A part rests on the part of the first patch laid later that touches its
	// piece and isn't its own: lay once more and watch.
	t.stamp++
	for _, p := range o {
		t.lead[p], t.laid[p] = p, t.stamp
		own := find(t.partLead, p)
		for _, l := range t.g.neighbours(p) {
			if t.laid[l.to] != t.stamp {
				continue
			}
			q := find(t.lead, l.to)
			if q == p {
				continue
			}
			if below := find(t.partLead, t.part[q]); below != own {
				out[index[below]].on = index[own]
			}
			t.lead[q] = p
		}
		t.part[p] = own
	}
	return out
}

// orderOf lists a tree's patches from the top down.
func (t tree) orderOf() order {
	h := t.heights()
	var o order
	for level := slices.Max(h); level > 0; level-- {
		for i, p := range t {
			if h[i] == level {
				o = append(o, p.shows...)
			}
		}
	}
	return o
}
