package regrid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// All weights at once are those that the kernel gives one by one, made to add up to 1.
func TestTaps(t *testing.T) {
	for _, k := range kernels {
		wide := max(2, int(math.Ceil(2*k.radius)))
		w, want := make([]float64, wide), make([]float64, wide)
		for _, pixel := range []float64{0.02, 0.13, 0.5} {
			for part := 0.0; part <= 1; part += 1.0 / 64 {
				at := k.radius - 1 + part
				if k.radius < 1 {
					at = part - k.radius
				}
				sum := 0.0
				for j := range want {
					want[j] = k.weight(at-float64(j), pixel)
					sum += want[j]
				}
				if k.radius < 1 && part == 0 {
					continue // the cell before has it
				}
				k.taps(at, pixel, w)
				for j := range want {
					assert.InDelta(t, want[j]/sum, w[j], 1e-12, "%s at %g, tap %d, pixel %g", k.name, at, j, pixel)
				}
			}
		}
	}
}
