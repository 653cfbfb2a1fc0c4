package outline

import (
	"fmt"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// piece is a part before it has an outline: all cells of the backer, or a part
// of the forest.
type piece struct {
	tree   int // index into Forest.Parts, -1 for the backer
	on     int // piece that it lies on, -1 for none
	height int // of the layout, 1 is lowest
	stock  Stock
	cells  []stack.Run

	joins    []corner // joins that hold it together
	openings []corner // corners of its cells that are opened
	yields   []corner // corners of its cells that another part's join at the same height takes
	shelters []corner // corners of its cells under an opening in what lies on it: not drawn back there
}

// levels is the drawing as a pile of pieces: which piece has which cell at
// which height.
type levels struct {
	cols, rows int
	cell       shape.Um
	pieces     []piece
	at         [][]int32 // by height less one and by cell: index into pieces, -1 for none
}

func newLevels(f *stack.Forest, o Options) (*levels, error) {
	if o.Cell <= 0 {
		return nil, fmt.Errorf("cells are %d µm wide; give a positive cell size", o.Cell)
	}
	l := &levels{cols: f.W, rows: f.H, cell: o.Cell}
	lift := 0
	if o.Backer != nil {
		lift = 1
		l.pieces = append(l.pieces, piece{tree: -1, on: -1, height: 1, stock: o.Backer.Stock, cells: silhouette(f)})
	}
	for i, p := range f.Parts {
		if p.Colour < 1 || int(p.Colour) > len(o.Stocks) {
			return nil, fmt.Errorf("part %d of the forest has colour %d, but there are %d stocks", i, p.Colour, len(o.Stocks))
		}
		on := p.On + lift // where there is a backer, what lay on nothing lies on that
		if p.On >= i || p.On < 0 && p.Height != 1 || p.On >= 0 && f.Parts[p.On].Height != p.Height-1 {
			return nil, fmt.Errorf("part %d of the forest has height %d but lies on part %d", i, p.Height, p.On)
		}
		l.pieces = append(l.pieces, piece{
			tree: i, on: on, height: p.Height + lift,
			stock: o.Stocks[p.Colour-1], cells: p.Cells,
		})
	}
	heights := 0
	for _, p := range l.pieces {
		heights = max(heights, p.height)
	}
	l.at = make([][]int32, heights)
	for h := range l.at {
		l.at[h] = make([]int32, f.W*f.H)
		for i := range l.at[h] {
			l.at[h][i] = -1
		}
	}
	return l, l.fill()
}

// fill enters the pieces' cells and checks that each lies within what it
// rests on.
func (l *levels) fill() error {
	for i, p := range l.pieces {
		for _, r := range p.cells {
			for x := r.X0; x < r.X1; x++ {
				if x < 0 || int(x) >= l.cols || r.Y < 0 || int(r.Y) >= l.rows {
					return fmt.Errorf("part %d of the forest has the cell column %d, row %d outside the drawing", p.tree, x, r.Y)
				}
				c := int(r.Y)*l.cols + int(x)
				if p.on >= 0 && l.at[p.height-2][c] != int32(p.on) {
					return fmt.Errorf("part %d of the forest stands out over what it rests on at column %d, row %d", p.tree, x, r.Y)
				}
				if l.at[p.height-1][c] >= 0 {
					return fmt.Errorf("two parts of height %d have the cell column %d, row %d", p.height, x, r.Y)
				}
				l.at[p.height-1][c] = int32(i)
			}
		}
	}
	return nil
}

// silhouette is all cells that aren't empty, as runs.
func silhouette(f *stack.Forest) []stack.Run {
	full := make([]bool, f.W*f.H)
	for _, p := range f.Parts {
		if p.Height != 1 {
			continue
		}
		for _, r := range p.Cells {
			for x := r.X0; x < r.X1; x++ {
				full[int(r.Y)*f.W+int(x)] = true
			}
		}
	}
	var runs []stack.Run
	for y := range f.H {
		for x := 0; x < f.W; x++ {
			if !full[y*f.W+x] {
				continue
			}
			x0 := x
			for x < f.W && full[y*f.W+x] {
				x++
			}
			runs = append(runs, stack.Run{Y: int32(y), X0: int32(x0), X1: int32(x)})
		}
	}
	return runs
}

// piece is the index of the piece that has the cell at that height, -1 for
// none and outside the grid.
func (l *levels) piece(height, col, row int) int {
	if col < 0 || row < 0 || col >= l.cols || row >= l.rows || height < 1 || height > len(l.at) {
		return -1
	}
	return int(l.at[height-1][row*l.cols+col])
}

// rect is the cells X0 ≤ x < X1 of a row, in grid coordinates: origin at the
// grid's lower left.
func (l *levels) rect(r stack.Run) shape.Rect {
	y := shape.Um(l.rows-1-int(r.Y)) * l.cell
	return shape.Rect{
		Min: shape.Point{X: shape.Um(r.X0) * l.cell, Y: y},
		Max: shape.Point{X: shape.Um(r.X1) * l.cell, Y: y + l.cell},
	}
}

// node is the place of a grid corner in grid coordinates.
func (l *levels) node(col, row int) shape.Point {
	return shape.Point{X: shape.Um(col) * l.cell, Y: shape.Um(l.rows-row) * l.cell}
}
