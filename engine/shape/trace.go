package shape

// Link says which cells hang together.
type Link int8

// The ways to hang together.
const (
	BySides   Link = iota // cells that share a side
	ByCorners             // also cells that touch at a corner
)

// RingKind tells an outer ring from a hole.
type RingKind int8

// The kinds of ring.
const (
	OuterRing RingKind = iota
	HoleRing
)

// Node is a corner of the raster's grid, in cells from its lower left.
type Node struct{ X, Y int32 }

// TracedRing is one ring of a Tracing.
type TracedRing struct {
	First, Count int32 // its nodes are Nodes[First : First+Count]
	Label        uint8
	Kind         RingKind
	// Parent of a hole is its patch's outer ring; of an outer ring, the hole
	// of another patch that it lies in directly, -1 for none. Where links by
	// corners cross, a patch has the parent of its topmost, then leftmost cell.
	Parent int32
	// NextHole is an outer ring's first hole, a hole's next one in the same
	// patch, -1 for none.
	NextHole int32
}

// Tracing is the outlines of all patches of a raster: for each patch an outer
// ring, anticlockwise, and its holes, clockwise, without collinear points.
// Rings are in the order of their topmost, then leftmost corner. A ring may
// pass twice through a node where cells that aren't linked touch at a corner.
type Tracing struct {
	Nodes []Node
	Rings []TracedRing
}

// Ring is ring i with cells of the given side.
func (t *Tracing) Ring(i int, cell Um) Ring {
	r := t.Rings[i]
	out := make(Ring, r.Count)
	for j, n := range t.Nodes[r.First : r.First+r.Count] {
		out[j] = Point{Um(n.X) * cell, Um(n.Y) * cell}
	}
	return out
}

// Polygons is every patch as a polygon with cells of the given side, in the
// order of the outer rings, each with its label.
func (t *Tracing) Polygons(cell Um) (ps []Polygon, labels []uint8) {
	for i, r := range t.Rings {
		if r.Kind != OuterRing {
			continue
		}
		p := Polygon{Outer: t.Ring(i, cell)}
		for h := r.NextHole; h >= 0; h = t.Rings[h].NextHole {
			p.Holes = append(p.Holes, t.Ring(int(h), cell))
		}
		ps, labels = append(ps, p), append(labels, r.Label)
	}
	return ps, labels
}

// TraceLabels outlines the patches of a raster of w × h labels, row by row
// from the top; 0 is empty and not outlined. It takes time and memory linear
// in the raster. len(labels) must be w*h.
//
// One scan over the grid's corners: each corner where a patch turns gives a
// vertex, and a vertex is linked at once with the one left of it on its line
// and the one above it in its column. A ring's first vertex in the scan is
// the upper left corner of a cell for an outer ring, and an inner corner for
// a hole; the edge beside it, seen earlier, tells what the ring lies in.
func TraceLabels(labels []uint8, w, h int, link Link) *Tracing {
	if len(labels) != w*h {
		panic("shape: TraceLabels: raster and size differ")
	}
	turns := likelyTurns(labels, w, h)
	s := scan{
		link: link, height: int32(h),
		verts: make([]vert, 0, turns), firsts: make([]first, 0, turns/3),
		left: make([]int32, w+1), right: make([]int32, w+1),
	}
	up, lo := make([]uint8, w+2), make([]uint8, w+2)
	for y := 0; y <= h; y++ {
		if y < h {
			copy(lo[1:], labels[y*w:(y+1)*w])
		} else {
			clear(lo)
		}
		s.line(up, lo, int32(y))
		up, lo = lo, up
	}
	return s.rings()
}

// likelyTurns is about how many vertices a raster has, from every sixteenth
// line: room that isn't there in time is costly, room not needed as well.
func likelyTurns(labels []uint8, w, h int) int {
	const every = 16
	n := 2 * (w + h)
	for y := every / 2; y < h; y += every {
		up, lo := labels[(y-1)*w:y*w], labels[y*w:(y+1)*w]
		for x := 1; x < w; x++ {
			ul, ur, ll, lr := up[x-1], up[x], lo[x-1], lo[x]
			if (ul != ur || ll != lr) && (ul != ll || ur != lr) {
				n += 2 * every // three cells of one label and one of another
				if ul != ur && ll != lr && ul != ll && ur != lr {
					n += 2 * every
				} else if (ul == ur) != (ll == lr) && ul != ll && ur != lr || (ul == ll) != (ur == lr) && ul != ur && ll != lr {
					n += every // two of one label, two others
				}
			}
		}
	}
	return n + n/8
}

