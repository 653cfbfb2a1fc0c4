// Package relief makes what the preview shows of a planned sprite: its parts as
// prisms of card at their heights, and the shadows they cast on one another.
// It computes in the worker and is drawn by package canvas; nothing here knows
// a browser.
package relief

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Scene is a sprite as it will stand on its board, in the layers' coordinates:
// µm, x right, y up, the board at height 0. Its lists are few and flat, so that
// it crosses from the worker in one piece and costs the collector nothing.
type Scene struct {
	Cell       int32
	Cols, Rows int32
	Grid       [2]int32 // lower left corner of the grid
	Size       [2]int32 // upper right corner of all parts' bounds
	Stocks     []string // IDs
	Parts      []Part   // in the layout's order: what a part rests on stands before it
	Quads      []Quad   // tops, part by part
	Edges      []Edge   // outlines, part by part
	Runs       []Run    // cells that nothing covers, part by part
}

// Part is one piece of card.
type Part struct {
	Layer, Height  int32
	Stock          int32 // index into Stocks
	On             int32 // index of the part below, -1 for the board
	Z0, Z1         int32 // lower and upper face, µm over the board
	X0, Y0, X1, Y1 int32 // bounds
	R, G, B        int32 // of its stock
	Quad0, Quad1   int32 // its tops in Quads
	Edge0, Edge1   int32 // its outline in Edges
	Run0, Run1     int32 // its cells in Runs
}

// Quad is a trapezium with level sides: from XL0 to XR0 at Y0, from XL1 to XR1 at Y1.
type Quad struct{ Y0, Y1, XL0, XR0, XL1, XR1 int32 }

// Edge is a piece of outline; the part lies to the left of the way from 0 to 1.
type Edge struct{ X0, Y0, X1, Y1 int32 }

// Run is the cells X0 ≤ x < X1 of row Y, counted from the top left of the grid.
type Run struct{ Y, X0, X1 int32 }

// Build makes the scene of a layout and the forest it came from. Each part lies
// over the one below it, on the tape or foam that how says.
func Build(l outline.Layout, f stack.Forest, how project.Stack, stocks []project.Stock) Scene {
	s := Scene{
		Cell: int32(l.Cell), Cols: int32(l.Cols), Rows: int32(l.Rows),
		Grid: point(l.Grid), Size: point(l.Size),
	}
	for _, st := range stocks {
		s.Stocks = append(s.Stocks, st.ID)
	}
	n := 0
	for _, layer := range l.Layers {
		n += len(layer.Parts)
	}
	s.Parts = make([]Part, n)
	for _, layer := range l.Layers {
		for _, p := range layer.Parts {
			q := &s.Parts[p.Index]
			q.Layer, q.Height, q.Stock, q.On = int32(layer.Number), int32(layer.Height), int32(layer.Stock), int32(p.On)
			q.X0, q.Y0 = int32(p.Bounds.Min.X), int32(p.Bounds.Min.Y)
			q.X1, q.Y1 = int32(p.Bounds.Max.X), int32(p.Bounds.Max.Y)
			c := stocks[layer.Stock].Colour
			q.R, q.G, q.B = int32(c.R), int32(c.G), int32(c.B)
			edges := outlineEdges(p.Outline)
			q.Edge0 = int32(len(s.Edges))
			s.Edges = append(s.Edges, edges...)
			q.Edge1 = int32(len(s.Edges))
			q.Quad0 = int32(len(s.Quads))
			s.Quads = appendQuads(s.Quads, edges)
			q.Quad1 = int32(len(s.Quads))
			q.Run0 = int32(len(s.Runs))
			if p.Tree >= 0 {
				for _, r := range f.Parts[p.Tree].Shows {
					s.Runs = append(s.Runs, Run{r.Y, r.X0, r.X1})
				}
			}
			q.Run1 = int32(len(s.Runs))
		}
	}
	for i, z := range l.Undersides(how, stocks) {
		p := &s.Parts[i]
		p.Z0 = int32(z)
		p.Z1 = p.Z0 + int32(stocks[p.Stock].Thickness)
	}
	return s
}

func point(p shape.Point) [2]int32 { return [2]int32{int32(p.X), int32(p.Y)} }

// Top is the height of the highest face over the board, µm.
func (s Scene) Top() int32 {
	var top int32
	for _, p := range s.Parts {
		top = max(top, p.Z1)
	}
	return top
}

// Covered tells of each cell, by column and row from the top left, whether a
// part shows there.
func (s Scene) Covered() func(col, row int) bool {
	cols, rows := int(s.Cols), int(s.Rows)
	covered := make([]bool, cols*rows)
	for _, r := range s.Runs {
		for x := r.X0; x < r.X1; x++ {
			covered[int(r.Y)*cols+int(x)] = true
		}
	}
	return func(col, row int) bool {
		return col >= 0 && row >= 0 && col < cols && row < rows && covered[row*cols+col]
	}
}
