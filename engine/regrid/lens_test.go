package regrid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/regrid/picture"
)

// What the lens shows at a place is taken back to it, and the middle stays.
func TestLensUnbent(t *testing.T) {
	l := unbending(picture.NewRaster(400, 300))
	for _, bend := range []float64{-mostBend, -0.05, 0, 0.03, mostBend} {
		l.bend = bend
		for _, p := range []Point{{200, 150}, {0, 0}, {399, 20}, {100, 299}} {
			x, y := l.seen(p.X, p.Y)
			back := l.unbent(Point{x, y})
			assert.InDelta(t, p.X, back.X, 1e-3)
			assert.InDelta(t, p.Y, back.Y, 1e-3)
		}
	}
	l.bend = 0.1
	x, y := l.seen(0, 0) // half a diagonal from the middle: a tenth further out
	assert.InDelta(t, -20, x, 1e-9)
	assert.InDelta(t, -15, y, 1e-9)
}
