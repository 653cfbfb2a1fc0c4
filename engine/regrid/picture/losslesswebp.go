package picture

import (
	"bufio"
	"errors"
	"io"
	"slices"
)

// This file unpacks what WebP stores without loss (RFC 9649, its specification of the
// lossless bit stream; the sections named below are that one's) row by row: what lies further back than any pixel may be copied from
// is let go of.

// pixel is alpha, red, green and blue, from the highest byte down.
type pixel uint32

var errWebP = errors.New("its bit stream is in disorder")

// codeGroup are the codes of green, lengths and the cache; of red, blue, alpha; and of distances.
type codeGroup [5]prefixCode

// mostGroups is how many groups of codes are read: encoders write some hundreds.
const mostGroups = 10000

// unpacker unpacks an image of pixels row by row.
type unpacker struct {
	bits      *lowBits
	w, h      int
	groups    []codeGroup
	which     []uint16 // of the groups, for each square of 1<<squares pixels; nil: the first
	squares   uint
	cache     []pixel // of colours met lately
	cacheBits uint
	window    []pixel // what was unpacked, in a ring
	done      int     // pixels unpacked
	copying   int     // pixels that are still to be copied
	from      int     // how far back
}

// mostBack is further than any pixel is copied from: codes of distances end there (LZ77
// backward reference).
const mostBack = 1 << 20

// newPixels begins an image of pixels; only the picture itself has squares with
// codes of their own.
func newPixels(b *lowBits, w, h int, whole bool) (*unpacker, error) {
	p := &unpacker{bits: b, w: w, h: h}
	size := 0
	if b.take(1) == 1 {
		p.cacheBits = uint(b.take(4))
		if p.cacheBits < 1 || p.cacheBits > 11 {
			return nil, errWebP
		}
		size = 1 << p.cacheBits
		p.cache = make([]pixel, size)
	}
	groups := 1
	if whole && b.take(1) == 1 {
		p.squares = uint(b.take(3) + 2)
		list, err := unpackAll(b, inSquares(w, p.squares), inSquares(h, p.squares))
		if err != nil {
			return nil, err
		}
		p.which = make([]uint16, len(list))
		for i, v := range list {
			p.which[i] = uint16(v >> 8)
			groups = max(groups, int(p.which[i])+1)
		}
	}
	if groups > mostGroups {
		return nil, errors.New("it has too many codes")
	}
	for range groups {
		var g codeGroup
		for i, values := range []int{256 + 24 + size, 256, 256, 256, 40} {
			var err error
			if g[i], err = b.prefixCode(values); err != nil {
				return nil, err
			}
		}
		p.groups = append(p.groups, g)
	}
	room := 1
	for room < min(w*h, mostBack) {
		room *= 2
	}
	p.window = make([]pixel, room)
	return p, nil
}

// inSquares is how many squares of 1<<bits pixels so many pixels have.
func inSquares(n int, bits uint) int { return (n + 1<<bits - 1) >> bits }

