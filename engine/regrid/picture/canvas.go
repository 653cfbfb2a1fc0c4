package picture

import (
	"image"
	"image/draw"
)

// MaxWorking is how many pixels a raster has at most: a larger picture is
// shrunk by a whole factor, each pixel the mean of a square.
const MaxWorking = 4 << 20

// strip is how many rows of a picture are converted at a time.
const strip = 64

// canvas takes a picture's pixels as they come, in any order, and shrinks them at once,
// so that a large picture is nowhere whole.
type canvas struct {
	w, h   int // of the picture
	raster *Raster
	sums   []uint16 // of the pixels that one of the raster's is the mean of, at most mostShrunk²; nil where none are joined
	rows   *image.RGBA
}

func newCanvas(w, h int) *canvas {
	by := 1
	for (w/by)*(h/by) > MaxWorking {
		by++
	}
	return newShrunk(w, h, by)
}

// mostShrunk is the factor by which pixels are shrunk at most, so that sums of 16 bits hold
// them.
const mostShrunk = 16

func newShrunk(w, h, by int) *canvas {
	c := &canvas{w: w, h: h, raster: &Raster{W: max(1, w/by), H: max(1, h/by), Shrunk: by}}
	if by == 1 {
		c.raster.Pix = make([]uint8, 4*w*h)
	} else {
		c.sums = make([]uint16, 4*c.raster.W*c.raster.H)
	}
	return c
}

// grid says where the pixels of an image lie in the picture: its first one, and how far
// its columns and rows lie apart.
type grid struct{ x, y, columns, rows int }

// add lays an image on the canvas; what lies beyond is left out.
func (c *canvas) add(img image.Image, at grid) {
	b := img.Bounds()
	if at.x >= c.w || at.y >= c.h {
		return
	}
	w := min(b.Dx(), (c.w-at.x+at.columns-1)/at.columns)
	h := min(b.Dy(), (c.h-at.y+at.rows-1)/at.rows)
	if c.rows == nil || c.rows.Rect.Dx() < w {
		c.rows = image.NewRGBA(image.Rect(0, 0, w, strip))
	}
	for from := 0; from < h; from += strip {
		n := min(strip, h-from)
		draw.Draw(c.rows, image.Rect(0, 0, w, n), img, b.Min.Add(image.Pt(0, from)), draw.Src)
		for i := range n {
			c.addRow(c.rows.Pix[i*c.rows.Stride:][:4*w], at.x, at.y+(from+i)*at.rows, at.columns)
		}
	}
}

// addRow lays pixels, premultiplied, on row y from column x on, so many columns apart.
// They lie inside.
func (c *canvas) addRow(line []uint8, x, y, apart int) {
	by := c.raster.Shrunk
	if by == 1 {
		out := c.raster.Pix[4*c.w*y:][:4*c.w]
		if apart == 1 {
			copy(out[4*x:], line)
			return
		}
		for i := 0; i < len(line); i, x = i+4, x+apart {
			copy(out[4*x:][:4], line[i:])
		}
		return
	}
	row := y / by
	if row >= c.raster.H { // less than a whole square is left
		return
	}
	sums := c.sums[4*c.raster.W*row:][:4*c.raster.W]
	for i := 0; i < len(line); i, x = i+4, x+apart {
		at := 4 * (x / by)
		if at >= len(sums) {
			return
		}
		s, p := sums[at:at+4], line[i:i+4]
		s[0] += uint16(p[0])
		s[1] += uint16(p[1])
		s[2] += uint16(p[2])
		s[3] += uint16(p[3])
	}
}

// finish is the picture, once all pixels are laid down; the canvas is used up.
func (c *canvas) finish() *Raster {
	c.rows = nil
	r := c.raster
	if c.sums == nil {
		return r
	}
	area := uint32(r.Shrunk * r.Shrunk)
	r.Pix = make([]uint8, len(c.sums))
	for i, s := range c.sums {
		r.Pix[i] = uint8((uint32(s) + area/2) / area)
	}
	c.sums = nil
	return r
}

// FromImage is an image as plain pixels; it fails where Decode would by size.
func FromImage(img image.Image) (*Raster, error) {
	b := img.Bounds()
	if b.Dx() < 1 || b.Dy() < 1 || b.Dx() > MaxSide || b.Dy() > MaxSide || b.Dx()*b.Dy() > MaxPixels {
		return nil, refuse("the picture is %d × %d pixels, but at most 40 megapixels are read: make it smaller, or crop it to the sprite", b.Dx(), b.Dy())
	}
	c := newCanvas(b.Dx(), b.Dy())
	c.add(img, grid{columns: 1, rows: 1})
	return c.finish(), nil
}
