package picture

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"slices"

	"golang.org/x/image/ccitt"
	"golang.org/x/image/tiff"
	"golang.org/x/image/tiff/lzw"
)

// This file reads a large TIFF some rows at a time (TIFF revision 6.0, 1992; the
// numbers are its tags): strips and tiles are unpacked as a stream, and some rows at a
// time are written as a small TIFF, from which the library takes the pixels.

// tiffHead is what a TIFF says of its pieces, which are strips or tiles.
type tiffHead struct {
	order           byteOrder
	w, h            int
	pieceW, pieceH  int
	tiled           bool
	starts, lengths []uint
	packing         uint
	inverted        bool // white is 0
	mirrored        bool // each byte's lowest bit is first
	bits            int  // of a pixel
	kept            []tiffField
}

var errTIFF = errors.New("its directory is in disorder")

// What is kept of the directory for the small files: what a sample is.
var tiffKept = []uint16{258, 262, 317, 320, 338, 339}

func tiffHeadOf(f file) (h tiffHead, err error) {
	var ok bool
	if h.order, ok = tiffOrder(f); !ok {
		return h, errTIFF
	}
	one := func(tag uint16, otherwise uint) uint {
		if v := h.numbers(f, tag, 1); len(v) > 0 {
			return v[0]
		}
		return otherwise
	}
	h.w, h.h = int(one(256, 0)), int(one(257, 0))
	h.packing = one(259, 1)
	h.inverted, h.mirrored = one(262, 0) == 0, one(266, 1) == 2
	samples := max(1, int(tiffFieldOf(f, 258).count))
	h.bits = samples * int(one(258, 1))
	h.pieceW, h.pieceH = h.w, int(min(one(278, uint(h.h)), uint(h.h)))
	if h.pieceH == 0 {
		h.pieceH = h.h
	}
	where, long := uint16(273), uint16(279)
	if h.tiled = one(322, 0) > 0; h.tiled {
		h.pieceW, h.pieceH = int(one(322, 0)), int(one(323, 0))
		where, long = 324, 325
	}
	if h.w < 1 || h.h < 1 || h.w > MaxSide || h.h > MaxSide || h.pieceW < 8 && h.tiled || h.pieceH < 1 || h.pieceW > MaxSide || h.pieceH > MaxSide || h.bits < 1 || h.bits > 64 {
		return h, errTIFF
	}
	pieces := h.across() * ((h.h + h.pieceH - 1) / h.pieceH)
	h.starts, h.lengths = h.numbers(f, where, pieces), h.numbers(f, long, pieces)
	if len(h.starts) < pieces || len(h.lengths) < pieces {
		return h, errTIFF
	}
	for _, tag := range tiffKept {
		if e := tiffFieldOf(f, tag); e.count > 0 {
			h.kept = append(h.kept, e)
		}
	}
	return h, nil
}

func (h tiffHead) across() int { return (h.w + h.pieceW - 1) / h.pieceW }

// numbers are the first values of a field of whole numbers, at most so many.
func (h tiffHead) numbers(f file, tag uint16, most int) []uint {
	e := tiffFieldOf(f, tag)
	var out []uint
	for b := e.value; len(out) < most; {
		switch {
		case e.kind == 1 && len(b) >= 1:
			out, b = append(out, uint(b[0])), b[1:]
		case e.kind == 3 && len(b) >= 2:
			out, b = append(out, uint(h.order.Uint16(b))), b[2:]
		case e.kind == 4 && len(b) >= 4:
			out, b = append(out, uint(h.order.Uint32(b))), b[4:]
		default:
			return out
		}
	}
	return out
}

// tiffPieces unpacks one piece after the other.
type tiffPieces struct {
	tiffHead
	f       file
	packed  *bufio.Reader
	deflate io.ReadCloser
}

// rows reads what one piece is packed from.
func (h *tiffPieces) rows(piece, w, rows int) (io.Reader, error) {
	stored := h.f.section(int64(h.starts[piece]), int64(h.lengths[piece]))
	if h.packed == nil {
		h.packed = bufio.NewReaderSize(stored, 1<<14)
	}
	packed := h.packed
	packed.Reset(stored)
	fax := func(group ccitt.SubFormat) io.Reader {
		order := ccitt.MSB
		if h.mirrored {
			order = ccitt.LSB
		}
		return ccitt.NewReader(packed, order, group, w, rows, &ccitt.Options{Invert: h.inverted})
	}
	switch h.packing {
	case 0, 1:
		return packed, nil
	case 3:
		return fax(ccitt.Group3), nil
	case 4:
		return fax(ccitt.Group4), nil
	case 5:
		return lzw.NewReader(packed, lzw.MSB, 8), nil
	case 8, 32946:
		if h.deflate != nil {
			return h.deflate, h.deflate.(zlib.Resetter).Reset(packed, nil)
		}
		var err error
		h.deflate, err = zlib.NewReader(packed)
		return h.deflate, err
	case 32773:
		return &packBits{r: packed}, nil
	}
	return nil, fmt.Errorf("packed in way %d", h.packing)
}

