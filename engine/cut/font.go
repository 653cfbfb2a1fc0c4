package cut

import (
	"strings"

	"sheetsprite/engine/shape"
)

// glyphs are our own single-stroke letters: lines through points of a grid of
// 4 × 8 units, each point a digit across and a digit up, lines parted by a
// stroke. There are no I and O: numbers leave them out.
var glyphs = map[rune]string{
	'0': "10 30 42 46 38 18 06 02 10",
	'1': "06 28 20/10 30",
	'2': "06 18 38 46 45 00 40",
	'3': "07 18 38 47 45 34 14/34 43 41 30 10 01",
	'4': "30 38 02 42",
	'5': "48 08 05 35 44 41 30 00",
	'6': "38 18 06 01 10 30 41 43 34 04",
	'7': "08 48 10",
	'8': "14 05 07 18 38 47 45 34 14 03 01 10 30 41 43 34",
	'9': "10 30 42 47 38 18 07 05 14 44",
	'-': "14 34",
	'/': "00 48",
	'A': "00 28 40/14 34",
	'B': "00 08 28 37 35 24 04/24 34 43 41 30 00",
	'C': "47 38 18 06 02 10 30 41",
	'D': "00 08 28 46 42 20 00",
	'E': "48 08 00 40/04 34",
	'F': "48 08 00/04 34",
	'G': "47 38 18 06 02 10 30 42 44 24",
	'H': "00 08/40 48/04 44",
	'J': "48 42 30 10 02",
	'K': "00 08/48 04 40",
	'L': "08 00 40",
	'M': "00 08 24 48 40",
	'N': "00 08 40 48",
	'P': "00 08 38 47 45 34 04",
	'Q': "10 30 42 46 38 18 06 02 10/22 40",
	'R': "00 08 38 47 45 34 04/24 40",
	'S': "47 38 18 07 05 14 34 43 41 30 10 01",
	'T': "08 48/28 20",
	'U': "08 02 10 30 42 48",
	'V': "08 20 48",
	'W': "08 10 24 30 48",
	'X': "00 48/08 40",
	'Y': "08 24 48/24 20",
	'Z': "08 48 00 40",
}

const (
	glyphHeight  = 8 // units
	glyphAdvance = 6
	glyphGap     = 2 // advance less width, and from the letters down to the bar
)

// units are the grid's units that numbers are written with, the largest first:
// 2 mm high, then less, 1.5 mm at the least.
var units = []shape.Um{250, 220, 188}

// Way says which way a number runs.
type Way uint8

// The ways.
const (
	Level  Way = iota // left to right
	Upward            // bottom to top, its head to the left
)

// Label is a number on a part or beside it.
type Label struct {
	Text string
	At   shape.Point // the middle of letters and bar
	Unit shape.Um    // an eighth of the letters' height
	Way  Way
	Back Mirror
}

// Mirror says whether a label is written as seen in a mirror, so that it reads
// well on a sheet that is mirrored.
type Mirror bool

// size is the extent of the label's lines, bar included, before it is turned.
func (l Label) size() (w, h shape.Um) {
	n := shape.Um(len(l.Text))
	return (n*glyphAdvance - glyphGap) * l.Unit, (glyphHeight + glyphGap) * l.Unit
}

// Extent is the width and height of the label's lines as they lie.
func (l Label) Extent() (w, h shape.Um) {
	w, h = l.size()
	if l.Way == Upward {
		return h, w
	}
	return w, h
}

// Lines are the label's strokes: the letters, then the bar below them, which
// shows which way is up.
func (l Label) Lines() []shape.Contour {
	w, h := l.size()
	put := func(x, y shape.Um) shape.Vertex { // from the box's lower left corner
		x, y = x-w/2, y-h/2
		if l.Way == Upward {
			x, y = -y, x
		}
		if l.Back {
			x = -x
		}
		return shape.Vertex{Point: l.At.Add(shape.Point{X: x, Y: y})}
	}
	var out []shape.Contour
	for i, r := range l.Text {
		left := shape.Um(i) * glyphAdvance
		for line := range strings.SplitSeq(glyphs[r], "/") {
			var c shape.Contour
			for p := range strings.FieldsSeq(line) {
				c = append(c, put((left+shape.Um(p[0]-'0'))*l.Unit, (glyphGap+shape.Um(p[1]-'0'))*l.Unit))
			}
			out = append(out, c)
		}
	}
	return append(out, shape.Contour{put(0, 0), put(w, 0)})
}

// fit finds the largest label for a text whose lines' middles lie within r,
// level before upward. ok is false where not even the smallest fits.
func fit(text string, r shape.Region, back Mirror) (l Label, ok bool) {
	b := r.Bounds()
	for _, unit := range units {
		for _, way := range []Way{Level, Upward} {
			l = Label{Text: text, Unit: unit, Way: way, Back: back}
			w, h := l.Extent()
			if w > b.Max.X-b.Min.X || h > b.Max.Y-b.Min.Y {
				continue
			}
			if l.At, ok = roomiest(places(r, w, h)); ok {
				return l, true
			}
		}
	}
	return Label{}, false
}

// places is where the middle of a box may lie so that the box lies within r.
func places(r shape.Region, w, h shape.Um) shape.Region {
	if r.Empty() {
		return r
	}
	b := r.Bounds()
	m := shape.Point{X: w + 1, Y: h + 1}
	frame := shape.FromRects([]shape.Rect{{Min: b.Min.Sub(m), Max: b.Max.Add(m)}})
	return r.Subtract(frame.Subtract(r).GrowXY((w+1)/2, (h+1)/2))
}

// roomiest is the middle of r's largest rectangle.
func roomiest(r shape.Region) (at shape.Point, ok bool) {
	most := shape.Um2(-1)
	for _, q := range r.Rects() {
		w, h := q.Size()
		if a := shape.Um2(w) * shape.Um2(h); a > most {
			most, at = a, middle(q)
		}
	}
	return at, most >= 0
}
