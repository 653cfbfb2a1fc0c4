package regrid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Tones against the sum that defines them.
func TestTones(t *testing.T) {
	d := dice(7)
	for _, c := range []struct{ n, parts, count int }{{1, 4, 1}, {2, 4, 9}, {37, 4, 80}, {100, 1, 100}, {240, 4, 500}} {
		v := make([]float64, c.n)
		for i := range v {
			v[i] = d.Float64() - 0.5
		}
		got := tones(v, c.parts, c.count)
		for k := range c.count {
			re, im := 0.0, 0.0
			for i, x := range v {
				angle := 2 * math.Pi * float64(i*k) / float64(c.parts*c.n)
				re += x * math.Cos(angle)
				im += x * math.Sin(angle)
			}
			assert.InDelta(t, re, got.re[k], 1e-10, "%v, %d", c, k)
			assert.InDelta(t, im, got.im[k], 1e-10, "%v, %d", c, k)
		}
	}
}
