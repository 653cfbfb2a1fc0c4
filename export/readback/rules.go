package readback

import (
	"sheetsprite/engine/project"
)

// What the cells of a part ask its outline to be, about one corner of the grid.
// Nothing here looks at an outline: only at which part lies under the centres of
// the cells, at the stocks and at the maker's settings.

// state is what a corner of the grid asks for at one height.
type state struct {
	part  [4]int   // by quarter: whose cell it is, none for nobody's
	over  [4]bool  // by quarter: a higher part covers the cell
	back  [4]int64 // by quarter: setback of the cell's hidden edges
	keep  [4]int64 // by quarter: as far from the corner as this, nothing is drawn back
	open  [4]bool  // by quarter: the cell's corner is taken out
	link  int      // the part that a join holds together here, or none
	meets [2]bool  // falling, rising: two cells of one stock touch at the corner only
}

// Quarters about a corner: bit 0 is right, bit 1 is up.
const (
	lowerLeft = iota
	lowerRight
	upperLeft
	upperRight
)

// drawnBack is by how much a hidden edge is drawn back, underFloat the same below
// a height that stands on foam, leastOpening the least side of what is taken out of a corner, in µm.
const (
	drawnBack    = 300
	underFloat   = 600
	leastOpening = 100
)

// ownerAt is the part under a cell's centre at a height, or none.
func (w *sweep) ownerAt(h, col, row int) int {
	if h >= len(w.owner) || col < 0 || row < 0 || col >= w.cols || row >= w.rows {
		return none
	}
	return int(w.owner[h][row*w.cols+col])
}

// cellOf is the cell in a quarter of the corner whose lower right cell is given.
func cellOf(q, col, row int) (int, int) { return col - 1 + q&1, row - q>>1 }

// stateAt works out what a corner asks for at a height, joins aside.
func (w *sweep) stateAt(h, col, row int) state {
	s := state{link: none}
	for q := range 4 {
		c, r := cellOf(q, col, row)
		s.part[q] = w.ownerAt(h, c, r)
		s.over[q] = w.ownerAt(h+1, c, r) != none
	}
	for q := range 4 {
		if s.part[q] != none && s.over[q] && s.part != [4]int{s.part[q], s.part[q], s.part[q], s.part[q]} {
			c, r := cellOf(q, col, row)
			s.back[q] = w.back(h, c, r)
		}
	}
	return s
}

// back is the setback of a covered cell's hidden edges: less in a cell that
// loses something on two opposite sides.
func (w *sweep) back(h, col, row int) int64 {
	p := w.ownerAt(h, col, row)
	has := func(dc, dr int) bool {
		if h == 1 && w.backed != unbacked { // its holes count, even if they are filled
			return w.cellAt(col+dc, row+dr) != empty
		}
		return w.ownerAt(h, col+dc, row+dr) == p
	}
	hidden := func(dc, dr int) bool { return has(dc, dr) && w.ownerAt(h+1, col+dc, row+dr) != none }
	inner := func(dc, dr int) bool { return hidden(dc, 0) && hidden(0, dr) && !has(dc, dr) }
	loses := func(dc, dr int) bool {
		if dc != 0 {
			return !has(dc, 0) || inner(dc, -1) || inner(dc, 1)
		}
		return !has(0, dr) || inner(-1, dr) || inner(1, dr)
	}
	b := w.setback(h)
	if loses(-1, 0) && loses(1, 0) || loses(0, -1) && loses(0, 1) {
		strip := int64(w.stocks[w.parts[p].stock].LeastStrip)
		return max(0, min(b, (w.cell-strip)/2))
	}
	return b
}

// diagonals are the quarters that lie opposite: falling, then rising.
var diagonals = [2][2]int{{upperLeft, lowerRight}, {lowerLeft, upperRight}}

// meet finds the cells of one stock that touch at the corner only.
func (s *state) meet(stock [4]int) {
	for i, d := range diagonals {
		e := diagonals[1-i]
		a := stock[d[0]]
		s.meets[i] = a != empty && a == stock[d[1]] && a != stock[e[0]] && a != stock[e[1]]
	}
}

// crossing says which diagonal is held where two cross: only one can be.
type crossing int

const (
	fallingFirst crossing = iota
	risingFirst
)

// corner is what a corner of the grid asks for at all heights.
type corner struct {
	states     []state // by height less one; of a backer that stands out only the joins
	join, open int64   // half the sides of its joins and of what is taken out
}

