package stack

import "math/bits"

// quick lays orders as trial does, with sets of patches as bits of words, and
// counts parts, small parts and heights only. The annealing lives in it.
type quick[W word] struct {
	rules   *Rules
	colour  []Colour
	touches []W // neighbours
	box     []box
	lead    []uint8
	piece   []quickPiece[W] // by leading patch
}

type quickPiece[W word] struct {
	members W
	mask    Colours
	box     box
	height  int32
	root    Colour
}

func newQuick[W word](g *patches, rules *Rules) *quick[W] {
	n := len(g.colour)
	t := &quick[W]{rules: rules, colour: g.colour, touches: make([]W, n), box: g.box, lead: make([]uint8, n), piece: make([]quickPiece[W], n)}
	for p := range g.colour {
		for _, l := range g.neighbours(int32(p)) {
			t.touches[p] = with(t.touches[p], l.to)
		}
	}
	return t
}

// cost is trial.cost without joins and cut.
func (t *quick[W]) cost(o order) (Cost, int) {
	var sum Cost
	small := t.rules.SmallCells
	broken := 0
	var laid W
	for _, p := range o {
		c := t.colour[p]
		k := &t.piece[p]
		*k = quickPiece[W]{mask: Of(c), box: t.box[p], root: c}
		k.members[p>>6] = 1 << (p & 63)
		sum.Parts++
		near := t.touches[p]
		for w := range len(near) {
			for b := near[w] & laid[w]; b != 0; b &= near[w] {
				q := w<<6 + bits.TrailingZeros64(b)
				for int(t.lead[q]) != q {
					t.lead[q] = t.lead[t.lead[q]]
					q = int(t.lead[q])
				}
				l := &t.piece[q]
				for v := w; v < len(near); v++ {
					near[v] &^= l.members[v]
				}
				if t.rules.Below[c]&l.mask != 0 {
					broken++
				}
				if l.root == c {
					sum.Parts--
					k.height = max(k.height, l.height-1)
				} else {
					if l.box.side() <= small {
						sum.Small++
					}
					k.height = max(k.height, l.height)
				}
				t.lead[q] = uint8(p)
				for v := range len(near) {
					k.members[v] |= l.members[v]
				}
				k.mask |= l.mask
				k.box = k.box.union(l.box)
			}
		}
		k.height++
		t.lead[p] = uint8(p)
		laid[p>>6] |= 1 << (p & 63)
	}
	for _, p := range o {
		if int32(t.lead[p]) == p {
			k := &t.piece[p]
			sum.Heights = max(sum.Heights, int(k.height))
			if k.box.side() <= small {
				sum.Small++
			}
		}
	}
	return sum, broken
}

// light is the quickest counter for a graph.
func light(g *patches, rules *Rules, plain *trial) counter {
	switch n := len(g.colour); {
	case n <= 64:
		return newQuick[[1]uint64](g, rules).cost
	case n <= 128:
		return newQuick[[2]uint64](g, rules).cost
	case n <= wordMost:
		return newQuick[[4]uint64](g, rules).cost
	}
	return plain.cost
}
