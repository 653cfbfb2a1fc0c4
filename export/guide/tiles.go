package guide

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// overlap is what neighbouring pages of one drawing have in common.
const overlap = 10 * shape.Mm

// tile is one page's window on a drawing that is larger than a page.
type tile struct {
	window   shape.Rect
	col, row int // from 1, row 1 on top
}

// tiles cuts a drawing into windows of at most w × h that overlap.
func tiles(r shape.Rect, w, h shape.Um) (list []tile, cols, rows int) {
	dw, dh := r.Size()
	count := func(size, page shape.Um) int {
		if size <= page {
			return 1
		}
		return int((size - overlap + page - overlap - 1) / (page - overlap))
	}
	cols, rows = count(dw, w), count(dh, h)
	for row := range rows {
		for col := range cols {
			left := r.Min.X + shape.Um(col)*(w-overlap)
			high := r.Max.Y - shape.Um(row)*(h-overlap)
			list = append(list, tile{shape.Rect{
				Min: shape.Point{X: left, Y: max(r.Min.Y, high-h)},
				Max: shape.Point{X: min(r.Max.X, left+w), Y: high},
			}, col + 1, row + 1})
		}
	}
	return list, cols, rows
}

// crosses marks the middle of the overlap at the corners of a window, where a
// neighbouring page has the same marks. x and y are where the window's upper
// left corner lies.
func (g *guide) crosses(t tile, cols, rows int, x, y shape.Um) {
	w, h := t.window.Size()
	for _, at := range [4]struct {
		x, y     shape.Um
		col, row int // of the neighbour across
	}{
		{overlap / 2, overlap / 2, t.col - 1, t.row - 1}, {w - overlap/2, overlap / 2, t.col + 1, t.row - 1},
		{overlap / 2, h - overlap/2, t.col - 1, t.row + 1}, {w - overlap/2, h - overlap/2, t.col + 1, t.row + 1},
	} {
		beside, over := at.col >= 1 && at.col <= cols, at.row >= 1 && at.row <= rows
		if !beside && !over {
			continue
		}
		const arm = 3 * shape.Mm
		g.rule(signal, 150, x+at.x-arm, y+at.y, x+at.x+arm, y+at.y)
		g.rule(signal, 150, x+at.x, y+at.y-arm, x+at.x, y+at.y+arm)
	}
}

// keyTiles draws the key of a sprite over several pages.
func (g *guide) keyTiles(s *sprite) {
	w, h := g.paper.width()-2*gutter, g.paper.floor()-top-22*shape.Mm
	list, cols, rows := tiles(whole(s), w, h)
	for i, t := range list {
		if i > 0 {
			g.begin(fmt.Sprintf(english.continued, g.title(s)), atTrueScale)
		}
		g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.keyTile, t.col, cols, t.row, rows), normal, plain, quiet) + keyTop
		g.keyHere(s, side+gutter, t.window)
		g.crosses(t, cols, rows, side+gutter, g.y)
		_, high := t.window.Size()
		g.y += high + 8*shape.Mm
	}
}
