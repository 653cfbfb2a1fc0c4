package regrid

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Nearest enlargements, whole and fractional, by either convention: the
// lattice is found in every one.
func TestExactLatticeNearest(t *testing.T) {
	for seed := range rounds(40) {
		d := dice(seed)
		s := sprite(seed)
		fx := 2 + d.Float64()*38
		if seed%3 == 0 {
			fx = float64(2 + d.IntN(39))
		}
		w, h := int(32*fx+0.5), int(32*fx+0.5)
		if seed%2 == 1 {
			h = int(32*(2+d.Float64()*20) + 0.5)
		}
		r := nearest(s.small(), w, h, rounded(seed/2%2))
		x, y := steps(r)
		for axis, list := range [][]int{x, y} {
			size := []int{w, h}[axis]
			a, ok := exactLattice(list, size, 0)
			if assert.True(t, ok, "seed %d: %d of %d steps", seed, size, len(list)) {
				assert.Equal(t, 32, a.cells, "seed %d: %d pixels, found size %g from %g", seed, size, a.size, a.start)
			}
		}
	}
}
