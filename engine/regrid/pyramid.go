package regrid

import "math"

// This file judges wide cells on a sketch of fewer pixels: for a look at many
// grids a handful of pixels a cell tells as much as fifty.

// wellSpread is how many pixels of a cell are enough to tell grids apart.
const wellSpread = 5

// pyramid is a sketch at all of its pixels, at half of them, a quarter, and so on;
// the levels are made when they are wanted.
type pyramid []*sketch

func pyramidOf(s *sketch) *pyramid { return &pyramid{s} }

// about is what a kernel on a lattice leaves unexplained, like residual, but judged
// by half of the signals, and by means of neighbouring pixels where cells are wide.
func (p *pyramid) about(k kernel, l lattice) float64 {
	level := 0
	by := 1.0
	for l.size >= 2*wellSpread*by && (*p)[0].size >= 64*int(by) {
		by *= 2
		level++
	}
	for len(*p) <= level {
		*p = append(*p, (*p)[len(*p)-1].halved())
	}
	if by > 1 {
		l.size /= by
		l.start /= by
	}
	// What is unexplained is as many times as much there, since each pixel stands for
	// several.
	return (*p)[level].roughly(k, l) / by
}

// halved is the sketch at half of the pixels, each the mean of two; a last odd one
// is left out. Rounding still has variance 1.
func (s *sketch) halved() *sketch {
	out := sketch{size: s.size / 2, rows: make([][]float64, signals)}
	for k, row := range s.rows {
		if k%width == 0 {
			out.bundle[k/width] = make([]lane, out.size)
		}
		means := make([]float64, out.size)
		for i := range means {
			means[i] = (row[2*i] + row[2*i+1]) / math.Sqrt2
			out.bundle[k/width][i][k%width] = means[i]
			out.sum[k/width][k%width] += float64(means[i] * means[i])
		}
		out.rows[k] = means
	}
	return &out
}