// vert is a corner of a ring; next is its successor, after the walk the
// negative of its ring's index less one.
type vert struct{ x, y, next int32 }

// first is a vertex that may be its ring's first one in the scan. beside is a
// vertex of the edge that tells what the ring lies in, -1 for none.
type first struct {
	v, beside int32
	label     uint8
	kind      RingKind
}

// scan holds the open ends of the rings while the grid is scanned.
type scan struct {
	link        Link
	height      int32
	verts       []vert
	firsts      []first
	left, right []int32 // by column line: upper end of the vertical edge with the patch on that side
}

// line handles the corners of one grid line between the rows up and lo, each
// with an empty cell before and after.
func (s *scan) line(up, lo []uint8, y int32) {
	above, below := int32(-1), int32(-1) // open horizontal edges of the patches over and under the line
	run := int32(-1)                     // vertex of the edge at the left of the current run in up
	yUp := s.height - y                  // y runs up in the result
	verts := s.verts
	lo = lo[:len(up)]
	right, left := s.right, s.left[:len(s.right)]
	ul, ll := up[0], lo[0]
	for x := range right {
		ur, lr := up[x+1], lo[x+1]
		if ul == ur && ll == lr {
			continue
		}
		oldAbove, oldBelow, oldLeft, oldRight := above, below, left[x], right[x]
		if ul != ur {
			run = oldRight
		}
		if ul == ll && ur == lr {
			ul, ll = ur, lr
			continue
		}
		v := int32(len(verts))
		xx := int32(x)
		cUL, cUR := ul != ur && ul != ll, ur != ul && ur != lr
		cLL, cLR := ll != lr && ll != ul, lr != ll && lr != ur
		if s.link == ByCorners {
			if cUL && cLR && ul == lr {
				cUL, cLR = false, false
				// inner corners towards the upper right and the lower left
				verts = append(verts, vert{xx, yUp, oldLeft}, vert{xx, yUp, -1})
				below = v
				verts[oldAbove].next = v + 1
				right[x] = v + 1
				v += 2
			}
			if cUR && cLL && ur == ll {
				cUR, cLL = false, false
				// inner corners towards the upper left and the lower right
				verts = append(verts, vert{xx, yUp, oldBelow}, vert{xx, yUp, -1})
				verts[oldRight].next = v
				left[x] = v + 1
				above = v + 1
				s.firsts = append(s.firsts, first{v + 1, run, ur, HoleRing})
				v += 2
			}
		}
		if ll == lr { // one of the upper cells may be what is missing in three
			if ul != ll && ur == lr {
				verts = append(verts, vert{xx, yUp, oldBelow})
				verts[oldRight].next = v
				v++
			} else if ul == ll && ur != lr {
				verts = append(verts, vert{xx, yUp, oldLeft})
				below = v
				v++
			}
		} else if ul == ur {
			if ll != ul && lr == ur {
				verts = append(verts, vert{xx, yUp, -1})
				verts[oldAbove].next = v
				right[x] = v
				v++
			} else if ll == ul && lr != ur {
				verts = append(verts, vert{xx, yUp, -1})
				left[x] = v
				above = v
				s.firsts = append(s.firsts, first{v, run, ul, HoleRing})
				v++
			}
		}
		if cUL {
			verts = append(verts, vert{xx, yUp, oldLeft})
			verts[oldAbove].next = v
			v++
		}
		if cUR {
			verts = append(verts, vert{xx, yUp, -1})
			verts[oldRight].next = v
			above = v
			v++
		}
		if cLL {
			verts = append(verts, vert{xx, yUp, oldBelow})
			left[x] = v
			v++
		}
		if cLR {
			verts = append(verts, vert{xx, yUp, -1})
			below = v
			right[x] = v
			s.firsts = append(s.firsts, first{v, above, lr, OuterRing})
		}
		ul, ll = ur, lr
	}
	s.verts = verts
}
