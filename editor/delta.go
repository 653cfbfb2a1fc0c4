package editor

import (
	"encoding/binary"
	"slices"
)

// delta is the difference between two drawings of one size: runs of cells that
// change in the same way. Each run is two varints, how many unchanged cells
// come before it and how long it is, and the byte old XOR new; so one delta
// serves both undo and redo. A delta that would be longer than the drawing is
// the plain XOR of all cells behind a zero length.
type delta []byte

// difference is the delta between was and is, of equal length; empty where
// they are equal.
func difference(was, is []byte) delta {
	var d delta
	last := 0 // end of the run before
	for i := 0; i < len(was); {
		if was[i] == is[i] {
			i++
			continue
		}
		x, start := was[i]^is[i], i
		for i < len(was) && was[i]^is[i] == x {
			i++
		}
		d = binary.AppendUvarint(d, uint64(start-last))
		d = binary.AppendUvarint(d, uint64(i-start))
		d = append(d, x)
		last = i
		if len(d) > len(was)+2 {
			d = append(d[:0], 0, 0)
			for i := range was {
				d = append(d, was[i]^is[i])
			}
			break
		}
	}
	return slices.Clip(d)
}

// apply turns one of the two drawings into the other, in place.
func (d delta) apply(cells []byte) {
	if len(d) > 2 && d[0] == 0 && d[1] == 0 { // no run is empty: the plain form
		for i, x := range d[2:] {
			cells[i] ^= x
		}
		return
	}
	at := 0
	for len(d) > 0 {
		gap, n := binary.Uvarint(d)
		length, m := binary.Uvarint(d[n:])
		x := d[n+m]
		d = d[n+m+1:]
		at += int(gap)
		run := cells[at : at+int(length)]
		for i := range run {
			run[i] ^= x
		}
		at += int(length)
	}
}

// pack is a drawing as runs: the key and how often it comes.
func pack(cells []byte) []byte {
	var p []byte
	for i := 0; i < len(cells); {
		start := i
		for i < len(cells) && cells[i] == cells[start] {
			i++
		}
		p = append(p, cells[start])
		p = binary.AppendUvarint(p, uint64(i-start))
	}
	return slices.Clip(p)
}

// unpack is the drawing that was packed; n is its number of cells.
func unpack(p []byte, n int) []byte {
	cells := make([]byte, 0, n)
	for len(p) > 0 {
		length, m := binary.Uvarint(p[1:])
		for range length {
			cells = append(cells, p[0])
		}
		p = p[1+m:]
	}
	return cells
}
