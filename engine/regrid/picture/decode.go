package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

const (
	// MaxPixels is the largest picture taken in: 40 megapixels.
	MaxPixels = 40 << 20
	// MaxDeepPixels is the largest with 16 bits a channel, or of the kinds of
	// JPEG that need as much memory while they are decoded.
	MaxDeepPixels = 20 << 20
	// MaxPiecePixels is the largest TIFF whose pieces (strips) are larger than
	// largestPiece: its decoder holds a whole piece beside the picture.
	MaxPiecePixels = 10 << 20
	largestPiece   = 1 << 20
	// MaxTIFFBytes is how much a TIFF and its pixels may take together: the decoder
	// needs the whole file beside them, and leaves much behind for each piece.
	MaxTIFFBytes = 112 << 20
	// MaxLosslessPixels is the largest WebP without loss or with transparency: its
	// decoder holds up to seven bytes a pixel.
	MaxLosslessPixels = 24 << 20
	// MaxLoopPixels is the largest screen of a GIF with several frames, which are
	// laid over one another on it.
	MaxLoopPixels = 16 << 20
	// MaxSide is the longest side, in pixels.
	MaxSide = 32768
	// MaxFrames is how many frames of an animation are taken.
	MaxFrames = 256
)

// Refused is the error of a file that can't be taken in. Its text is a
// sentence: what is wrong, and what to do.
type Refused struct{ Why string }

func (e *Refused) Error() string { return e.Why }

func refuse(format string, args ...any) error { return &Refused{fmt.Sprintf(format, args...)} }

// Picture is a decoded file.
type Picture struct {
	frames  []image.Image
	loop    *gif.GIF // an animation, whose frames build on one another; else nil
	turn    turn
	profile *profile // nil: sRGB
}

// format is a kind of file.
type format struct {
	name   string
	start  []string // what files of it begin with
	size   func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
}

var formats = []format{
	{"PNG", []string{"\x89PNG\r\n\x1a\n"}, png.DecodeConfig, png.Decode},
	{"JPEG", []string{"\xff\xd8"}, jpeg.DecodeConfig, jpeg.Decode},
	{"GIF", []string{"GIF87a", "GIF89a"}, gif.DecodeConfig, gif.Decode},
	{"BMP", []string{"BM"}, bmp.DecodeConfig, bmp.Decode},
	{"WebP", []string{"RIFF"}, webp.DecodeConfig, webp.Decode},
	{"TIFF", []string{"II*\x00", "MM\x00*"}, tiff.DecodeConfig, tiff.Decode},
}

// Decode reads a PNG, JPEG, GIF, BMP, WebP or TIFF. What its header calls too
// large is refused before any pixel is decoded. Its errors are of type Refused.
func Decode(data []byte) (p *Picture, err error) {
	if len(data) == 0 {
		return nil, refuse("the file is empty: choose a PNG, JPEG, GIF, BMP, WebP or TIFF")
	}
	f, ok := formatOf(data)
	if !ok {
		return nil, refuse("this is no picture of a known kind: save it as PNG, JPEG, GIF, BMP, WebP or TIFF")
	}
	defer func() { // a decoder that trips over a hostile file must not take the editor along
		if recover() != nil {
			p, err = nil, refuse("the %s is damaged: save it again, or take a screenshot of it", f.name)
		}
	}()
	config, err := f.size(bytes.NewReader(data))
	if err != nil {
		return nil, f.damaged(data, err)
	}
	if err := f.checkSize(data, config); err != nil {
		return nil, err
	}
	p = &Picture{turn: turnOf(f.name, data), profile: profileOf(f.name, data)}
	if f.name == "GIF" {
		return p.animation(data, config.Width*config.Height)
	}
	img, err := f.decode(bytes.NewReader(data))
	if err != nil {
		return nil, f.damaged(data, err)
	}
	if err := f.checkPalette(data, img); err != nil {
		return nil, err
	}
	p.frames = []image.Image{img}
	return p, nil
}

func formatOf(data []byte) (format, bool) {
	for _, f := range formats {
		for _, s := range f.start {
			if bytes.HasPrefix(data, []byte(s)) {
				return f, f.name != "WebP" || len(data) >= 12 && string(data[8:12]) == "WEBP"
			}
		}
	}
	return format{}, false
}

