package picture

import (
	"encoding/binary"
	"errors"
	"fmt"
	"image/jpeg"
	"io"
)

// This file reads a large JPEG whose decoder would hold all of it (ITU-T T.81, 1992; the
// sections named below): one stored in passes over the whole picture, or with four inks.
// All passes are unpacked side by side, some rows at a time, as each knows where it
// stopped; the rows' coefficients are written as a small JPEG of one pass, from which the
// standard library takes the pixels.

// mostScans is how many passes are read: encoders write about ten.
const mostScans = 100

var errJPEG = errors.New("its segments are in disorder")

// jpegComponent is a channel.
type jpegComponent struct {
	id, h, v   byte        // h × v blocks of it make a unit
	quantiser  byte        // number of its table
	table      *[64]uint16 // nil until a pass has it
	across     int         // blocks in a row of units
	rows, cols int         // blocks that a pass of it alone has
}

// jpegFrame is a JPEG without its pixels.
type jpegFrame struct {
	w, h           int
	progressive    bool
	unitsX, unitsY int
	unitW, unitH   int // pixels of a unit
	components     []jpegComponent
	kept           []byte // segments that say what the colours are, as they stand
	scans          []*jpegScan
	quantisers     [4]*[64]uint16
	dc, ac         [4]*huffman
	restart        int
}

// jpegFrameOf reads everything but the coefficients.
func jpegFrameOf(f file) (*jpegFrame, error) {
	j := &jpegFrame{}
	at := int64(2)
	for {
		head := f.part(at, 4)
		switch {
		case head == nil && len(j.scans) > 0 || head != nil && head[0] == 0xff && head[1] == 0xd9:
			if len(j.scans) == 0 {
				return nil, errJPEG
			}
			return j, nil // other readers take a file without its end, too
		case head == nil:
			return nil, io.ErrUnexpectedEOF
		case head[0] != 0xff || head[1] == 0xff || head[1] == 0: // filling, or what is left of a pass
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(head[2:])) - 2
		body := f.part(at+4, n)
		if body == nil {
			return nil, io.ErrUnexpectedEOF
		}
		var err error
		switch marker := head[1]; marker {
		case 0xc0, 0xc1, 0xc2:
			err = j.frame(body, marker == 0xc2)
		case 0xc4:
			err = j.huffmanTables(body)
		case 0xdb:
			err = j.quantiserTables(body)
		case 0xdd:
			if n != 2 {
				return nil, errJPEG
			}
			j.restart = int(binary.BigEndian.Uint16(body))
		case 0xe0, 0xee:
			j.kept = append(append(j.kept, head...), body...)
		case 0xda:
			err = j.scan(f, body, at+4+int64(n))
			if err == nil {
				at = endOfScan(f, at+4+int64(n))
				continue
			}
		}
		if err != nil {
			return nil, err
		}
		at += 4 + int64(n)
	}
}

// jpegKind says whether a JPEG is stored in passes over the whole picture, and how many
// channels it has.
func jpegKind(f file) (passes bool, channels int) {
	jpegSegments(f, func(marker byte, _ int64, body []byte) {
		if marker >= 0xc0 && marker <= 0xc2 && len(body) > 5 {
			passes, channels = marker == 0xc2, int(body[5])
		}
	})
	return passes, channels
}

// endOfScan is where the next marker stands that is none of a pass's own.
func endOfScan(f file, at int64) int64 {
	w := window{file: f}
	for ; at < f.size; at++ {
		if w.at(at) == 0xff {
			if m := w.at(at + 1); m != 0 && m != 0xff && (m < 0xd0 || m > 0xd7) {
				return at
			}
		}
	}
	return at
}

// frame is section B.2.2.
func (j *jpegFrame) frame(b []byte, progressive bool) error {
	if len(b) < 6 || len(b) != 6+3*int(b[5]) || j.components != nil || b[0] != 8 || b[5] < 1 || b[5] > 4 {
		return errJPEG
	}
	j.progressive = progressive
	j.h, j.w = int(binary.BigEndian.Uint16(b[1:])), int(binary.BigEndian.Uint16(b[3:]))
	if j.w < 1 || j.h < 1 {
		return errJPEG
	}
	mostH, mostV := 1, 1
	for i := range int(b[5]) {
		e := b[6+3*i:]
		c := jpegComponent{id: e[0], h: e[1] >> 4, v: e[1] & 15, quantiser: e[2]}
		if c.h < 1 || c.v < 1 || c.h > 4 || c.v > 4 || c.quantiser > 3 {
			return errJPEG
		}
		if b[5] == 1 {
			c.h, c.v = 1, 1
		}
		mostH, mostV = max(mostH, int(c.h)), max(mostV, int(c.v))
		j.components = append(j.components, c)
	}
	j.unitW, j.unitH = 8*mostH, 8*mostV
	j.unitsX, j.unitsY = (j.w+j.unitW-1)/j.unitW, (j.h+j.unitH-1)/j.unitH
	for i := range j.components {
		c := &j.components[i]
		c.across = j.unitsX * int(c.h)
		c.cols = (j.w*int(c.h) + j.unitW - 1) / j.unitW // A.2.2
		c.rows = (j.h*int(c.v) + j.unitH - 1) / j.unitH
	}
	return nil
}

