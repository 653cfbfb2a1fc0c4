package picture

import (
	"bytes"
	"encoding/binary"
	"io"
	"math/bits"
)

// This file writes coefficients as a JPEG of one pass. Its codes are of one length, but
// for two: it is read at once, so that room is no matter.

// jpegWriter writes small files one after the other.
type jpegWriter struct {
	out  bytes.Buffer
	bits uint64
	n    uint
}

// file is a JPEG of some rows of a frame's units, of which so many rows of pixels show.
func (w *jpegWriter) file(j *jpegFrame, blocks [][]block, rows int) io.Reader {
	w.out.Reset()
	w.out.WriteString("\xff\xd8")
	w.out.Write(j.kept)
	frame := binary.BigEndian.AppendUint16([]byte{8}, uint16(rows))
	frame = append(binary.BigEndian.AppendUint16(frame, uint16(j.w)), byte(len(j.components)))
	scan := []byte{byte(len(j.components))}
	for i, c := range j.components {
		table := []byte{0x10 | byte(i)}
		for _, v := range c.table {
			table = binary.BigEndian.AppendUint16(table, v)
		}
		w.segment(0xdb, table)
		frame = append(frame, c.id, c.h<<4|c.v, byte(i))
		scan = append(scan, c.id, 0)
	}
	w.segment(0xc1, frame)
	w.segment(0xc4, dcTable)
	w.segment(0xc4, acTable)
	w.segment(0xda, append(scan, 0, 63, 0))
	last := make([]int16, len(j.components))
	for row := range len(blocks[0]) / (j.components[0].across * int(j.components[0].v)) {
		for col := range j.unitsX {
			for i, c := range j.components {
				for v := range int(c.v) {
					for h := range int(c.h) {
						b := &blocks[i][(row*int(c.v)+v)*c.across+col*int(c.h)+h]
						w.block(b, last[i])
						last[i] = b[0]
					}
				}
			}
		}
	}
	w.put(0x7f, 7) // the last byte is filled with ones
	w.bits, w.n = 0, 0
	w.out.WriteString("\xff\xd9")
	return &w.out
}

func (w *jpegWriter) segment(marker byte, body []byte) {
	w.out.Write([]byte{0xff, marker, byte((len(body) + 2) >> 8), byte(len(body) + 2)})
	w.out.Write(body)
}

// The tables: sixteen sizes of five bits each, and all bytes, of eight bits but for the
// last two, which have nine, so that no code is all ones.
var dcTable, acTable = jpegTable(0x00, map[int]byte{5: 16}, 16), jpegTable(0x10, map[int]byte{8: 254, 9: 2}, 256)

func jpegTable(kind byte, counts map[int]byte, values int) []byte {
	b := []byte{kind}
	for length := 1; length <= 16; length++ {
		b = append(b, counts[length])
	}
	for v := range values {
		b = append(b, byte(v))
	}
	return b
}

func (w *jpegWriter) block(b *block, last int16) {
	v, n := sized(int32(b[0]) - int32(last))
	w.put(uint64(n), 5)
	w.put(v, n)
	zeros := 0
	for _, c := range b[1:] {
		if c == 0 {
			zeros++
			continue
		}
		for ; zeros > 15; zeros -= 16 {
			w.code(0xf0)
		}
		v, n := sized(int32(c))
		w.code(byte(zeros)<<4 | byte(n))
		w.put(v, n)
		zeros = 0
	}
	if zeros > 0 {
		w.code(0)
	}
}

// sized is a number as section F.1.2.1 has it, and of how many bits; more than 15 are cut
// off, as no picture has them.
func sized(v int32) (uint64, uint) {
	v = max(-1<<15+1, min(v, 1<<15-1))
	n := uint(bits.Len32(uint32(max(v, -v))))
	if v < 0 {
		v += 1<<n - 1
	}
	return uint64(v), n
}

func (w *jpegWriter) code(v byte) {
	if v < 254 {
		w.put(uint64(v), 8)
		return
	}
	w.put(254*2+uint64(v-254), 9)
}

func (w *jpegWriter) put(v uint64, n uint) {
	w.bits = w.bits<<n | v
	for w.n += n; w.n >= 8; {
		w.n -= 8
		b := byte(w.bits >> w.n)
		w.out.WriteByte(b)
		if b == 0xff {
			w.out.WriteByte(0)
		}
	}
}
