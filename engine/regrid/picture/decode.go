package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
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
	still *Raster  // nil where there are frames
	loop  *gif.GIF // an animation, whose frames build on one another
}

// format is a kind of file.
type format struct {
	name   string
	start  []string // what files of it begin with
	size   func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	draw   func(f file, c *canvas, band int) error // some rows at a time, about so many bytes; nil: not possible
}

var formats = []format{
	{"PNG", []string{"\x89PNG\r\n\x1a\n"}, png.DecodeConfig, png.Decode, drawPNG},
	{"JPEG", []string{"\xff\xd8"}, jpeg.DecodeConfig, jpeg.Decode, drawJPEG},
	{"GIF", []string{"GIF87a", "GIF89a"}, gif.DecodeConfig, gif.Decode, nil},
	{"BMP", []string{"BM"}, bmp.DecodeConfig, bmp.Decode, drawBMP},
	{"WebP", []string{"RIFF"}, webp.DecodeConfig, webp.Decode, drawWebP},
	{"TIFF", []string{"II*\x00", "MM\x00*"}, tiff.DecodeConfig, tiff.Decode, drawTIFF},
}

// Decode reads a PNG, JPEG, GIF, BMP, WebP or TIFF. What its header calls too
// large is refused before any pixel is decoded. Its errors are of type Refused.
func Decode(data []byte) (*Picture, error) {
	return DecodeFile(bytes.NewReader(data), int64(len(data)))
}

// DecodeFile is Decode for a file of so many bytes, which is never whole in memory.
func DecodeFile(r io.ReaderAt, size int64) (p *Picture, err error) {
	data := file{r, size}
	if size == 0 {
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
	config, err := f.size(data.reader())
	if err != nil {
		return nil, f.damaged(data, err)
	}
	if err := f.checkSize(config); err != nil {
		return nil, err
	}
	if f.name == "GIF" {
		return animation(data)
	}
	c := newCanvas(config.Width, config.Height)
	if f.inBands(data, c) {
		err = f.draw(data, c, bandBytes)
	} else {
		err = f.drawWhole(data, c)
	}
	if err != nil {
		return nil, f.damaged(data, err)
	}
	still := c.finish()
	profileOf(f.name, data).apply(still)
	return &Picture{still: turned(still, turnOf(f.name, data))}, nil
}

// inBands says whether a picture is drawn some rows at a time: where it is large and its
// decoder would hold more than three bytes a pixel. JPEGs in passes always are, for the
// standard library doesn't read all of them.
func (f format) inBands(data file, c *canvas) bool {
	large := c.raster.Shrunk > 1
	switch f.name {
	case "JPEG":
		passes, inks := jpegKind(data)
		return passes || large && inks > 3
	case "WebP":
		return large && losslessWebP(data)
	}
	return large
}

// drawWhole lays a picture on a canvas that is decoded in one go.
func (f format) drawWhole(data file, c *canvas) error {
	read := data.reader()
	if f.name == "TIFF" { // whose parts are in any order
		read = data.section(0, data.size)
	}
	img, err := f.decode(read)
	if err != nil {
		return err
	}
	colours := 0
	switch img := img.(type) {
	case *image.Paletted:
		colours = len(img.Palette)
		if f.name == "PNG" {
			h, err := pngHeadOf(data)
			if err != nil {
				return err
			}
			colours = h.colours
		}
	}
	if err := checkIndices(f.name, img, colours); err != nil {
		return err
	}
	c.add(img, grid{0, 0, 1, 1})
	return nil
}

func formatOf(data file) (format, bool) {
	start := data.part(0, int(min(data.size, 12)))
	for _, f := range formats {
		for _, s := range f.start {
			if bytes.HasPrefix(start, []byte(s)) {
				return f, f.name != "WebP" || len(start) == 12 && string(start[8:]) == "WEBP"
			}
		}
	}
	return format{}, false
}

func (f format) damaged(data file, err error) error {
	var refused *Refused
	if errors.As(err, &refused) {
		return err
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || !f.ends(data) {
		return refuse("the %s ends too early (it is truncated): save or copy it again", f.name)
	}
	return refuse("the %s is damaged or of a rare kind (%v): save it as PNG", f.name, err)
}

// ends says whether what is last in files of the kind is there.
func (f format) ends(data file) (yes bool) {
	const behind = 64 // bytes that programs leave there
	tail := data.part(max(0, data.size-behind), int(min(behind, data.size)))
	switch f.name {
	case "PNG":
		pngChunks(data, func(name string, _ int64, _ int) bool {
			yes = yes || name == "IEND"
			return true
		})
		return yes
	case "JPEG":
		return bytes.Contains(tail, []byte("\xff\xd9"))
	case "GIF":
		return bytes.Contains(tail, []byte(";"))
	case "WebP":
		head := data.part(4, 4)
		return head != nil && int64(binary.LittleEndian.Uint32(head))+8 <= data.size+1
	}
	return true
}

// checkSize judges what the header says.
func (f format) checkSize(c image.Config) error {
	w, h := c.Width, c.Height
	const how = "make it smaller, or crop it to the sprite"
	switch {
	case w < 1 || h < 1:
		return refuse("the %s says that it is %d × %d pixels: save it again", f.name, w, h)
	case w > MaxSide || h > MaxSide:
		return refuse("the picture is %d × %d pixels, but a side may have %d: %s", w, h, MaxSide, how)
	case w*h > MaxPixels:
		return refuse("the picture is %d × %d pixels, %d megapixels, but at most 40 are read: %s", w, h, (w*h+500000)/1000000, how)
	}
	return nil
}

// Frames is the number of pictures in the file, 1 unless it's an animation.
func (p *Picture) Frames() int {
	if p.loop == nil {
		return 1
	}
	return len(p.loop.Image)
}

// Raster is a frame as plain pixels, turned upright and in sRGB.
func (p *Picture) Raster(frame int) *Raster {
	if p.loop == nil {
		return p.still
	}
	c := newCanvas(p.loop.Config.Width, p.loop.Config.Height)
	screens(p.loop, frame, func(i, y int, line []uint8) {
		if i == frame {
			c.addRow(line, 0, y, 1)
		}
	})
	return c.finish()
}