// work works out what a corner asks for.
func (c *corner) work(w *sweep, col, row int, first crossing) {
	c.states, c.join, c.open = c.states[:0], 0, 0
	never := w.settings.Corners == project.Apart
	apart := [2]bool{never, never} // what is apart at one height is so above
	var held [2]bool               // joined at some height above the backer
	for h := 1; h <= w.heights; h++ {
		c.states = append(c.states, w.stateAt(h, col, row))
	}
	for n := range c.states {
		h := n + 1
		if w.backed == flush { // the backer last: it carries what is joined above
			h = (n+1)%w.heights + 1
		}
		s := &c.states[h-1]
		backer := h == 1 && w.backed != unbacked
		stock := w.stocksAt(s, col, row, backer)
		s.meet(stock)
		for i := range diagonals {
			i ^= int(first)
			d := diagonals[i]
			if !s.meets[i] {
				continue
			}
			side := w.joinSide(stock[d[0]])
			fits := 2*side <= w.cell
			if backer && w.backed == flush && held[i] {
				if !fits {
					side = w.cell / 4 * 2 // rather than fall asunder
				}
				s.link = s.part[d[0]]
				c.join = max(c.join, side/2)
				continue
			}
			if !apart[i] && (backer || s.part[d[0]] == s.part[d[1]]) && s.link == none && fits {
				s.link = s.part[d[0]]
				c.join = max(c.join, side/2)
				held[i] = true
				continue
			}
			if !backer || w.backed != flush {
				apart[i] = true
			}
			s.open[d[0]], s.open[d[1]] = true, true
			c.open = max(c.open, w.opening(stock[d[0]])/2)
		}
		if h == 1 && w.backed == bordered {
			s.part = [4]int{none, none, none, none}
		}
	}
	c.spare(w)
}

// spare marks where nothing is drawn back: in the cells that a join holds, so
// that its neck keeps its width, and under a corner that is taken out above.
func (c *corner) spare(w *sweep) {
	for i := range c.states {
		s, b := &c.states[i], w.setback(i+1)
		for q, part := range s.part {
			if part == none {
				continue
			}
			if s.link == part && (s.part[q^3] == part && s.part[q^1] != part && s.part[q^2] != part) {
				s.keep[q] = c.join + b
			}
			if i+1 < len(c.states) && c.states[i+1].open != [4]bool{} {
				s.keep[q] = max(s.keep[q], c.open+b)
			}
		}
	}
}

// stocksAt is the stocks of the cells about a corner. The backer has all cells
// of the drawing, whether its holes are filled or not.
func (w *sweep) stocksAt(s *state, col, row int, backer bool) (stock [4]int) {
	for q := range stock {
		c, r := cellOf(q, col, row)
		switch {
		case backer && w.cellAt(c, r) != empty:
			stock[q] = w.layers[0].stock
		case backer || s.part[q] == none:
			stock[q] = empty
		default:
			stock[q] = w.parts[s.part[q]].stock
		}
	}
	return stock
}

// opening is the side of the square that is taken out of a corner of a stock's
// cells: so large that the cuts beside what is left, half a side apart, pass one
// another.
func (w *sweep) opening(stock int) int64 {
	kerf := int64(w.settings.KerfOf(w.stocks[stock]))
	side := int64(leastOpening)
	for half := (kerf + 1) / 2; half > 0 && side/2 <= 2*half; {
		side += 2
	}
	return min(side, w.cell/4*2)
}

// setback is by how much hidden edges of a height are drawn back where nothing
// is narrow: farther where what hides them floats.
func (w *sweep) setback(h int) int64 {
	if w.float == h+1 {
		return min(underFloat, w.cell/4)
	}
	return min(drawnBack, w.cell/4)
}

// joinSide is the side of the square that holds two cells of a stock together:
// what the maker asks for, else a quarter of a cell, or √2 times the least strip
// where that is more, since its narrowest place is its half diagonal on either
// side; rounded up to even.
func (w *sweep) joinSide(stock int) int64 {
	side := int64(w.settings.Join)
	if side == 0 {
		strip := int64(w.stocks[stock].LeastStrip)
		side = (w.cell + 3) / 4
		for side*side < 2*strip*strip {
			side += max(1, (2*strip*strip-side*side)/(4*strip)) // never beyond the first that is enough
		}
	}
	return side + side%2
}
