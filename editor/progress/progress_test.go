package progress_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/editor/progress"
)

// parts are parts by number and print; an eye is for tweezers.
func parts(list ...string) []plan.AssemblyPart {
	var out []plan.AssemblyPart
	for _, text := range list {
		number, print, _ := strings.Cut(text, " ")
		p := plan.AssemblyPart{Number: number, Print: print, Seconds: 45}
		if print == "eye" {
			p.Seconds = 90
		}
		out = append(out, p)
	}
	return out
}

// gull is a sprite of three steps: its board, two wings of one shape, an eye
// that is for tweezers.
func gull() progress.Copy {
	return progress.Copy{ID: 7, Number: 1, Sprite: &plan.AssemblySprite{
		Name: "Gull", Copies: 2,
		Parts: parts("A1-1 body", "A2-1 wing", "A2-2 wing", "A3-1 eye"),
		Steps: [][]int{{0}, {1, 2}, {3}},
	}}
}

// states is where each part is, in a line.
func states(b progress.Book, c progress.Copy) string {
	text := ""
	for _, m := range b.States(c) {
		text += map[progress.Is]string{progress.InSheet: ".", progress.Out: "o", progress.Stuck: "S", progress.Lost: "L"}[m.Is]
	}
	return fmt.Sprintf("%s %d", text, b.At(c))
}

func next(t *testing.T, b progress.Book, c progress.Copy, typical int) progress.Book {
	t.Helper()
	b, seconds := b.Next(c)
	assert.Equal(t, typical, seconds)
	return b
}

func TestGoingOnSticksAndGoingBackTakesBack(t *testing.T) {
	c := gull()
	var b progress.Book
	require.Equal(t, ".... 0", states(b, c))
	b = b.Mark(c, []int{1}, progress.Out)
	b = next(t, b, c, 45)
	require.Equal(t, "So.. 1", states(b, c))
	b = b.Mark(c, []int{2}, progress.Lost)
	b = next(t, b, c, 45)
	require.Equal(t, "SSL. 2", states(b, c), "what is lost isn't stuck")
	b = b.Mark(c, []int{3}, progress.Stuck)
	b = next(t, b, c, 0)
	require.Equal(t, "SSLS 3", states(b, c))
	require.Equal(t, "SSLS 3", states(next(t, b, c, 0), c), "there is nothing behind the last step")
	left, stuck, lost := b.Left(c)
	assert.Equal(t, []int{45, 3, 1}, []int{left, stuck, lost})
	b = b.Back(c)
	require.Equal(t, "SSLS 2", states(b, c), "what was said by hand stays")
	b = b.Back(c)
	require.Equal(t, "SoLS 1", states(b, c), "it was out before")
	b = b.Back(c)
	require.Equal(t, ".oLS 0", states(b, c))
	require.Equal(t, ".oLS 0", states(b.Back(c), c))
	other := c
	other.Number = 2
	require.Equal(t, ".... 0", states(b, other), "each copy by itself")
	require.Equal(t, ".... 0", states(b.Anew(c), c))
}

// Numbers may change and steps come in another order: what is the same piece of
// card keeps what was said of it.
func TestAnEditTakesNothingFromPartsThatStayTheSame(t *testing.T) {
	c := gull()
	b := next(t, progress.Book{}, c, 45).Mark(c, []int{2}, progress.Stuck)
	require.Equal(t, "S.S. 1", states(b, c))
	d := c
	d.Sprite = &plan.AssemblySprite{
		Name: "Gull", Copies: 2,
		Parts: parts("A1-1 foot", "A1-2 body", "A2-1 wing", "A2-2 wing", "A3-1 eye"),
		Steps: [][]int{{0, 1}, {4}, {3, 2}},
	}
	require.Equal(t, ".S.S. 2", states(b, d), "the wings' step is the third now; the foot is still in its sheet")
	// One wing is gone: its sister takes over what was said of it.
	d.Sprite = &plan.AssemblySprite{Parts: parts("A1-1 body", "A2-1 wing"), Steps: [][]int{{0}, {1}}}
	require.Equal(t, "SS 1", states(b, d))
	// Another body has to be cut; undone, all is as it was.
	d.Sprite = &plan.AssemblySprite{Parts: parts("A1-1 fat body", "A2-1 eye"), Steps: [][]int{{0}, {1}}}
	require.Equal(t, ".. 0", states(b, d))
	require.Equal(t, "S.S. 1", states(b, c))
}

