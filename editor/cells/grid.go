// Package cells draws on grids: lines, boxes, ovals, fills, outlines, turns and
// shifts of a drawing whose cells each hold one palette key.
//
// Column 0 is the left, row 0 the top. Nothing here knows of projects or of
// undo. Places outside a grid read as empty and take no ink, so that callers
// have no border case.
package cells

import "bytes"

// Empty is the key of a cell without colour; the same as project.Empty.
const Empty byte = '.'

// Cell is a place in a grid.
type Cell struct{ X, Y int }

// Box is the cells X ≤ x < X+W, Y ≤ y < Y+H; empty where W or H isn't positive.
type Box struct{ X, Y, W, H int }

// Between is the box with a and b as opposite corners, both inside it.
func Between(a, b Cell) Box {
	x0, x1 := min(a.X, b.X), max(a.X, b.X)
	y0, y1 := min(a.Y, b.Y), max(a.Y, b.Y)
	return Box{x0, y0, x1 - x0 + 1, y1 - y0 + 1}
}

// Empty says whether b holds no cell.
func (b Box) Empty() bool { return b.W <= 0 || b.H <= 0 }

// Has says whether c lies in b.
func (b Box) Has(c Cell) bool {
	return c.X >= b.X && c.Y >= b.Y && c.X < b.X+b.W && c.Y < b.Y+b.H
}

// Within is the part of b that lies in a grid of w × h cells.
func (b Box) Within(w, h int) Box {
	x0, y0 := max(b.X, 0), max(b.Y, 0)
	x1, y1 := min(b.X+b.W, w), min(b.Y+b.H, h)
	if x1 <= x0 || y1 <= y0 {
		return Box{}
	}
	return Box{x0, y0, x1 - x0, y1 - y0}
}

// Grid is W × H cells, row by row from the top. Invariant: len(Cells) == W*H.
type Grid struct {
	W, H  int
	Cells []byte
}

// New is a grid of empty cells.
func New(w, h int) Grid {
	return Grid{w, h, bytes.Repeat([]byte{Empty}, w*h)}
}

// Clone is g with cells of its own.
func (g Grid) Clone() Grid { return Grid{g.W, g.H, bytes.Clone(g.Cells)} }

// Has says whether c lies in g.
func (g Grid) Has(c Cell) bool { return c.X >= 0 && c.Y >= 0 && c.X < g.W && c.Y < g.H }

// At is the key at c; Empty outside.
func (g Grid) At(c Cell) byte {
	if !g.Has(c) {
		return Empty
	}
	return g.Cells[c.Y*g.W+c.X]
}

// Put sets the cell at c; outside it does nothing.
func (g Grid) Put(c Cell, key byte) {
	if g.Has(c) {
		g.Cells[c.Y*g.W+c.X] = key
	}
}

// Run is the cells X0 ≤ x < X1 of row Y.
type Run struct{ Y, X0, X1 int }

// PutRun sets the cells of a run; outside it does nothing.
func (g Grid) PutRun(r Run, key byte) {
	x0, x1 := max(r.X0, 0), min(r.X1, g.W)
	if r.Y < 0 || r.Y >= g.H || x0 >= x1 {
		return
	}
	row := g.Cells[r.Y*g.W+x0 : r.Y*g.W+x1]
	for i := range row {
		row[i] = key
	}
}

// Inked is the smallest box that holds every cell with a colour; empty where there is none.
func (g Grid) Inked() Box {
	x0, y0, x1, y1 := g.W, g.H, -1, -1
	for y := range g.H {
		for x, k := range g.Cells[y*g.W : (y+1)*g.W] {
			if k != Empty {
				x0, x1 = min(x0, x), max(x1, x)
				y0, y1 = min(y0, y), max(y1, y)
			}
		}
	}
	if x1 < 0 {
		return Box{}
	}
	return Box{x0, y0, x1 - x0 + 1, y1 - y0 + 1}
}

// Used says which keys g holds; Empty is not among them.
func (g Grid) Used() (used [256]bool) {
	for _, k := range g.Cells {
		used[k] = true
	}
	used[Empty] = false
	return used
}

// Rows is g as text, a string a row.
func (g Grid) Rows() []string {
	rows := make([]string, g.H)
	all := string(g.Cells)
	for y := range rows {
		rows[y] = all[y*g.W : (y+1)*g.W]
	}
	return rows
}
