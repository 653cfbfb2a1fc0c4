package stacktest

import "sheetsprite/engine/stack"

// A sprite has so many marks, in pairs left and right.
const leastDetails, mostDetails = 9, 16

// paintDetails adds eyes, highlights, stripes, rivets and folds, most of them
// in pairs left and right.
func (e *easel) paintDetails() {
	for range e.between(leastDetails, mostDetails) {
		x, y := e.between(3, 15), e.between(3, 28)
		for tries := 0; !e.inside(x, y) && tries < 40; tries++ {
			x, y = e.between(3, 15), e.between(3, 28)
		}
		c := e.anyColour()
		mark := marks[e.below(len(marks))]
		e.stamp(mark, x, y, c, 1)
		e.stamp(mark, Side-1-x, y, c, -1)
	}
}

// anyColour is one of the colours, the outline's as often as two others.
func (e *easel) anyColour() stack.Colour {
	return stack.Colour(max(1, e.between(0, e.colours)))
}

// marks are small details as text: '#' takes the colour, 'o' the outline's.
var marks = [][]string{
	{"#"},
	{"##", "#o"},          // an eye with its glint
	{"#..", ".#.", "..#"}, // a fold
	{"####"},              // a stripe
	{"#.#.#"},             // rivets
	{"##", "##"},          // a button
	{".#.", "#.#", ".#."}, // a porthole
	{"#..", "##."},        // a highlight
	{"o..", ".oo", "..#"}, // a crease
	{"#.#.", ".#.#"},      // a dithered patch
	{"oo", "o#", "oo"},    // a window
	{".o", "o.", ".o"},    // a zigzag
}

// stamp puts a mark on painted cells; step -1 mirrors it.
func (e *easel) stamp(mark []string, x, y int, c stack.Colour, step int) {
	for dy, row := range mark {
		for dx, r := range row {
			px, py := x+dx*step, y+dy
			if e.at(px, py) <= Outline {
				continue
			}
			switch r {
			case '#':
				e.set(px, py, c)
			case 'o':
				e.set(px, py, Outline)
			}
		}
	}
}

// breakSymmetry changes some cells as hands do.
func (e *easel) breakSymmetry() {
	for range e.between(8, 18) {
		x, y := e.between(1, Side-2), e.between(1, Side-2)
		if e.inside(x, y) {
			e.set(x, y, e.anyColour())
		}
	}
}

// useAllColours makes sure that each colour occurs, with a small detail where
// one is missing.
func (e *easel) useAllColours() {
	for c := Outline; int(c) <= e.colours; c++ {
		if e.count(c) > 0 {
			continue
		}
		for range 4000 {
			x, y := e.between(1, Side-2), e.between(1, Side-2)
			if old := e.at(x, y); old != 0 && e.count(old) > 4 {
				e.set(x, y, c)
				break
			}
		}
	}
}

func (e *easel) count(c stack.Colour) int {
	n := 0
	for _, other := range e.cells {
		if other == c {
			n++
		}
	}
	return n
}
