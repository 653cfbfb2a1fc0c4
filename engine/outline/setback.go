package outline

import "sheetsprite/engine/shape"

// How far hidden edges are drawn back: more than a hand is off by, and more
// where foam lifts the part above, so that one looks under its edge (common
// practice, no source).
const (
	Setback      = shape.Um(300)
	FloatSetback = shape.Um(600)
)

// covered says what a piece has and what lies on it, cell by cell.
type covered struct {
	*levels
	piece, height int
}

func (c covered) has(col, row int) bool { return c.levels.piece(c.height, col, row) == c.piece }
func (c covered) hidden(col, row int) bool {
	return c.has(col, row) && c.levels.piece(c.height+1, col, row) >= 0
}

// drawnBack is what is taken off along the hidden free edges of a piece: a
// strip of width b inside each covered cell along each side where the piece
// ends, and the square at an inner corner where the cell in it and both its
// neighbours are covered. b is at most a quarter of the cell, and in a cell
// that loses something on two opposite sides at most what leaves the least
// strip. Joins, the squares of join/2 + b beside them, and the same under an
// opened corner of what lies on top stay.
func (l *levels) drawnBack(i int, float bool) shape.Region {
	p := &l.pieces[i]
	b := min(Setback, l.cell/4)
	if float {
		b = min(FloatSetback, l.cell/4)
	}
	narrow := min(b, max(0, (l.cell-p.stock.LeastStrip)/2))
	c := covered{l, i, p.height}
	var off []shape.Rect
	for _, r := range p.cells {
		for x := int(r.X0); x < int(r.X1); x++ {
			if c.hidden(x, int(r.Y)) {
				off = c.cellOff(off, x, int(r.Y), b, narrow)
			}
		}
	}
	if len(off) == 0 {
		return shape.Region{}
	}
	var keep []shape.Rect
	for _, j := range p.joins {
		for _, q := range diagonals[boolIndex(j.rising)] {
			keep = append(keep, q.square(l.node(j.col, j.row), j.side/2+b))
		}
	}
	for _, s := range p.shelters {
		// All about the corner: where the piece has a third cell there, its inner
		// square must stay too, or the two that stay would touch in a point.
		for q := quadrant(0); q < 4; q++ {
			keep = append(keep, q.square(l.node(s.col, s.row), s.side/2+b))
		}
	}
	return shape.FromRects(off).Subtract(shape.FromRects(keep))
}

// cellOff appends what a covered cell loses.
func (c covered) cellOff(off []shape.Rect, x, y int, b, narrow shape.Um) []shape.Rect {
	left, right := !c.has(x-1, y), !c.has(x+1, y)
	up, down := !c.has(x, y-1), !c.has(x, y+1)
	var inner [4]bool
	any := left || right || up || down
	for q := range inner {
		inner[q] = c.innerCorner(x, y, quadrant(q))
		any = any || inner[q]
	}
	if !any {
		return off
	}
	width := c.width(x, y, b, narrow)
	if width == 0 {
		return off
	}
	r := c.rect1(x, y)
	if left {
		off = append(off, shape.Rect{Min: r.Min, Max: shape.Point{X: r.Min.X + width, Y: r.Max.Y}})
	}
	if right {
		off = append(off, shape.Rect{Min: shape.Point{X: r.Max.X - width, Y: r.Min.Y}, Max: r.Max})
	}
	if up {
		off = append(off, shape.Rect{Min: shape.Point{X: r.Min.X, Y: r.Max.Y - width}, Max: r.Max})
	}
	if down {
		off = append(off, shape.Rect{Min: r.Min, Max: shape.Point{X: r.Max.X, Y: r.Min.Y + width}})
	}
	for q := quadrant(0); q < 4; q++ {
		if !inner[q] {
			continue
		}
		dx, dy := q.step()
		side := min(width, c.width(x+dx, y, b, narrow), c.width(x, y+dy, b, narrow))
		// The quadrant's corner of the cell; the square lies in the cell, so in
		// the opposite quadrant of that corner.
		at := c.node(x+int(q&1), y+int(q>>1))
		off = append(off, (3-q).square(at, side))
	}
	return off
}

// step is the way to the neighbours on the quadrant's side of a cell.
func (q quadrant) step() (dx, dy int) { return 2*int(q&1) - 1, 2*int(q>>1) - 1 }

// innerCorner says whether the piece ends at that corner of the cell with the
// cell and both its neighbours there covered.
func (c covered) innerCorner(x, y int, q quadrant) bool {
	dx, dy := q.step()
	return c.hidden(x, y) && c.hidden(x+dx, y) && c.hidden(x, y+dy) && !c.has(x+dx, y+dy)
}

// width is b for a covered cell, narrow if it loses something on two opposite
// sides.
func (c covered) width(x, y int, b, narrow shape.Um) shape.Um {
	side := func(dx, dy int, q1, q2 quadrant) bool {
		return !c.has(x+dx, y+dy) || c.innerCorner(x, y, q1) || c.innerCorner(x, y, q2)
	}
	if side(-1, 0, upperLeft, lowerLeft) && side(1, 0, upperRight, lowerRight) ||
		side(0, -1, upperLeft, upperRight) && side(0, 1, lowerLeft, lowerRight) {
		return narrow
	}
	return b
}

// rect1 is one cell in grid coordinates.
func (c covered) rect1(x, y int) shape.Rect {
	at := c.node(x, y+1)
	return shape.Rect{Min: at, Max: at.Add(shape.Point{X: c.cell, Y: c.cell})}
}
