package editor

import (
	"image"
	"math"

	"sheetsprite/engine/shape"
)

// um is a length of v mm, to the nearest µm; at most a kilometre either way.
func um(v float64) shape.Um {
	return shape.Um(math.Round(max(-1e6, min(1e6, v)) * 1000))
}

// enlarge makes each pixel a square of scale × scale.
func enlarge(small *image.NRGBA, scale int) *image.NRGBA {
	if scale <= 1 {
		return small
	}
	b := small.Bounds()
	img := image.NewNRGBA(image.Rect(0, 0, b.Dx()*scale, b.Dy()*scale))
	for y := range b.Dy() * scale {
		for x := range b.Dx() * scale {
			copy(img.Pix[img.PixOffset(x, y):][:4], small.Pix[small.PixOffset(x/scale, y/scale):][:4])
		}
	}
	return img
}
