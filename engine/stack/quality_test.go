package stack_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// How few parts our sprite-like drawings take, kept from getting worse: the
// bounds are a little above what the search reached when this was written.
func TestFewPartsOnSprites(t *testing.T) {
	var parts, byPatch, heights, colours int
	n := 20
	if testing.Short() {
		n = 4
	}
	for seed := range n {
		d := stacktest.Sprite32(seed, 6+seed%2)
		f := must(stack.Fewest(d, stack.Rules{Joins: d.Colours(), SmallCells: 1, ExtraHeights: 3}))
		parts += len(f.Parts)
		byPatch += stack.ByPatch(d)
		heights += f.Heights
		colours += d.Colours().Len()
	}
	t.Logf("%d parts, %d one part a patch: %.2f %%; %d heights, %d colours", parts, byPatch, 100*float64(parts)/float64(byPatch), heights, colours)
	assert.LessOrEqual(t, float64(parts), 0.070*float64(byPatch))
	assert.LessOrEqual(t, heights, colours+n)
}
