package assembly

import (
	"fmt"
	"hash/fnv"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// print tells what piece of card a part is: its stock, and which cells of what
// size it is cut from, wherever in the drawing they are. Hidden edges, joins and
// the kerf are left out: what is changed above a part draws its edges back by
// some tenths of a millimetre, and the piece that is cut still fits. A backer,
// which has no cells, is told by its outline.
func (b *builder) print(q *outline.Part) string {
	h := fnv.New64a()
	fmt.Fprintln(h, b.plan.Stocks[b.built.Parts[q.Index].Stock].ID, b.plan.Layout.Cell)
	if q.Tree < 0 {
		for _, c := range append([]shape.Contour{q.Outline.Outer}, q.Outline.Holes...) {
			fmt.Fprintln(h, len(c))
			for _, v := range c {
				fmt.Fprintln(h, v.Point.Sub(q.Bounds.Min))
			}
		}
		return fmt.Sprintf("%016x", h.Sum64())
	}
	runs := b.plan.Forest.Parts[q.Tree].Cells
	left, top := runs[0].X0, runs[0].Y
	for _, r := range runs {
		left, top = min(left, r.X0), min(top, r.Y)
	}
	for _, r := range runs {
		fmt.Fprintln(h, r.Y-top, r.X0-left, r.X1-left)
	}
	return fmt.Sprintf("%016x", h.Sum64())
}
