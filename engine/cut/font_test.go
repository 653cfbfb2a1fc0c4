package cut

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// ink draws lines as text, a letter a unit.
func ink(l Label, lines []shape.Contour) []string {
	w, h := l.Extent()
	cols, rows := int(w/l.Unit)+1, int(h/l.Unit)+1
	canvas := make([][]byte, rows)
	for i := range canvas {
		canvas[i] = []byte(strings.Repeat(" ", cols))
	}
	for _, c := range lines {
		for i := range c[1:] {
			a, b := c[i].Point, c[i+1].Point
			const steps = 64
			for k := range shape.Um(steps + 1) {
				x := a.X + (b.X-a.X)*k/steps + w/2
				y := a.Y + (b.Y-a.Y)*k/steps + h/2
				canvas[rows-1-int((y+l.Unit/2)/l.Unit)][int((x+l.Unit/2)/l.Unit)] = '#'
			}
		}
	}
	out := make([]string, rows)
	for i, row := range canvas {
		out[i] = strings.TrimRight(string(row), " ")
	}
	return out
}

// A number and the bar below it, which tells 6 from 9.
func ExampleLabel_Lines() {
	l := Label{Text: "A2-9", Unit: 100}
	fmt.Println(strings.Join(ink(l, l.Lines()), "\n"))
	// Output:
	//   #    ###         ####
	//   #   ## ##       #   #
	//  ###  #   #       #   #
	//  # #      #       ##  #
	//  ###     ##  ###   ####
	//  # #    ##            #
	// ## ##  ##             #
	// #   # ##             ##
	// #   # #####        ###
	//
	// #######################
}

// Every letter that a number can hold is drawn within its box, and no two look
// alike: at least three of 5 × 9 spots differ.
func TestLettersDiffer(t *testing.T) {
	const all = "0123456789-/ABCDEFGHJKLMNPQRSTUVWXYZ"
	require.Len(t, glyphs, len(all))
	spots := map[rune]map[[2]int]bool{}
	for _, r := range all {
		require.Contains(t, glyphs, r)
		l := Label{Text: string(r), Unit: 100}
		on := map[[2]int]bool{}
		for y, row := range ink(l, l.Lines()[:len(l.Lines())-1]) {
			for x, c := range row {
				if c == '#' {
					on[[2]int{x, y}] = true
					assert.Less(t, x, 5)
					assert.Less(t, y, 9, "above the bar")
				}
			}
		}
		for other, spots := range spots {
			differ := 0
			for p := range on {
				if !spots[p] {
					differ++
				}
			}
			for p := range spots {
				if !on[p] {
					differ++
				}
			}
			assert.GreaterOrEqual(t, differ, 3, "%c and %c", r, other)
		}
		spots[r] = on
	}
}

// 2 mm high, 1.5 mm at the least: letters are that high, and strokes of one
// that run beside one another are further apart than a mark is wide.
func TestLettersAreLegible(t *testing.T) {
	assert.Equal(t, shape.Um(2000), glyphHeight*units[0])
	for _, u := range units {
		assert.GreaterOrEqual(t, glyphHeight*u, shape.Um(1500))
		assert.Greater(t, glyphGap*u, MarkWidth, "between letters")
	}
	assert.LessOrEqual(t, MarkWidth, units[len(units)-1]+MarkWidth/10, "strokes one unit apart don't run together")
}

// Numbers are as large as there is room: turned where that is the only way,
// smaller where it must be, none where not even the smallest fits.
func TestFit(t *testing.T) {
	room := func(w, h shape.Um) shape.Region {
		return shape.FromRects([]shape.Rect{{Max: shape.Point{X: w, Y: h}}})
	}
	// A2-3 is 22 units wide and 10 high.
	for _, c := range []struct {
		w, h shape.Um
		ok   bool
		unit shape.Um
		way  Way
	}{
		{10000, 10000, true, 250, Level},
		{5502, 2502, true, 250, Level}, // a µm to spare on either side
		{2502, 5502, true, 250, Upward},
		{5499, 2502, true, 220, Level},
		{4138, 1882, true, 188, Level},
		{1882, 4138, true, 188, Upward},
		{4135, 1882, false, 0, Level},
		{4138, 1879, false, 0, Level},
	} {
		l, ok := fit("A2-3", room(c.w, c.h), false)
		require.Equal(t, c.ok, ok, "%+v", c)
		if !ok {
			continue
		}
		assert.Equal(t, c.unit, l.Unit, "%+v", c)
		assert.Equal(t, c.way, l.Way, "%+v", c)
		for _, line := range l.Lines() {
			for _, v := range line {
				assert.True(t, v.X >= 0 && v.Y >= 0 && v.X <= c.w && v.Y <= c.h, "%+v: %v", c, v.Point)
			}
		}
	}
}

// Beside a part there is room only off all cut lines and other numbers.
func TestNumbersOnTheWaste(t *testing.T) {
	sheet := shape.Rect{Max: shape.Point{X: 40000, Y: 20000}}
	line := shape.Outline{Outer: box(1000, 1000, 20000, 19000)}
	w := NewWaste(sheet, []shape.Outline{line})
	var boxes []shape.Rect
	for range 30 {
		l, ok := w.Beside("A2-3", line.Bounds())
		if !ok {
			break
		}
		ex, ey := l.Extent()
		half := shape.Point{X: ex / 2, Y: ey / 2}
		b := shape.Rect{Min: l.At.Sub(half), Max: l.At.Add(half)}
		assert.False(t, meet(b, sheet) != b, "on the sheet")
		assert.True(t, meet(grown(b, wasteClear-1), line.Bounds()).Empty(), "off the part")
		for _, o := range boxes {
			assert.True(t, meet(b, o).Empty(), "off other numbers")
		}
		assert.True(t, b.Min.X < 20000+wasteReach, "near its part")
		boxes = append(boxes, b)
	}
	assert.GreaterOrEqual(t, len(boxes), 5)
	assert.Less(t, len(boxes), 30, "at last there is no room")
}
