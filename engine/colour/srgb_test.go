package colour

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
)

// The constants of IEC 61966-2-1: 12.92, 0.04045, 0.055, 1.055, 2.4.
func TestLinearStandard(t *testing.T) {
	for i := range 256 {
		c := float64(i) / 255
		light := c / 12.92
		if c > 0.04045 {
			light = math.Pow((c+0.055)/1.055, 2.4)
		}
		assert.Equal(t, uint16(math.Round(light*FullLinear)), Linear(uint8(i)), "channel %d", i)
	}
	// The two branches meet to within the standard's own rounding.
	assert.InDelta(t, 0.0031308, 0.04045/12.92, 1e-6)
	assert.InDelta(t, 0.0031308, math.Pow((0.04045+0.055)/1.055, 2.4), 1e-6)
}

func TestFromLinear(t *testing.T) {
	for i := range 256 {
		assert.Equal(t, uint8(i), FromLinear(Linear(uint8(i))))
	}
	last := uint8(0)
	for l := range FullLinear + 1 {
		c := FromLinear(uint16(l))
		assert.GreaterOrEqual(t, c, last)
		last = c
		here := math.Abs(float64(Linear(c)) - float64(l))
		for _, other := range []int{int(c) - 1, int(c) + 1} {
			if other >= 0 && other < 256 {
				assert.LessOrEqual(t, here, math.Abs(float64(Linear(uint8(other)))-float64(l)))
			}
		}
	}
}

func TestParse(t *testing.T) {
	for _, c := range append(some(50), RGB{}, RGB{255, 255, 255}) {
		got, err := Parse(c.String())
		assert.NoError(t, err)
		assert.Equal(t, c, got)
	}
	got, err := Parse("#AbCdEf")
	assert.NoError(t, err)
	assert.Equal(t, RGB{0xab, 0xcd, 0xef}, got)
	for _, bad := range []string{"", "#", "#abc", "abcdef", "#abcdeg", "#abcdef0", "# bcdef", "#ab\ndef", "#-1-1-1"} {
		_, err := Parse(bad)
		assert.Error(t, err, "%q", bad)
	}
}

// OKLab in whole numbers against go-colorful's in floating point.
func TestLabOf(t *testing.T) {
	for _, c := range append(some(2000), RGB{}, RGB{1, 1, 1}, RGB{255, 255, 255}, RGB{0, 0, 255}) {
		l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.OkLab()
		got := labOf(c)
		// Dark colours have few steps in the table of light.
		assert.InDelta(t, l*labUnit, got.l, 12, "%v", c)
		assert.InDelta(t, a*labUnit, got.a, 12, "%v", c)
		assert.InDelta(t, b*labUnit, got.b, 12, "%v", c)
	}
}

// Of greys, lightness follows CIE 15:2004, as go-colorful has it; lighter colours lie
// where OKLab has them.
func TestSpotOf(t *testing.T) {
	for v := range 256 {
		c := RGB{uint8(v), uint8(v), uint8(v)}
		l, _, _ := colorful.Color{R: float64(v) / 255, G: float64(v) / 255, B: float64(v) / 255}.Lab()
		got := SpotOf(c)
		assert.InDelta(t, (l*100+16)/116*labUnit, got[0], 12, v)
		assert.InDelta(t, 0, got[1], 2, v)
		assert.InDelta(t, 0, got[2], 2, v)
		if v > 30 {
			lab := labOf(c)
			assert.Equal(t, Spot{lab.l, lab.a, lab.b}, got)
		}
	}
}

func TestWholeRoots(t *testing.T) {
	for _, x := range []uint64{0, 1, 7, 8, 26, 27, 28, 1<<63 - 1, FullLinear} {
		r := uint64(cubeRoot(x))
		assert.LessOrEqual(t, r*r*r, x)
		if r < 1<<21-1 {
			assert.Greater(t, (r+1)*(r+1)*(r+1), x)
		}
	}
	for x := range int64(5000) {
		r := squareRoot(x)
		assert.True(t, r*r <= x && (r+1)*(r+1) > x)
	}
	assert.EqualValues(t, []int64{-2, -1, 0, 1, 2}, []int64{divide(-3, 2), divide(-2, 2), divide(0, 2), divide(2, 2), divide(3, 2)})
}
