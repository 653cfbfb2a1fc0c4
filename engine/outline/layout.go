// Package outline turns a forest of parts into the outlines that are cut:
// layer by layer, with joins, opened corners, setback and border.
package outline

import "sheetsprite/engine/shape"

// Layout is a sprite's finished shapes, in the layers' coordinates: µm, y up,
// origin at the lower left of the bounds of all layers, backer included.
type Layout struct {
	Cell       shape.Um    // cell side
	Cols, Rows int         // the grid
	Grid       shape.Point // lower left corner of the grid
	Size       shape.Point // upper right corner of the bounds of all layers
	Layers     []Layer     // lowest first
	Heights    int         // the largest height, backer included
	Corner     shape.Um2   // area where what is seen differs from the drawing (joins that show, opened corners), each place once
	Joins      []Join      // all corners held together, by row from the top, then column, then height
	Opened     []Opening   // all corners taken apart, in the same order
}

// Layer is the parts of one stock at one height. Layers are in order of
// height, then of stock.
type Layer struct {
	Number int // 1 is lowest
	Height int // 1 is lowest; with a backer that is the backer's
	Stock  int // Index of the stock given to Build
	Parts  []Part
	Joins  int // joins among its parts
}

// Part is one piece of stock with its outline.
type Part struct {
	Index   int // its place among all parts of the layout, from 0: the backer's pieces if any, then the forest's parts in their order
	On      int // Index of the part that it rests on, -1 for the board
	Tree    int // index into Forest.Parts, -1 for the backer
	Outline shape.Outline
	Pins    int // how many of the outline's holes, the last ones, are for pins
	Bounds  shape.Rect
}

// Bare is the part's outline without holes for pins.
func (p *Part) Bare() shape.Outline {
	bare := shape.Outline{Outer: p.Outline.Outer}
	if n := len(p.Outline.Holes) - p.Pins; n > 0 {
		bare.Holes = p.Outline.Holes[:n:n]
	}
	return bare
}

// Corner is a grid corner: column and row of the cell to its lower right, row
// 0 at the top. At is its place in the layers' coordinates.
type Corner struct {
	Col, Row int
	At       shape.Point
	Side     shape.Um // of the square put in or taken out, even
}

// Square is the square about the corner.
func (c Corner) Square() shape.Rect {
	half := shape.Point{X: c.Side / 2, Y: c.Side / 2}
	return shape.Rect{Min: c.At.Sub(half), Max: c.At.Add(half)}
}

// Join is the square that holds two cells together which touch only at a
// corner. Its Side is the largest of all heights there.
type Join struct {
	Corner
	Height int  // of the part that it belongs to
	Part   int  // Index of that part
	Rising bool // the cells lie lower left and upper right; else upper left and lower right
}

// Opening is a corner where two cells of one layer touch but aren't joined:
// a square about the corner is taken out of both. Its Side is the largest of
// all heights there.
type Opening struct {
	Corner
	Height int    // of the layer
	Parts  [2]int // Index of the upper cell's part and of the lower one's; the same where a part touches itself
	Rising bool   // as for Join
}
