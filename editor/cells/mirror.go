package cells

// Sides says which sides of a drawing are drawn together, each the other's
// mirror image about the grid's middle.
type Sides string

// The ways to draw several sides together.
const (
	One        Sides = "off"
	LeftRight  Sides = "left-right"
	TopBottom  Sides = "top-bottom"
	AllQuarter Sides = "all-four"
)

// Mirrored calls put for c and for its mirror images in a grid of w × h; for
// cells that are their own image more than once.
func Mirrored(sides Sides, w, h int, c Cell, put func(Cell)) {
	put(c)
	if sides == LeftRight || sides == AllQuarter {
		put(Cell{w - 1 - c.X, c.Y})
	}
	if sides == TopBottom || sides == AllQuarter {
		put(Cell{c.X, h - 1 - c.Y})
	}
	if sides == AllQuarter {
		put(Cell{w - 1 - c.X, h - 1 - c.Y})
	}
}

// MirroredRun is Mirrored for a run of cells.
func MirroredRun(sides Sides, w, h int, r Run, put func(Run)) {
	put(r)
	other := Run{r.Y, w - r.X1, w - r.X0}
	if sides == LeftRight || sides == AllQuarter {
		put(other)
	}
	if sides == TopBottom || sides == AllQuarter {
		put(Run{h - 1 - r.Y, r.X0, r.X1})
	}
	if sides == AllQuarter {
		put(Run{h - 1 - r.Y, other.X0, other.X1})
	}
}
