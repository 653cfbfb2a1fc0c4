package shape

// walked is a ring found by the walk, empty label included.
type walked struct {
	parent int32 // hole: outer ring of the patch, outer: hole it lies in; -1 none; always an earlier ring
	out    int32 // its index in the result, -1 for the empty label
	label  uint8
	kind   RingKind
}

// rings walks the linked vertices ring by ring.
func (s *scan) rings() *Tracing {
	t := &Tracing{Nodes: make([]Node, 0, len(s.verts)), Rings: make([]TracedRing, 0, len(s.firsts)/2)}
	all := make([]walked, 0, len(s.firsts)/2)
	lastHole := make([]int32, 0, len(s.firsts)/2) // by result ring: its newest hole
	for _, f := range s.firsts {
		if s.verts[f.v].next < 0 {
			continue // its ring is known already
		}
		r := walked{parent: s.parent(all, f), out: -1, label: f.label, kind: f.kind}
		if f.label == 0 {
			s.mark(f.v, int32(len(all)))
			all = append(all, r)
			continue
		}
		r.out = int32(len(t.Rings))
		n := len(t.Nodes)
		t.Nodes = s.walk(t.Nodes, f.v, int32(len(all)))
		ring := TracedRing{
			First: int32(n), Count: int32(len(t.Nodes) - n),
			Label: f.label, Kind: f.kind, Parent: -1, NextHole: -1,
		}
		if r.parent >= 0 {
			ring.Parent = all[r.parent].out
		}
		t.Rings = append(t.Rings, ring)
		lastHole = append(lastHole, r.out)
		if f.kind == HoleRing {
			t.Rings[lastHole[ring.Parent]].NextHole = r.out
			lastHole[ring.Parent] = r.out
		}
		all = append(all, r)
	}
	return t
}

// parent tells what the ring that begins at f lies in. The ring of the edge
// beside f has its first vertex before f, so it is known. The unbounded empty
// patch has holes but no outer ring.
func (s *scan) parent(all []walked, f first) int32 {
	if f.beside < 0 {
		return -1
	}
	r := -1 - s.verts[f.beside].next
	if f.kind == HoleRing { // r is a ring of the same patch
		if all[r].kind == HoleRing {
			return all[r].parent
		}
		return r
	}
	// r is a ring of the patch above: either it surrounds us, or that patch
	// lies beside us and we share its parent. Empty patches are seen through.
	if all[r].kind == OuterRing {
		return all[r].parent
	}
	if all[r].label != 0 {
		return r
	}
	if outer := all[r].parent; outer >= 0 {
		return all[outer].parent
	}
	return -1
}

func (s *scan) walk(nodes []Node, v, ring int32) []Node {
	for s.verts[v].next >= 0 {
		p := &s.verts[v]
		nodes = append(nodes, Node{p.x, p.y})
		v, p.next = p.next, -1-ring
	}
	return nodes
}

func (s *scan) mark(v, ring int32) {
	for s.verts[v].next >= 0 {
		p := &s.verts[v]
		v, p.next = p.next, -1-ring
	}
}
