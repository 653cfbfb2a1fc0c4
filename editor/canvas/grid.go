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
	Mirrored  bool            // drawing on both sides of the middle
	Marks     []Mark
	Reference Reference

	cells *ebiten.Image // a pixel a cell
	ink   *ebiten.Image // what is lifted off the grid and moved about
	inkAt image.Point
}

// Mark is a place that a finding is about, in cells.
type Mark struct{ X, Y float64 }

// Reference is a picture under the grid.
type Reference struct {
	Image   *ebiten.Image
	X, Y    float64 // of its upper left corner, cells
	Scale   float64 // cells in a pixel of it
	Opacity float64
}

// SetCells shows a drawing: w × h pixels, RGBA multiplied by alpha.
func (g *Grid) SetCells(w, h int, pixels []byte) {
	if g.cells == nil || g.W != w || g.H != h {
		if g.cells != nil {
			g.cells.Deallocate()
		}
		g.cells = ebiten.NewImage(w, h)
	}
	g.W, g.H = w, h
	g.cells.WritePixels(pixels)
}

// SetInk shows what is lifted; no pixels: nothing is.
func (g *Grid) SetInk(at image.Point, w, h int, pixels []byte) {
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
		d := i * g.hair()
		g.mesh.rect(x0-d/2, y0, x1+d/2, y1+d, paint{0, 0, 0, 0.035})
	}
	g.mesh.rect(x0, y0, x1, y1, g.Theme.Card)
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

// drawLines draws between cells: thin ones, and bolder ones every eight.
func (g *Glass) drawLines(x, y func(float64) float32) {
	grid := &g.Grid
	w := g.hair()
	line := func(i, n int) (paint, bool) {
		switch {
		case i == 0 || i == n:
			return g.Theme.Ink.faded(0.42), true
		case i%Bold == 0 && g.View.Cell*Bold >= thinFrom:
			return g.Theme.Ink.faded(0.30), true
		}
		return g.Theme.Ink.faded(0.10), g.View.Cell >= thinFrom
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
	if grid.Mirrored {
		at, dash := x(float64(grid.W)/2), 5*w
		for top := y0; top < y1; top += 2 * dash {
			g.mesh.rect(at-w, top, at+w, min(top+dash, y1), g.Theme.Chosen)
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
	if grid.Hovering && grid.Hover.In(image.Rect(0, 0, grid.W, grid.H)) {
		h := grid.Hover
		x0, y0, x1, y1 := x(float64(h.X)), y(float64(h.Y)), x(float64(h.X+1)), y(float64(h.Y+1))
		g.mesh.frame(x0-w, y0-w, x1+w, y1+w, 3*w, g.Theme.Card.faded(0.6))
		g.mesh.frame(x0-w, y0-w, x1+w, y1+w, 2*w, g.Theme.Signal)
	}
}

func (g *Glass) drawReference(screen *ebiten.Image) {
	r, v := &g.Grid.Reference, &g.View
	if r.Image == nil || r.Opacity <= 0 {
		return
	}
	// Cut to the sheet: it lies on the sheet, not on the bench.
	sheet := image.Rect(int(g.px(v.X)), int(g.px(v.Y)), int(g.px(v.X+float64(g.Grid.W)*v.Cell)), int(g.px(v.Y+float64(g.Grid.H)*v.Cell)))
	sheet = sheet.Intersect(screen.Bounds())
	if sheet.Empty() {
		return
	}
	o := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear}
	o.GeoM.Scale(r.Scale*v.Cell*g.Ratio, r.Scale*v.Cell*g.Ratio)
	o.GeoM.Translate((v.X+r.X*v.Cell)*g.Ratio, (v.Y+r.Y*v.Cell)*g.Ratio)
	o.ColorScale.ScaleAlpha(float32(r.Opacity))
	screen.SubImage(sheet).(*ebiten.Image).DrawImage(r.Image, o)
}