// However steps are gone through, and whatever parts are said to be: parts are
// one of four things, the step is one there is, and what is kept outside the
// page comes back the same.
func TestAnyWayThroughTheSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	c := gull()
	var b progress.Book
	for i := range 3000 {
		c.Number = 1 + r.IntN(2)
		was := b
		kept, err := json.Marshal(was)
		require.NoError(t, err)
		switch r.IntN(5) {
		case 0, 1:
			b, _ = b.Next(c)
		case 2:
			b = b.Back(c)
		case 3:
			b = b.Mark(c, []int{r.IntN(4)}, []progress.Is{progress.InSheet, progress.Out, progress.Stuck, progress.Lost}[r.IntN(4)])
		case 4:
			if r.IntN(10) == 0 {
				b = b.Anew(c)
			} else {
				b = b.GoTo(c, r.IntN(6)-1)
			}
		}
		still, err := json.Marshal(was)
		require.NoError(t, err)
		require.Equal(t, string(kept), string(still), "a book is never written to")
		require.LessOrEqual(t, len(b.Marks), 8, "a mark for each part of each copy at most")
		require.LessOrEqual(t, len(b.Places), 2)
		require.True(t, b.At(c) >= 0 && b.At(c) <= 3)
		back := b.Named(func(id int) (string, bool) { return "Gull", id == 7 })
		text, err := json.Marshal(back)
		require.NoError(t, err)
		var read progress.Book
		require.NoError(t, json.Unmarshal(text, &read))
		read = read.Numbered(func(name string) (int, bool) { return 9, name == "Gull" })
		d := c
		d.ID = 9
		require.Equal(t, states(b, c), states(read, d), i)
	}
}

// What was kept may come from another build, or be damaged.
func TestWhatMakesNoSenseIsLeftOut(t *testing.T) {
	b := progress.Book{
		Marks: []progress.Mark{
			{Sprite: "Gull", Copy: 1, Print: "x", Is: "glued"}, {Sprite: "Gull", Copy: 0, Print: "x", Is: progress.Out},
			{Sprite: "Crab", Copy: 1, Print: "x", Is: progress.Out}, {Sprite: "Gull", Copy: 1, Is: progress.Out},
			{Sprite: "Gull", Copy: 1, Print: "x", Is: progress.Out},
		},
		Places: []progress.Place{{Sprite: "Gull", Copy: 1, Step: -1}, {Sprite: "Crab", Copy: 1}, {Sprite: "Gull", Copy: 2, Step: 1}},
	}
	b = b.Numbered(func(name string) (int, bool) { return 7, name == "Gull" })
	assert.Equal(t, []progress.Mark{{ID: 7, Copy: 1, Print: "x", Is: progress.Out}}, b.Marks)
	assert.Equal(t, []progress.Place{{ID: 7, Copy: 2, Step: 1}}, b.Places)
}

func TestThePaceIsLearntFromStepsThatWereWorkedAt(t *testing.T) {
	var p progress.Pace
	assert.Equal(t, 90, p.Of(90), "typical, while nothing is known")
	p = p.Learn(45, 3).Learn(45, 1000).Learn(0, 50).Learn(45, 0)
	assert.Equal(t, progress.Pace{}, p, "looked at only, left for supper, nothing placed, no time")
	for range 4 {
		p = p.Learn(45, 90)
	}
	require.True(t, p.Known())
	assert.Equal(t, 180, p.Of(90), "twice as long as typical")
	r := rand.New(rand.NewPCG(3, 3))
	for range 2000 {
		p = p.Learn(45+r.IntN(900), 15+r.IntN(60))
		require.True(t, p.Sound())
	}
	for range 400 { // hands have learnt
		p = p.Learn(45, 20)
	}
	assert.InDelta(t, 20, p.Of(45), 2)
}
