package regrid

import "math"

// This file works out all weights of a pixel at once: one by one they are most of
// what a look at a grid costs. The first cell's centre lies at -t, which is within
// one cell below the kernel's radius; the weights add up to 1.

func cubicKernel(name string, a float64) kernel {
	return kernel{name, 2,
		func(t, _ float64) float64 { return cubicWeight(t, a) },
		func(t, _ float64, w []float64) { cubicTaps(t, a, w) }}
}

func blurKernel(name string, radius, fade float64) kernel {
	return kernel{name, radius,
		func(t, _ float64) float64 { return blurWeight(t, fade) },
		func(t, _ float64, w []float64) { blurTaps(t, fade, w) }}
}

func boxTaps(t, _ float64, w []float64) {
	w[0], w[1] = 1, 0
	if t >= 0.5 {
		w[0], w[1] = 0, 1
	}
}

// areaTaps are both cells' shares of a pixel that is no wider than a cell.
func areaTaps(t, pixel float64, w []float64) {
	first := min(max((0.5+pixel/2-t)/pixel, 0), 1)
	w[0], w[1] = first, 1-first
}

func linearTaps(t, _ float64, w []float64) { w[0], w[1] = 1-t, t }

func cubicTaps(t, a float64, w []float64) {
	_ = w[3]
	x := t - 1 // from the second cell
	y := 1 - x // to the third
	w[0] = float64(a*x) * float64(y*y)
	w[3] = float64(a*y) * float64(x*x)
	w[1] = cubicWeight(x, a)
	w[2] = 1 - w[0] - w[1] - w[3]
}

// sixths are the sines and cosines of 3/3, 2/3 … -2/3 of half a turn.
var sixths = [6][2]float64{{0, -1}, {halfRoot3, -0.5}, {halfRoot3, 0.5}, {0, 1}, {-halfRoot3, 0.5}, {-halfRoot3, -0.5}}

const halfRoot3 = 0.866025403784438646763723170752936183

// lanczosTaps needs the sine and cosine of one place only: the others lie whole cells
// on, where the first sine changes its sign and the second turns by a sixth.
func lanczosTaps(t, _ float64, w []float64) {
	past := t - 3 // from the fourth cell, 0 to -1
	clear(w)
	if whole := math.Round(past); math.Abs(past-whole) < 1e-9 { // on a cell's centre nothing else shows
		w[3+int(whole)] = 1
		return
	}
	_ = w[5]
	wave := math.Sin(math.Pi * past)
	sin, cos := math.Sincos(math.Pi / 3 * past)
	sum := 0.0
	for j, k := range sixths {
		wave = -wave
		x := math.Pi * (past + float64(3-j))
		v := wave * (float64(sin*k[1]) + float64(cos*k[0])) / float64(x*x)
		w[j] = v
		sum += v
	}
	for j := range w {
		w[j] /= sum
	}
}

// blurTaps takes each cell's share from where the fades on both of its sides are.
func blurTaps(t, fade float64, w []float64) {
	upper := step((t + 0.5) / fade)
	first := upper
	for j := range w {
		lower := step((t - 0.5 - float64(j)) / fade)
		w[j] = upper - lower
		upper = lower
	}
	if all := first - upper; all != 1 { // the kernel goes on beyond its radius
		for j := range w {
			w[j] /= all
		}
	}
}
