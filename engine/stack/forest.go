// Package stack turns a drawing into a forest of parts: few pieces of card,
// each of one colour, each resting wholly on exactly one other, that show the
// drawing exactly when they lie on one another.
package stack

// Colour is what a cell shows: 0 is empty, 1 to 24 are the drawing's colours.
// Palette entries cut from one stock are one Colour here.
type Colour uint8

// MaxColours is the most colours one drawing may have.
const MaxColours = 24

// Drawing is the picture to be stacked: W × H cells, row by row from the top.
type Drawing struct {
	W, H  int
	Cells []Colour // len W*H
}

// At is the colour of column x, row y (row 0 is the top); empty outside.
func (d Drawing) At(x, y int) Colour {
	if x < 0 || y < 0 || x >= d.W || y >= d.H {
		return 0
	}
	return d.Cells[y*d.W+x]
}

// Run is the cells X0 ≤ x < X1 of row Y, counted from the top left.
type Run struct{ Y, X0, X1 int32 }

// Part is one piece of stock in the forest.
type Part struct {
	Colour Colour
	Height int   // 1 is lowest
	On     int   // index of the part it rests on, -1 for the lowest
	Cells  []Run // the whole region it is cut from; rows from the top, left to right, runs maximal
	Shows  []Run // the part of Cells that nothing covers; never empty
}

// Forest is a drawing's parts. Invariants: parts are in order of height, then
// top row, then left column; a part's cells lie within those of the part it
// rests on, which is one lower; parts of one height share no side of a cell
// (nor a corner, where that corner is joined); the colours shown are the drawing.
type Forest struct {
	W, H    int
	Parts   []Part
	Heights int  // the largest height
	Bounded bool // the exact first step would have exceeded its bound: a beam was used instead
	// Apart lists corners where two cells of one part touch that must not be
	// joined although their stock could: side by side, two diagonals cross
	// there and the other one is joined. In order of row, then column.
	Apart []Diagonal
}

// Diagonal is two cells that touch at a grid corner only: Col and Row are those
// of the cell to the corner's lower right.
type Diagonal struct {
	Col, Row int32
	Rising   bool // lower left and upper right; else upper left and lower right
}
