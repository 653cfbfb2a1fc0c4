package outline

import (
	"cmp"
	"slices"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// looks are the border's looks as shape knows them.
var looks = map[project.Edge]shape.Look{
	project.Square:    shape.SquareCorners,
	project.Chamfered: shape.ChamferedCorners,
	project.Round:     shape.RoundCorners,
}

// backer is the backer's pieces in grid coordinates: from the top, left to
// right. Without a border it is drawn back under the sprite's edges like any
// part; with one its edges show.
func (l *levels) backer(o Options, float bool) []shape.Outline {
	b := *o.Backer
	var pieces []shape.Outline
	if b.Border == 0 {
		for _, p := range l.region(0, float).Polygons(shape.BySides) {
			pieces = append(pieces, p.Outline())
		}
	} else {
		cells := make([]shape.Rect, len(l.pieces[0].cells))
		for i, r := range l.pieces[0].cells {
			cells[i] = l.rect(r)
		}
		cells = append(cells, l.borderJoins(o)...)
		pieces = shape.FromRects(cells).Border(b.Border, looks[b.Edge])
	}
	if b.FillIn {
		pieces = filled(pieces)
	}
	return pieces
}

// borderJoins is squares that grow to the joins of the backer's stock, where
// the border alone doesn't make as good a neck.
func (l *levels) borderJoins(o Options) []shape.Rect {
	side, fits := l.join(0, o)
	side -= 2 * o.Backer.Border
	if !fits || side <= 0 {
		return nil
	}
	var joins []corner
	for row := 1; row < l.rows; row++ {
		for col := 1; col < l.cols; col++ {
			for _, c := range l.touching(col, row, 1) {
				joins = append(joins, corner{col: c.col, row: c.row, side: side})
			}
		}
	}
	return l.squares(joins)
}

// filled is the pieces without their holes, and without the pieces that lay
// in the holes.
func filled(pieces []shape.Outline) []shape.Outline {
	rings := make([]shape.Ring, len(pieces))
	order := make([]int, len(pieces))
	for i, p := range pieces {
		rings[i], order[i] = p.Outer.Flatten(1), i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(rings[j].Area(), rings[i].Area()) })
	var kept []int
	for _, i := range order {
		if !slices.ContainsFunc(kept, func(k int) bool { return rings[k].Holds(rings[i]) }) {
			kept = append(kept, i)
		}
	}
	slices.Sort(kept)
	out := make([]shape.Outline, len(kept))
	for i, k := range kept {
		out[i] = shape.Outline{Outer: pieces[k].Outer}
	}
	return out
}

// holding is the index of the backer's piece that has the middle of the cell.
func (l *levels) holding(rings []shape.Ring, col, row int) int {
	if len(rings) == 1 {
		return 0
	}
	p := l.node(col, row+1).Add(shape.Point{X: l.cell / 2, Y: l.cell / 2})
	return slices.IndexFunc(rings, func(r shape.Ring) bool { return r.Where(p) == shape.Inside })
}
