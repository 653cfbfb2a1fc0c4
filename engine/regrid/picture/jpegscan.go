package picture

import (
	"errors"
	"io"
)

// This file unpacks the passes of a JPEG (ITU-T T.81, annexes F and G).

// block is 64 coefficients in the order in which they are stored.
type block [64]int16

// huffman is a table of codes (annex C): for each length the first code, how many codes
// lie before it, and the values in their order.
type huffman struct {
	first, index, count [17]int32
	values              []byte
	short               [256]uint16 // by the next eight bits: length and value; 0 where the code is longer
}

// newHuffman is the table of so many codes of each length, and how many values it takes;
// nil where there are more codes than fit.
func newHuffman(counts, values []byte) (*huffman, int) {
	h := &huffman{}
	code, n := int32(0), int32(0)
	for length := 1; length <= 16; length++ {
		count := int32(counts[length-1])
		h.first[length], h.index[length], h.count[length] = code, n, count
		if code+count > 1<<length || int(n+count) > len(values) {
			return nil, 0
		}
		if length <= 8 {
			for k := range count {
				for rest := range 1 << (8 - length) {
					h.short[int(code+k)<<(8-length)+rest] = uint16(length)<<8 | uint16(values[n+k])
				}
			}
		}
		code, n = (code+count)<<1, n+count
	}
	h.values = values[:n]
	return h, int(n)
}

// scanBits reads a pass bit by bit (F.2.2.5). Behind its end there are zeros, which are an
// error once they are used.
type scanBits struct {
	f       file
	at      int64 // of what is read into buf next
	buf     []byte
	store   [1 << 12]byte
	bits    uint64
	n       uint // valid bits, the lowest of bits
	padding uint // of those, zeros that aren't there
}

var errBits = errors.New("a code is of no kind")

func (b *scanBits) peekByte(ahead int) (byte, bool) {
	if len(b.buf) <= ahead {
		n := copy(b.store[:], b.buf)
		got, _ := b.f.ReadAt(b.store[n:], b.at)
		b.at += int64(got)
		b.buf = b.store[:n+got]
		if len(b.buf) <= ahead {
			return 0, false
		}
	}
	return b.buf[ahead], true
}

// fill makes at least 16 bits valid.
func (b *scanBits) fill() {
	for b.n <= 48 {
		v, ok := b.peekByte(0)
		if ok && v == 0xff {
			next, more := b.peekByte(1)
			if ok = more && next == 0; ok {
				b.buf = b.buf[1:]
			}
		}
		if !ok { // a marker, or the file's end
			b.bits <<= 8
			b.n += 8
			b.padding += 8
			continue
		}
		b.buf = b.buf[1:]
		b.bits = b.bits<<8 | uint64(v)
		b.n += 8
	}
}

// take is the next bits as a number, at most 16.
func (b *scanBits) take(n uint) int32 {
	if b.n < n {
		b.fill()
	}
	b.n -= n
	return int32(b.bits >> b.n & (1<<n - 1))
}

// short says whether more bits were taken than there are.
func (b *scanBits) short() bool { return b.n < b.padding }

func (b *scanBits) code(h *huffman) (byte, error) {
	if b.n < 16 {
		b.fill()
	}
	if e := h.short[b.bits>>(b.n-8)&0xff]; e > 0 {
		b.n -= uint(e >> 8)
		return byte(e), nil
	}
	for length := 1; length <= 16; length++ {
		code := int32(b.bits >> (b.n - uint(length)) & (1<<length - 1))
		if past := code - h.first[length]; past >= 0 && past < h.count[length] {
			b.n -= uint(length)
			return h.values[h.index[length]+past], nil
		}
	}
	if b.short() || b.padding > 0 {
		return 0, io.ErrUnexpectedEOF
	}
	return 0, errBits
}

// value is a number of so many bits, negative where its highest is 0 (F.2.2.1).
func (b *scanBits) value(n uint) int32 {
	if n == 0 {
		return 0
	}
	v := b.take(n)
	if v < 1<<(n-1) {
		v += -1<<n + 1
	}
	return v
}

// restarted goes to behind the next restart marker.
func (b *scanBits) restarted() error {
	if b.short() {
		return io.ErrUnexpectedEOF
	}
	if b.n-b.padding >= 8 {
		return errJPEG // whole bytes are left
	}
	b.bits, b.n, b.padding = 0, 0, 0
	for {
		v, ok := b.peekByte(0)
		m, more := b.peekByte(1)
		if !ok || !more {
			return io.ErrUnexpectedEOF
		}
		if v == 0xff && m == 0xff { // filling
			b.buf = b.buf[1:]
			continue
		}
		if v != 0xff || m < 0xd0 || m > 0xd7 {
			return errJPEG
		}
		b.buf = b.buf[2:]
		return nil
	}
}

