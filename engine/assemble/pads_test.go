package assemble

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// flat is a layout of one part made of cells, '#' where there is one.
func flat(cell shape.Um, rows ...string) *outline.Layout {
	var cells []shape.Rect
	for y, row := range rows {
		for x, c := range row {
			if c == '#' {
				at := shape.Point{X: shape.Um(x) * cell, Y: shape.Um(len(rows)-1-y) * cell}
				cells = append(cells, shape.Rect{Min: at, Max: at.Add(shape.Point{X: cell, Y: cell})})
			}
		}
	}
	region := shape.FromRects(cells)
	o := region.Polygons(shape.BySides)[0].Outline()
	part := outline.Part{On: -1, Outline: o, Bounds: o.Bounds()}
	return &outline.Layout{
		Cell: cell, Heights: 1, Cols: len(rows[0]), Rows: len(rows), Size: region.Bounds().Max,
		Layers: []outline.Layer{{Number: 1, Height: 1, Parts: []outline.Part{part}}},
	}
}

func padded(l *outline.Layout, foam shape.Um) []shape.Rect {
	return Build(l, Options{Thickness: []shape.Um{300}, Lifts: []Lift{{Kind: Foam, Thick: foam}}}).Parts[0].Pads
}

// Along a large part there is a pad every 50 to 70 mm, 5 to 10 mm behind its
// edges (common practice, no source).
func TestPadsOfALargePart(t *testing.T) {
	l := flat(10*shape.Mm, strings.Split(strings.Repeat(strings.Repeat("#", 20)+"\n", 12)+strings.Repeat("#", 20), "\n")...)
	pads := padded(l, 3*shape.Mm)
	assert.Len(t, pads, 12, "200 × 130 mm: four by three")
	for i, p := range pads {
		w, h := p.Size()
		assert.Equal(t, [2]shape.Um{10 * shape.Mm, 10 * shape.Mm}, [2]shape.Um{w, h})
		near := shape.Um2(1) << 60
		for k, q := range pads {
			if k != i {
				near = min(near, square(middle(p).Sub(middle(q))))
			}
		}
		assert.GreaterOrEqual(t, near, shape.Um2(50_000)*50_000)
		assert.LessOrEqual(t, near, shape.Um2(70_000)*70_000)
		for _, back := range []shape.Um{p.Min.X, p.Min.Y, 200_000 - p.Max.X, 130_000 - p.Max.Y} {
			assert.GreaterOrEqual(t, back, 5*shape.Mm)
		}
	}
}

// What pads of a few shapes look like, from above: # the part, o foam.
func Example_pads() {
	for _, l := range []*outline.Layout{
		flat(2*shape.Mm, "##########", "##########", "##########", "##########"),
		flat(3*shape.Mm, "##.......", "##.......", "##.......", "##.......", "#########", "#########"),
		flat(3*shape.Mm, "########", "########", "##....##", "##....##", "##....##", "########", "########"),
	} {
		for _, line := range drawn(l, padded(l, 1*shape.Mm)) {
			fmt.Println(line)
		}
		fmt.Println()
	}
	// Output:
	// ####################
	// #######oooooo#######
	// #######oooooo#######
	// #######oooooo#######
	//
	// ######
	// #oooo#
	// #oooo#
	// #oooo#
	// #oooo#
	// #oooo#
	// #oooo######################
	// #oooo#oooooo#ooooooooooooo#
	// #oooo#oooooo#ooooooooooooo#
	//
	// ########################
	// ###oooooooooooooooooooo#
	// ###oooooooooooooooooooo#
	// ######            ######
	// ######            ######
	// ######            ######
	// ######            ######
	// ######            ######
	// #oooooooooooooooooooo###
	// #oooooooooooooooooooo###
}

