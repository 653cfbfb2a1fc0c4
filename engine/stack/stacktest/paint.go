package stacktest

import "sheetsprite/engine/stack"

// kind is the outline of a form.
type kind int

const (
	ellipse kind = iota
	lozenge
	box
)

// form is a painted shape; its measures are in half cells, cell (x, y) has its
// centre at (2x, 2y).
type form struct {
	kind   kind
	cx, cy int
	rx, ry int
}

// holds says whether the cell's centre lies in the form.
func (f form) holds(x, y int) bool {
	dx, dy := abs(2*x-f.cx), abs(2*y-f.cy)
	switch f.kind {
	case ellipse:
		return dx*dx*f.ry*f.ry+dy*dy*f.rx*f.rx <= f.rx*f.rx*f.ry*f.ry
	case lozenge:
		return dx*f.ry+dy*f.rx <= f.rx*f.ry*5/4 && dx <= f.rx && dy <= f.ry
	default:
		cut := min(f.rx, f.ry) / 2 // corners taken off
		return dx <= f.rx && dy <= f.ry && dx+dy <= f.rx+f.ry-cut
	}
}

// light is how bright the form is at a cell, from 0 to 1000, lit from the upper
// left.
func (f form) light(x, y int) int {
	l := 500 - 320*(2*x-f.cx)/max(f.rx, 1) - 480*(2*y-f.cy)/max(f.ry, 1)
	return min(max(l, 0), 1000)
}

// paint puts a form on the drawing: outline at its edge, shades inside, with a
// dithered band between two shades now and then.
func (e *easel) paint(f form, ramp []stack.Colour) {
	dither := 0
	if e.oneIn(3) {
		dither = e.between(60, 140)
	}
	for y := range Side {
		for x := range Side {
			if !f.holds(x, y) {
				continue
			}
			edge := !f.holds(x-1, y) || !f.holds(x+1, y) || !f.holds(x, y-1) || !f.holds(x, y+1)
			if edge || x == 0 || y == 0 || x == Side-1 || y == Side-1 {
				e.set(x, y, Outline)
				continue
			}
			l := f.light(x, y)
			if (x+y)%2 == 0 {
				l += dither
			} else {
				l -= dither
			}
			shade := min(max(l, 0)*len(ramp)/1001, len(ramp)-1)
			e.set(x, y, ramp[shade])
		}
	}
}

// inside says whether a cell and its four neighbours are painted in something
// other than the outline's colour.
func (e *easel) inside(x, y int) bool {
	return e.at(x, y) > Outline && e.at(x-1, y) > Outline && e.at(x+1, y) > Outline &&
		e.at(x, y-1) > Outline && e.at(x, y+1) > Outline
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}
