package regrid

import (
	"math"
	"slices"
)

// This file finds periods. A picture that was enlarged bends at regular places
// only (A. C. Gallagher, "Detection of linear and cubic interpolation in JPEG
// compressed images", 2005).

// bendsOf is how much the signals bend at each pixel.
func bendsOf(s *sketch) []float64 {
	bends := make([]float64, s.size)
	for _, row := range s.rows {
		for i := 1; i+1 < s.size; i++ {
			bends[i] += math.Abs(row[i+1] - float64(2*row[i]) + row[i-1])
		}
	}
	return bends
}

// beat is a candidate: so many cells in the picture's length, which needn't be
// a whole number, beginning at start.
type beat struct{ count, start float64 }

const (
	fewestBeats = 3.0  // cells in the picture's length
	beatStep    = 0.25 // of a cell; a peak is about one cell wide
)

// beats are how strongly a train of values beats, for 3, 3¼, 3½ … cells in its length.
type beats struct {
	size   int
	offset float64 // its values stand so far past their index
	power  []float64
	angle  []float64 // of the beat, in turns
	scale  float64   // of power, for rounding
}

func beatsOf(train []float64, offset float64) beats {
	size := len(train)
	mean := 0.0
	for _, v := range train {
		mean += v
	}
	mean /= float64(size)
	b := beats{size: size, offset: offset, scale: float64(mean*mean)*float64(size) + 1}
	train = slices.Clone(train)
	for i := range train {
		train[i] -= mean
	}
	const first = int(fewestBeats / beatStep)
	heard := tones(train, int(1/beatStep), max(first, int(float64(most(size))/beatStep)+1))
	for j := first; j < len(heard.re); j++ {
		re, im := heard.re[j], heard.im[j]
		b.power = append(b.power, float64(re*re)+float64(im*im))
		b.angle = append(b.angle, math.Atan2(im, re)/(2*math.Pi))
	}
	return b
}

// at is the beat of an index in power.
func (b beats) at(j int) beat {
	c := fewestBeats + float64(float64(j)*beatStep)
	return beat{c, float64(b.angle[j]*float64(b.size)/c) + b.offset}
}

// strongest lists the beats that stand out most from those beside them, by a measure.
func (b beats) strongest(n int, measure []int) []beat {
	var peaks []int
	for j := 1; j+1 < len(measure); j++ {
		if measure[j] > 0 && measure[j] >= measure[j-1] && measure[j] >= measure[j+1] {
			peaks = append(peaks, j)
		}
	}
	slices.SortStableFunc(peaks, func(i, j int) int { return measure[j] - measure[i] })
	var list []beat
	for _, j := range peaks[:min(n, len(peaks))] {
		list = append(list, b.at(j))
	}
	return list
}

// loud measures beats by their power.
func (b beats) loud() []int {
	out := make([]int, len(b.power))
	for j, p := range b.power {
		out[j] = int(1e6 * min(1e9, p/b.scale))
	}
	return out
}

// chord measures beats together with their overtones, each by how much louder it is
// than what sounds near it: large shapes in the drawing beat slowly and loudly, and
// have none.
func (b beats) chord() []int {
	const (
		overtones = 4
		near      = 24   // steps to both sides
		loudest   = 5.0  // times what is near: so that no tone stands for all
		part      = 1000 // measures are whole numbers
	)
	n := len(b.power)
	loud, totals := make([]float64, n), make([]float64, n+1)
	for j, p := range b.power {
		loud[j] = math.Sqrt(p)
		totals[j+1] = totals[j] + loud[j]
	}
	clear := make([]float64, n)
	for j, v := range loud {
		from, to := max(0, j-near), min(n, j+near+1)
		if mean := (totals[to] - totals[from]) / float64(to-from); mean > 0 {
			clear[j] = min(v/mean, loudest)
		}
	}
	out := make([]int, n)
	for j := range out {
		sum, count := 0.0, 0.0
		for h := 1; h <= overtones; h++ {
			at := int(math.Round((fewestBeats/beatStep+float64(j))*float64(h) - fewestBeats/beatStep))
			if at >= n {
				break
			}
			best := 0.0
			for k := max(0, at-h/2); k <= min(n-1, at+h/2); k++ { // its own is known to half a step
				best = max(best, clear[k])
			}
			sum += best
			count++
		}
		out[j] = int(part * sum / math.Sqrt(count))
	}
	return out
}
