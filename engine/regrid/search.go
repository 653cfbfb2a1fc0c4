package regrid

import "math"

// This file looks for the grid by trying every number of cells along an axis:
// each number and kernel explains some of the picture, and the true one much
// more than its neighbours do.

// maxCells is the largest number of cells along an axis that is looked for:
// beyond it nothing can be cut anyway.
const maxCells = 512

// spectrum is what each number of cells leaves unexplained: left[n] for n
// cells that fill the picture from edge to edge, in the units of residual.
type spectrum struct {
	left []float64 // from 2 cells on; the first two are unused
}

// most is the largest number of cells tried along size pixels.
func most(size int) int { return min(maxCells, int(float64(size)/1.9)) }

// wide is the side of a cell, in pixels, from which on cells are looked for first:
// there are few numbers of them, and a coarse look will do.
const wide = 8

// spectrumOf tries the numbers of cells from some to another with one kernel; or only
// those listed, and what is near them, if any are.
func spectrumOf(p *pyramid, k kernel, from, to int, only []int) spectrum {
	left := unknown(to)
	try := func(from, to int) {
		for n := from; n <= to; n++ {
			if math.IsNaN(left[n]) {
				left[n] = p.about(k, whole(n, (*p)[0].size))
			}
		}
	}
	if only == nil {
		try(from, to)
	}
	const near = 2 // a dip is judged by so many on both sides
	for _, n := range only {
		try(max(from, n-near), min(to, n+near))
	}
	return spectrum{left}
}

// unknown is room for what numbers of cells up to n leave: not yet known.
func unknown(n int) []float64 {
	left := make([]float64, n+1)
	for i := range left {
		left[i] = math.NaN()
	}
	return left
}

// boxSpectrum is spectrumOf for flat cells, whose sums running totals give at
// once. Their edges may be off by half a pixel either way.
func boxSpectrum(s *sketch, totals [][]float64, from, to int) spectrum {
	left := unknown(to)
	for n := from; n <= to; n++ {
		left[n] = math.Inf(1)
		for _, shift := range []float64{-0.499, 0, 0.499} {
			left[n] = math.Min(left[n], boxResidual(s, totals, whole(n, s.size), shift))
		}
	}
	return spectrum{left}
}

func runningTotals(s *sketch) [][]float64 {
	totals := make([][]float64, len(s.rows))
	for k, row := range s.rows {
		t := make([]float64, len(row)+1)
		for i, v := range row {
			t[i+1] = t[i] + v
		}
		totals[k] = t
	}
	return totals
}

// boxResidual is residual for flat cells whose edges are shifted.
func boxResidual(s *sketch, totals [][]float64, l lattice, shift float64) float64 {
	bounds := make([]int, 0, l.cells+3)
	bounds = append(bounds, 0)
	for c := -1; c <= l.cells+1; c++ {
		b := int(math.Floor(l.start + float64(float64(c)*l.size) + shift + 0.5))
		if b > bounds[len(bounds)-1] && b < s.size {
			bounds = append(bounds, b)
		}
	}
	bounds = append(bounds, s.size)
	left := 0.0
	for k, t := range totals {
		explained := 0.0
		for i := 1; i < len(bounds); i++ {
			sum := t[bounds[i]] - t[bounds[i-1]]
			explained += float64(sum*sum) / float64(bounds[i]-bounds[i-1])
		}
		left += math.Max(0, s.sum[k/width][k%width]-explained)
	}
	return left / (signals * math.Max(1, float64(s.size-len(bounds)+1)))
}

// dip is how deep left[n] lies below its neighbours on both sides: the share
// of what they leave, 1 for no dip at all.
func (s spectrum) dip(n int) float64 {
	side := func(from, to int) float64 {
		sum, count := 0.0, 0.0
		for m := from; m <= to; m++ {
			if m >= 2 && m < len(s.left) && !math.IsNaN(s.left[m]) {
				sum += s.left[m]
				count++
			}
		}
		if count == 0 {
			return math.Inf(1)
		}
		return sum / count
	}
	if math.IsNaN(s.left[n]) { // not known
		return 1
	}
	around := math.Min(side(n-2, n-1), side(n+1, n+2))
	if math.IsInf(around, 1) {
		return 1
	}
	return (s.left[n] + 0.5) / (around + 0.5)
}
