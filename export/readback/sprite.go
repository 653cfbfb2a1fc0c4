package readback

import (
	"fmt"

	"sheetsprite/engine/project"
)

// sprite is one drawing, what its files hold, and what is known of both.
type sprite struct {
	name       string
	cols, rows int
	cell       int64 // side, µm
	x, y       int64 // lower left corner of the grid
	w, h       int64 // upper right corner of the bounds of all layers
	want       []int // cell by cell, row by row from the top: index of the stock that is to be seen, empty for none
	layers     []layer
	spacers    []layer // of pieces under what floats, which nobody sees
	pins       []pin
	parts      []placed // of all layers, lowest first
	heights    int
	float      int   // the height that stands on foam, 0 for none
	differing  int64 // µm² in which what is seen is said to differ from the drawing
	backed     backing
	beside     bool // parts of one height may lie side by side
	stocks     []project.Stock
	settings   project.Settings
}

// empty is the stock of a cell in which nothing is to be seen.
const empty = -1

// backing says what lies lowest.
type backing int

const (
	unbacked backing = iota // a part of the drawing
	flush                   // a backer of the drawing's silhouette
	bordered                // a backer that stands out
)

// layer is the parts of one stock at one height.
type layer struct {
	number, height, stock int
	dxf, svg              string // paths
	parts                 []part
}

// placed is a part with its place in the stack.
type placed struct {
	contours []contour
	layer    int // index into layers
	height   int
	stock    int
	on       int // index of the part that it was seen to rest on, none at first
	pins     int // a bit for each of the sprite's pins that has a hole in it; contours don't
}

// none is the index of no part.
const none = -1

// place lists the parts of all layers.
func (s *sprite) place() {
	for i, l := range s.layers {
		for _, p := range l.parts {
			contours, pins := s.withoutPins(p.contours)
			s.parts = append(s.parts, placed{contours, i, l.height, l.stock, none, pins})
		}
	}
}

// cellAt is the stock wanted at a cell; empty outside the grid.
func (s *sprite) cellAt(col, row int) int {
	if col < 0 || row < 0 || col >= s.cols || row >= s.rows {
		return empty
	}
	return s.want[row*s.cols+col]
}

// fault is a sentence about the sprite as a whole.
func (s *sprite) fault(format string, args ...any) error {
	return fmt.Errorf("sprite %s: %s", quote(s.name), fmt.Sprintf(format, args...))
}

// faultAt is a sentence about a place in a layer; rows and columns are counted
// from 1 at the top left, as a maker counts.
func (s *sprite) faultAt(layer, col, row int, format string, args ...any) error {
	place := ""
	if layer >= 0 {
		place = fmt.Sprintf(", layer %d", s.layers[layer].number)
	}
	return fmt.Errorf("sprite %s%s, row %d, column %d: %s", quote(s.name), place, row+1, col+1, fmt.Sprintf(format, args...))
}

// faultNear is faultAt for a place in µm.
func (s *sprite) faultNear(layer int, x, y int64, format string, args ...any) error {
	col := min(max((x-s.x)/s.cell, 0), int64(s.cols)-1)
	row := min(max((y-s.y)/s.cell, 0), int64(s.rows)-1)
	return s.faultAt(layer, int(col), s.rows-1-int(row), format, args...)
}

// stockName is what a message calls a stock.
func (s *sprite) stockName(i int) string {
	if i == empty {
		return "nothing"
	}
	return s.stocks[i].ID
}

// quote shows a maker's name in a message.
func quote(name string) string {
	if r := []rune(name); len(r) > 40 {
		name = string(r[:40]) + "…"
	}
	return fmt.Sprintf("%q", name)
}
