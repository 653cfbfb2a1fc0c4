package assemble

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// piled is a layout of parts that rest on one another, given by stock, height
// and what each rests on; their shapes don't matter here.
func piled(parts ...[3]int) *outline.Layout {
	l := &outline.Layout{}
	square := flat(3*shape.Mm, "#").Layers[0].Parts[0]
	for i, p := range parts {
		square.Index, square.On = i, p[2]
		l.Heights = max(l.Heights, p[1])
		l.Layers = append(l.Layers, outline.Layer{Stock: p[0], Height: p[1], Parts: []outline.Part{square}})
	}
	return l
}

// A stock stays in hand as long as it can be placed: here all of stock 1, two
// heights of it, before stock 2.
func TestStepsKeepAStockInHand(t *testing.T) {
	plan := Build(piled([3]int{0, 1, -1}, [3]int{2, 2, 0}, [3]int{1, 2, 0}, [3]int{1, 3, 2}, [3]int{2, 4, 3}), Options{})
	var order [][3]int // stock, height, part
	for _, s := range plan.Steps {
		for _, i := range s.Parts {
			order = append(order, [3]int{s.Stock, s.Height, i})
		}
	}
	assert.Equal(t, [][3]int{{0, 1, 0}, {1, 2, 2}, {1, 3, 3}, {2, 2, 1}, {2, 4, 4}}, order)
	assert.Equal(t, 5*Fiddly, plan.Seconds, "3 mm is for tweezers")
}

// What carries several others can be made apart where as much is left beside it;
// a pile of one on the other can't be made apart from anything.
func TestWhatCanBeMadeApart(t *testing.T) {
	pile := [][3]int{{0, 1, -1}}
	for i := range 8 {
		pile = append(pile, [3]int{0, i + 2, i})
	}
	plan := Build(piled(pile...), Options{})
	assert.Empty(t, plan.Apart())
	tree := [][3]int{{0, 1, -1}, {0, 2, 0}, {0, 2, 0}, {0, 3, 1}, {0, 3, 1}, {0, 3, 1}, {0, 3, 2}, {0, 3, 2}, {0, 3, 2}}
	plan = Build(piled(tree...), Options{})
	assert.Equal(t, []int{1, 2}, plan.Apart())
}

func TestSeconds(t *testing.T) {
	for side, want := range map[shape.Um]int{3999: Fiddly, 4000: Usual, 90000: Usual} {
		assert.Equal(t, want, Seconds(shape.Rect{Max: shape.Point{X: side, Y: 1000}}))
	}
}
