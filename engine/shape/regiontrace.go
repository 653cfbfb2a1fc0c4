package shape

// Polygons outlines the region's pieces, by top edge, then from the left;
// holes likewise. With BySides pieces that touch only at a corner are apart
// and their rings touch there; with ByCorners they are one piece whose ring
// passes twice through that point. It is TraceLabels on bands instead of
// rows; see there for how it works.
func (r Region) Polygons(link Link) []Polygon {
	s := bandScan{scan: scan{link: link}}
	var up []Um
	var upEdges []int32
	for i := len(r.bands) - 1; i >= -1; i-- {
		// The line on top of band i, and where there is a gap above it, the
		// underside of the band above first.
		if i+1 < len(r.bands) && (i < 0 || r.bands[i].y1 != r.bands[i+1].y0) {
			s.line(r.bands[i+1].y0, up, upEdges, nil)
			up, upEdges = nil, nil
		}
		if i >= 0 {
			lo := r.row(r.bands[i])
			upEdges = s.line(r.bands[i].y1, up, upEdges, lo)
			up = lo
		}
	}
	return s.polygons()
}

// bandScan is scan for one label and any coordinates.
type bandScan struct {
	scan
	points []Point // of the vertices
}

// line handles the corners at height y between the intervals up above and lo
// below. upEdges holds for each x of up the upper end of its vertical edge;
// the same for lo is returned.
func (s *bandScan) line(y Um, up []Um, upEdges []int32, lo []Um) []int32 {
	edges := make([]int32, len(lo))
	above, below, run := int32(-1), int32(-1), int32(-1)
	vertex := func(x Um, next int32) int32 {
		s.points = append(s.points, Point{x, y})
		s.verts = append(s.verts, vert{next: next})
		return int32(len(s.verts) - 1)
	}
	for i, j := 0, 0; i < len(up) || j < len(lo); {
		x := Um(1<<63 - 1)
		if i < len(up) {
			x = up[i]
		}
		if j < len(lo) {
			x = min(x, lo[j])
		}
		ul, ll := i%2 == 1, j%2 == 1
		ur, lr := ul, ll
		edge := int32(-1)  // vertical edge that ends here
		start := int32(-1) // vertical edge that begins here
		if i < len(up) && up[i] == x {
			ur, edge = !ul, upEdges[i]
			i++
			if ur {
				run = edge
			}
		}
		if j < len(lo) && lo[j] == x {
			lr = !ll
			j++
		}
		oldAbove, oldBelow := above, below
		switch {
		case ul == ll && ur == lr: // straight on
			start = edge
		case ul && lr && !ur && !ll && s.link == ByCorners:
			below = vertex(x, edge)
			start = vertex(x, -1)
			s.verts[oldAbove].next = start
		case ur && ll && !ul && !lr && s.link == ByCorners:
			s.verts[edge].next = vertex(x, oldBelow)
			start = vertex(x, -1)
			above = start
			s.firsts = append(s.firsts, first{start, run, 1, HoleRing})
		case !ul && ur && ll && lr: // one is missing: an inner corner
			s.verts[edge].next = vertex(x, oldBelow)
		case ul && !ur && ll && lr:
			below = vertex(x, edge)
		case ul && ur && !ll && lr:
			start = vertex(x, -1)
			s.verts[oldAbove].next = start
		case ul && ur && ll && !lr:
			start = vertex(x, -1)
			above = start
			s.firsts = append(s.firsts, first{start, run, 1, HoleRing})
		default: // one, or two that touch at the corner
			if ul {
				v := vertex(x, edge)
				s.verts[oldAbove].next = v
			}
			if ur {
				above = vertex(x, -1)
				s.verts[edge].next = above
			}
			if ll {
				start = vertex(x, oldBelow)
			}
			if lr {
				below = vertex(x, -1)
				start = below
				s.firsts = append(s.firsts, first{start, -1, 1, OuterRing})
			}
		}
		if lr != ll {
			edges[j-1] = start
		}
	}
	return edges
}

func (s *bandScan) polygons() []Polygon {
	var out []Polygon
	owner := []int{} // by ring: index of its polygon in out
	for _, f := range s.firsts {
		if s.verts[f.v].next < 0 {
			continue
		}
		var ring Ring
		id := int32(len(owner))
		for v := f.v; s.verts[v].next >= 0; {
			ring = append(ring, s.points[v])
			v, s.verts[v].next = s.verts[v].next, -1-id
		}
		if f.kind == OuterRing {
			owner = append(owner, len(out))
			out = append(out, Polygon{Outer: ring})
			continue
		}
		p := owner[-1-s.verts[f.beside].next]
		owner = append(owner, p)
		out[p].Holes = append(out[p].Holes, ring)
	}
	return out
}
