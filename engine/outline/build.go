package outline

import (
	"cmp"
	"fmt"
	"slices"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Build gives every part of the forest its outline, with a backer below them
// if the options ask for one.
//
// Errors: a cell size or colour that can't be; a forest that breaks its
// invariants, also where a part was planned to hold together at a corner that
// its stock can't join.
func Build(f *stack.Forest, o Options) (*Layout, error) {
	if o.Backer != nil && o.Backer.Border < 0 {
		return nil, fmt.Errorf("the border is %d µm; give 0 or more", o.Backer.Border)
	}
	l, err := newLevels(f, o)
	if err != nil {
		return nil, err
	}
	contacts, joinSide, openSide := l.corners(f, o)
	parts, of, err := l.parts(o)
	if err != nil {
		return nil, err
	}
	out := &Layout{Cell: o.Cell, Cols: f.W, Rows: f.H, Heights: len(l.at)}
	out.place(parts)
	out.Corner = l.differing(contacts, joinSide, openSide, o)
	for i, c := range contacts {
		at := Corner{Col: c.col, Row: c.row, At: l.node(c.col, c.row).Add(out.Grid), Side: joinSide[i]}
		if c.joined {
			part := of(c.pieces[0], c.col, c.row, diagonals[boolIndex(c.rising)][0])
			out.Joins = append(out.Joins, Join{Corner: at, Height: c.height, Part: part, Rising: c.rising})
			continue
		}
		at.Side = openSide[i]
		opening := Opening{Corner: at, Height: c.height, Rising: c.rising}
		for k, q := range diagonals[boolIndex(c.rising)] {
			opening.Parts[k] = of(c.pieces[k], c.col, c.row, q)
		}
		out.Opened = append(out.Opened, opening)
	}
	out.layer(l, parts, o)
	return out, nil
}

// owner is the Index of the part that a piece's cell in that quadrant of a
// corner belongs to.
type owner func(piece, col, row int, q quadrant) int

// parts is all parts in grid coordinates, by Index.
func (l *levels) parts(o Options) ([]Part, owner, error) {
	float := func(height int) bool { return slices.Contains(o.Floats, height+1) }
	var parts []Part
	var backer []shape.Ring
	lift := 0 // from piece to Index, for the forest's parts
	if o.Backer != nil {
		for _, outline := range l.backer(o, float(1)) {
			backer = append(backer, outline.Outer.Flatten(1))
			parts = append(parts, Part{Index: len(parts), On: -1, Tree: -1, Outline: outline})
		}
		lift = len(parts) - 1
	}
	of := func(piece, col, row int, q quadrant) int {
		if o.Backer == nil || piece > 0 {
			return piece + lift
		}
		c, r := q.of(col, row)
		return l.holding(backer, c, r)
	}
	for i := range l.pieces {
		p := &l.pieces[i]
		if p.tree < 0 {
			continue
		}
		outline, err := l.outline(i, float(p.height))
		if err != nil {
			return nil, nil, err
		}
		on := p.on
		if p.on >= 0 {
			r := p.cells[0]
			on = of(p.on, int(r.X0), int(r.Y), lowerRight)
		}
		parts = append(parts, Part{Index: len(parts), On: on, Tree: p.tree, Outline: outline})
	}
	return parts, of, nil
}

// place moves the parts so that their bounds begin at the origin.
func (out *Layout) place(parts []Part) {
	var all shape.Rect
	for i := range parts {
		parts[i].Bounds = parts[i].Outline.Bounds()
		all = all.Union(parts[i].Bounds)
	}
	out.Grid = shape.Point{X: -all.Min.X, Y: -all.Min.Y}
	out.Size = all.Max.Add(out.Grid)
	for i := range parts {
		parts[i].Outline = parts[i].Outline.Moved(out.Grid)
		b := parts[i].Bounds
		parts[i].Bounds = shape.Rect{Min: b.Min.Add(out.Grid), Max: b.Max.Add(out.Grid)}
	}
}

// layer sorts the parts into layers and counts their joins.
func (out *Layout) layer(l *levels, parts []Part, o Options) {
	heights, stocks := make([]int, len(parts)), make([]int, len(parts))
	backers := 0
	for i, p := range parts {
		if p.Tree < 0 {
			heights[i], stocks[i] = 1, o.Backer.Stock.Index
			backers++
			continue
		}
		piece := i - backers
		if o.Backer != nil {
			piece++
		}
		heights[i], stocks[i] = l.pieces[piece].height, l.pieces[piece].stock.Index
	}
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(heights[a], heights[b]), cmp.Compare(stocks[a], stocks[b]))
	})
	layerOf := make([]int, len(parts))
	for _, i := range order {
		n := len(out.Layers)
		if n == 0 || out.Layers[n-1].Height != heights[i] || out.Layers[n-1].Stock != stocks[i] {
			out.Layers = append(out.Layers, Layer{Number: n + 1, Height: heights[i], Stock: stocks[i]})
			n++
		}
		out.Layers[n-1].Parts = append(out.Layers[n-1].Parts, parts[i])
		layerOf[i] = n - 1
	}
	for _, j := range out.Joins {
		out.Layers[layerOf[j.Part]].Joins++
	}
}
