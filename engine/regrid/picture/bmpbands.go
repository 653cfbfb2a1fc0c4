package picture

import (
	"bytes"
	"encoding/binary"
	"io"

	"golang.org/x/image/bmp"
)

// drawBMP lays a BMP on a canvas: some rows at a time, about so many bytes, are put
// behind its header, which says how many they are, and read as a BMP of their own. The
// header is one that bmp.DecodeConfig has taken: unpacked, rows of whole four bytes.
func drawBMP(f file, c *canvas, band int) error {
	const fileHead, most = 14, 1 << 12
	head := f.part(0, fileHead+16)
	if head == nil {
		return io.ErrUnexpectedEOF
	}
	begin := int64(binary.LittleEndian.Uint32(head[10:]))
	upsideDown := int32(binary.LittleEndian.Uint32(head[22:])) > 0
	width := (c.w*int(binary.LittleEndian.Uint16(head[28:])) + 31) / 32 * 4
	if begin > most {
		return bmp.ErrUnsupported
	}
	if head = f.part(0, int(begin)); head == nil {
		return io.ErrUnexpectedEOF
	}
	for y := 0; y < c.h; {
		n := min(c.h-y, max(1, band/width))
		height := int32(n)
		if !upsideDown {
			height = -height
		}
		binary.LittleEndian.PutUint32(head[22:], uint32(height))
		rows := make([]byte, n*width)
		if got, err := f.ReadAt(rows, begin+int64(y)*int64(width)); got < len(rows) {
			return early(err)
		}
		img, err := bmp.Decode(io.MultiReader(bytes.NewReader(head), bytes.NewReader(rows)))
		if err != nil {
			return err
		}
		at := y
		if upsideDown {
			at = c.h - y - n
		}
		c.add(img, grid{0, at, 1, 1})
		y += n
	}
	return nil
}
