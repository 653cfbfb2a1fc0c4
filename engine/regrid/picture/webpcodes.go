package picture

import "io"

// This file reads the bits and the prefix codes of a WebP without loss (RFC 9649, "Decoding
// and building the prefix codes").

// lowBits reads bits, a byte's lowest first. Behind the end there are zeros, which are an
// error once they are used.
type lowBits struct {
	r       io.ByteReader
	bits    uint64
	n       uint
	padding uint
}

func (b *lowBits) fill() {
	for b.n <= 48 {
		v, err := b.r.ReadByte()
		if err != nil {
			v = 0
			b.padding += 8
		}
		b.bits |= uint64(v) << b.n
		b.n += 8
	}
}

// take is the next bits as a number, at most 24.
func (b *lowBits) take(n uint) int {
	if b.n < n {
		b.fill()
	}
	v := b.bits & (1<<n - 1)
	b.bits >>= n
	b.n -= n
	return int(v)
}

func (b *lowBits) short() bool { return b.n < b.padding }

// prefixCode is a code whose words have up to 15 bits.
type prefixCode struct {
	index, count [16]uint16 // for each length: how many words are shorter, and how many have it
	values       []uint16   // in the order of their words
	short        []uint16   // by the next eight bits: value times 16, and length; 0 where the word is longer
	only         bool       // one value, of no bits
}

// newPrefixCode is the code of values with words of given lengths.
func newPrefixCode(lengths []uint8) (c prefixCode, err error) {
	for _, n := range lengths {
		if n > 0 {
			c.count[n]++
		}
	}
	room, total := 1<<15, 0
	for n := 1; n < 16; n++ {
		c.index[n] = uint16(total)
		total += int(c.count[n])
		room -= int(c.count[n]) << (15 - n)
	}
	if total == 0 {
		return c, errWebP
	}
	c.values = make([]uint16, total)
	next := c.index
	for v, n := range lengths {
		if n > 0 {
			c.values[next[n]] = uint16(v)
			next[n]++
		}
	}
	if c.only = total == 1; c.only {
		return c, nil
	}
	if room != 0 { // too many words, or places that no word takes
		return c, errWebP
	}
	c.short = make([]uint16, 256)
	word := 0
	for n := 1; n <= 8; n++ {
		for k := range int(c.count[n]) {
			turned := 0 // as words come with their highest bit first
			for i := range n {
				turned |= word >> i & 1 << (n - 1 - i)
			}
			for rest := turned; rest < 256; rest += 1 << n {
				c.short[rest] = c.values[int(c.index[n])+k]<<4 | uint16(n)
			}
			word++
		}
		word <<= 1
	}
	return c, nil
}

func (b *lowBits) code(c *prefixCode) (int, error) {
	if c.only {
		return int(c.values[0]), nil
	}
	if b.n < 16 {
		b.fill()
	}
	if e := c.short[b.bits&0xff]; e > 0 {
		b.bits >>= e & 15
		b.n -= uint(e & 15)
		return int(e >> 4), nil
	}
	word, first := 0, 0
	for n := 1; n < 16; n++ {
		word = word<<1 | int(b.bits>>(n-1)&1)
		if past := word - first; past < int(c.count[n]) {
			b.bits >>= n
			b.n -= uint(n)
			return int(c.values[int(c.index[n])+past]), nil
		}
		first = (first + int(c.count[n])) << 1
	}
	return 0, errWebP
}

// lengthOrder is the order in which lengths of the lengths' own code come.
var lengthOrder = [19]int{17, 18, 0, 1, 2, 3, 4, 5, 16, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15}

// prefixCode reads a code of so many values.
func (b *lowBits) prefixCode(values int) (prefixCode, error) {
	lengths := make([]uint8, values)
	if b.take(1) == 1 {
		two, wide := b.take(1) == 1, b.take(1) == 1
		first := b.take(1)
		if wide {
			first |= b.take(7) << 1
		}
		if first >= values {
			return prefixCode{}, errWebP
		}
		lengths[first] = 1
		if two {
			second := b.take(8)
			if second >= values {
				return prefixCode{}, errWebP
			}
			lengths[second] = 1
		}
		return newPrefixCode(lengths)
	}
	own := make([]uint8, 19)
	for _, v := range lengthOrder[:4+b.take(4)] {
		own[v] = uint8(b.take(3))
	}
	code, err := newPrefixCode(own)
	if err != nil {
		return code, err
	}
	left := values
	if b.take(1) == 1 {
		bits := uint(2 + 2*b.take(3))
		if left = 2 + b.take(bits); left > values {
			return code, errWebP
		}
	}
	before := uint8(8)
	for at := 0; at < values && left > 0; left-- {
		v, err := b.code(&code)
		if err != nil {
			return code, err
		}
		again, length := 1, uint8(v)
		switch v {
		case 16:
			again, length = 3+b.take(2), before
		case 17:
			again, length = 3+b.take(3), 0
		case 18:
			again, length = 11+b.take(7), 0
		default:
			if v > 0 {
				before = length
			}
		}
		if at+again > values {
			return code, errWebP
		}
		for range again {
			lengths[at] = length
			at++
		}
	}
	if b.short() {
		return code, io.ErrUnexpectedEOF
	}
	return newPrefixCode(lengths)
}
