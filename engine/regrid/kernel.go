package regrid

import "math"

// kernel is how much a cell weighs in a pixel, by the distance of the pixel's
// centre from the cell's, in cells: the footprint that a cell leaves when a
// drawing is enlarged.
type kernel struct {
	name   string
	radius float64 // in cells: beyond it the weight is 0
	weight func(t, pixel float64) float64
	taps   func(t, pixel float64, w []float64) // all weights of a pixel at once, the first cell's centre at -t
}

// The kernels that enlarging and shrinking programs use. pixel is a pixel's
// side in cells. Sources: R. G. Keys, "Cubic convolution interpolation for
// digital image processing" (1981) for the cubic, with a = -1/2, and -3/4 as
// some programs have it; C. E. Duchon, "Lanczos filtering in one and two
// dimensions" (1979).
var (
	box      = kernel{"nearest", 0.5, boxWeight, boxTaps}
	area     = kernel{"area", 1, areaWeight, areaTaps}
	linear   = kernel{"linear", 1, linearWeight, linearTaps}
	cubic    = cubicKernel("cubic", -0.5)
	sharp    = cubicKernel("cubic, sharper", -0.75)
	lanczos  = kernel{"lanczos", 3, lanczosWeight, lanczosTaps}
	faint    = blurKernel("faintly blurred", 1, 0.15)
	soft     = blurKernel("blurred", 1, 0.3)
	medium   = blurKernel("clearly blurred", 1, 0.5)
	softer   = blurKernel("more blurred", 1.25, 0.75)
	softest  = blurKernel("most blurred", 1.5, 1.2)
	kernels  = []kernel{box, area, linear, cubic, sharp, lanczos, faint, soft, medium, softer, softest}
	overview = []kernel{linear, cubic}
)

// handicap is by how much a kernel must be better than the ones before it in
// kernels: blur explains a little of everything, and undoing blur that isn't
// there spoils colours.
func (k kernel) handicap() float64 {
	switch k.name {
	case faint.name, soft.name, medium.name, softer.name, softest.name:
		return 0.85
	}
	return 0.999
}

func boxWeight(t, _ float64) float64 {
	if t >= -0.5 && t < 0.5 {
		return 1
	}
	return 0
}

// areaWeight is the share of the pixel that lies in the cell.
func areaWeight(t, pixel float64) float64 {
	low, high := math.Max(t-pixel/2, -0.5), math.Min(t+pixel/2, 0.5)
	return math.Max(0, (high-low)/pixel)
}

func linearWeight(t, _ float64) float64 { return math.Max(0, 1-math.Abs(t)) }

func cubicWeight(t, a float64) float64 {
	t = math.Abs(t)
	switch {
	case t < 1:
		return float64((float64((a+2)*t)-(a+3))*t*t) + 1
	case t < 2:
		return float64((float64((float64(a*t)-5*a)*t)+8*a)*t) - 4*a
	}
	return 0
}

func lanczosWeight(t, _ float64) float64 {
	if t == 0 {
		return 1
	}
	if math.Abs(t) >= 3 {
		return 0
	}
	x := math.Pi * t
	return 3 * math.Sin(x) * math.Sin(x/3) / float64(x*x)
}

// blurWeight is a cell whose sides fade over a width of fade cells, along a
// parabola's S (a box blurred twice: close to a lens's blur).
func blurWeight(t, fade float64) float64 {
	return step((t+0.5)/fade) - step((t-0.5)/fade)
}

// step rises from 0 at -1 to 1 at 1.
func step(t float64) float64 {
	switch {
	case t <= -1:
		return 0
	case t >= 1:
		return 1
	case t < 0:
		return float64((t+1)*(t+1)) / 2
	}
	return 1 - float64((1-t)*(1-t))/2
}
