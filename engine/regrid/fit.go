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
	before = b.project(k, l, pixels)
	return b, before
}

// project makes the matrix anew in the room that b has.
func (b *bands) project(k kernel, l lattice, pixels int) (before int) {
	wide := max(2, int(math.Ceil(2*k.radius))) // a weight at the very end of the radius is 0
	low, high := 0, l.cells-1
	if !l.isWhole(pixels) {
		low = int(math.Floor((0.5-l.start)/l.size - 0.5))
		high = int(math.Ceil((float64(pixels)-0.5-l.start)/l.size - 0.5))
	}
	b.cells = high - low + 1
	b.wide = min(wide, b.cells)
	b.first = room(b.first, pixels)
	b.weight = room(b.weight, pixels*b.wide)
	pixel := 1 / l.size
	for i := range pixels {
		u := (float64(i) + 0.5 - l.start) / l.size // in cells
		from := int(math.Ceil(u - 0.5 - k.radius))
		b.first[i] = min(max(from, low), high+1-b.wide) - low
		w := b.weight[i*b.wide:][:b.wide]
		if from >= low && from+wide <= high+1 { // nearly every pixel
			k.taps(u-0.5-float64(from), pixel, w)
			continue
		}
		clear(w)
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
	return -low
}

// run is how far the pixels go that begin with the same cell as one of them: sums over
// them stay at hand.
func (b *bands) run(from int) (to int) {
	to = from + 1
	for to < len(b.first) && b.first[to] == b.first[from] {
		to++
	}
	return to
}

// room is v with n values, whatever they are.
func room[T any](v []T, n int) []T {
	if cap(v) < n {
		return make([]T, n)
	}
	return v[:n]
}

// solver holds the square root (Cholesky) of a matrix's normal equations.
type solver struct {
	bands
	root    []float64 // row c: wide values, the diagonal last
	scratch []lane    // for the cells
}

// damping is a trace that keeps cells that hardly any pixel shows from running away.
const damping = 1e-4

// prepare prepares least squares.
func (s *solver) prepare() {
	b := &s.bands
	n, wide := b.cells, b.wide
	s.root = room(s.root, n*wide)
	a := s.root
	clear(a)
	for c := range n {
		a[c*wide+wide-1] = damping
	}
	if wide == 2 { // most kernels
		s.rootOfTwo()
		return
	}
	s.rootOfBands()
}

// rootOfBands adds the normal equations up and takes their root.
func (s *solver) rootOfBands() {
	b, a := &s.bands, s.root
	n, wide := b.cells, b.wide
	for from, to := 0, 0; from < len(b.first); from = to {
		to = b.run(from)
		for j := range wide {
			row := a[(b.first[from]+j)*wide:][:wide]
			for m := 0; m <= j; m++ {
				sum := row[wide-1-j+m]
				for i := from * wide; i < to*wide; i += wide {
					sum += float64(b.weight[i+j] * b.weight[i+m])
				}
				row[wide-1-j+m] = sum
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
}

// rootOfTwo is rootOfBands where a pixel shows two cells, all of it written out.
func (s *solver) rootOfTwo() {
	a, weight := s.root, s.weight
	for from, to := 0, 0; from < len(s.first); from = to {
		to = s.run(from)
		row := a[2*s.first[from]:][:4] // of the first cell and the second
		own, both, other := row[1], row[2], row[3]
		for w := weight[2*from : 2*to]; len(w) >= 2; w = w[2:] {
			own += float64(w[0] * w[0])
			both += float64(w[1] * w[0])
			other += float64(w[1] * w[1])
		}
		row[1], row[2], row[3] = own, both, other
	}
	before := 1.0
	for c := range s.cells {
		row := a[2*c:][:2]
		if c > 0 {
			row[0] /= before
			row[1] -= float64(row[0] * row[0])
		}
		before = math.Sqrt(row[1])
		row[1] = before
	}
}

// explained is how much of each signal's squared length the cells account for.
func (s *solver) explained(signals []lane) (total lane) {
	wide := s.wide
	s.scratch = room(s.scratch, s.cells)
	y := s.scratch
	clear(y)
	for from, to := 0, 0; from < len(signals); from = to {
		to = s.run(from)
		for j := range wide {
			y[s.first[from]+j].add(s.weight[from*wide+j:to*wide-wide+j+1], wide, signals[from:to])
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

// add adds signals, each times every so many-th weight.
func (l *lane) add(weights []float64, every int, signals []lane) {
	a0, a1, a2, a3, a4, a5, a6, a7 := l[0], l[1], l[2], l[3], l[4], l[5], l[6], l[7]
	for i := range signals {
		v, w := &signals[i], weights[i*every]
		a0 += float64(w * v[0])
		a1 += float64(w * v[1])
		a2 += float64(w * v[2])
		a3 += float64(w * v[3])
		a4 += float64(w * v[4])
		a5 += float64(w * v[5])
		a6 += float64(w * v[6])
		a7 += float64(w * v[7])
	}
	*l = lane{a0, a1, a2, a3, a4, a5, a6, a7}
}

// residual is what of the sketch a kernel on a lattice leaves unexplained, per
// degree of freedom, in units of what rounding to 8 bits leaves.
func (s *sketch) residual(k kernel, l lattice) float64 { return s.residualBy(k, l, 2) }

// roughly is residual judged by half of the signals.
func (s *sketch) roughly(k kernel, l lattice) float64 { return s.residualBy(k, l, 1) }

func (s *sketch) residualBy(k kernel, l lattice, bundles int) float64 {
	fit := &s.fit
	fit.project(k, l, s.size)
	fit.prepare()
	left := 0.0
	for i := range bundles {
		for j, e := range fit.explained(s.bundle[i]) {
			left += math.Max(0, s.sum[i][j]-e)
		}
	}
	return left / (float64(bundles*width) * math.Max(1, float64(s.size-fit.bands.cells)))
}
