// Package stacktest makes drawings for tests and benchmarks: sprites of the
// kind that people draw, tiled fields of them, and noise. Every drawing follows
// from its arguments alone. Only tests and cmd/check import it.
package stacktest

import "sheetsprite/engine/stack"

// source is a small generator of pseudo-random numbers (splitmix64, Steele,
// Lea and Flood 2014), kept here so that no release of Go changes a drawing.
type source uint64

func newSource(seed int) *source {
	s := source(uint64(seed)*0x9e3779b97f4a7c15 + 0x1d8e4e27c47d124f)
	s.next()
	return &s
}

func (s *source) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a number from 0 to n-1.
func (s *source) below(n int) int { return int(s.next() % uint64(n)) }

// between is a number from lo to hi, both included.
func (s *source) between(lo, hi int) int { return lo + s.below(hi-lo+1) }

// oneIn is true once in n times.
func (s *source) oneIn(n int) bool { return s.below(n) == 0 }

// Noise is a drawing whose cells are independent of one another, each of the
// colours (1 to 24) equally often and none empty: the hardest input there is.
func Noise(w, h, colours, seed int) stack.Drawing {
	s := newSource(seed)
	d := stack.Drawing{W: w, H: h, Cells: make([]stack.Colour, w*h)}
	for i := range d.Cells {
		d.Cells[i] = stack.Colour(1 + s.below(colours))
	}
	return d
}

// Tile is a square drawing of n×n cells filled with sprites of 32×32 in as
// many colours as asked for (4 to 16), row by row. Each sprite has 4 to 8 of
// them; they take turns, so that from 3×3 sprites on all occur. Sides that aren't a
// multiple of 32 cut the last ones off.
func Tile(n, colours int) stack.Drawing {
	const sprites = 64 // distinct ones; more of the same kind add nothing
	drawn := make([]stack.Drawing, 0, sprites)
	for i := range sprites {
		drawn = append(drawn, Sprite32(1000+i, min(colours, 4+i%5)))
	}
	d := stack.Drawing{W: n, H: n, Cells: make([]stack.Colour, n*n)}
	across := (n + Side - 1) / Side
	for y := range n {
		for x := range n {
			i := y/Side*across + x/Side
			c := drawn[i%sprites].At(x%Side, y%Side)
			d.Cells[y*n+x] = shifted(c, i, colours)
		}
	}
	return d
}

// shifted moves a sprite's own colours along the larger palette; empty and the
// outline's colour stay.
func shifted(c stack.Colour, by, colours int) stack.Colour {
	if c <= Outline {
		return c
	}
	return stack.Colour(2 + (int(c)-2+by*3)%(colours-1))
}

// Repeat is k × k copies of a drawing.
func Repeat(d stack.Drawing, k int) stack.Drawing {
	out := stack.Drawing{W: d.W * k, H: d.H * k}
	for y := range out.H {
		for range k {
			out.Cells = append(out.Cells, d.Cells[y%d.H*d.W:][:d.W]...)
		}
	}
	return out
}
