package cells

// Way is the direction of a quarter turn.
type Way string

// The ways to turn.
const (
	ToRight Way = "right" // clockwise
	ToLeft  Way = "left"
)

// Over is how a drawing is flipped.
type Over string

// The ways to flip.
const (
	Sideways   Over = "sideways"    // left and right change places
	UpsideDown Over = "upside-down" // top and bottom change places
)

// Turned is g after a quarter turn; width and height change places.
func Turned(g Grid, way Way) Grid {
	t := Grid{g.H, g.W, make([]byte, len(g.Cells))}
	for y := range g.H {
		for x := range g.W {
			to := x*t.W + g.H - 1 - y
			if way == ToLeft {
				to = (g.W-1-x)*t.W + y
			}
			t.Cells[to] = g.Cells[y*g.W+x]
		}
	}
	return t
}

// Flip flips g in place.
func Flip(g Grid, over Over) {
	for y := range g.H {
		for x := range g.W {
			fx, fy := g.W-1-x, y
			if over == UpsideDown {
				fx, fy = x, g.H-1-y
			}
			if i, j := y*g.W+x, fy*g.W+fx; i < j {
				g.Cells[i], g.Cells[j] = g.Cells[j], g.Cells[i]
			}
		}
	}
}

// Shifted is g with every cell moved dx to the right and dy down; what leaves
// on one side comes in on the other.
func Shifted(g Grid, dx, dy int) Grid {
	s := Grid{g.W, g.H, make([]byte, len(g.Cells))}
	if len(g.Cells) == 0 {
		return s
	}
	dx, dy = wrap(dx, g.W), wrap(dy, g.H)
	for y := range g.H {
		from := g.Cells[y*g.W : (y+1)*g.W]
		to := s.Cells[wrap(y+dy, g.H)*g.W:][:g.W]
		copy(to[dx:], from)
		copy(to, from[g.W-dx:])
	}
	return s
}

// wrap is v modulo n, 0 ≤ result < n.
func wrap(v, n int) int {
	if v %= n; v < 0 {
		v += n
	}
	return v
}

// Cut is the cells of g in the box b, which may reach beyond g; what lies
// beyond is empty.
func Cut(g Grid, b Box) Grid {
	if b.Empty() {
		return Grid{}
	}
	c := New(b.W, b.H)
	Paste(c, g, Cell{-b.X, -b.Y}, Opaque)
	return c
}

// Blend says what pasting does with empty cells.
type Blend string

// What pasting does with empty cells.
const (
	Opaque Blend = "opaque" // they are pasted too
	Ink    Blend = "ink"    // only cells with a colour are pasted
)

// Paste lays from over g with its top left cell at c; what reaches beyond g is lost.
func Paste(g, from Grid, c Cell, blend Blend) {
	in := Box{c.X, c.Y, from.W, from.H}.Within(g.W, g.H)
	for y := in.Y; y < in.Y+in.H; y++ {
		src := from.Cells[(y-c.Y)*from.W+in.X-c.X:][:in.W]
		dst := g.Cells[y*g.W+in.X:][:in.W]
		if blend == Opaque {
			copy(dst, src)
			continue
		}
		for i, k := range src {
			if k != Empty {
				dst[i] = k
			}
		}
	}
}
