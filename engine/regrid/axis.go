package regrid

import (
	"math"
	"slices"
)

// axisFit is a grid along one axis and how well it explains the picture.
type axisFit struct {
	lattice
	kernel kernel
	left   float64 // unexplained, in the units of residual
	line   int     // width of the lines between cells, in pixels; the cells' bounds are in their middle
	dip    float64 // left against its neighbours', 0 (sharp) to 1 (no better than they)
}

const (
	// surelyWhole is a dip so deep that no grid that is cut off by the picture's
	// edges need be looked for.
	surelyWhole = 0.03
	// leastDip separates sprites from other pictures: the tests' photographs stay
	// above 0.8, their sprites below 0.5.
	leastDip = 0.65
	// Where an overview has a dip below clearDip, no further one is made, and numbers
	// of cells without a dip below shallowDip aren't looked at more closely.
	clearDip, shallowDip = 0.3, 0.8
)

// fitsAlong lists the grids along an axis that explain the sketch best, the
// best first. The list may be empty.
func fitsAlong(s *sketch) []axisFit {
	p := pyramidOf(s)
	fits, clear := wideFits(s, p)
	if len(fits) == 0 || fits[0].dip > surelyWhole {
		cropped := croppedFits(s, p)
		clear = clear || len(cropped) > 0 && cropped[0].dip < clearDip
		fits = append(fits, cropped...)
	}
	if !clear {
		fits = append(fits, narrowFits(s, p)...)
	}
	byRank(fits, s.size)
	fits = preferDivisors(s, fits)
	if len(fits) > 0 {
		fits[0] = fits[0].settled(s)
	}
	if lined, ok := linedFit(s); ok && lined.dip < 0.5 && (len(fits) == 0 || lined.dip < fits[0].dip ||
		lined.size > 1.5*fits[0].size && (fits[0].dip > surelyWhole || lined.dip < 4*fits[0].dip)) { // lines pass for small cells, but hardly for such sure ones
		fits = append([]axisFit{lined}, fits...)
	}
	return fits
}

// rank orders fits: the dip, in steps of 1/1000; a grid cut off in mid-cell
// has to be distinctly better than a whole one.
func (f axisFit) rank(size int) int {
	d := f.dip
	if !f.isWhole(size) {
		d *= 1.5
	}
	return int(math.Round(d * 1000))
}

// byRank sorts the fits along so many pixels.
func byRank(fits []axisFit, size int) {
	slices.SortStableFunc(fits, func(a, b axisFit) int { return a.rank(size) - b.rank(size) })
}

// wholeFits looks at the grids that fill the picture from edge to edge.
func wholeFits(s *sketch) []axisFit {
	p := pyramidOf(s)
	fits, clear := wideFits(s, p)
	if !clear {
		fits = append(fits, narrowFits(s, p)...)
	}
	byRank(fits, s.size)
	return fits
}

// few is up to how many cells along size pixels are wide.
func few(size int) int { return min(most(size), max(64, size/wide)) }

// wideFits looks at those of wide cells, and says whether one shows clearly. Multiples of
// their numbers stand beside what does if they dip far deeper: few lines of a grid may
// carry most edges.
func wideFits(s *sketch, p *pyramid) (fits []axisFit, clear bool) {
	most := most(s.size)
	if most < 2 {
		return nil, false
	}
	counts, clear := overviewed(s, p, 2, few(s.size))
	fits = fitsOf(s, p, counts)
	if clear = clear || len(fits) > 0 && fits[0].dip < clearDip; !clear { // with the right kernel it may show now
		return fits, false
	}
	for _, f := range slices.Clone(fits) {
		for n := 2 * f.cells; n <= most && n <= 5*f.cells; n += f.cells {
			if m := bestKernel(s.size, p.about, n); m.dip < 0.3*f.dip {
				fits = append(fits, fitsOf(s, p, []int{n})...)
			}
		}
	}
	byRank(fits, s.size)
	return fits, true
}

// narrowFits looks at those of narrow cells.
func narrowFits(s *sketch, p *pyramid) []axisFit {
	if few(s.size) >= most(s.size) {
		return nil
	}
	counts, _ := overviewed(s, p, few(s.size)-1, most(s.size)) // from a little before, for the sake of the neighbours
	return fitsOf(s, p, counts)
}

