package cells

// Body says whether a figure is drawn as a line round it or filled.
type Body string

// The bodies of a figure.
const (
	Hollow Body = "line"
	Solid  Body = "filled"
)

// Rectangle calls put for each run of cells of the box b: its edge, one cell
// wide, or all of it.
func Rectangle(b Box, body Body, put func(Run)) {
	for y := b.Y; y < b.Y+b.H; y++ {
		if body == Solid || y == b.Y || y == b.Y+b.H-1 || b.W <= 2 {
			put(Run{y, b.X, b.X + b.W})
			continue
		}
		put(Run{y, b.X, b.X + 1})
		put(Run{y, b.X + b.W - 1, b.X + b.W})
	}
}

// Oval calls put for each run of cells of the largest ellipse in the box b:
// those whose middle lies in it, and always the middle cells of each row and
// column, so that it reaches all four sides of b. It is symmetrical about both
// middles. Hollow is its cells that have a neighbour by side outside it: a line
// one cell wide that hangs together by corners.
func Oval(b Box, body Body, put func(Run)) {
	if b.Empty() {
		return
	}
	reach := make([]int, b.H) // cells from the left side of b that the row leaves free
	for y := range reach {
		reach[y] = ovalIndent(b.W, b.H, y)
	}
	indent := func(y int) int {
		if y < 0 || y >= b.H {
			return b.W // nothing there
		}
		return reach[y]
	}
	for y, in := range reach {
		// A hollow oval leaves out what has cells of it above, below and on both sides.
		cover := max(in+1, indent(y-1), indent(y+1))
		x0, x1 := b.X+in, b.X+b.W-in
		if body == Solid || 2*cover >= b.W {
			put(Run{b.Y + y, x0, x1})
			continue
		}
		put(Run{b.Y + y, x0, b.X + cover})
		put(Run{b.Y + y, b.X + b.W - cover, x1})
	}
}

// ovalIndent is the first column of row y of the ellipse in a box of w × h.
func ovalIndent(w, h, y int) int {
	// In half cells from the middle: (u/w)² + (v/h)² ≤ 1.
	v := 2*y + 1 - h
	in := 0
	for ; in < (w-1)/2; in++ {
		u := 2*in + 1 - w
		if u*u*h*h+v*v*w*w <= w*w*h*h {
			break
		}
		// The middle rows reach the sides of the box however flat it is.
		if v*v <= 1 {
			break
		}
	}
	return in
}
