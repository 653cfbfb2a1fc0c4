package project

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"

	"sheetsprite/engine/colour"
)

// NamedBytes is a file's name and what it holds.
type NamedBytes struct {
	Name string
	Data []byte
}

// raster is a decoded picture: a pixel a cell, row by row from the top.
type raster struct {
	w, h   int
	pixels []pixel
}

// pixel is a cell's colour; the zero value is an empty cell.
type pixel struct {
	rgb  RGB
	full bool
}

const (
	signature   = "\x89PNG\r\n\x1a\n"
	opaque      = 128 // alpha from which a pixel is a cell
	wantPicture = "give a PNG with one pixel for each cell"
)

// decodePNG reads a picture of at most MaxSide pixels a side. Larger ones are
// refused from the header: their pixels could need any amount of memory.
func decodePNG(in NamedBytes) (raster, error) {
	w, h, err := pngSize(in.Data)
	if err != nil {
		return raster{}, err
	}
	if w > MaxSide || h > MaxSide {
		return raster{}, wrong("the picture is %d × %d pixels, but a sprite has at most %d cells a side: if each cell is many pixels large, or it is a photograph, make one pixel of each cell with sheetsprite regrid PICTURE -o OUT.png --colours N",
			w, h, MaxSide)
	}
	img, err := png.Decode(bytes.NewReader(in.Data))
	if err != nil {
		return raster{}, damaged(in.Data, err)
	}
	return rasterOf(img), nil
}

// pngSize reads the size from the header. It looks at the header itself, since
// png.DecodeConfig refuses the largest sizes with a message of its own.
func pngSize(data []byte) (w, h uint32, err error) {
	const header = len(signature) + 8 // then width and height, 4 bytes each
	switch {
	case len(data) == 0:
		return 0, 0, wrong("the file is empty: " + wantPicture)
	case !bytes.HasPrefix(data, []byte(signature)[:min(len(data), len(signature))]):
		return 0, 0, wrong("this isn't a PNG%s: %s", looksLike(data), wantPicture)
	case len(data) < header+8:
		return 0, 0, wrong(truncated)
	case string(data[header-4:header]) != "IHDR":
		return 0, 0, wrong("the PNG is damaged (it doesn't start with its header): export or copy it again")
	}
	return binary.BigEndian.Uint32(data[header:]), binary.BigEndian.Uint32(data[header+4:]), nil
}

const truncated = "the PNG ends too early (it is truncated): export or copy it again"

// damaged says what is wrong with a PNG that doesn't decode.
func damaged(data []byte, err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || !bytes.Contains(data, []byte("IEND")) {
		return wrong(truncated)
	}
	return wrong("the PNG is damaged (%v): export or copy it again", err)
}

// looksLike names a common format by its first bytes, ready to follow "a PNG".
func looksLike(data []byte) string {
	for _, kind := range []struct{ start, name string }{
		{"\xff\xd8\xff", "JPEG"}, {"GIF8", "GIF"}, {"BM", "BMP"}, {"RIFF", "WebP or other RIFF file"},
		{"II*\x00", "TIFF"}, {"MM\x00*", "TIFF"}, {"<", "text file, perhaps SVG"}, {"{", "text file, perhaps JSON"},
		{"PK\x03\x04", "zip"}, {"%PDF", "PDF"},
	} {
		if bytes.HasPrefix(data, []byte(kind.start)) {
			return " but looks like a " + kind.name
		}
	}
	return ""
}

// rasterOf takes the picture's pixels as 8 bits a channel: of 16 bits the
// upper 8, of transparent ones nothing, of half transparent ones the colour as
// it is stored.
func rasterOf(img image.Image) raster {
	b := img.Bounds()
	r := raster{b.Dx(), b.Dy(), make([]pixel, b.Dx()*b.Dy())}
	straight := image.NewNRGBA(image.Rect(0, 0, r.w, r.h))
	switch img := img.(type) {
	case *image.NRGBA64: // through the premultiplied colour the last bit could change
		for i := range straight.Pix {
			straight.Pix[i] = img.Pix[2*i]
		}
	case *image.NRGBA:
		copy(straight.Pix, img.Pix)
	case *image.Paletted:
		for i, index := range img.Pix {
			// The decoder's palettes hold straight colours, or opaque ones.
			c := color.NRGBAModel.Convert(img.Palette[index]).(color.NRGBA)
			copy(straight.Pix[4*i:], []byte{c.R, c.G, c.B, c.A})
		}
	default: // grey or opaque, where nothing is premultiplied
		draw.Draw(straight, straight.Rect, img, b.Min, draw.Src)
	}
	for i := range r.pixels {
		p := straight.Pix[4*i : 4*i+4]
		if p[3] >= opaque {
			r.pixels[i] = pixel{colour.RGB{R: p[0], G: p[1], B: p[2]}, true}
		}
	}
	return r
}