// fitsOf looks closely at the best of some numbers of cells.
func fitsOf(s *sketch, p *pyramid, counts []int) []axisFit {
	const closely = 6
	slices.Sort(counts)
	var fits []axisFit
	for _, n := range slices.Compact(counts) {
		fits = append(fits, bestKernel(s.size, p.about, n))
	}
	byRank(fits, s.size)
	fits = fits[:min(closely, len(fits))]
	for len(fits) > 1 && fits[len(fits)-1].dip > shallowDip {
		fits = fits[:len(fits)-1]
	}
	for i, f := range fits {
		fits[i] = bestKernel(s.size, s.residual, f.cells)
	}
	byRank(fits, s.size)
	return fits
}

// overviewed lists the numbers of cells, from some to another, that look best, and
// says whether one of them shows clearly.
func overviewed(s *sketch, p *pyramid, from, to int) (counts []int, clear bool) {
	const promising = 24 // of each kernel's are looked at with the next one
	spectra := []spectrum{boxSpectrum(s, runningTotals(s), from, to)}
	deepest := 1.0
	look := func(sp spectrum) {
		n := sp.sharpest(4)
		counts = append(counts, n...)
		deepest = math.Min(deepest, sp.dip(n[0]))
	}
	look(spectra[0])
	for i, k := range overview {
		if deepest < clearDip { // it shows already
			break
		}
		var only []int
		if i > 0 { // kernels that enlarge smoothly dip in the same places, more or less deep
			for _, sp := range spectra {
				only = append(only, sp.sharpest(promising)...)
			}
		}
		spectra = append(spectra, spectrumOf(p, k, from, to, only))
		look(spectra[len(spectra)-1])
	}
	if deepest < clearDip { // what shows no dip there is no rival, with whatever kernel
		counts = slices.DeleteFunc(counts, func(n int) bool {
			return !slices.ContainsFunc(spectra, func(sp spectrum) bool { return sp.dip(n) < shallowDip })
		})
	}
	return counts, deepest < clearDip
}

// sharpest lists the numbers of cells with the deepest dips.
func (s spectrum) sharpest(count int) []int {
	ns := make([]int, 0, len(s.left))
	depth := make([]int, len(s.left))
	for n := 2; n < len(s.left); n++ {
		depth[n] = int(math.Round(s.dip(n) * 1000))
		ns = append(ns, n)
	}
	slices.SortStableFunc(ns, func(a, b int) int { return depth[a] - depth[b] })
	return ns[:min(count, len(ns))]
}

// bestKernel takes the kernel with which n cells over so many pixels leave least.
func bestKernel(pixels int, left judge, n int) axisFit {
	best := axisFit{lattice: whole(n, pixels), left: math.Inf(1)}
	for _, k := range kernels {
		if v := left(k, best.lattice); v < best.left*k.handicap() {
			best.kernel, best.left = k, v
		}
	}
	around := spectrum{unknown(n + 2)}
	for m := max(2, n-2); m <= n+2; m++ {
		around.left[m] = left(best.kernel, whole(m, pixels))
	}
	best.dip = around.dip(n)
	return best
}

// preferDivisors puts a grid with larger cells first if it explains nearly as
// much as the best: a multiple of the true number of cells always fits, and
// fits noise a little better, and what kernel and picture differ by. If every
// other edge were missing, as where the larger cells are wrong, there would be
// no dip of that depth.
func preferDivisors(s *sketch, fits []axisFit) []axisFit {
	if len(fits) < 2 {
		return fits
	}
	best := fits[0]
	for i, f := range fits[1:] {
		ratio := f.size / best.size
		m := math.Round(ratio)
		if m >= 2 && math.Abs(ratio-m) < 0.02*m && f.dip < 0.5 && (f.left <= 3*best.left+1 || f.dip <= 2*best.dip+0.01) {
			return slices.Insert(slices.Delete(slices.Clone(fits), i+1, i+2), 0, f)
		}
	}
	return fits
}
