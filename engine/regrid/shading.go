package regrid

import "math"

// This file evens out the light in a photograph. A lens darkens the corners
// and a lamp one side; both change little from one cell to the next, so that
// neighbouring cells of nearly one colour show the slope of the light.

// light is how bright the light is over the grid: 1 plus a polynomial of x, y,
// x², xy, y² with x and y from -1 to 1.
type light [5]float64

func (l light) terms(x, y float64) [5]float64 { return [5]float64{x, y, x * x, x * y, y * y} }

// at is the light at a cell.
func (l light) at(x, y int, s sampled) float64 {
	sum := 0.0
	for i, t := range l.terms(l.place(x, s.w), l.place(y, s.h)) {
		sum += float64(l[i] * t)
	}
	return math.Max(0.2, 1+sum)
}

func (light) place(i, n int) float64 { return (float64(2*i+1) - float64(n)) / float64(n) }

// lightOf fits the light to the ratios of neighbouring cells.
func lightOf(s sampled) light {
	type pair struct {
		terms  [5]float64
		ratio  float64
		weight float64
	}
	const alike = 0.08 // more than light changes from cell to cell
	var l light
	var pairs []pair
	add := func(x0, y0, x1, y1 int) {
		a, b := s.colour[y0*s.w+x0], s.colour[y1*s.w+x1]
		sa, sb := float64(a[0]+a[1]+a[2]), float64(b[0]+b[1]+b[2])
		if sa+sb < 120*fine {
			return // dark cells show noise rather than light
		}
		ratio := 2 * (sb - sa) / (sa + sb)
		for c := range 3 {
			d := float64(b[c]-a[c]) - ratio*float64(a[c]+b[c])/2
			if math.Abs(d) > 12*fine {
				return
			}
		}
		if math.Abs(ratio) > alike {
			return
		}
		ta, tb := l.terms(l.place(x0, s.w), l.place(y0, s.h)), l.terms(l.place(x1, s.w), l.place(y1, s.h))
		p := pair{ratio: ratio, weight: (sa + sb) * (sa + sb)}
		for i := range ta {
			p.terms[i] = tb[i] - ta[i]
		}
		pairs = append(pairs, p)
	}
	for y := range s.h {
		for x := range s.w {
			if x > 0 {
				add(x-1, y, x, y)
			}
			if y > 0 {
				add(x, y-1, x, y)
			}
		}
	}
	if len(pairs) < 40 {
		return light{}
	}
	for range 4 { // outliers are left out in turn: neighbours that aren't of one colour
		var a [5][6]float64
		for i := range 5 {
			a[i][i] = 1e-9
		}
		for _, p := range pairs {
			off := p.ratio
			for i, t := range p.terms {
				off -= float64(l[i] * t)
			}
			w := p.weight / (1 + float64(off*off)/(0.01*0.01))
			for i := range 5 {
				for j := range 5 {
					a[i][j] += float64(w * p.terms[i] * p.terms[j])
				}
				a[i][5] += float64(w * p.terms[i] * p.ratio)
			}
		}
		l = solved(a)
	}
	return l.fromLog(s)
}

// fromLog turns a fit of the logarithm's slope, which ratios are close to,
// into the light itself, by the exponential's series.
func (l light) fromLog(s sampled) light {
	var a [5][6]float64
	for y := range s.h {
		for x := range s.w {
			t := l.terms(l.place(x, s.w), l.place(y, s.h))
			v := 0.0
			for i := range t {
				v += float64(l[i] * t[i])
			}
			value := v + v*v/2 + v*v*v/6
			for i := range 5 {
				for j := range 5 {
					a[i][j] += float64(t[i] * t[j])
				}
				a[i][5] += float64(t[i] * value)
			}
		}
	}
	for i := range 5 {
		a[i][i] += 1e-9
	}
	return solved(a)
}

// solved solves five equations by elimination.
func solved(a [5][6]float64) (out light) {
	for i := range 5 {
		pivot := i
		for j := i + 1; j < 5; j++ {
			if math.Abs(a[j][i]) > math.Abs(a[pivot][i]) {
				pivot = j
			}
		}
		a[i], a[pivot] = a[pivot], a[i]
		if math.Abs(a[i][i]) < 1e-300 {
			return light{}
		}
		for j := range 5 {
			if j == i {
				continue
			}
			f := a[j][i] / a[i][i]
			for k := i; k < 6; k++ {
				a[j][k] -= float64(f * a[i][k])
			}
		}
	}
	for i := range 5 {
		out[i] = a[i][5] / a[i][i]
	}
	return out
}

// evened divides the light out.
func (s sampled) evened(l light) sampled {
	out := sampled{w: s.w, h: s.h, colour: make([][4]int32, len(s.colour))}
	for i, c := range s.colour {
		at := l.at(i%s.w, i/s.w, s)
		for k := range 3 {
			out.colour[i][k] = int32(math.Round(min(float64(c[k])/at, 255*fine)))
		}
		out.colour[i][3] = c[3]
	}
	return out
}
