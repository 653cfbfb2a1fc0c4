package regrid

import (
	"math"
	"slices"
)

// This file looks for grids of which the picture shows a part that may begin
// and end in mid-cell. A picture that was enlarged bends at regular places
// only (A. C. Gallagher, "Detection of linear and cubic interpolation in JPEG
// compressed images", 2005): the period and the phase of the bends are
// candidates, which least squares then judge.

// trains are how much the picture changes, and bends, place by place.
func trains(s *sketch) (changes, bends []float64) {
	changes, bends = make([]float64, s.size), make([]float64, s.size)
	for _, row := range s.rows {
		for i := 1; i < s.size; i++ {
			changes[i] += math.Abs(row[i] - row[i-1])
			if i+1 < s.size {
				bends[i] += math.Abs(row[i+1] - float64(2*row[i]) + row[i-1])
			}
		}
	}
	return changes, bends
}

// beat is a candidate: so many cells in the picture's length, which needn't be
// a whole number, beginning at start.
type beat struct{ count, start float64 }

// beats lists the strongest periods of a train; its values stand at offset
// past their index.
func beats(train []float64, offset float64, strongest int) []beat {
	const step = 0.25 // of a cell; a peak is about one cell wide
	size := len(train)
	mean := 0.0
	for _, v := range train {
		mean += v
	}
	mean /= float64(size)
	most := float64(most(size))
	type peak struct {
		beat
		power int
	}
	var peaks []peak
	power := make([]float64, 0, int(most/step)+2)
	angles := make([]float64, 0, cap(power))
	for c := 3.0; c <= most; c += step {
		re, im := 0.0, 0.0
		turnRe, turnIm := math.Cos(2*math.Pi*c/float64(size)), math.Sin(2*math.Pi*c/float64(size))
		r, i := 1.0, 0.0
		for _, v := range train {
			d := v - mean
			re += float64(d * r)
			im += float64(d * i)
			r, i = float64(r*turnRe)-float64(i*turnIm), float64(r*turnIm)+float64(i*turnRe)
		}
		power = append(power, float64(re*re)+float64(im*im))
		angles = append(angles, math.Atan2(im, re)/(2*math.Pi))
	}
	for j := 1; j+1 < len(power); j++ {
		if power[j] < power[j-1] || power[j] < power[j+1] || power[j] == 0 {
			continue
		}
		c := 3 + float64(float64(j)*step)
		cell := float64(size) / c
		start := float64(angles[j]*cell) + offset
		peaks = append(peaks, peak{beat{c, start}, int(1e6 * math.Min(1e9, power[j]/(float64(mean*mean)*float64(size)+1)))})
	}
	slices.SortStableFunc(peaks, func(a, b peak) int { return b.power - a.power })
	var list []beat
	for _, p := range peaks[:min(strongest, len(peaks))] {
		list = append(list, p.beat)
	}
	return list
}

// croppedFits judges the candidates.
func croppedFits(s *sketch) []axisFit {
	if most(s.size) < 4 {
		return nil
	}
	changes, bends := trains(s)
	candidates := append(beats(changes, 0, 8), beats(bends, 0.5, 8)...)
	for _, b := range append(slices.Clone(candidates[:min(3, len(candidates))]), candidates[min(8, len(candidates)):min(11, len(candidates))]...) {
		candidates = append(candidates, beat{b.count / 2, b.start})
	}
	var fits []axisFit
	for _, b := range candidates {
		cell := float64(s.size) / b.count
		if cell < leastSize*0.98 || b.count < 3 {
			continue
		}
		best := axisFit{left: math.Inf(1)}
		for _, k := range []kernel{area, linear, cubic} {
			for _, half := range []float64{0, 0.5} {
				l := cropped(cell, b.start+float64(half*cell), s.size)
				if left := residual(s, k, l); left < best.left {
					best = axisFit{lattice: l, kernel: k, left: left}
				}
			}
		}
		best.dip = dipAround(s, best)
		fits = append(fits, best)
	}
	byDip := func(a, b axisFit) int { return compare(a.rank(s.size), b.rank(s.size)) }
	slices.SortStableFunc(fits, byDip)
	fits = distinct(fits)
	fits = fits[:min(4, len(fits))]
	for i, f := range fits {
		fits[i] = refined(s, f)
	}
	slices.SortStableFunc(fits, byDip)
	return fits
}

// distinct leaves out fits whose cells are about as large as an earlier one's
// and begin at about the same place.
func distinct(fits []axisFit) []axisFit {
	var kept []axisFit
	for _, f := range fits {
		if !slices.ContainsFunc(kept, func(k axisFit) bool {
			return math.Abs(float64(f.cells-k.cells)) <= 1 && math.Abs(f.start-k.start) < 0.2*k.size
		}) {
			kept = append(kept, f)
		}
	}
	return kept
}

// dipAround compares with grids of one and two cells more and fewer in the
// same length, in step at the picture's middle.
func dipAround(s *sketch, f axisFit) float64 {
	count := float64(s.size) / f.size
	middle := float64(s.size) / 2
	phase := (middle - f.start) / f.size
	side := func(by ...float64) float64 {
		sum, n := 0.0, 0.0
		for _, d := range by {
			if count+d < 2 {
				continue
			}
			size := float64(s.size) / (count + d)
			sum += residual(s, f.kernel, cropped(size, middle-float64(phase*size), s.size))
			n++
		}
		if n == 0 {
			return math.Inf(1)
		}
		return sum / n
	}
	return (f.left + 0.5) / (math.Min(side(-1, -2), side(1, 2)) + 0.5)
}

// refined moves size and start to where least is left, then takes the kernel
// that leaves least there.
func refined(s *sketch, f axisFit) axisFit {
	count := float64(s.size) / f.size
	middle := float64(s.size) / 2
	phase := (middle - f.start) / f.size // cells from the start to the middle
	try := func(k kernel, count, phase float64) float64 {
		size := float64(s.size) / count
		return residual(s, k, cropped(size, middle-float64(phase*size), s.size))
	}
	best := f.left
	for step := 0.25; step > 0.004; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, m := range [][2]float64{{step, 0}, {-step, 0}, {0, step / 2}, {0, -step / 2}} {
				if left := try(f.kernel, count+m[0], phase+m[1]); left < best*0.9999 {
					count, phase, best, moved = count+m[0], phase+m[1], left, true
				}
			}
		}
	}
	for _, k := range kernels[1:] {
		if left := try(k, count, phase); left < best*k.handicap() {
			f.kernel, best = k, left
		}
	}
	f.size = float64(s.size) / count
	f.lattice = cropped(f.size, middle-float64(phase*f.size), s.size)
	f.left = residual(s, f.kernel, f.lattice)
	f.dip = dipAround(s, f)
	return f
}
