package regrid

import (
	"encoding/binary"
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds grids whose cells are flat to the last bit: enlargements
// that repeat pixels, by whole or fractional factors, with or without lines
// drawn between the cells. There no fitting is needed: every place where
// neighbouring columns differ lies on the lattice.

// steps lists where the picture changes along each axis: i is listed where
// column (row) i differs anywhere from the one before.
func steps(r *pixels.Raster) (x, y []int) {
	changes := make([]bool, r.W)
	for row := range r.H {
		line := r.Pix[4*r.W*row:][:4*r.W]
		last := binary.LittleEndian.Uint32(line)
		for col := 1; col < r.W; col++ {
			now := binary.LittleEndian.Uint32(line[4*col:])
			if now != last {
				changes[col] = true
				last = now
			}
		}
		if row > 0 && !slices.Equal(line, r.Pix[4*r.W*(row-1):][:4*r.W]) {
			y = append(y, row)
		}
	}
	for col, c := range changes {
		if c {
			x = append(x, col)
		}
	}
	return x, y
}

// exactAxis is a lattice on which all steps lie.
type exactAxis struct {
	lattice
	line   int     // width of the lines at the start of each cell, 0 to maxLine pixels
	bounds []int   // where cells 0 to cells begin; the last is where the grid ends
	chance float64 // how likely steps at random would lie so well
}

const (
	// maxLine is the widest grid line looked for, in pixels.
	maxLine = 3
	// rounding is how far from its true place, in pixels, an edge may lie: half a
	// pixel, either way where that falls on a pixel's centre, and a little since
	// writers round their factors too.
	rounding = 0.5 + 1.0/64
	// drift is how far the lattices tried may miss an edge at the far end.
	drift = 0.1
	// leastSize is the smallest cell, in pixels: with less, cells are lost.
	leastSize = 2
)

// exactLattice is the lattice with the largest cells on which all steps lie,
// line pixels wide lines included; false if there is none.
func exactLattice(steps []int, pixels, line int) (exactAxis, bool) {
	sides := 1
	if line > 0 {
		sides = 2
	}
	if len(steps) < 2 || len(steps) > sides*(pixels/max(leastSize, 2*line+2)+2) {
		return exactAxis{}, false
	}
	gap := pixels
	for i := 1; i < len(steps); i++ {
		if g := steps[i] - steps[i-1]; g > line {
			gap = min(gap, g)
		}
	}
	largest := min(float64(gap+line)+2*rounding, float64(pixels)/2)
	least := float64(max(leastSize, 2*line+2))
	residues := make([]float64, 0, len(steps))
	few := spread(steps, 9)
	for size := largest; size >= least-1e-9; size -= float64(drift*size) / float64(pixels) {
		if _, ok := windowed(few, residues, size, line); !ok {
			continue // most sizes fail with a few steps already
		}
		a, ok := tryLattice(steps, residues, size, pixels, line)
		if !ok {
			continue
		}
		// A whole size that fits as well is what was meant.
		if w := math.Round(a.size); math.Abs(a.size-w) < 0.02*w && w >= least {
			if b, ok := tryLattice(steps, residues, w, pixels, line); ok && b.chance <= a.chance*1.5 {
				return b, true
			}
		}
		return a, true
	}
	return exactAxis{}, false
}

// spread takes n of the steps, spread over all of them.
func spread(steps []int, n int) []int {
	if len(steps) <= n {
		return steps
	}
	few := make([]int, n)
	for i := range few {
		few[i] = steps[i*(len(steps)-1)/(n-1)]
	}
	return few
}

// windowed says whether all steps, taken modulo the size, lie within a window
// as wide as rounding and lines explain, and where it begins.
func windowed(steps []int, residues []float64, size float64, line int) (middle float64, ok bool) {
	// They do if the largest gap between them, going round, leaves no more.
	residues = residues[:0]
	for _, s := range steps {
		residues = append(residues, float64(s)-float64(size*math.Floor(float64(s)/size)))
	}
	window := 2*rounding + 2*drift + float64(line)
	if size-window < 0.3 && line > 0 {
		return 0, false
	}
	slices.Sort(residues)
	widest, begin := residues[0]+size-residues[len(residues)-1], residues[0]
	for i := 1; i < len(residues); i++ {
		if g := residues[i] - residues[i-1]; g > widest {
			widest, begin = g, residues[i]
		}
	}
	return begin + (size-widest-float64(line))/2, size-widest <= window
}

// tryLattice places cells of about the given size so that all steps lie at
// their beginnings, or within line pixels behind.
func tryLattice(steps []int, residues []float64, size float64, pixels, line int) (exactAxis, bool) {
	begin, ok := windowed(steps, residues, size, line)
	if !ok {
		return exactAxis{}, false
	}
	a, ok := settle(steps, size, begin, pixels, line)
	if !ok {
		return exactAxis{}, false
	}
	a.chance = 1
	odds := a.odds(pixels)
	free := len(steps) - 2
	if a.isWhole(pixels) {
		free = len(steps)
	}
	for range free {
		a.chance *= odds
	}
	return a, true
}

// odds is the share of all places at which a step may lie.
func (a exactAxis) odds(pixels int) float64 {
	fit := 0
	for i := 1; i < pixels; i++ {
		past := math.Mod(float64(i)-a.start, a.size)
		if past < 0 {
			past += a.size
		}
		off := math.Min(past, a.size-past)
		if a.line > 0 {
			off = math.Min(off, math.Abs(past-float64(a.line)))
		}
		if off <= rounding {
			fit++
		}
	}
	return float64(fit) / float64(max(1, pixels-1))
}

// settle finds the size and start for which the steps are off by least, and
// fails if that is more than rounding explains.
func settle(steps []int, size, start float64, pixels, line int) (exactAxis, bool) {
	type step struct{ at, cell float64 } // where cell begins
	numbered := make([]step, len(steps))
	begins, ends := 0, 0 // of lines
	for i, s := range steps {
		at := float64(s)
		cell := math.Round((at - start - float64(line)/2) / size)
		if line > 0 && at-start-float64(cell*size) > float64(line)/2 {
			at -= float64(line)
			ends++
		} else {
			begins++
		}
		numbered[i] = step{at, cell}
	}
	if line > 0 && 4*min(begins, ends) < len(steps) {
		return exactAxis{}, false // lines have two sides
	}
	extent := func(size float64) (low, high float64) {
		low, high = math.Inf(1), math.Inf(-1)
		for _, s := range numbered {
			at := s.at - float64(s.cell*size)
			low, high = math.Min(low, at), math.Max(high, at)
		}
		return low, high
	}
	fits := func(size, start float64) bool {
		low, high := extent(size)
		return high-start <= rounding && start-low <= rounding
	}
	result := func(l lattice) (exactAxis, bool) {
		a := exactAxis{lattice: l, line: line, bounds: make([]int, l.cells+1)}
		for k := range a.bounds {
			at := math.Floor(l.start + float64(float64(k)*l.size) + 0.5)
			a.bounds[k] = int(min(max(at, 0), float64(pixels)))
		}
		for _, s := range numbered {
			k := int(math.Round((s.at - l.start) / l.size))
			if k >= 0 && k <= l.cells {
				a.bounds[k] = int(s.at)
			}
		}
		return a, l.cells > 0 && slices.IsSorted(a.bounds)
	}
	// A picture that is one grid from edge to edge is the usual case.
	if n := math.Round(float64(pixels) / size); math.Abs(float64(n*size)-float64(pixels)) < 1+size/4 {
		l := whole(int(n), pixels)
		begin := float64(l.size * math.Round(start/l.size))
		if math.Abs(start-begin) < 1+size/8 {
			if fits(l.size, begin) {
				return result(l)
			}
		}
	}
	// Whole sizes come next: they are what programs offer.
	if w := math.Round(size); math.Abs(w-size)*float64(pixels)/size < 1.5 {
		low, high := extent(w)
		if begin := math.Round((low + high) / 2); high-begin <= rounding && begin-low <= rounding {
			return result(cropped(w, begin, pixels))
		}
	}
	from, to := size*(1-2/float64(pixels)), size*(1+2/float64(pixels))
	for range 50 { // the spread is convex in the size
		a, b := from+(to-from)/3, to-(to-from)/3
		lowA, highA := extent(a)
		lowB, highB := extent(b)
		if highA-lowA <= highB-lowB {
			to = b
		} else {
			from = a
		}
	}
	size = (from + to) / 2
	low, high := extent(size)
	if high-low > 2*rounding {
		return exactAxis{}, false
	}
	return result(cropped(size, (low+high)/2, pixels))
}
