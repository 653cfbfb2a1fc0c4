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

// Raster is a frame as plain pixels, turned upright and taken to sRGB.
func (p *Picture) Raster(frame int) *Raster {
	img := p.frames[frame]
	if p.loop != nil {
		img = composed(p.loop, frame)
	}
	r := rasterOf(img)
	p.profile.apply(r)
	return turned(r, p.turn)
}

// FromImage is an image as plain pixels; it fails where Decode would by size.
func FromImage(img image.Image) (*Raster, error) {
	b := img.Bounds()
	if b.Dx() < 1 || b.Dy() < 1 || b.Dx() > MaxSide || b.Dy() > MaxSide || b.Dx()*b.Dy() > MaxPixels {
		return nil, refuse("the picture is %d × %d pixels, but at most 40 megapixels are read: make it smaller, or crop it to the sprite", b.Dx(), b.Dy())
	}
	return rasterOf(img), nil
}

func rasterOf(img image.Image) *Raster {
	b := img.Bounds()
	by := 1
	for (b.Dx()/by)*(b.Dy()/by) > MaxWorking {
		by++
	}
	r := NewRaster(max(1, b.Dx()/by), max(1, b.Dy()/by))
	r.Shrunk = by
	rows := image.NewRGBA(image.Rect(0, 0, b.Dx(), min(b.Dy(), strip/by*by+by)))
	sums := make([]uint32, 4*r.W)
	at := 0
	for y := 0; y < b.Dy(); y += rows.Rect.Dy() {
		draw.Draw(rows, rows.Rect, img, image.Pt(b.Min.X, b.Min.Y+y), draw.Src)
		for i := range min(rows.Rect.Dy(), b.Dy()-y) {
			line := rows.Pix[i*rows.Stride:][:4*b.Dx()]
			if by == 1 {
				copy(r.Pix[4*r.W*(y+i):], line)
				continue
			}
			for x := range r.W * by {
				s := sums[x/by*4:][:4]
				for c, v := range line[4*x:][:4] {
					s[c] += uint32(v)
				}
			}
			if (y+i)%by == by-1 && at < r.H {
				out := r.Pix[4*r.W*at:][:4*r.W]
				for j, s := range sums {
					out[j] = uint8((s + uint32(by*by)/2) / uint32(by*by))
				}
				clear(sums)
				at++
			}
		}
	}
	return r
}