// drawn is a layout's part and pads, a character for each square of 1 mm across
// and 2 mm up.
func drawn(l *outline.Layout, pads []shape.Rect) []string {
	var lines []string
	part := Inscribed(l.Layers[0].Parts[0].Outline)
	covers := func(rs []shape.Rect, p shape.Point) bool {
		for _, r := range rs {
			if r.Min.X <= p.X && p.X < r.Max.X && r.Min.Y <= p.Y && p.Y < r.Max.Y {
				return true
			}
		}
		return false
	}
	for y := l.Size.Y - shape.Mm; y > 0; y -= 2 * shape.Mm {
		line := ""
		for x := shape.Mm / 2; x < l.Size.X; x += shape.Mm {
			at := shape.Point{X: x, Y: y}
			switch {
			case covers(pads, at):
				line += "o"
			case covers(part.Rects(), at):
				line += "#"
			default:
				line += " "
			}
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// Exactly as wide as foam and what it stays back by is enough; a micrometre less
// is not.
func TestTheNarrowestPartThatFloats(t *testing.T) {
	for _, foam := range []shape.Um{500, 1000, 3000} {
		least := 3*shape.Mm + 2*max(shape.Mm, foam)
		assert.NotEmpty(t, padded(flat(least, "#"), foam))
		assert.NotEmpty(t, padded(flat(least, "#####"), foam))
		assert.Empty(t, padded(flat(least-1, "#####"), foam))
		plan := Build(flat(least-1, "#"), Options{Thickness: []shape.Um{300}, Lifts: []Lift{{Kind: Foam, Thick: foam}}})
		assert.Equal(t, []int{1}, plan.Refused)
		assert.Equal(t, TapeThick+300, plan.Total, "taped")
		assert.True(t, plan.Parts[0].Tight)
	}
}

// A hook whose centre of area lies beside it: pads at its ends hold it.
func TestCentreOfAreaOutsideThePart(t *testing.T) {
	l := flat(8*shape.Mm, "########", "#......#", "#......#", "#......#", "#......#")
	pads := padded(l, 1*shape.Mm)
	heart := centre(Inscribed(l.Layers[0].Parts[0].Outline))
	require.NotEmpty(t, pads)
	assert.True(t, within(heart, hull(pads)))
}

func TestLiftsAreThoseOfTheStack(t *testing.T) {
	s := project.DefaultStack()
	tape := Lift{Kind: Tape, Thick: 100}
	assert.Equal(t, []Lift{{Kind: Foam, Thick: 3000}, tape, tape}, Lifts(s, 3, nil))
	s.Foam, s.Float, s.FloatBy = 0, 3, 1500
	assert.Equal(t, []Lift{tape, tape, {Kind: Foam, Thick: 1500}}, Lifts(s, 3, nil))
	stocks := []project.Stock{{ID: "card", Thickness: 300}, {ID: "board", Thickness: 2000}}
	s.FloatStock = "board"
	assert.Equal(t, []Lift{tape, tape, {Kind: Spacer, Thick: 2000, Stock: 1}}, Lifts(s, 3, stocks))
	s.FoamStock = "card"
	assert.Equal(t, []Lift{{Kind: Spacer, Thick: 300}, tape, {Kind: Spacer, Thick: 2000, Stock: 1}}, Lifts(s, 3, stocks))
}

// The hull against its definition: every corner is a corner of a rectangle, it
// turns left throughout, and no rectangle's corner lies outside.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 4))
	for range 500 {
		var rects []shape.Rect
		for range 1 + r.IntN(6) {
			at := shape.Point{X: shape.Um(r.IntN(40)), Y: shape.Um(r.IntN(40))}
			rects = append(rects, shape.Rect{Min: at, Max: at.Add(shape.Point{X: 1 + shape.Um(r.IntN(9)), Y: 1 + shape.Um(r.IntN(9))})})
		}
		h := hull(rects)
		require.GreaterOrEqual(t, len(h), 4)
		for i := range h {
			require.Positive(t, turn(h[i], h[(i+1)%len(h)], h[(i+2)%len(h)]))
		}
		for _, q := range rects {
			require.True(t, within(q.Min, h) && within(q.Max, h))
		}
		out := shape.Point{X: -1 - shape.Um(r.IntN(50)), Y: shape.Um(r.IntN(100)) - 30}
		require.False(t, within(out, h))
		require.NotZero(t, outward(out, h))
	}
}
