package outline

import (
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Rough is what can be told of a layout at once: its parts and layers, with the
// bounds of the parts' cells, but no outlines, joins or corners. With a backer,
// whose pieces only its outline tells, it is Build.
//
// Errors: as for Build.
func Rough(f *stack.Forest, o Options) (*Layout, error) {
	if o.Backer != nil {
		return Build(f, o)
	}
	l, err := newLevels(f, o)
	if err != nil {
		return nil, err
	}
	parts := make([]Part, len(l.pieces))
	var all shape.Rect
	for i := range l.pieces {
		p := &l.pieces[i]
		var b shape.Rect
		for _, r := range p.cells {
			b = b.Union(l.rect(r))
		}
		parts[i] = Part{Index: i, On: p.on, Tree: p.tree, Bounds: b}
		all = all.Union(b)
	}
	out := &Layout{Cell: o.Cell, Cols: f.W, Rows: f.H, Heights: len(l.at)}
	out.Grid = shape.Point{X: -all.Min.X, Y: -all.Min.Y}
	out.Size = all.Max.Add(out.Grid)
	for i := range parts {
		b := &parts[i].Bounds
		b.Min, b.Max = b.Min.Add(out.Grid), b.Max.Add(out.Grid)
	}
	out.layer(l, parts, o)
	return out, nil
}
