package route

import "sheetsprite/engine/shape"

// bestWays takes, for the order as it is, the ways that make the travel
// shortest of all: the shortest path through one layer of ways a node.
func (t *tour) bestWays() {
	type reached struct {
		d    shape.Um
		from int32 // way of the node before
	}
	layers := make([][]reached, len(t.order))
	for i, n := range t.order {
		ways := t.nodes[n].ways
		layers[i] = make([]reached, len(ways))
		for w, o := range ways {
			r := reached{1 << 60, -1}
			if i == 0 {
				r.d = length(t.start, o.in)
			} else {
				for v, b := range t.nodes[t.order[i-1]].ways {
					if d := layers[i-1][v].d + length(b.out, o.in); d < r.d {
						r = reached{d, int32(v)}
					}
				}
			}
			r.d += o.inner
			layers[i][w] = r
		}
	}
	best, end := int32(-1), shape.Um(1)<<60
	for i := len(t.order) - 1; i >= 0; i-- {
		n := t.order[i]
		if best < 0 {
			for w, r := range layers[i] {
				d := r.d
				if t.end == AtStart {
					d += length(t.nodes[n].ways[w].out, t.start)
				}
				if d < end {
					best, end = int32(w), d
				}
			}
		}
		t.way[n] = best
		best = layers[i][best].from
	}
}

// everyStart lets each closed contour begin at whichever of all its vertices
// suits its neighbours best.
func (t *tour) everyStart() {
	for i, n := range t.order {
		nd := &t.nodes[n]
		if len(nd.shut) <= len(nd.ways) {
			continue
		}
		p := t.before(i)
		best, vertex := length(p, t.in(n))+t.hop(t.out(n), i+1), -1
		for v, c := range nd.shut {
			if d := length(p, c.Point) + t.hop(c.Point, i+1); d < best {
				best, vertex = d, v
			}
		}
		if vertex >= 0 {
			t.way[n] = nd.addStart(vertex)
		}
	}
}
