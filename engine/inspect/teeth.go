package inspect

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// mostDrawnBack is how far the setback may draw back an edge.
const mostDrawnBack = outline.Setback

// teeth are the squares about opened corners in which the setback leaves teeth
// under what lies on top: they carry nothing, and nobody misses one.
type teeth struct {
	lay  *outline.Layout
	half map[[2]int]shape.Um // half a square's side, at most half a cell, by column and row
}

func newTeeth(lay *outline.Layout) teeth {
	t := teeth{lay, map[[2]int]shape.Um{}}
	for _, c := range lay.Opened {
		t.half[[2]int{c.Col, c.Row}] = c.Side/2 + min(mostDrawnBack, lay.Cell/4)
	}
	return t
}

// hold says whether r, which may have no area, lies in one of the squares.
func (t teeth) hold(r shape.Rect) bool {
	lay := t.lay
	// The grid corner nearest to r's middle is the only one it can belong to.
	x := (r.Min.X+r.Max.X)/2 - lay.Grid.X
	y := (r.Min.Y+r.Max.Y)/2 - lay.Grid.Y
	col, up := floorDiv(x+lay.Cell/2, lay.Cell), floorDiv(y+lay.Cell/2, lay.Cell)
	half, ok := t.half[[2]int{int(col), lay.Rows - int(up)}]
	at := lay.Grid.Add(shape.Point{X: col * lay.Cell, Y: up * lay.Cell})
	return ok && r.Min.X >= at.X-half && r.Min.Y >= at.Y-half && r.Max.X <= at.X+half && r.Max.Y <= at.Y+half
}
