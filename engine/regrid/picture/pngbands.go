package picture

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/png"
	"io"
)

// This file reads a large PNG some rows at a time (ISO/IEC 15948, the sections named
// below): its stream is unpacked row by row, the rows' filters are undone, and some rows
// at a time are written as a small PNG, from which the standard library takes the pixels.

// bandBytes is about how much of a picture is unpacked at a time.
const bandBytes = 1 << 19

// pngHead is what a PNG says before its pixels.
type pngHead struct {
	w, h      int
	kind      []byte // the header's rest: depth, kind of colour, compression, filter, interlace
	bits      int    // of a pixel
	extra     []byte // the chunks that the pixels' colours depend on, as they stand
	colours   int    // in the palette
	pixelsAt  int64  // where the first chunk of pixels begins
	interlace bool
}

var errPNG = errors.New("its chunks are in disorder")

func pngHeadOf(f file) (h pngHead, err error) {
	body := f.part(16, 13)
	if body == nil {
		return h, io.ErrUnexpectedEOF
	}
	h.w, h.h = int(binary.BigEndian.Uint32(body)), int(binary.BigEndian.Uint32(body[4:]))
	h.kind, h.interlace = body[8:], body[12] == 1
	samples := map[byte]int{0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[body[9]] // 11.2.2
	h.bits = samples * int(body[8])
	if h.bits == 0 {
		return h, errPNG
	}
	pngChunks(f, func(name string, from int64, n int) bool {
		switch name {
		case "IDAT":
			h.pixelsAt = from - 8
			return false
		case "PLTE", "tRNS":
			h.extra = append(h.extra, f.part(from-8, n+12)...)
			if name == "PLTE" {
				h.colours = n / 3
			}
		}
		return true
	})
	if h.pixelsAt == 0 {
		return h, io.ErrUnexpectedEOF
	}
	return h, nil
}

// pngStream reads the bodies of the chunks of pixels one after the other, and checks
// their sums.
type pngStream struct {
	f    file
	at   int64 // of what is read next
	left int   // of the chunk's body
	sum  uint32
	open bool
}

func (s *pngStream) Read(p []byte) (int, error) {
	for s.left == 0 {
		if s.open {
			end := s.f.part(s.at, 4)
			if end == nil {
				return 0, io.ErrUnexpectedEOF
			}
			if binary.BigEndian.Uint32(end) != s.sum {
				return 0, errors.New("a chunk's sum is wrong")
			}
			s.at += 4
		}
		head := s.f.part(s.at, 8)
		if head == nil {
			return 0, io.ErrUnexpectedEOF
		}
		if string(head[4:]) != "IDAT" {
			return 0, io.EOF
		}
		s.left, s.sum, s.open = int(binary.BigEndian.Uint32(head)), crc32.ChecksumIEEE(head[4:]), true
		s.at += 8
	}
	n, err := s.f.ReadAt(p[:min(len(p), s.left)], s.at)
	if n == 0 {
		return 0, io.ErrUnexpectedEOF
	}
	if err != nil && err != io.EOF {
		return 0, err
	}
	s.sum = crc32.Update(s.sum, crc32.IEEETable, p[:n])
	s.at += int64(n)
	s.left -= n
	return n, nil
}

// pngPasses are the pictures that an interlaced one is made of (8.2): where each begins
// and how far its columns and rows lie apart.
var pngPasses = []grid{{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}}

// drawPNG lays a PNG on a canvas, about so many bytes at a time.
func drawPNG(f file, c *canvas, band int) error {
	h, err := pngHeadOf(f)
	if err != nil {
		return err
	}
	packed := bufio.NewReaderSize(&pngStream{f: f, at: h.pixelsAt}, 1<<16)
	z, err := zlib.NewReader(packed)
	if err != nil {
		return err
	}
	passes := []grid{{0, 0, 1, 1}}
	if h.interlace {
		passes = pngPasses
	}
	var cut pngCutter
	for _, p := range passes {
		w, rows := (h.w-p.x+p.columns-1)/p.columns, (h.h-p.y+p.rows-1)/p.rows
		if w <= 0 || rows <= 0 {
			continue
		}
		width := (w*h.bits + 7) / 8
		filter := newUnfilter(width, h.bits)
		for y := 0; y < rows; {
			n := min(rows-y, max(1, band/width))
			cut.begin(h, w, n)
			for range n {
				row, err := filter.next(z)
				if err != nil {
					return err
				}
				cut.row(row)
			}
			img, err := cut.image()
			if err != nil {
				return err
			}
			if err := checkIndices("PNG", img, h.colours); err != nil {
				return err
			}
			c.add(img, grid{p.x, p.y + y*p.rows, p.columns, p.rows})
			y += n
		}
	}
	// At their ends the sums of the stream and of its last chunk are checked; more than the
	// picture needs is let pass.
	if _, err := io.CopyN(io.Discard, z, 1); err != nil && err != io.EOF {
		return err
	}
	_, err = io.Copy(io.Discard, packed)
	return err
}

// unfilter undoes the filters that rows were written with (section 9).
type unfilter struct {
	row, before []byte // with room for a pixel on the left, which is 0
	pixel       int    // bytes of one, at least 1
}

func newUnfilter(width, bits int) *unfilter {
	pixel := max(1, bits/8)
	return &unfilter{make([]byte, pixel+width), make([]byte, pixel+width), pixel}
}

// next reads a row; it is overwritten by the next one.
func (u *unfilter) next(r io.Reader) ([]byte, error) {
	u.row, u.before = u.before, u.row
	var filter [1]byte
	if _, err := io.ReadFull(r, filter[:]); err != nil {
		return nil, early(err)
	}
	row := u.row[u.pixel:]
	if _, err := io.ReadFull(r, row); err != nil {
		return nil, early(err)
	}
	left, above, corner := u.row[:len(row)], u.before[u.pixel:], u.before[:len(row)]
	switch filter[0] {
	case 0:
	case 1:
		for i := range row {
			row[i] += left[i]
		}
	case 2:
		for i := range row {
			row[i] += above[i]
		}
	case 3:
		for i := range row {
			row[i] += uint8((int(left[i]) + int(above[i])) / 2)
		}
	case 4:
		for i := range row {
			row[i] += paeth(int(left[i]), int(above[i]), int(corner[i]))
		}
	default:
		return nil, errors.New("a row has a filter of no kind")
	}
	return row, nil
}

// early is the error of a stream that ends before the picture does.
func early(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// paeth is the one of three neighbours that is nearest to a + b - c (9.4).
func paeth(a, b, c int) uint8 {
	p := a + b - c
	da, db, dc := max(p-a, a-p), max(p-b, b-p), max(p-c, c-p)
	switch {
	case da <= db && da <= dc:
		return uint8(a)
	case db <= dc:
		return uint8(b)
	}
	return uint8(c)
}

// pngCutter writes rows as a PNG and reads that.
type pngCutter struct {
	file, packed bytes.Buffer
	z            *zlib.Writer
}

func (c *pngCutter) begin(h pngHead, w, rows int) {
	c.file.Reset()
	c.packed.Reset()
	if c.z == nil {
		c.z, _ = zlib.NewWriterLevel(&c.packed, zlib.NoCompression)
	}
	c.z.Reset(&c.packed)
	c.file.WriteString("\x89PNG\r\n\x1a\n")
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(rows))
	head = append(head, h.kind...)
	head[len(head)-1] = 0 // not interlaced
	c.chunk("IHDR", head)
	c.file.Write(h.extra)
}

func (c *pngCutter) row(row []byte) {
	c.z.Write([]byte{0}) // unfiltered; a buffer takes whatever is written
	c.z.Write(row)
}

func (c *pngCutter) image() (image.Image, error) {
	c.z.Close()
	c.chunk("IDAT", c.packed.Bytes())
	c.chunk("IEND", nil)
	return png.Decode(&c.file)
}

func (c *pngCutter) chunk(name string, body []byte) {
	var number [4]byte
	binary.BigEndian.PutUint32(number[:], uint32(len(body)))
	c.file.Write(number[:])
	c.file.WriteString(name)
	c.file.Write(body)
	sum := crc32.Update(crc32.ChecksumIEEE([]byte(name)), crc32.IEEETable, body)
	binary.BigEndian.PutUint32(number[:], sum)
	c.file.Write(number[:])
}
