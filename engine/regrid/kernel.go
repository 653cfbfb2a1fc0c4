package regrid

import "math"

// kernel is how much a cell weighs in a pixel, by the distance of the pixel's
// centre from the cell's, in cells: the footprint that a cell leaves when a
// drawing is enlarged.
type kernel struct {
	name   string
	radius float64 // in cells: beyond it the weight is 0
	weight func(t, pixel float64) float64
	taps   func(t float64, w []float64) // all weights of a pixel at once, the first cell's centre at -t; nil: one by one
}

// The kernels that enlarging and shrinking programs use. pixel is a pixel's
// side in cells. Sources: R. G. Keys, "Cubic convolution interpolation for
// digital image processing" (1981) for the cubic, with a = -1/2, and -3/4 as
// some programs have it; C. E. Duchon, "Lanczos filtering in one and two
// dimensions" (1979).
var (
	box      = kernel{"nearest", 0.5, boxWeight, nil}
	area     = kernel{"area", 1, areaWeight, nil}
	linear   = kernel{"linear", 1, linearWeight, linearTaps}
	cubic    = kernel{"cubic", 2, func(t, _ float64) float64 { return cubicWeight(t, -0.5) }, func(t float64, w []float64) { cubicTaps(t, -0.5, w) }}
	sharp    = kernel{"cubic, sharper", 2, func(t, _ float64) float64 { return cubicWeight(t, -0.75) }, func(t float64, w []float64) { cubicTaps(t, -0.75, w) }}
	lanczos  = kernel{"lanczos", 3, lanczosWeight, nil}
	faint    = kernel{"faintly blurred", 1, func(t, _ float64) float64 { return blurWeight(t, 0.15) }, nil}
	soft     = kernel{"blurred", 1, func(t, _ float64) float64 { return blurWeight(t, 0.3) }, nil}
	medium   = kernel{"clearly blurred", 1, func(t, _ float64) float64 { return blurWeight(t, 0.5) }, nil}
	softer   = kernel{"more blurred", 1.25, func(t, _ float64) float64 { return blurWeight(t, 0.75) }, nil}
	softest  = kernel{"most blurred", 1.5, func(t, _ float64) float64 { return blurWeight(t, 1.2) }, nil}
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

// linearTaps are both weights; t is 0 to 1.
func linearTaps(t float64, w []float64) { w[0], w[1] = 1-t, t }

// cubicTaps are the four weights, whose sum is 1; t is 1 to 2.
func cubicTaps(t, a float64, w []float64) {
	_ = w[3]
	x := t - 1 // from the second cell
	y := 1 - x // to the third
	w[0] = float64(a*x) * float64(y*y)
	w[3] = float64(a*y) * float64(x*x)
	w[1] = cubicWeight(x, a)
	w[2] = 1 - w[0] - w[1] - w[3]
}

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

// lattice says where cells lie along an axis.
type lattice struct {
	size  float64 // of a cell, in pixels
	start float64 // where cell 0 begins, in pixels from the picture's edge
	cells int     // cells 0 to cells-1 are those in the grid
}

// whole is the lattice of n cells that fill size pixels.
func whole(n, size int) lattice { return lattice{float64(size) / float64(n), 0, n} }

// isWhole says whether the lattice fills size pixels exactly.
func (l lattice) isWhole(size int) bool {
	return l.start == 0 && l.size == float64(size)/float64(l.cells)
}

// cropped is the lattice of the cells of which at least half lies inside;
// start may be of any cell.
func cropped(size, start float64, pixels int) lattice {
	const slack = 1e-6 // exactly half counts
	first := math.Ceil(-start/size - 0.5 - slack)
	start += float64(first * size)
	n := math.Floor((float64(pixels)-start)/size + 0.5 + slack)
	return lattice{size, start, int(n)}
}