// unpackAll unpacks a small image at once.
func unpackAll(b *lowBits, w, h int) ([]pixel, error) {
	p, err := newPixels(b, w, h, false)
	if err != nil {
		return nil, err
	}
	out := make([]pixel, w*h)
	for y := range h {
		if err := p.row(out[y*w:][:w]); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// number is what a prefix of a length or distance and the bits behind it mean (LZ77 backward
// reference).
func (b *lowBits) number(prefix int) int {
	if prefix < 4 {
		return prefix + 1
	}
	more := uint(prefix-2) >> 1
	return (2+prefix&1)<<more + b.take(more) + 1
}

// row unpacks the next row.
func (p *unpacker) row(out []pixel) error {
	mask := len(p.window) - 1
	y := p.done / p.w
	group := &p.groups[0]
	for x := 0; x < p.w; {
		if p.copying > 0 {
			v := p.window[(p.done-p.from)&mask]
			p.copying--
			p.put(out, x, v)
			x++
			continue
		}
		if p.which != nil {
			group = &p.groups[p.which[(y>>p.squares)*inSquares(p.w, p.squares)+x>>p.squares]]
		}
		code, err := p.bits.code(&group[0])
		if err != nil {
			return err
		}
		switch {
		case code < 256:
			v := pixel(code) << 8
			for i, shift := range [3]int{16, 0, 24} {
				channel, err := p.bits.code(&group[1+i])
				if err != nil {
					return err
				}
				v |= pixel(channel) << shift
			}
			p.put(out, x, v)
			x++
		case code < 256+24:
			length := p.bits.number(code - 256)
			prefix, err := p.bits.code(&group[4])
			if err != nil {
				return err
			}
			back := p.bits.number(prefix)
			if back <= len(nearby) {
				n := nearby[back-1]
				back = max(1, n[0]+n[1]*p.w)
			} else {
				back -= len(nearby)
			}
			if back > p.done || length > p.w*p.h-p.done {
				return errWebP
			}
			p.copying, p.from = length, back
		default:
			p.put(out, x, p.cache[code-256-24])
			x++
		}
	}
	if p.bits.short() {
		return io.ErrUnexpectedEOF
	}
	return nil
}

func (p *unpacker) put(out []pixel, x int, v pixel) {
	out[x] = v
	p.window[p.done&(len(p.window)-1)] = v
	p.done++
	if p.cache != nil {
		p.cache[uint32(0x1e35a7bd*v)>>(32-p.cacheBits)] = v // color cache code
	}
}

// nearby are the places that short distances mean: so many columns to the left, so many
// rows up (distance mapping).
var nearby = [120][2]int{
	{0, 1}, {1, 0}, {1, 1}, {-1, 1}, {0, 2}, {2, 0}, {1, 2}, {-1, 2}, {2, 1}, {-2, 1}, {2, 2}, {-2, 2},
	{0, 3}, {3, 0}, {1, 3}, {-1, 3}, {3, 1}, {-3, 1}, {2, 3}, {-2, 3}, {3, 2}, {-3, 2}, {0, 4}, {4, 0},
	{1, 4}, {-1, 4}, {4, 1}, {-4, 1}, {3, 3}, {-3, 3}, {2, 4}, {-2, 4}, {4, 2}, {-4, 2}, {0, 5}, {3, 4},
	{-3, 4}, {4, 3}, {-4, 3}, {5, 0}, {1, 5}, {-1, 5}, {5, 1}, {-5, 1}, {2, 5}, {-2, 5}, {5, 2}, {-5, 2},
	{4, 4}, {-4, 4}, {3, 5}, {-3, 5}, {5, 3}, {-5, 3}, {0, 6}, {6, 0}, {1, 6}, {-1, 6}, {6, 1}, {-6, 1},
	{2, 6}, {-2, 6}, {6, 2}, {-6, 2}, {4, 5}, {-4, 5}, {5, 4}, {-5, 4}, {3, 6}, {-3, 6}, {6, 3}, {-6, 3},
	{0, 7}, {7, 0}, {1, 7}, {-1, 7}, {5, 5}, {-5, 5}, {7, 1}, {-7, 1}, {4, 6}, {-4, 6}, {6, 4}, {-6, 4},
	{2, 7}, {-2, 7}, {7, 2}, {-7, 2}, {3, 7}, {-3, 7}, {7, 3}, {-7, 3}, {5, 6}, {-5, 6}, {6, 5}, {-6, 5},
	{8, 0}, {4, 7}, {-4, 7}, {7, 4}, {-7, 4}, {8, 1}, {8, 2}, {6, 6}, {-6, 6}, {8, 3}, {5, 7}, {-5, 7},
	{7, 5}, {-7, 5}, {8, 4}, {6, 7}, {-6, 7}, {7, 6}, {-7, 6}, {8, 5}, {7, 7}, {-7, 7}, {8, 6}, {8, 7},
}

// lossless unpacks a picture row by row.
type lossless struct {
	pixels     *unpacker
	transforms []transform // in the order in which they were made
	packed     []pixel
}

// newLossless begins with the transforms, behind the head.
func newLossless(r io.Reader, w, h int) (*lossless, error) {
	b := &lowBits{r: bufio.NewReaderSize(r, 1<<16)}
	l := &lossless{}
	width := w
	for b.take(1) == 1 {
		t := transform{kind: b.take(2), w: width}
		if slices.ContainsFunc(l.transforms, func(o transform) bool { return o.kind == t.kind }) {
			return nil, errWebP
		}
		var err error
		switch t.kind {
		case predicted, crossed:
			t.squares = uint(b.take(3) + 2)
			t.data, err = unpackAll(b, inSquares(width, t.squares), inSquares(h, t.squares))
		case indexed:
			n := b.take(8) + 1
			if t.data, err = unpackAll(b, n, 1); err != nil {
				break
			}
			for i := 1; i < n; i++ {
				t.data[i] = plus(t.data[i], t.data[i-1])
			}
			for t.squares = 3; t.squares > 0 && n > 1<<(8>>t.squares); t.squares-- { // pixels in a byte
			}
			width = inSquares(width, t.squares)
		}
		if err != nil {
			return nil, err
		}
		l.transforms = append(l.transforms, t)
	}
	var err error
	if l.pixels, err = newPixels(b, width, h, true); err != nil {
		return nil, err
	}
	l.packed = make([]pixel, w)
	return l, nil
}

// row unpacks the next row; it is overwritten by the one after it.
func (l *lossless) row() ([]pixel, error) {
	y := l.pixels.done / l.pixels.w
	row := l.packed[:l.pixels.w]
	if err := l.pixels.row(row); err != nil {
		return nil, err
	}
	for i := len(l.transforms) - 1; i >= 0; i-- {
		row = l.transforms[i].undone(row[:cap(row)], y)
	}
	return row, nil
}
