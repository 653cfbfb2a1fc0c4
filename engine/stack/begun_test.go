package stack_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// What First kept changes no forest: not that of the same drawing, nor of
// another one or under other rules.
func TestASearchGoesOnFromWhatIsBegun(t *testing.T) {
	var begun stack.Begun
	plain := stack.Rules{ExtraHeights: 3, SmallCells: 1, Rounds: 60}
	for c := stack.Colour(1); c <= stack.MaxColours; c++ {
		plain.Joins |= stack.Of(c)
	}
	apart, fewer := plain, plain
	apart.Joins, fewer.ExtraHeights = 0, 0
	pinned := plain
	pinned.Lowest(2, stack.Of(1, 2, 3, 4, 5))
	drawings := []stack.Drawing{stacktest.Noise(9, 9, 5, 1), stacktest.Noise(9, 9, 5, 2), stacktest.Sprite32(1, 5)}
	for _, d := range drawings {
		for _, r := range []stack.Rules{plain, apart, fewer, pinned} {
			with := r
			with.Begun = &begun
			first, err := stack.First(d, with)
			require.NoError(t, err)
			alone, err := stack.First(d, r)
			require.NoError(t, err)
			assert.Equal(t, alone, first)
			for _, other := range drawings {
				for _, r := range []stack.Rules{plain, apart, fewer, pinned} {
					want, err := stack.Fewest(other, r)
					require.NoError(t, err)
					r.Begun = &begun
					got, err := stack.Fewest(other, r)
					require.NoError(t, err)
					require.Equal(t, want, got)
				}
			}
		}
	}
}
