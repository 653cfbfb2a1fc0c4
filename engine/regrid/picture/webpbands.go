package picture

import (
	"encoding/binary"
	"image"
	"io"

	"golang.org/x/image/vp8"
)

// This file reads a large WebP that is stored without loss, or whose transparency is: its
// decoder would hold up to seven bytes a pixel.

// drawWebP lays a WebP on a canvas, about so many bytes at a time.
func drawWebP(f file, c *canvas, band int) (err error) {
	var alpha *alphaRows
	err = errWebP // where there is no picture
	riffChunks(f, func(name string, from int64, n int) bool {
		switch name {
		case "ALPH":
			alpha, err = newAlphaRows(f.section(from, int64(n)), c.w, c.h)
			if err != nil {
				return false
			}
			err = errWebP
		case "VP8L":
			err = drawLossless(f.section(from, int64(n)), c, band)
			return false
		case "VP8 ":
			err = drawLossy(f.section(from, int64(n)), n, alpha, c, band)
			return false
		}
		return true
	})
	return err
}

// losslessWebP says whether a WebP was stored without loss, wholly or its transparency.
func losslessWebP(f file) (yes bool) {
	riffChunks(f, func(name string, _ int64, _ int) bool {
		yes = name == "VP8L" || name == "ALPH"
		return !yes && name != "VP8 "
	})
	return yes
}

// drawLossless reads a picture without loss behind its head of five bytes.
func drawLossless(r io.Reader, c *canvas, band int) error {
	head := make([]byte, 5)
	if _, err := io.ReadFull(r, head); err != nil {
		return early(err)
	}
	size := binary.LittleEndian.Uint32(head[1:])
	if head[0] != 0x2f || int(size&0x3fff)+1 != c.w || int(size>>14&0x3fff)+1 != c.h || size>>29 != 0 {
		return errWebP
	}
	l, err := newLossless(r, c.w, c.h)
	if err != nil {
		return err
	}
	for y := 0; y < c.h; {
		n := min(c.h-y, max(1, band/(4*c.w)))
		img := image.NewNRGBA(image.Rect(0, 0, c.w, n))
		for i := range n {
			row, err := l.row()
			if err != nil {
				return err
			}
			for x, v := range row {
				copy(img.Pix[i*img.Stride+4*x:][:4], []uint8{uint8(v >> 16), uint8(v >> 8), uint8(v), uint8(v >> 24)})
			}
		}
		c.add(img, grid{0, y, 1, 1})
		y += n
	}
	return nil
}

// drawLossy reads a picture with loss, and its transparency beside it.
func drawLossy(r io.Reader, size int, alpha *alphaRows, c *canvas, band int) error {
	d := vp8.NewDecoder()
	d.Init(r, size)
	head, err := d.DecodeFrameHeader()
	if err != nil {
		return err
	}
	if head.Width != c.w || head.Height != c.h {
		return errWebP
	}
	colours, err := d.DecodeFrame()
	if err != nil {
		return err
	}
	if alpha == nil {
		c.add(colours, grid{0, 0, 1, 1})
		return nil
	}
	for y := 0; y < c.h; {
		n := min(c.h-y, max(1, band/c.w))
		rows := make([]uint8, 0, n*c.w)
		for range n {
			row, err := alpha.next()
			if err != nil {
				return err
			}
			rows = append(rows, row...)
		}
		part := colours.SubImage(image.Rect(0, y, c.w, y+n)).(*image.YCbCr)
		c.add(&image.NYCbCrA{YCbCr: *part, A: rows, AStride: c.w}, grid{0, y, 1, 1})
		y += n
	}
	return nil
}

// alphaRows are a picture's transparency, row by row (RFC 9649, "Alpha").
type alphaRows struct {
	plain       io.Reader // one byte a pixel; nil: packed
	packed      *lossless // in green
	filter      byte
	row, before []uint8
	first       bool
}

func newAlphaRows(r io.Reader, w, h int) (*alphaRows, error) {
	var head [1]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return nil, early(err)
	}
	a := &alphaRows{filter: head[0] >> 2 & 3, row: make([]uint8, w), before: make([]uint8, w), first: true}
	switch head[0] & 3 {
	case 0:
		a.plain = r
		return a, nil
	case 1:
		var err error
		a.packed, err = newLossless(r, w, h)
		return a, err
	}
	return nil, errWebP
}

// next is the next row; it is overwritten by the one after it.
func (a *alphaRows) next() ([]uint8, error) {
	a.row, a.before = a.before, a.row
	if a.plain != nil {
		if _, err := io.ReadFull(a.plain, a.row); err != nil {
			return nil, early(err)
		}
	} else {
		row, err := a.packed.row()
		if err != nil {
			return nil, err
		}
		for x, v := range row {
			a.row[x] = uint8(v >> 8)
		}
	}
	if a.filter > 0 {
		for x := range a.row {
			a.row[x] += a.guess(x)
		}
	}
	a.first = false
	return a.row, nil
}

// guess is what the filter expects.
func (a *alphaRows) guess(x int) uint8 {
	switch {
	case a.first && x == 0:
		return 0
	case a.first:
		return a.row[x-1]
	case x == 0 || a.filter == 2:
		return a.before[x]
	case a.filter == 1:
		return a.row[x-1]
	}
	return uint8(min(max(int(a.row[x-1])+int(a.before[x])-int(a.before[x-1]), 0), 255))
}