// drawTIFF lays a TIFF on a canvas, about so many bytes at a time.
func drawTIFF(f file, c *canvas, band int) error {
	head, err := tiffHeadOf(f)
	if err != nil {
		return err
	}
	h := &tiffPieces{tiffHead: head, f: f}
	across := h.across()
	for piece := range h.starts {
		x, y := piece%across*h.pieceW, piece/across*h.pieceH
		w, rows := h.pieceW, h.pieceH
		if !h.tiled {
			rows = min(rows, h.h-y)
		}
		width := (w*h.bits + 7) / 8
		r, err := h.rows(piece, w, rows)
		if err != nil {
			return err
		}
		rows = min(rows, h.h-y) // what of a tile lies beyond needn't be unpacked
		for from := 0; from < rows; {
			n := min(rows-from, max(1, band/width))
			pixels := make([]byte, n*width)
			if _, err := io.ReadFull(r, pixels); err != nil {
				return early(err)
			}
			img, err := tiff.Decode(bytes.NewReader(h.small(w, n, pixels)))
			if err != nil {
				return err
			}
			c.add(img, grid{x, y + from, 1, 1})
			from += n
		}
	}
	return nil
}

// small is a TIFF of some rows, unpacked and in one strip.
func (h tiffHead) small(w, rows int, pixels []byte) []byte {
	number := func(tag uint16, v int) tiffField {
		b := make([]byte, 4)
		h.order.PutUint32(b, uint32(v))
		return tiffField{tag, 4, 1, b}
	}
	fields := []tiffField{number(256, w), number(257, rows), number(259, 1), number(273, 0), number(278, rows), number(279, len(pixels))}
	fields = append(fields, h.kept...)
	slices.SortFunc(fields, func(a, b tiffField) int { return int(a.tag) - int(b.tag) })
	head := []byte("II*\x00")
	if h.order == byteOrder(binary.BigEndian) {
		head = []byte("MM\x00*")
	}
	u16 := func(b []byte, v int) []byte { return h.order.AppendUint16(b, uint16(v)) }
	u32 := func(b []byte, v int) []byte { return h.order.AppendUint32(b, uint32(v)) }
	out := u32(head, 8)
	out = u16(out, len(fields))
	end := len(out) + 12*len(fields) + 4 // what is too long for the directory goes behind it
	var behind []byte
	for _, e := range fields {
		if len(e.value) > 4 {
			behind = append(behind, e.value...)
			behind = append(behind, make([]byte, len(behind)%2)...)
		}
	}
	pixelsAt := end + len(behind)
	at := end
	for _, e := range fields {
		out = u16(u16(out, int(e.tag)), int(e.kind))
		out = u32(out, int(e.count))
		switch {
		case e.tag == 273:
			out = u32(out, pixelsAt)
		case len(e.value) > 4:
			out = u32(out, at)
			at += len(e.value) + len(e.value)%2
		default:
			out = append(out, append(append([]byte(nil), e.value...), 0, 0, 0, 0)[:4]...)
		}
	}
	out = u32(out, 0)
	return append(append(out, behind...), pixels...)
}

// packBits unpacks runs of bytes (section 9).
type packBits struct {
	r     io.ByteReader
	left  int // of a run
	plain bool
	value byte
}

func (p *packBits) Read(out []byte) (n int, err error) {
	for n < len(out) {
		if p.left == 0 {
			code, err := p.r.ReadByte()
			if err != nil {
				return n, err
			}
			switch {
			case code < 128:
				p.left, p.plain = int(code)+1, true
			case code > 128:
				p.left, p.plain = 257-int(code), false
				if p.value, err = p.r.ReadByte(); err != nil {
					return n, early(err)
				}
			}
			continue
		}
		if p.plain {
			if p.value, err = p.r.ReadByte(); err != nil {
				return n, early(err)
			}
		}
		out[n] = p.value
		n++
		p.left--
	}
	return n, nil
}
