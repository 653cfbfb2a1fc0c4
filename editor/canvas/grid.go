//go:build js

package canvas

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"
)

// Bold is how many cells lie between two bolder lines.
const Bold = 8

// thinFrom is the side of a cell, CSS pixels, from which each cell has its lines.
const thinFrom = 5

// Grid is the drawing as it is shown.
type Grid struct {
	W, H      int
	Hover     image.Point // the cell under the pointer
	Hovering  bool
	Selection image.Rectangle // cells; empty for none
	Sides     Sides
	Cursor    image.Point // the keyboard's cell
	AtKeys    bool        // it is shown
	Marks     []Mark
	Reference Reference

	cells  *ebiten.Image // a pixel a cell
	pixels []byte        // in it
	ink    *ebiten.Image // what is lifted off the grid and moved about
	inkAt  image.Point
	lifts  int // how often that changed

	changed  image.Rectangle // cells that changed since they were drawn
	was      overlay         // when it was drawn
	wasMarks []Mark
}

// Sides says over which middle lines drawing is mirrored.
type Sides struct{ LeftRight, TopBottom bool }

// Mark is a place that a finding is about, in cells.
type Mark struct{ X, Y float64 }

// SetCells shows a drawing: w × h pixels, RGBA multiplied by alpha.
func (g *Grid) SetCells(w, h int, pixels []byte) {
	if g.cells == nil || g.W != w || g.H != h {
		if g.cells != nil {
			g.cells.Deallocate()
		}
		g.cells = ebiten.NewImage(w, h)
	}
	g.W, g.H = w, h
	g.changed = g.changed.Union(changedCells(w, g.pixels, pixels))
	g.pixels = append(g.pixels[:0], pixels...)
	g.cells.WritePixels(pixels)
}

// SetInk shows what is lifted; no pixels: nothing is.
func (g *Grid) SetInk(at image.Point, w, h int, pixels []byte) {
	g.lifts++
	if g.ink != nil && (pixels == nil || g.ink.Bounds().Dx() != w || g.ink.Bounds().Dy() != h) {
		g.ink.Deallocate()
		g.ink = nil
	}
	if pixels == nil {
		return
	}
	if g.ink == nil {
		g.ink = ebiten.NewImage(w, h)
	}
	g.ink.WritePixels(pixels)
	g.inkAt = at
}

func (g *Glass) drawGrid(screen *ebiten.Image) {
	grid, v := &g.Grid, &g.View
	if grid.cells == nil || v.Cell <= 0 {
		return
	}
	x := func(col float64) float32 { return g.px(v.X + col*v.Cell) }
	y := func(row float64) float32 { return g.px(v.Y + row*v.Cell) }
	x0, y0, x1, y1 := x(0), y(0), x(float64(grid.W)), y(float64(grid.H))

	// The sheet that is drawn on: card with a thin edge and a soft shadow.
	for i := float32(4); i >= 1; i-- {
		d, soft := i*g.hair(), Paint{0, 0, 0, 0.035}
		g.mesh.rect(x0-d/2, y0, x0, y1+d, soft)
		g.mesh.rect(x1, y0, x1+d/2, y1+d, soft)
		g.mesh.rect(x0, y1, x1, y1+d, soft)
	}
	g.mesh.rect(x0, y0, x1, y1, g.Theme.Sheet)
	g.mesh.flush(screen, blank, nil)
	g.drawReference(screen)

	scale := func(img *ebiten.Image, at image.Point) {
		o := &ebiten.DrawImageOptions{}
		o.GeoM.Scale(v.Cell*g.Ratio, v.Cell*g.Ratio)
		o.GeoM.Translate((v.X+float64(at.X)*v.Cell)*g.Ratio, (v.Y+float64(at.Y)*v.Cell)*g.Ratio)
		screen.DrawImage(img, o)
	}
	scale(grid.cells, image.Point{})
	if grid.ink != nil {
		scale(grid.ink, grid.inkAt)
	}
	g.drawLines(x, y)
	g.drawMarks(x, y)
	g.mesh.flush(screen, blank, nil)
}

// ruling is the lines' colour: the sheet is pale by day and by night.
var ruling = Paint{0.12, 0.16, 0.2, 1}

// drawLines draws between cells: thin ones, and bolder ones every eight.
func (g *Glass) drawLines(x, y func(float64) float32) {
	grid := &g.Grid
	w := g.hair()
	line := func(i, n int) (Paint, bool) {
		switch {
		case i == 0 || i == n:
			return ruling.faded(0.42), true
		case i%Bold == 0 && g.View.Cell*Bold >= thinFrom:
			return ruling.faded(0.30), true
		}
		return ruling.faded(0.10), g.View.Cell >= thinFrom
	}
	x0, y0, x1, y1 := x(0), y(0), x(float64(grid.W)), y(float64(grid.H))
	for i := range grid.W + 1 {
		if p, ok := line(i, grid.W); ok {
			at := x(float64(i))
			g.mesh.rect(at-w/2, y0, at-w/2+w, y1, p)
		}
	}
	for i := range grid.H + 1 {
		if p, ok := line(i, grid.H); ok {
			at := y(float64(i))
			g.mesh.rect(x0, at-w/2, x1, at-w/2+w, p)
		}
	}
	dash := 5 * w
	if grid.Sides.LeftRight {
		for at, top := x(float64(grid.W)/2), y0; top < y1; top += 2 * dash {
			g.mesh.rect(at-w, top, at+w, min(top+dash, y1), g.Theme.Chosen)
		}
	}
	if grid.Sides.TopBottom {
		for at, left := y(float64(grid.H)/2), x0; left < x1; left += 2 * dash {
			g.mesh.rect(left, at-w, min(left+dash, x1), at+w, g.Theme.Chosen)
		}
	}
}

// drawMarks draws what lies over the drawing for a moment: the cell under the
// pointer, what is selected, where a finding is.
func (g *Glass) drawMarks(x, y func(float64) float32) {
	grid := &g.Grid
	w := g.hair()
	if s := grid.Selection; !s.Empty() {
		x0, y0, x1, y1 := x(float64(s.Min.X)), y(float64(s.Min.Y)), x(float64(s.Max.X)), y(float64(s.Max.Y))
		g.mesh.frame(x0-w, y0-w, x1+w, y1+w, 3*w, g.Theme.Card)
		g.mesh.frame(x0-w, y0-w, x1+w, y1+w, 2*w, g.Theme.Chosen)
	}
	for _, m := range grid.Marks {
		cx, cy, r := x(m.X), y(m.Y), max(g.px(g.View.Cell*0.75), 5*w)
		g.mesh.frame(cx-r, cy-r, cx+r, cy+r, 4*w, g.Theme.Card)
		g.mesh.frame(cx-r+w, cy-r+w, cx+r-w, cy+r-w, 2*w, g.Theme.Signal)
	}
	cell := func(at image.Point, p Paint) {
		if !at.In(image.Rect(0, 0, grid.W, grid.H)) {
			return
		}
		x0, y0, x1, y1 := x(float64(at.X)), y(float64(at.Y)), x(float64(at.X+1)), y(float64(at.Y+1))
		g.mesh.frame(x0-2*w, y0-2*w, x1+2*w, y1+2*w, 4*w, g.Theme.Card.faded(0.7))
		g.mesh.frame(x0-w, y0-w, x1+w, y1+w, 2*w, p)
	}
	if grid.AtKeys {
		cell(grid.Cursor, g.Theme.Chosen)
	}
	if grid.Hovering {
		cell(grid.Hover, g.Theme.Signal)
	}
}
