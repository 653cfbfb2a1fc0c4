package cells

import "math"

// far bounds how far outside a grid a line's end is followed, in cells: more
// than any screen shows, little enough that a wild number costs nothing.
const far = 4096

// CellAt is the cell that the point (x, y) lies in, in cell coordinates: the
// cell in column c covers c ≤ x < c+1. Points further out than 4096 cells are
// brought back to that; ok is false for a point that is no number.
func CellAt(x, y float64) (c Cell, ok bool) {
	if math.IsNaN(x) || math.IsNaN(y) {
		return Cell{}, false
	}
	near := func(v float64) int { return int(math.Floor(max(-far, min(far, v)))) }
	return Cell{near(x), near(y)}, true
}

// Line calls put for each cell of a straight line from a to b, both ends
// included, in order. Each step goes to one of the eight neighbours, so that
// there is never a gap; the line from b to a has the same cells. It is the
// line of Bresenham (1965), worked out in whole numbers for each cell by itself.
func Line(a, b Cell, put func(Cell)) {
	back := b.X < a.X || b.X == a.X && b.Y < a.Y
	if back {
		a, b = b, a
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	n := max(dx, dy, -dy)
	for i := range n + 1 {
		if back {
			i = n - i
		}
		put(Cell{a.X + roundDiv(i*dx, n), a.Y + roundDiv(i*dy, n)})
	}
}

// roundDiv is a/b to the nearest whole number, halves up; 0 where b is 0.
func roundDiv(a, b int) int {
	if b == 0 {
		return 0
	}
	a, b = 2*a+b, 2*b
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
