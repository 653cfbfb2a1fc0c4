//go:build js

package canvas

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"
)

// Reference is a picture under the grid.
type Reference struct {
	Placement Placement
	image     *ebiten.Image
	changes   int // of the picture
}

// Placement is how it lies.
type Placement struct {
	X, Y    float64 // its upper left corner, cells
	Scale   float64 // cells in a pixel of it
	Opacity float64 // 0 to 1
}

// Set shows another picture.
func (r *Reference) Set(img image.Image) {
	r.Clear()
	r.image = ebiten.NewImageFromImage(img)
}

// Clear takes the picture away.
func (r *Reference) Clear() {
	r.changes++
	if r.image != nil {
		r.image.Deallocate()
		r.image = nil
	}
}

// drawReference draws the picture, cut to the sheet: it lies on the sheet, not
// on the bench.
func (g *Glass) drawReference(screen *ebiten.Image) {
	r, v := &g.Grid.Reference, &g.View
	p := r.Placement
	if r.image == nil || p.Opacity <= 0 {
		return
	}
	sheet := image.Rect(int(g.px(v.X)), int(g.px(v.Y)), int(g.px(v.X+float64(g.Grid.W)*v.Cell)), int(g.px(v.Y+float64(g.Grid.H)*v.Cell)))
	sheet = sheet.Intersect(screen.Bounds())
	if sheet.Empty() {
		return
	}
	o := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear}
	o.GeoM.Scale(p.Scale*v.Cell*g.Ratio, p.Scale*v.Cell*g.Ratio)
	o.GeoM.Translate((v.X+p.X*v.Cell)*g.Ratio, (v.Y+p.Y*v.Cell)*g.Ratio)
	o.ColorScale.ScaleAlpha(float32(p.Opacity))
	screen.SubImage(sheet).(*ebiten.Image).DrawImage(r.image, o)
}
