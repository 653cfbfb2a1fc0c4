package colour

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// harbour is a drawing's colours: sea, sail, hull, lamp and a thin outline.
var harbour = []Count{
	{RGB{0x20, 0x60, 0xa0}, 500}, {RGB{0xf2, 0xee, 0xe4}, 300}, {RGB{0xb0, 0x40, 0x30}, 150},
	{RGB{0xf0, 0xc0, 0x40}, 12}, {RGB{0x18, 0x14, 0x20}, 9},
}

// grainy spreads each colour over shades up to step away, as noise does.
func grainy(counts []Count, step int) []Count {
	var h Histogram
	state := uint32(7)
	for _, c := range counts {
		for range c.Cells {
			shade := func(v uint8) uint8 {
				state = state*1664525 + 1013904223
				return uint8(min(max(int(v)+int(state>>16)%(2*step+1)-step, 0), 255))
			}
			h.Add(RGB{shade(c.Colour.R), shade(c.Colour.G), shade(c.Colour.B)}, 1)
		}
	}
	return h.Counts()
}

func TestMergeFindsTheColoursDrawn(t *testing.T) {
	for _, step := range []int{0, 1, 4, 9} {
		counts := harbour
		if step > 0 {
			counts = grainy(harbour, step)
		}
		groups := Merge(Gather(counts), len(harbour))
		assert.Len(t, groups, len(harbour))
		for _, c := range harbour {
			near := 1 << 60
			for _, g := range groups {
				if d := int(g.Mean.Apart(SpotOf(c.Colour))); d < near {
					near = d
				}
			}
			assert.Less(t, near, 300*300, "noise of %d: %s", step, c.Colour)
		}
	}
}

// A thin outline is kept apart where asked, even where it is rarer than all.
func TestMergeKeepsTheOutline(t *testing.T) {
	counts := []Count{
		{RGB{0x30, 0x30, 0x34}, 3}, // the outline
		{RGB{0x50, 0x52, 0x58}, 200}, {RGB{0x90, 0x94, 0x9a}, 180}, {RGB{0xd8, 0xdc, 0xe0}, 220},
		{RGB{0xe8, 0x40, 0x20}, 160}, {RGB{0x20, 0xa0, 0x40}, 160},
	}
	outline := counts[0].Colour
	alone := func(groups []Group) bool {
		for _, g := range groups {
			if g.Mean == SpotOf(outline) {
				return true
			}
		}
		return false
	}
	assert.False(t, alone(Merge(Gather(counts), 5)), "nothing asks to keep it, and it lies nearest to another")
	for n := 2; n <= 5; n++ {
		groups := Merge(Gather(counts), n, outline)
		assert.Len(t, groups, n)
		assert.True(t, alone(groups), "%d colours", n)
	}
	assert.Len(t, Merge(Gather(counts), 1, outline), 1, "where one colour is asked for, one it is")
}

func TestGatherBounds(t *testing.T) {
	assert.Empty(t, Gather(nil))
	assert.Empty(t, Gather([]Count{{RGB{1, 2, 3}, 0}}))
	var all []Count
	cells := int64(0)
	for _, c := range some(6000) {
		all = append(all, Count{c, 3})
		cells += 3
	}
	groups := Gather(all)
	assert.LessOrEqual(t, len(groups), leaders)
	for _, g := range groups {
		cells -= g.Cells
	}
	assert.Zero(t, cells, "no cell is lost")
}

func TestSuggest(t *testing.T) {
	assert.Equal(t, 5, Suggest(Gather(harbour), Pure, 90))
	assert.Equal(t, 5, Suggest(Gather(grainy(harbour, 3)), Noisy, 90))
	assert.Equal(t, 3, Suggest(Gather(harbour), Pure, 3), "never more than asked")
	assert.Equal(t, 1, Suggest(Gather(harbour[:1]), Pure, 90))
}

// Errors fall as colours are added, sharply up to those that were drawn.
func TestErrors(t *testing.T) {
	list := Errors(Gather(grainy(harbour, 3)), 12)
	assert.Len(t, list, 12)
	assert.IsNonIncreasing(t, list)
	assert.Greater(t, list[3], 2*list[4], "the knee is at 5: %v", list)
	assert.Less(t, list[4]-list[5], (list[3]-list[4])/2, "beyond it little is won: %v", list)
	assert.Zero(t, Errors(Gather(harbour), 12)[4])
	assert.Empty(t, Errors(nil, 5))
}
