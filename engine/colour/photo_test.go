package colour

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// under is what a camera sees of a colour under a lamp whose light is r, g, b
// of full: the standard's formula, apart from the package's table.
func under(c RGB, lamp [3]float64) RGB {
	var out [3]uint8
	for i, v := range c.channels() {
		x := float64(v) / 255
		light := x / 12.92
		if x > 0.04045 {
			light = math.Pow((x+0.055)/1.055, 2.4)
		}
		light *= lamp[i]
		x = light * 12.92
		if light > 0.0031308 {
			x = 1.055*math.Pow(light, 1/2.4) - 0.055
		}
		out[i] = uint8(math.Round(min(x, 1) * 255))
	}
	return RGB{out[0], out[1], out[2]}
}

// Under any usual lamp and exposure the card's own colour comes back, to what
// the camera's 8 bits leave of it.
func TestBesideWhite(t *testing.T) {
	for _, lamp := range [][3]float64{{1, 1, 1}, {0.8, 0.7, 0.45}, {0.5, 0.55, 0.7}, {0.25, 0.25, 0.2}} {
		for _, c := range append(some(60), WhiteSheet) {
			if c.R < 20 || c.G < 20 || c.B < 20 {
				continue // so dark that 8 bits hold little of it
			}
			if c.R > 243 || c.G > 243 || c.B > 243 {
				continue // brighter than paper
			}
			card, white := make([]RGB, 9), make([]RGB, 9)
			for i := range card {
				card[i], white[i] = under(c, lamp), under(WhiteSheet, lamp)
			}
			card[4], white[2] = RGB{0, 0, 0}, RGB{255, 0, 0} // specks
			got, err := BesideWhite(card, white)
			require.NoError(t, err)
			assert.Less(t, Difference(c, got), 2.5, "%s under %v: %s", c, lamp, got)
		}
	}
}

func TestBesideWhiteRefusals(t *testing.T) {
	grey := func(v uint8) []RGB { return []RGB{{v, v, v}} }
	for _, c := range []struct {
		card, white []RGB
		says        string
	}{
		{nil, grey(200), "mark a piece"},
		{grey(100), grey(255), "overexposed"},
		{grey(20), grey(60), "too dark"},
		{grey(230), grey(150), "brighter than the white sheet"},
		{grey(100), []RGB{{240, 60, 60}}, "has a strong colour"},
	} {
		_, err := BesideWhite(c.card, c.white)
		var bad *BadPhoto
		require.ErrorAs(t, err, &bad)
		assert.Contains(t, err.Error(), c.says)
	}
}
