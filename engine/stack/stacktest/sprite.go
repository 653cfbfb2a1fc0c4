package stacktest

import "sheetsprite/engine/stack"

// Side is the width and height of a sprite, in cells.
const Side = 32

// Outline is the dark colour of a sprite's outlines.
const Outline stack.Colour = 1

// Sprite32 is a drawing of 32×32 cells like those that people draw: rounded
// forms, nearly mirror-symmetric, each with a dark outline one cell wide that
// goes in diagonal steps, shaded in bands with some dithering, with highlights
// and small details. It uses exactly the given number of colours (2 to 24);
// 4 to 8 is what it's made for. The package's test states how many patches such
// drawings have on average.
func Sprite32(seed, colours int) stack.Drawing {
	e := &easel{source: newSource(seed*31 + colours), colours: colours}
	e.mixRamps()
	e.paintBody()
	e.paintLimbs()
	e.paintDetails()
	e.breakSymmetry()
	e.useAllColours()
	return stack.Drawing{W: Side, H: Side, Cells: e.cells[:]}
}

// easel is a sprite in the making.
type easel struct {
	*source
	cells   [Side * Side]stack.Colour
	colours int
	ramps   [][]stack.Colour // shades of one material, dark to light
}

// mixRamps divides the colours other than the outline's into ramps of one to
// three shades.
func (e *easel) mixRamps() {
	next := stack.Colour(2)
	left := e.colours - 1
	for left > 0 {
		n := min(left, e.between(2, 3))
		ramp := make([]stack.Colour, n)
		for i := range ramp {
			ramp[i] = next
			next++
		}
		e.ramps = append(e.ramps, ramp)
		left -= n
	}
}

func (e *easel) at(x, y int) stack.Colour {
	if x < 0 || y < 0 || x >= Side || y >= Side {
		return 0
	}
	return e.cells[y*Side+x]
}

func (e *easel) set(x, y int, c stack.Colour) {
	if x >= 0 && y >= 0 && x < Side && y < Side {
		e.cells[y*Side+x] = c
	}
}

// ramp is the n-th material, going round where there are fewer.
func (e *easel) ramp(n int) []stack.Colour { return e.ramps[n%len(e.ramps)] }

// paintBody paints one to three large forms on the middle line, the lowest
// first.
func (e *easel) paintBody() {
	y := e.between(19, 22)
	for i := range e.between(2, 3) {
		rx, ry := e.between(7, 14), e.between(5, 9)
		e.paint(form{kind(e.below(3)), 31, 2 * y, 2*rx + 1, 2*ry + 1}, e.ramp(i))
		y -= e.between(5, 9)
	}
}

// paintLimbs paints pairs of small forms left and right.
func (e *easel) paintLimbs() {
	for i := range e.between(2, 4) {
		cx, cy := e.between(3, 26), e.between(8, 56)
		rx, ry := e.between(4, 11), e.between(4, 13)
		k, ramp := kind(e.below(3)), e.ramp(i+1)
		e.paint(form{k, cx, cy, rx, ry}, ramp)
		e.paint(form{k, 62 - cx, cy, rx, ry}, ramp)
	}
}
