// Package pixels is a picture as plain pixels. It is apart from package picture
// so that programs that get their pixels from elsewhere, as the page does from
// the browser, hold no decoders.
package pixels

// Raster is a picture as plain pixels, row by row from the top: red, green,
// blue, alpha, 8 bits each, sRGB, premultiplied (no channel exceeds alpha).
type Raster struct {
	W, H int
	Pix  []uint8 // 4*W*H
	// Shrunk is how many pixels of the picture, along each side, one pixel here
	// is the mean of; 1 where none were joined.
	Shrunk int
}

// NewRaster is a transparent picture of w×h pixels.
func NewRaster(w, h int) *Raster {
	return &Raster{W: w, H: h, Pix: make([]uint8, 4*w*h), Shrunk: 1}
}

// At is the pixel of column x, row y; transparent outside.
func (r *Raster) At(x, y int) [4]uint8 {
	if x < 0 || y < 0 || x >= r.W || y >= r.H {
		return [4]uint8{}
	}
	return [4]uint8(r.Pix[4*(y*r.W+x):])
}

// Set changes the pixel of column x, row y, which lies inside.
func (r *Raster) Set(x, y int, p [4]uint8) { copy(r.Pix[4*(y*r.W+x):], p[:]) }
