package number

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 7: "H", 8: "J", 12: "N", 13: "P", 23: "Z", 24: "AA", 25: "AB", 47: "AZ", 48: "BA", 24 + 24*24: "AAA"} {
		assert.Equal(t, want, Letters(i), i)
	}
	seen := map[string]bool{}
	for i := range 2000 {
		text := Letters(i)
		assert.Equal(t, i, index(text))
		assert.NotRegexp(t, "[IO]", text)
		assert.False(t, seen[text], text)
		seen[text] = true
	}
}

// layout is a forest of parts at heights, each of one cell, with its layout.
func layout(cells ...[3]int32) (*stack.Forest, *outline.Layout) {
	f, l := &stack.Forest{}, &outline.Layout{}
	for i, c := range cells { // height, column, row
		for int(c[0]) > len(l.Layers) {
			l.Heights++
			l.Layers = append(l.Layers, outline.Layer{Height: l.Heights})
		}
		f.Parts = append(f.Parts, stack.Part{Cells: []stack.Run{{Y: c[2], X0: c[1], X1: c[1] + 1}}})
		layer := &l.Layers[c[0]-1]
		layer.Parts = append(layer.Parts, outline.Part{Index: i, Tree: i})
	}
	return f, l
}

func TestPartsAreCountedHeightByHeight(t *testing.T) {
	stocks := []project.Stock{{ID: "card"}}
	f, l := layout([3]int32{1, 0, 0}, [3]int32{1, 2, 0}, [3]int32{2, 0, 0}, [3]int32{2, 4, 0}, [3]int32{2, 2, 0})
	numbers, had := Parts(project.Numbers{}, f, l, nil, stocks)
	assert.Equal(t, []int{1, 2, 1, 2, 3}, numbers)

	// One goes, one comes: the number of what has gone isn't given again, but for
	// what is the same thing at another place.
	f, l = layout([3]int32{1, 2, 0}, [3]int32{2, 4, 0}, [3]int32{2, 2, 0}, [3]int32{2, 9, 9})
	numbers, had = Parts(had, f, l, nil, stocks)
	assert.Equal(t, []int{2, 2, 3, 1}, numbers)
	f, l = layout([3]int32{1, 2, 0}, [3]int32{2, 4, 0}, [3]int32{2, 2, 0}, [3]int32{2, 9, 9}, [3]int32{2, 8, 8})
	numbers, had = Parts(had, f, l, nil, stocks)
	assert.Equal(t, []int{2, 2, 3, 1, 4}, numbers)

	// Of another stock it is another thing.
	numbers, _ = Parts(had, f, l, nil, []project.Stock{{ID: "board"}})
	assert.Equal(t, []int{3, 5, 6, 7, 8}, numbers)
}

// What has moved along with the drawing keeps its number, though another of its
// shape lay where it lies now.
func TestNumbersFollowTheDrawing(t *testing.T) {
	stocks := []project.Stock{{ID: "card"}}
	f, l := layout([3]int32{1, 0, 0}, [3]int32{2, 0, 0}, [3]int32{2, 1, 0})
	f.Parts[0].Cells[0].X1 = 3
	_, had := Parts(project.Numbers{}, f, l, nil, stocks)
	f, l = layout([3]int32{1, 1, 0}, [3]int32{2, 1, 0}, [3]int32{2, 2, 0})
	f.Parts[0].Cells[0].X1 = 4
	numbers, _ := Parts(had, f, l, nil, stocks)
	assert.Equal(t, []int{1, 1, 2}, numbers)
}

func TestLettersAreKept(t *testing.T) {
	sprite := func(letters string) project.Sprite { return project.Sprite{Numbers: project.Numbers{Letters: letters}} }
	for _, c := range []struct {
		had   []string
		given int
		want  []string
		now   int
	}{
		{[]string{"", "", ""}, 0, []string{"A", "B", "C"}, 3},
		{[]string{"B", "A", ""}, 2, []string{"B", "A", "C"}, 3},
		{[]string{"A", ""}, 3, []string{"A", "D"}, 4}, // B and C are gone
		{[]string{"", "A", "A"}, 1, []string{"B", "A", "C"}, 3},
		{[]string{"AB", ""}, 0, []string{"AB", "AC"}, 27},
	} {
		p := &project.Project{Lettered: c.given}
		for _, l := range c.had {
			p.Sprites = append(p.Sprites, sprite(l))
		}
		got, now := Sprites(p)
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.now, now, c.had)
	}
}
