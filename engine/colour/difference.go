package colour

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// Step is what differences and lightnesses are rounded to, so that machines
// whose mathematics differ in the last digit compare alike.
const Step = 1e-6

// Difference is how different a and b look: CIEDE2000 (CIE 142-2001) under
// daylight D65, 0 for equal colours, about 1 for what an eye just tells apart
// side by side, 100 from black to white. Rounded to Step, symmetric.
func Difference(a, b RGB) float64 {
	if a == b {
		return 0
	}
	if a.number() > b.number() { // the formula is symmetric, its rounding may not be
		a, b = b, a
	}
	return difference(wide(a), wide(b))
}

// difference is CIEDE2000 on the usual scale, rounded to Step.
func difference(a, b colorful.Color) float64 {
	return round(a.DistanceCIEDE2000(b) * 100)
}

// Lightness is CIE L* under daylight D65: 0 is black, 100 white. Rounded to Step.
func Lightness(c RGB) float64 {
	l, _, _ := wide(c).Lab()
	return round(l * 100)
}

func wide(c RGB) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}

func round(x float64) float64 { return math.Round(x*1e6) / 1e6 }
