package regrid

import (
	"math"
	"slices"
)

// This file looks for grids of which the picture shows a part that may begin
// and end in mid-cell: candidates by their period and phase (beats.go), which
// least squares then judge.

// A grid is moved in steps of these shares of a cell: from the first to the middle one
// on a sketch of few pixels, on to the last one on the whole sketch.
const firstStep, middleStep, lastStep = 0.25, 0.02, 0.004

// croppedFits judges the candidates.
func croppedFits(s *sketch, p *pyramid) []axisFit {
	if most(s.size) < 4 {
		return nil
	}
	var fits []axisFit
	var tried []beat
	for _, b := range candidates(s) {
		cell := float64(s.size) / b.count
		if cell < leastSize*0.98 || b.count < 3 {
			continue
		}
		if slices.ContainsFunc(tried, func(t beat) bool { return t.count == b.count && apart(t.start, b.start, cell/4) < 0.04*cell }) {
			continue // it is tried a quarter, a half … of a cell later too
		}
		tried = append(tried, b)
		best := axisFit{left: math.Inf(1)}
		for _, later := range []float64{0, 0.25, 0.5, 0.75} {
			best = best.orLess(p.about, linear, cropped(cell, b.start+float64(later*cell), s.size))
		}
		for _, k := range []kernel{area, cubic} { // where one fits best, the others do
			best = best.orLess(p.about, k, best.lattice)
		}
		best.dip = dipAround(s.size, p.about, best)
		fits = append(fits, best)
	}
	byRank(fits, s.size)
	fits = distinct(fits)
	fits = fits[:min(4, len(fits))]
	for i, f := range fits {
		fits[i] = f.refined(s.size, p.about, firstStep, middleStep)
	}
	for _, f := range slices.Clone(fits) {
		if m, ok := multiple(s, p, f); ok {
			fits = append(fits, m)
		}
	}
	byRank(fits, s.size)
	return distinct(fits)
}

// apart is how far two places lie apart, whole steps not counted.
func apart(a, b, step float64) float64 {
	off := (a - b) / step
	return math.Abs(off-math.Round(off)) * step
}

// candidates are the strongest beats of the changes and of the bends, and those of
// which these may be overtones.
func candidates(s *sketch) []beat {
	var list []beat
	for _, b := range []beats{beatsOf(changesOf(s), 0), beatsOf(bendsOf(s), 0.5)} {
		loud := b.strongest(8, b.loud())
		list = append(list, loud...)
		for _, c := range loud[:min(3, len(loud))] {
			list = append(list, beat{c.count / 2, c.start})
		}
		list = append(list, b.strongest(8, b.chord())...)
	}
	return list
}

// ofSize is the best grid of cells about as large as the other axis's.
func ofSize(s *sketch, size float64) axisFit {
	const phases = 12
	p, best := pyramidOf(s), axisFit{left: math.Inf(1)}
	for k := range phases {
		l := cropped(size, size*float64(k)/phases, s.size)
		for _, kernel := range []kernel{area, linear, cubic} {
			best = best.orLess(p.about, kernel, l)
		}
	}
	return best.refined(s.size, p.about, firstStep, middleStep)
}

// multiple is the grid of two or three times as large cells that explains most, if
// it explains about as much: the bends of a smooth picture are at the cells' middles
// and its changes' beats have overtones, so that a part of a cell is found first.
func multiple(s *sketch, p *pyramid, f axisFit) (best axisFit, ok bool) {
	best.left = math.Inf(1)
	for m := 2; m <= 3; m++ {
		size := f.size * float64(m)
		if size > float64(s.size)/3 {
			break
		}
		for k := range m {
			l := cropped(size, f.start+float64(float64(k)*f.size), s.size)
			for _, kernel := range []kernel{f.kernel, area, linear, cubic} {
				best = best.orLess(p.about, kernel, l)
			}
		}
	}
	if best.left > 3*p.about(f.kernel, f.lattice)+1 {
		return axisFit{}, false
	}
	return best.refined(s.size, p.about, firstStep, middleStep), true
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

// judge is how much a kernel on a lattice leaves unexplained.
type judge func(k kernel, l lattice) float64

// dipAround compares with grids of one and two cells more and fewer in the
// same length of so many pixels, in step at its middle.
func dipAround(pixels int, left judge, f axisFit) float64 {
	length := float64(pixels)
	count := length / f.size
	middle := length / 2
	phase := (middle - f.start) / f.size
	side := func(by ...float64) float64 {
		sum, n := 0.0, 0.0
		for _, d := range by {
			if count+d < 2 {
				continue
			}
			size := length / (count + d)
			sum += left(f.kernel, cropped(size, middle-float64(phase*size), pixels))
			n++
		}
		if n == 0 {
			return math.Inf(1)
		}
		return sum / n
	}
	return (f.left + 0.5) / (math.Min(side(-1, -2), side(1, 2)) + 0.5)
}

// orLess is f, or a kernel on a lattice that leaves less.
func (f axisFit) orLess(left judge, k kernel, l lattice) axisFit {
	if v := left(k, l); v < f.left {
		return axisFit{lattice: l, kernel: k, left: v}
	}
	return f
}

// refined moves size and start to where least is left, in steps as moved does, then
// takes the kernel that leaves least there.
func (f axisFit) refined(pixels int, left judge, from, to float64) axisFit {
	f = f.moved(pixels, left, from, to)
	for _, k := range kernels[1:] {
		if v := left(k, f.lattice); v < f.left*k.handicap() {
			f.kernel, f.left = k, v
		}
	}
	f.dip = dipAround(pixels, left, f)
	return f
}

// settled is a grid that begins in mid-cell, judged by the whole sketch.
func (f axisFit) settled(s *sketch) axisFit {
	if f.isWhole(s.size) {
		return f
	}
	return f.refined(s.size, s.residual, middleStep, lastStep)
}

// moved takes the size and start, in steps of some share of a cell down to another, to
// where least is left.
func (f axisFit) moved(pixels int, left judge, from, to float64) axisFit {
	length := float64(pixels)
	count, middle := length/f.size, length/2
	phase := (middle - f.start) / f.size // cells from the start to the middle
	at := func(count, phase float64) lattice {
		size := length / count
		return cropped(size, middle-float64(phase*size), pixels)
	}
	f.lattice = at(count, phase)
	f.left = left(f.kernel, f.lattice)
	for step := from; step > to; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, m := range [][2]float64{{step, 0}, {-step, 0}, {0, step / 2}, {0, -step / 2}} {
				l := at(count+m[0], phase+m[1])
				if v := left(f.kernel, l); v < f.left*0.9999 {
					count, phase, moved = count+m[0], phase+m[1], true
					f.lattice, f.left = l, v
				}
			}
		}
	}
	return f
}
