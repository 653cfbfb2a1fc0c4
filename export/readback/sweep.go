package readback

import (
	"cmp"
	"slices"
)

// A sweep lays all parts of a sprite over one another and looks down on them,
// band by band from below, each band between two neighbouring heights of any
// vertex or line of the grid. Within a band nothing changes from its foot to its
// head, so that all areas are exact whole µm². (Of a backer with slanted or
// round edges a band takes what lies in it for certain.)
type sweep struct {
	*sprite
	open   []int     // by height: the part met there, or none
	top    int       // the largest height at which a part is met, 0 for none
	loose  []int     // heights at which a part is met, and none right below it
	fresh  bool      // open has changed since loose was made
	owner  [][]int32 // by height, then by cell: the part that lies under the cell's centre
	differ []spot    // by corner of the grid: where something else is seen than drawn
	hang   []hang    // places about joins where a part has nothing right below it
	line   []hang    // of the row of cells: by height, then by quarter of a cell
	beside []besides // of that row: what other parts have in such a quarter
	area   int64     // µm², of all of differ

	ya, yb    int64 // the band
	row       int   // of the grid in which it lies, from the top; −1 outside
	isCentred bool  // the centres of that row's cells lie in it
}

// spot is the places around a corner of the grid where what is seen differs.
type spot struct {
	area  int64 // µm²
	reach int64 // from the corner to the farthest of them, along the farther axis
	cell  int   // the first one's
	seen  int   // the stock seen there
}

// hang is a place at a corner where a part has nothing right below it.
type hang struct {
	part, corner int
	reach        int64
}

// besides is a part's hang in a quarter that another part hangs in too, as where
// one's join takes a corner of the other's cell.
type besides struct {
	at int // index into line
	hang
}

// edge is an upright edge of a part; solid lies to its right where sign is 1,
// to its left where it is −1.
type edge struct {
	at, from, to int32
	part         int32
	sign         int32
}

func newEdge(x, y0, y1 int64, part, sign int) edge {
	return edge{int32(x), int32(y0), int32(y1), int32(part), int32(sign)} // none is beyond farthest
}

func (e edge) x() int64  { return int64(e.at) }
func (e edge) y0() int64 { return int64(e.from) }
func (e edge) y1() int64 { return int64(e.to) }

// corners is how many corners a row of the grid has.
func (s *sprite) corners() int { return s.cols + 1 }

// look sweeps over the sprite.
func (s *sprite) look() (*sweep, error) {
	w := &sweep{
		sprite: s,
		open:   make([]int, s.heights+1),
		owner:  make([][]int32, s.heights+2),
		differ: make([]spot, (s.cols+1)*(s.rows+1)),
		line:   make([]hang, (s.heights+1)*s.cols*4),
		row:    -1,
	}
	for h := range w.open {
		w.open[h] = none
	}
	for h := range w.owner {
		w.owner[h] = make([]int32, s.cols*s.rows)
		for i := range w.owner[h] {
			w.owner[h][i] = none
		}
	}
	upright, slanted, err := s.edges()
	if err != nil {
		return nil, err
	}
	return w, w.run(upright, slanted)
}

// edges lists the upright edges of all parts in order of their feet, then from
// the left; and all edges, upright or not, of a backer that stands out.
func (s *sprite) edges() (upright []edge, slanted []slant, err error) {
	for i, p := range s.parts {
		around := s.backed == bordered && p.height == 1
		for _, c := range p.contours {
			for k, v := range c {
				n := c[(k+1)%len(c)]
				switch {
				case around:
					if v.y != n.y {
						slanted = append(slanted, newSlant(v, n, i))
					}
				case v.arc != 0 || v.x != n.x && v.y != n.y:
					return nil, nil, s.faultNear(p.layer, v.x, v.y, "an edge runs aslant")
				case v.y > n.y:
					upright = append(upright, newEdge(v.x, n.y, v.y, i, 1))
				case v.y < n.y:
					upright = append(upright, newEdge(v.x, v.y, n.y, i, -1))
				}
			}
		}
	}
	slices.SortFunc(upright, func(a, b edge) int { return cmp.Or(cmp.Compare(a.from, b.from), leftToRight(a, b)) })
	slices.SortFunc(slanted, func(a, b slant) int { return cmp.Compare(a.y0, b.y0) })
	return upright, slanted, nil
}

