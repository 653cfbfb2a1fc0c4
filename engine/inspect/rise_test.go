package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/shape"
)

// What just fits is no finding; a cover that isn't given limits nothing.
func TestHeightsThatFit(t *testing.T) {
	for _, c := range []struct {
		cover, thick shape.Um
		code         inspect.Code
		want         bool
	}{
		{6600, 300, inspect.TooHigh, false},
		{6599, 300, inspect.TooHigh, true},
		{0, 90 * shape.Mm, inspect.TooHigh, false},
		// 6 mm / tan 30° = 10.392 mm over the lowest face: 1 of foam and 9.392 of board.
		{0, 9392, inspect.TopShifts, false},
		{0, 9394, inspect.TopShifts, true},
	} {
		p := pinned("kkkkk kwwwk kwwwk kwwwk kkkkk")
		stockOf(p, 'w').Thickness = c.thick
		p.Sprites[0].Stack.Float, p.Settings.Cover = 2, c.cover
		_, found := find(findings(t, p), c.code)
		assert.Equal(t, c.want, found, "%v", c)
	}
}
