package readback

import (
	"cmp"
	"slices"
)

// judge holds what the sweep saw against the drawing and the rules.
func (w *sweep) judge() error {
	for i, p := range w.parts {
		if p.height > 1 && p.on == none {
			v := p.contours[0][0]
			return w.faultNear(p.layer, v.x, v.y, "part %d of the layer rests on nothing", i-w.first(p.layer)+1)
		}
	}
	if w.backed == bordered {
		if err := w.judgeBacker(); err != nil {
			return err
		}
	}
	return w.judgeCorners()
}

// first is the index of a layer's first part.
func (w *sweep) first(layer int) int {
	n := 0
	for _, l := range w.layers[:layer] {
		n += len(l.parts)
	}
	return n
}

// found is a vertex that a file holds, by the corner of the grid nearest to it.
type found struct {
	key  uint64 // corner, then height, then part
	at   turnPoint
	part int32
}

func (w *sweep) key(corner, height, part int) uint64 {
	return uint64(corner)<<40 | uint64(height)<<32 | uint64(part)
}

// vertices lists those of all parts with upright and level edges, corner by
// corner, height by height, part by part, from the left, then from below.
func (w *sweep) vertices() ([]found, error) {
	n := 0
	for _, p := range w.parts {
		for _, c := range p.contours {
			n += len(c)
		}
	}
	all := make([]found, 0, n)
	for i, p := range w.parts {
		if w.backed == bordered && p.height == 1 {
			continue
		}
		for _, c := range p.contours {
			for k, v := range c {
				before, next := c[(k+len(c)-1)%len(c)], c[(k+1)%len(c)]
				if (before.x == v.x) == (next.x == v.x) {
					return nil, w.faultNear(p.layer, v.x, v.y, "an outline has a vertex where it doesn't turn")
				}
				col, x := nearest(v.x-w.x, w.cell, w.cols)
				row, y := nearest(v.y-w.y, w.cell, w.rows)
				if halfway(x, w.cell) || halfway(y, w.cell) {
					continue
				}
				sign := int32(-1)
				if before.x == v.x {
					sign = 1
				}
				corner := (w.rows-row)*w.corners() + col
				all = append(all, found{w.key(corner, p.height, i), turnPoint{int32(x), int32(y), sign}, int32(i)})
			}
		}
	}
	slices.SortFunc(all, func(a, b found) int {
		return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.at.x, b.at.x), cmp.Compare(a.at.y, b.at.y))
	})
	return all, nil
}

// nearest is the line of the grid nearest to v and how far v lies from it.
func nearest(v, cell int64, lines int) (line int, off int64) {
	line = int(min(max((v+cell/2)/cell, 0), int64(lines)))
	return line, v - int64(line)*cell
}

// judgeCorners goes from corner to corner: are the outlines there what the cells
// ask for, and is what differs from the drawing a join or an opened corner?
func (w *sweep) judgeCorners() error {
	all, err := w.vertices()
	if err != nil {
		return err
	}
	slices.SortStableFunc(w.hang, func(a, b hang) int { return cmp.Compare(a.corner, b.corner) })
	hanging := w.hang
	var about corner
	var lat lattice
	for row := range w.rows + 1 {
		for col := range w.cols + 1 {
			at := row*w.corners() + col
			n, m := 0, 0
			for n < len(all) && all[n].key>>40 == uint64(at) {
				n++
			}
			for m < len(hanging) && hanging[m].corner == at {
				m++
			}
			if n == 0 && m == 0 && w.differ[at].area == 0 && w.calm(col, row) {
				continue
			}
			for first := fallingFirst; first <= risingFirst; first++ {
				about.work(w, col, row, first)
				if err = w.judgeOutlines(&lat, &about, all[:n], col, row); err == nil {
					break
				}
			}
			if err != nil {
				return err
			}
			if err := w.judgeDifference(at, &about); err != nil {
				return err
			}
			for _, h := range hanging[:m] {
				p := w.parts[h.part]
				if about.states[p.height-1].link != h.part || h.reach > about.join {
					return w.faultAt(p.layer, min(col, w.cols-1), min(row, w.rows-1), "part of it lies on nothing")
				}
			}
			all, hanging = all[n:], hanging[m:]
		}
	}
	if w.area != w.differing {
		return w.fault("joins and opened corners show on %d µm² of the drawing, and the manifest says %d", w.area, w.differing)
	}
	return nil
}

// calm says whether the cells about a corner are alike at every height.
func (w *sweep) calm(col, row int) bool {
	for h := 1; h <= w.heights; h++ {
		p := w.ownerAt(h, col, row)
		if p != w.ownerAt(h, col-1, row) || p != w.ownerAt(h, col, row-1) || p != w.ownerAt(h, col-1, row-1) {
			return false
		}
	}
	return true
}

// judgeOutlines holds the vertices found about a corner against those that the
// cells there ask for.
func (w *sweep) judgeOutlines(lat *lattice, c *corner, got []found, col, row int) error {
	fail := func(part int) error {
		layer := w.parts[part].layer
		if len(got) > 0 && int(got[0].part) == part {
			return w.faultNear(layer, w.x+int64(col)*w.cell+int64(got[0].at.x), w.y+int64(w.rows-row)*w.cell+int64(got[0].at.y), wrongOutline)
		}
		return w.faultAt(layer, min(col, w.cols-1), min(row, w.rows-1), wrongOutline)
	}
	for i := range c.states {
		s := &c.states[i]
		parts := s.part
		slices.Sort(parts[:])
		for k, part := range parts {
			if part == none || k > 0 && part == parts[k-1] {
				continue
			}
			n := 0
			for n < len(got) && int(got[n].part) == part {
				n++
			}
			if !same(lat.expected(s, part, c.join, c.open, w.cell), got[:n]) {
				return fail(part)
			}
			got = got[n:]
		}
	}
	if len(got) > 0 {
		return fail(int(got[0].part))
	}
	return nil
}

const wrongOutline = "the part's outline isn't the one that its cells ask for"

func same(want []turnPoint, got []found) bool {
	if len(want) != len(got) {
		return false
	}
	for i, p := range want {
		if got[i].at != p {
			return false
		}
	}
	return true
}

// judgeDifference sees whether what differs from the drawing about a corner is
// a join or an opened corner.
func (w *sweep) judgeDifference(at int, c *corner) error {
	d := w.differ[at]
	if d.area == 0 {
		return nil
	}
	reach := int64(0)
	for _, s := range c.states {
		if s.link != none {
			reach = max(reach, c.join)
		}
		if s.open != [4]bool{} {
			reach = max(reach, c.open)
		}
	}
	if d.reach > reach {
		return w.faultAt(-1, d.cell%w.cols, d.cell/w.cols, "%s shows where the drawing has %s",
			w.stockName(d.seen), w.stockName(w.want[d.cell]))
	}
	return nil
}