// leftToRight orders edges from the left; at one place, solids end before others begin.
func leftToRight(a, b edge) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.sign, b.sign)) }

// run goes through the bands.
func (w *sweep) run(upright []edge, slanted []slant) error {
	ys := w.levels(upright, slanted)
	var active, next, line []edge
	var around []slant
	for k := 0; k+1 < len(ys); k++ {
		w.ya, w.yb = ys[k], ys[k+1]
		n := 0
		for n < len(upright) && upright[n].y0() == w.ya {
			n++
		}
		next = merge(next[:0], active, upright[:n], w.ya)
		upright = upright[n:]
		active, next = next, active
		for len(slanted) > 0 && slanted[0].y0 == w.ya {
			around = append(around, slanted[0])
			slanted = slanted[1:]
		}
		walk := active
		if len(around) > 0 {
			around = slices.DeleteFunc(around, func(s slant) bool { return s.y1 <= w.ya })
			line = merge(line[:0], active, across(around, w.ya, w.yb), w.ya)
			walk = line
		}
		if err := w.band(walk); err != nil {
			return err
		}
	}
	w.endRow()
	return nil
}

// merge puts together two lists that run from the left, without those edges of
// the first that end at y.
func merge(out, old, new []edge, y int64) []edge {
	for _, e := range old {
		if e.y1() <= y {
			continue
		}
		for len(new) > 0 && leftToRight(new[0], e) < 0 {
			out = append(out, new[0])
			new = new[1:]
		}
		out = append(out, e)
	}
	return append(out, new...)
}

// levels are the heights at which bands begin and end.
func (w *sweep) levels(upright []edge, slanted []slant) []int64 {
	ys := make([]int64, 0, 2*len(upright)+2*len(slanted)+w.rows+1)
	for _, e := range upright {
		ys = append(ys, e.y0(), e.y1())
	}
	for _, e := range slanted {
		ys = append(ys, e.y0, e.y1)
	}
	for i := range w.rows + 1 {
		ys = append(ys, w.y+int64(i)*w.cell)
	}
	slices.Sort(ys)
	return slices.Compact(ys)
}

// band walks through a band from the left.
func (w *sweep) band(line []edge) error {
	row := -1
	w.isCentred = false
	if up := w.ya - w.y; up >= 0 && up < int64(w.rows)*w.cell {
		fromFoot := up / w.cell
		row = w.rows - 1 - int(fromFoot)
		centre := w.y + fromFoot*w.cell + w.cell/2
		w.isCentred = w.ya <= centre && centre < w.yb
	}
	if row != w.row {
		w.endRow()
		w.row = row
	}
	left := w.x // of what is looked at next
	for _, e := range line {
		if e.x() > left || w.top > 0 {
			if err := w.stretch(left, e.x()); err != nil {
				return err
			}
		}
		left = e.x()
		if err := w.cross(e); err != nil {
			return err
		}
	}
	if w.top != 0 {
		return w.faultNear(w.parts[w.open[w.top]].layer, left, w.ya, "a part is not closed")
	}
	return w.stretch(left, w.x+int64(w.cols)*w.cell)
}

// cross takes note of an edge.
func (w *sweep) cross(e edge) error {
	p := w.parts[e.part]
	switch {
	case e.sign > 0 && w.open[p.height] == none:
		w.open[p.height] = int(e.part)
		w.top = max(w.top, p.height)
	case e.sign < 0 && w.open[p.height] == int(e.part):
		w.open[p.height] = none
		for w.top > 0 && w.open[w.top] == none {
			w.top--
		}
	case e.sign > 0:
		return w.faultNear(p.layer, e.x(), w.ya, "two parts of one height overlap")
	default:
		return w.faultNear(p.layer, e.x(), w.ya, "a hole lies outside its part")
	}
	w.fresh = true
	return nil
}
