package outline

import (
	"slices"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// quadrant is one of the four cells about a grid corner.
type quadrant int8

const (
	upperLeft quadrant = iota
	upperRight
	lowerLeft
	lowerRight
)

// of is the quadrant's cell about the corner whose lower right cell is given.
func (q quadrant) of(col, row int) (c, r int) {
	return col - 1 + int(q&1), row - 1 + int(q>>1)
}

// square is the square of the given side in that quadrant about p.
func (q quadrant) square(p shape.Point, side shape.Um) shape.Rect {
	r := shape.Rect{Min: p, Max: p}
	if q&1 == 0 {
		r.Min.X -= side
	} else {
		r.Max.X += side
	}
	if q>>1 == 0 {
		r.Max.Y += side
	} else {
		r.Min.Y -= side
	}
	return r
}

// diagonal is the pair of quadrants of two cells that touch at the corner.
type diagonal [2]quadrant

// The diagonals by rising or not; the upper cell first.
var diagonals = [2]diagonal{{upperLeft, lowerRight}, {upperRight, lowerLeft}}

// corner is something done at a grid corner, seen from one piece: to both
// quadrants of a join, or to one cell's.
type corner struct {
	col, row int
	at       quadrant // the cell; for a join, the upper one of two
	rising   bool
	side     shape.Um // of the whole square, centred on the corner
}

// contact is two cells of one layer that touch only at a corner.
type contact struct {
	col, row, height int
	rising, joined   bool
	pieces           [2]int // of the upper and of the lower cell
}

// corners finds all contacts, by row, then column, then height, and settles
// which are joined; then it gives each piece what is done at its corners.
func (l *levels) corners(f *stack.Forest, o Options) (contacts []contact, joinSide, openSide []shape.Um) {
	kept := map[stack.Diagonal]bool{} // apart at all heights
	for _, d := range f.Apart {
		kept[d] = true
	}
	for row := 1; row < l.rows; row++ {
		for col := 1; col < l.cols; col++ {
			first := len(contacts)
			apart := [2]bool{
				kept[stack.Diagonal{Col: int32(col), Row: int32(row)}],
				kept[stack.Diagonal{Col: int32(col), Row: int32(row), Rising: true}],
			}
			held := [2]bool{} // joined at some height of the forest
			lowest := 1
			if o.Backer != nil {
				lowest = 2
			}
			for height := lowest; height <= len(l.at); height++ {
				cs := l.touching(col, row, height)
				for i := range cs {
					c := &cs[i]
					d := boolIndex(c.rising)
					_, fits := l.join(c.pieces[0], o)
					c.joined = fits && c.pieces[0] == c.pieces[1] && !apart[d] &&
						!(i == 1 && cs[0].joined) // two can't cross
					// What is apart at one height is so at all above.
					apart[d] = apart[d] || !c.joined
					held[d] = held[d] || c.joined
				}
				contacts = append(contacts, cs...)
			}
			if o.Backer != nil && o.Backer.Border == 0 {
				// The backer carries what is joined above it as one piece,
				// even where its own stock would rather have a longer side.
				for _, c := range l.touching(col, row, 1) {
					_, fits := l.join(c.pieces[0], o)
					c.joined = fits || held[boolIndex(c.rising)]
					contacts = slices.Insert(contacts, first, c)
				}
			}
			joins, opens := shape.Um(0), shape.Um(0)
			for _, c := range contacts[first:] {
				if c.joined {
					side, fits := l.join(c.pieces[0], o)
					if !fits {
						side = l.cell / 4 * 2
					}
					joins = max(joins, side)
				} else {
					opens = max(opens, opening(l.cell, l.pieces[c.pieces[0]].stock.Kerf))
				}
			}
			for _, c := range contacts[first:] {
				joinSide, openSide = append(joinSide, joins), append(openSide, opens)
				l.settle(c, joins, opens)
			}
		}
	}
	return contacts, joinSide, openSide
}

// join is the side of a piece's own joins and whether they fit.
func (l *levels) join(piece int, o Options) (shape.Um, bool) {
	side, ok := Joinable(l.cell, l.pieces[piece].stock.LeastStrip, o.Join)
	return side, ok && o.Corners != project.Apart
}

// touching is the contacts at a corner at one height, at most two.
func (l *levels) touching(col, row, height int) []contact {
	var p [4]int
	none := true
	for q := range p {
		c, r := quadrant(q).of(col, row)
		p[q] = l.piece(height, c, r)
		none = none && p[q] < 0
	}
	if none {
		return nil
	}
	layer := func(a, b int) bool {
		return a >= 0 && b >= 0 && l.pieces[a].stock.Index == l.pieces[b].stock.Index
	}
	var cs []contact
	for i, d := range diagonals {
		e := diagonals[1-i]
		a, b := p[d[0]], p[d[1]]
		if layer(a, b) && !layer(a, p[e[0]]) && !layer(a, p[e[1]]) {
			cs = append(cs, contact{col: col, row: row, height: height, rising: i == 1, pieces: [2]int{a, b}})
		}
	}
	return cs
}

// settle tells the pieces about a contact.
func (l *levels) settle(c contact, joinSide, openSide shape.Um) {
	d, e := diagonals[boolIndex(c.rising)], diagonals[1-boolIndex(c.rising)]
	if c.joined {
		p := &l.pieces[c.pieces[0]]
		p.joins = append(p.joins, corner{c.col, c.row, d[0], c.rising, joinSide})
		for _, q := range e { // other parts at this height make room
			col, row := q.of(c.col, c.row)
			if other := l.piece(c.height, col, row); other >= 0 {
				l.pieces[other].yields = append(l.pieces[other].yields, corner{c.col, c.row, q, c.rising, joinSide})
			}
		}
		return
	}
	for i, q := range d {
		p := &l.pieces[c.pieces[i]]
		cut := corner{c.col, c.row, q, c.rising, openSide}
		p.openings = append(p.openings, cut)
		if p.on >= 0 {
			l.pieces[p.on].shelters = append(l.pieces[p.on].shelters, cut)
		}
	}
}

func boolIndex(b bool) int {
	if b {
		return 1
	}
	return 0
}
