package outline

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// region is the finished shape of a piece without border, in grid coordinates.
func (l *levels) region(i int, float bool) shape.Region {
	p := &l.pieces[i]
	cells := make([]shape.Rect, len(p.cells))
	for k, r := range p.cells {
		cells[k] = l.rect(r)
	}
	out := shape.FromRects(cells)
	if off := l.drawnBack(i, float); !off.Empty() {
		out = out.Subtract(off)
	}
	if cuts := append(l.quarters(p.openings), l.quarters(p.yields)...); len(cuts) > 0 {
		out = out.Subtract(shape.FromRects(cuts))
	}
	if len(p.joins) > 0 {
		out = out.Union(shape.FromRects(l.squares(p.joins)))
	}
	return out
}

// squares is the whole squares of joins.
func (l *levels) squares(joins []corner) []shape.Rect {
	out := make([]shape.Rect, len(joins))
	for i, j := range joins {
		at, h := l.node(j.col, j.row), j.side/2
		out[i] = shape.Rect{Min: shape.Point{X: at.X - h, Y: at.Y - h}, Max: shape.Point{X: at.X + h, Y: at.Y + h}}
	}
	return out
}

// quarters is the squares' quarters in the cells that lose them.
func (l *levels) quarters(cs []corner) []shape.Rect {
	out := make([]shape.Rect, len(cs))
	for i, c := range cs {
		out[i] = c.at.square(l.node(c.col, c.row), c.side/2)
	}
	return out
}

// outline is a forest part's outline in grid coordinates.
func (l *levels) outline(i int, float bool) (shape.Outline, error) {
	ps := l.region(i, float).Polygons(shape.BySides)
	if len(ps) != 1 {
		r := l.pieces[i].cells[0]
		return shape.Outline{}, fmt.Errorf("part %d of the forest, from column %d, row %d, falls into %d pieces: its stock can't be joined at every corner that it was planned with", l.pieces[i].tree, r.X0, r.Y, len(ps))
	}
	return ps[0].Outline(), nil
}
