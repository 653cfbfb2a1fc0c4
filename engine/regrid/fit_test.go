package regrid

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is written out for two cells a pixel is, to the last bit, what any number takes.
func TestRootOfTwo(t *testing.T) {
	for _, k := range []kernel{box, area, linear, medium} {
		for _, l := range []lattice{whole(2, 9), whole(13, 100), whole(50, 100), cropped(7.3, -2.1, 100)} {
			pixels := 100
			if l.cells == 2 {
				pixels = 9
			}
			var s solver
			s.project(k, l, pixels)
			require.Equal(t, 2, s.wide)
			s.prepare()
			two := append([]float64(nil), s.root...)
			clear(s.root)
			for c := range s.bands.cells {
				s.root[2*c+1] = damping
			}
			s.rootOfBands()
			assert.Equal(t, s.root, two, "%s, %v", k.name, l)
		}
	}
}