// scanPart is a component in a pass.
type scanPart struct {
	index  int
	dc, ac *huffman
	last   int32 // the block before's first coefficient
}

// jpegScan is a pass, and how far it has got.
type jpegScan struct {
	frame         *jpegFrame
	parts         []scanPart
	from, to      int  // coefficients
	before, shift uint // bits that are still missing: before the pass, 0 in the first one, and behind it
	restart       int  // after how many units
	units         int  // done
	run           int32
	bits          scanBits
}

// rows unpacks n rows of units from row y on into blocks, component by component.
func (s *jpegScan) rows(blocks [][]block, y, n int) error {
	j := s.frame
	if len(s.parts) == 1 { // its blocks are units by themselves, and only those that show
		p := &s.parts[0]
		c := j.components[p.index]
		first := y * int(c.v)
		for row := first; row < min(first+n*int(c.v), c.rows); row++ {
			for col := range c.cols {
				if err := s.next(); err != nil {
					return err
				}
				if err := s.block(p, &blocks[p.index][(row-first)*c.across+col]); err != nil {
					return err
				}
			}
		}
		return s.ends()
	}
	for row := range n {
		for col := range j.unitsX {
			if err := s.next(); err != nil {
				return err
			}
			for i := range s.parts {
				p := &s.parts[i]
				c := j.components[p.index]
				for v := range int(c.v) {
					for h := range int(c.h) {
						b := &blocks[p.index][(row*int(c.v)+v)*c.across+col*int(c.h)+h]
						if err := s.block(p, b); err != nil {
							return err
						}
					}
				}
			}
		}
	}
	return s.ends()
}

func (s *jpegScan) ends() error {
	if s.bits.short() {
		return io.ErrUnexpectedEOF
	}
	return nil
}

// next begins a unit.
func (s *jpegScan) next() error {
	if s.restart > 0 && s.units > 0 && s.units%s.restart == 0 {
		if err := s.bits.restarted(); err != nil {
			return err
		}
		s.run = 0
		for i := range s.parts {
			s.parts[i].last = 0
		}
	}
	s.units++
	return nil
}

// block unpacks what the pass has of a block.
func (s *jpegScan) block(p *scanPart, b *block) error {
	at := s.from
	if at == 0 {
		if s.before > 0 { // G.1.2.1
			b[0] |= int16(s.bits.take(1) << s.shift)
		} else {
			size, err := s.bits.code(p.dc)
			if err != nil {
				return err
			}
			if size > 15 {
				return errBits
			}
			p.last += s.bits.value(uint(size))
			b[0] = int16(p.last << s.shift)
		}
		at = 1
	}
	switch {
	case at > s.to:
		return nil
	case s.before > 0:
		return s.refine(p.ac, b, at)
	case s.run > 0:
		s.run--
		return nil
	}
	for at <= s.to { // F.2.2.2, G.1.2.2
		code, err := s.bits.code(p.ac)
		if err != nil {
			return err
		}
		zeros, size := int(code>>4), uint(code&15)
		if size == 0 {
			if zeros < 15 {
				s.run = 1<<zeros - 1
				if zeros > 0 {
					s.run += s.bits.take(uint(zeros))
				}
				return nil
			}
			at += 16
			continue
		}
		at += zeros
		if at > s.to {
			return errBits
		}
		b[at] = int16(s.bits.value(size) << s.shift)
		at++
	}
	return nil
}

// refine adds a bit to each coefficient that is there, and new ones of one bit (G.1.2.3).
func (s *jpegScan) refine(h *huffman, b *block, at int) error {
	bit := int16(1) << s.shift
	more := func(v *int16) {
		if s.bits.take(1) == 0 || *v&bit != 0 {
			return
		}
		if *v > 0 {
			*v += bit
		} else {
			*v -= bit
		}
	}
	if s.run == 0 {
		for at <= s.to {
			code, err := s.bits.code(h)
			if err != nil {
				return err
			}
			zeros, size := int(code>>4), code&15
			var fresh int16
			switch {
			case size == 1:
				fresh = bit
				if s.bits.take(1) == 0 {
					fresh = -bit
				}
			case size > 1:
				return errBits
			case zeros < 15:
				s.run = 1 << zeros
				if zeros > 0 {
					s.run += s.bits.take(uint(zeros))
				}
			}
			if s.run > 0 {
				break
			}
			for ; at <= s.to; at++ {
				if b[at] != 0 {
					more(&b[at])
					continue
				}
				if zeros == 0 {
					break
				}
				zeros--
			}
			if fresh != 0 {
				if at > s.to {
					return errBits
				}
				b[at] = fresh
			}
			at++
		}
	}
	if s.run > 0 {
		for ; at <= s.to; at++ {
			if b[at] != 0 {
				more(&b[at])
			}
		}
		s.run--
	}
	return nil
}
