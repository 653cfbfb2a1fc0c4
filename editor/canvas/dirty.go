//go:build js

package canvas

import (
	"bytes"
	"image"
	"slices"
)

// overlay is what lies over or under a drawing's cells.
type overlay struct {
	hover, cursor     image.Point
	hovering, atKeys  bool
	selection         image.Rectangle
	sides             Sides
	reference, lifted int // how often they were changed
	placement         Placement
}

func (g *Grid) overlay() overlay {
	return overlay{
		g.Hover, g.Cursor, g.Hovering, g.AtKeys, g.Selection, g.Sides,
		g.Reference.changes, g.lifts, g.Reference.Placement,
	}
}

// Waiting says whether a frame would show anything that the last one didn't.
func (g *Glass) Waiting() bool {
	grid := &g.Grid
	return g.scenery() != g.last || g.Relief.waits() || !grid.changed.Empty() ||
		grid.overlay() != grid.was || !slices.Equal(grid.Marks, grid.wasMarks)
}

// dirty is what of the screen the grid has to be drawn on again since it was
// asked last, device pixels, as long as the scenery stays.
func (g *Glass) dirty() image.Rectangle {
	grid := &g.Grid
	now, was := grid.overlay(), grid.was
	marked := !slices.Equal(grid.Marks, grid.wasMarks)
	grid.was, grid.wasMarks = now, slices.Clone(grid.Marks)
	d := g.cellBounds(grid.changed)
	grid.changed = image.Rectangle{}
	one := func(at image.Point, shown bool) {
		if shown {
			d = d.Union(g.cellBounds(image.Rectangle{Min: at, Max: at.Add(image.Pt(1, 1))}))
		}
	}
	if now.hover != was.hover || now.hovering != was.hovering {
		one(was.hover, was.hovering)
		one(now.hover, now.hovering)
	}
	if now.cursor != was.cursor || now.atKeys != was.atKeys {
		one(was.cursor, was.atKeys)
		one(now.cursor, now.atKeys)
	}
	if now.selection != was.selection || now.sides != was.sides || now.reference != was.reference ||
		now.lifted != was.lifted || now.placement != was.placement || marked {
		d = d.Union(g.cellBounds(image.Rect(-1, -1, grid.W+1, grid.H+1)))
	}
	return d
}

// cellBounds is where cells are seen, with the lines about them.
func (g *Glass) cellBounds(cells image.Rectangle) image.Rectangle {
	if cells.Empty() {
		return image.Rectangle{}
	}
	v, pad := &g.View, int(6*g.hair())
	x := func(col int) int { return int(g.px(v.X + float64(col)*v.Cell)) }
	y := func(row int) int { return int(g.px(v.Y + float64(row)*v.Cell)) }
	return image.Rect(x(cells.Min.X)-pad, y(cells.Min.Y)-pad, x(cells.Max.X)+pad, y(cells.Max.Y)+pad)
}

// changedCells are the bounds of the cells in which two drawings differ,
// w cells in a row and 4 bytes a cell.
func changedCells(w int, a, b []byte) image.Rectangle {
	if len(a) != len(b) {
		return image.Rect(0, 0, w, len(b)/4/max(w, 1))
	}
	var d image.Rectangle
	for y := 0; (y+1)*4*w <= len(a); y++ {
		p, q := a[y*4*w:(y+1)*4*w], b[y*4*w:(y+1)*4*w]
		if bytes.Equal(p, q) {
			continue
		}
		for x := range w {
			if [4]byte(p[4*x:]) != [4]byte(q[4*x:]) {
				d = d.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return d
}

// reliefBounds is where the relief is shown, device pixels.
func (g *Glass) reliefBounds() image.Rectangle {
	a := g.Relief.Area
	x, y := int(g.px(a.X)), int(g.px(a.Y))
	return image.Rect(x, y, x+int(g.px(a.W)), y+int(g.px(a.H)))
}