func (f format) damaged(data []byte, err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || f.name == "PNG" && !bytes.Contains(data, []byte("IEND")) {
		return refuse("the %s ends too early (it is truncated): save or copy it again", f.name)
	}
	return refuse("the %s is damaged or of a rare kind (%v): save it as PNG", f.name, err)
}

// checkSize judges what the header says.
func (f format) checkSize(data []byte, c image.Config) error {
	w, h := c.Width, c.Height
	const how = "make it smaller, or crop it to the sprite"
	switch {
	case w < 1 || h < 1:
		return refuse("the %s says that it is %d × %d pixels: save it again", f.name, w, h)
	case w > MaxSide || h > MaxSide:
		return refuse("the picture is %d × %d pixels, but a side may have %d: %s", w, h, MaxSide, how)
	case w*h > MaxPixels:
		return refuse("the picture is %d × %d pixels, %d megapixels, but at most 40 are read: %s", w, h, (w*h+500000)/1000000, how)
	case f.name == "TIFF" && w*h > MaxPiecePixels && w*tiffRows(data, h) > largestPiece:
		return refuse("the picture is %d × %d pixels in one piece, as which a TIFF may have 10 megapixels: save it as PNG, or in strips", w, h)
	case f.name == "WebP" && w*h > MaxLosslessPixels && lossless(data):
		return refuse("the picture is %d × %d pixels, but a WebP without loss or with transparency may have 24 megapixels: save it as PNG, or %s", w, h, how)
	case f.name == "TIFF" && w*h*f.bytes(data, c)+len(data) > MaxTIFFBytes:
		return refuse("the picture is %d × %d pixels in a TIFF, which need %d MiB with the file itself, but at most %d may be needed: save it as PNG, or %s",
			w, h, (w*h*f.bytes(data, c)+len(data)+1<<20-1)>>20, MaxTIFFBytes>>20, how)
	case w*h > MaxDeepPixels && f.deep(data, c):
		return refuse("the picture is %d × %d pixels of a kind of which at most 20 megapixels are read: save it with 8 bits a channel (a JPEG: not progressive), or %s", w, h, how)
	}
	return nil
}

// deep says whether decoding needs eight bytes a pixel.
func (f format) deep(data []byte, c image.Config) bool {
	if f.name == "JPEG" {
		return progressive(data) || c.ColorModel == nil
	}
	px := c.ColorModel
	if px == nil {
		return false
	}
	_, _, _, a := px.Convert(probe{}).RGBA()
	return a == probeAlpha
}

// bytes is how many a decoded pixel takes.
func (f format) bytes(data []byte, c image.Config) int {
	if _, ok := c.ColorModel.(color.Palette); ok || c.ColorModel == color.GrayModel {
		return 1
	}
	if f.deep(data, c) {
		return 8
	}
	return 4
}

// lossless says whether a WebP was stored without loss, wholly or its transparency.
// Source of the layout: RFC 9649, sections 2.3 to 2.7.
func lossless(data []byte) bool {
	for at := 12; at+8 <= len(data); {
		size := int(binary.LittleEndian.Uint32(data[at+4:]))
		switch string(data[at : at+4]) {
		case "VP8L", "ALPH":
			return true
		case "VP8 ":
			return false
		}
		if size > len(data)-at-8 {
			return false
		}
		at += 8 + size + size&1
	}
	return false
}

// probe is a colour whose alpha only models with 16 bits keep.
type probe struct{}

const probeAlpha = 0x8123

func (probe) RGBA() (r, g, b, a uint32) { return 0, 0, 0, probeAlpha }

// progressive says whether a JPEG is stored in passes over the whole picture,
// all of which a decoder holds at once.
func progressive(data []byte) bool {
	found := false
	jpegSegments(data, func(marker byte, _ []byte) {
		if marker == 0xc2 || marker == 0xc6 || marker == 0xca {
			found = true
		}
	})
	return found
}

// Frames is the number of pictures in the file, 1 unless it's an animation.
func (p *Picture) Frames() int { return max(1, len(p.frames)) }