// quantiserTables is section B.2.4.1.
func (j *jpegFrame) quantiserTables(b []byte) error {
	for len(b) > 0 {
		size := 1 + int(b[0]>>4)
		if size > 2 || b[0]&15 > 3 || len(b) < 1+64*size {
			return errJPEG
		}
		q := &[64]uint16{}
		for i := range q {
			if size == 1 {
				q[i] = uint16(b[1+i])
			} else {
				q[i] = binary.BigEndian.Uint16(b[1+2*i:])
			}
		}
		j.quantisers[b[0]&15] = q
		b = b[1+64*size:]
	}
	return nil
}

// huffmanTables is section B.2.4.2.
func (j *jpegFrame) huffmanTables(b []byte) error {
	for len(b) > 0 {
		if len(b) < 17 || b[0]>>4 > 1 || b[0]&15 > 3 {
			return errJPEG
		}
		h, n := newHuffman(b[1:17], b[17:])
		if h == nil {
			return errJPEG
		}
		if b[0]>>4 == 0 {
			j.dc[b[0]&15] = h
		} else {
			j.ac[b[0]&15] = h
		}
		b = b[17+n:]
	}
	return nil
}

// scan is section B.2.3: a pass, whose bits begin at a place.
func (j *jpegFrame) scan(f file, b []byte, at int64) error {
	if len(j.scans) == mostScans {
		return fmt.Errorf("it has more than %d passes", mostScans)
	}
	if len(b) < 1 || b[0] < 1 || b[0] > 4 || len(b) != 4+2*int(b[0]) {
		return errJPEG
	}
	tail := b[1+2*int(b[0]):]
	s := &jpegScan{
		frame: j, from: int(tail[0]), to: int(tail[1]), before: uint(tail[2] >> 4), shift: uint(tail[2] & 15),
		restart: j.restart, bits: scanBits{f: f, at: at},
	}
	if !j.progressive {
		s.from, s.to, s.before, s.shift = 0, 63, 0, 0
	}
	if s.from > s.to || s.to > 63 || s.shift > 13 || s.before > 13 || j.progressive && s.from == 0 && s.to > 0 || s.from > 0 && b[0] > 1 || s.before > 0 && s.before != s.shift+1 {
		return errJPEG
	}
	for i := range int(b[0]) {
		e := b[1+2*i:]
		index := -1
		for k, c := range j.components {
			if c.id == e[0] {
				index = k
			}
		}
		if index < 0 || e[1]>>4 > 3 || e[1]&15 > 3 {
			return errJPEG
		}
		c := &j.components[index]
		if c.table == nil {
			if c.table = j.quantisers[c.quantiser]; c.table == nil {
				return errJPEG
			}
		}
		dc, ac := j.dc[e[1]>>4], j.ac[e[1]&15]
		if s.from == 0 && s.before == 0 && dc == nil || s.to > 0 && ac == nil {
			return errJPEG
		}
		s.parts = append(s.parts, scanPart{index: index, dc: dc, ac: ac})
	}
	j.scans = append(j.scans, s)
	return nil
}

// drawJPEG lays a JPEG on a canvas, about so many bytes of coefficients at a time.
func drawJPEG(f file, c *canvas, band int) error {
	j, err := jpegFrameOf(f)
	if err != nil {
		return err
	}
	unit := 0 // bytes of a row of units
	for _, p := range j.components {
		if p.table == nil {
			return errJPEG // no pass has it
		}
		unit += p.across * int(p.v) * 128
	}
	var w jpegWriter
	for y := 0; y < j.unitsY; {
		n := min(j.unitsY-y, max(1, band/unit))
		blocks := make([][]block, len(j.components))
		for i, p := range j.components {
			blocks[i] = make([]block, p.across*int(p.v)*n)
		}
		for _, s := range j.scans {
			if err := s.rows(blocks, y, n); err != nil {
				return err
			}
		}
		img, err := jpeg.Decode(w.file(j, blocks, min(n*j.unitH, j.h-y*j.unitH)))
		if err != nil {
			return err
		}
		c.add(img, grid{0, y * j.unitH, 1, 1})
		y += n
	}
	return nil
}
