package regrid

import "math"

// bands is a cells-to-pixels matrix: pixel i is the sum of weight[i*wide+j]
// times cell first[i]+j. Weights of a pixel add up to 1.
type bands struct {
	cells  int
	wide   int
	first  []int
	weight []float64
}

// project makes the matrix of a kernel on a lattice. Where the lattice is
// whole, the cells at the ends stand for those beyond; else there are as many
// cells beyond the ends as the pixels call for, the first is offset by -before.
func project(k kernel, l lattice, pixels int) (b bands, before int) {
	wide := max(2, int(math.Ceil(2*k.radius))) // a weight at the very end of the radius is 0
	low, high := 0, l.cells-1
	if !l.isWhole(pixels) {
		low = int(math.Floor((0.5-l.start)/l.size - 0.5))
		high = int(math.Ceil((float64(pixels)-0.5-l.start)/l.size - 0.5))
	}
	b = bands{cells: high - low + 1, first: make([]int, pixels)}
	b.wide = min(wide, b.cells)
	b.weight = make([]float64, pixels*b.wide)
	pixel := 1 / l.size
	for i := range pixels {
		u := (float64(i) + 0.5 - l.start) / l.size // in cells
		from := int(math.Ceil(u - 0.5 - k.radius))
		b.first[i] = min(max(from, low), high+1-b.wide) - low
		w := b.weight[i*b.wide:][:b.wide]
		if k.taps != nil && from >= low && from+wide <= high+1 { // nearly every pixel
			k.taps(u-0.5-float64(from), w)
			continue
		}
		sum := 0.0
		for j := range wide {
			v := k.weight(u-0.5-float64(from+j), pixel)
			sum += v
			w[min(max(from+j, low), high)-low-b.first[i]] += v
		}
		for j := range w {
			w[j] /= sum
		}
	}
	return b, -low
}

// solver holds the square root (Cholesky) of a matrix's normal equations.
type solver struct {
	bands
	root []float64 // row c: wide values, the diagonal last
}

// newSolver prepares least squares. A trace of damping keeps cells that hardly
// any pixel shows from running away.
func newSolver(b bands) solver {
	n, wide := b.cells, b.wide
	a := make([]float64, n*wide)
	for c := range n {
		a[c*wide+wide-1] = 1e-4
	}
	for i, f := range b.first {
		w := b.weight[i*wide:][:wide]
		for j, v := range w {
			if v == 0 {
				continue
			}
			row := a[(f+j)*wide:][:wide]
			for m := 0; m <= j; m++ {
				row[wide-1-j+m] += float64(v * w[m])
			}
		}
	}
	for c := range n {
		row := a[c*wide:][:wide]
		for m := max(0, wide-1-c); m < wide; m++ {
			d := c - (wide - 1) + m // the column
			other := a[d*wide:][:wide]
			sum := row[m]
			for t := max(0, wide-1-c); t < m; t++ {
				sum -= float64(row[t] * other[wide-1-m+t])
			}
			if m == wide-1 {
				row[m] = math.Sqrt(sum)
			} else {
				row[m] = sum / other[wide-1]
			}
		}
	}
	return solver{b, a}
}

// explained is how much of each signal's squared length the cells account for.
// scratch has room for the cells.
func (s solver) explained(signals []lane, scratch []lane) (total lane) {
	wide := s.wide
	y := scratch[:s.cells]
	clear(y)
	for i := range signals {
		v, f := &signals[i], s.first[i]
		for j, w := range s.weight[i*wide:][:wide] {
			if w == 0 {
				continue
			}
			at := &y[f+j]
			for k := range at {
				at[k] += float64(w * v[k])
			}
		}
	}
	for c := range y {
		row, own := s.root[c*wide:][:wide], &y[c]
		for m := max(0, wide-1-c); m < wide-1; m++ {
			r, before := row[m], &y[c-(wide-1)+m]
			for k := range own {
				own[k] -= float64(r * before[k])
			}
		}
		inverse := 1 / row[wide-1]
		for k := range own {
			own[k] *= inverse
			total[k] += float64(own[k] * own[k])
		}
	}
	return total
}

// residual is what of the sketch a kernel on a lattice leaves unexplained, per
// degree of freedom, in units of what rounding to 8 bits leaves.
func (s *sketch) residual(k kernel, l lattice) float64 { return s.residualBy(k, l, 2) }

// roughly is residual judged by half of the signals.
func (s *sketch) roughly(k kernel, l lattice) float64 { return s.residualBy(k, l, 1) }

func (s *sketch) residualBy(k kernel, l lattice, bundles int) float64 {
	b, _ := project(k, l, s.size)
	fit := newSolver(b)
	scratch := make([]lane, b.cells)
	left := 0.0
	for i := range bundles {
		for j, e := range fit.explained(s.bundle[i], scratch) {
			left += math.Max(0, s.sum[i][j]-e)
		}
	}
	return left / (float64(bundles*width) * math.Max(1, float64(s.size-b.cells)))
}
