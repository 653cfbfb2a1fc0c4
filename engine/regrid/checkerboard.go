package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds the squares of two greys that programs draw behind what is
// transparent, and makes it transparent again.

// board is a checkerboard of two greys.
type board struct {
	side   int // of a square, in pixels
	x, y   int // where one begins
	colour [2]int
}

const (
	smallestSquare, largestSquare = 2, 64
	// greyness is how far a grey's channels may lie apart, and likeness how far a
	// pixel may be from its square's grey: JPEG moves them by a few steps.
	greyness, likeness = 8, 10
	// leastContrast and mostContrast are how far the greys lie apart, of 255.
	leastContrast, mostContrast = 8, 140
	// leastWave is how much of an edge must show the squares; that they are none,
	// disagree says.
	leastWave = 0.2
)

// grey is a pixel's lightness; false where it's coloured or transparent.
func grey(p [4]uint8) (int, bool) {
	low, high := min(p[0], p[1], p[2]), max(p[0], p[1], p[2])
	return int(p[1]), p[3] == 255 && high-low <= greyness
}

// square is 0 or 1 for the square that a pixel lies in.
func (b board) square(x, y int) int {
	return ((x-b.x+b.side*1024)/b.side + (y-b.y+b.side*1024)/b.side) & 1
}

// at is the grey of the square that a pixel lies in.
func (b board) at(x, y int) int {
	return b.colour[b.square(x, y)]
}

// rows says of which grey the squares of even rows of squares are, and of odd ones,
// pixel by pixel.
func (b board) rows(w int) (rows [2][]uint8) {
	for k := range rows {
		rows[k] = make([]uint8, w)
		for x := range rows[k] {
			rows[k][x] = uint8(b.square(x, b.y+k*b.side))
		}
	}
	return rows
}

// boardOf finds a checkerboard behind the drawing; false if there is none.
func boardOf(r *pixels.Raster) (board, bool) {
	a, b, ok := twoGreys(r)
	if !ok {
		return board{}, false
	}
	sign := func(x, y int) float64 {
		v, ok := grey(r.At(x, y))
		switch {
		case ok && abs(v-a) <= likeness && abs(v-a) <= abs(v-b):
			return 1
		case ok && abs(v-b) <= likeness:
			return -1
		}
		return 0
	}
	lines := [4][]float64{make([]float64, r.W), make([]float64, r.W), make([]float64, r.H), make([]float64, r.H)}
	for i := range r.W {
		lines[0][i], lines[1][i] = sign(i, 0), sign(i, r.H-1)
	}
	for i := range r.H {
		lines[2][i], lines[3][i] = sign(0, i), sign(r.W-1, i)
	}
	for i := range lines {
		lines[i] = added(lines[i])
	}
	// The drawing may cover much of one edge, hardly of both that face.
	best2 := func(one, two []float64, side int) (int, float64) {
		p, f := wave(one, side)
		if q, g := wave(two, side); g > f {
			return q, g
		}
		return p, f
	}
	best, fit := board{}, 0.0
	for side := smallestSquare; side <= min(largestSquare, r.W/3, r.H/3); side++ {
		x, fx := best2(lines[0], lines[1], side)
		y, fy := best2(lines[2], lines[3], side)
		if f := min(fx, fy); f > fit {
			best, fit = board{side: side, x: x, y: y}, f
		}
	}
	if fit < leastWave {
		return board{}, false
	}
	best.colour = [2]int{a, b}
	if disagree(r, best) > disagree(r, board{best.side, best.x, best.y, [2]int{b, a}}) {
		best.colour = [2]int{b, a}
	}
	if disagree(r, best) > 0.1 {
		return board{}, false
	}
	return best, true
}

func abs(v int) int { return max(v, -v) }

// twoGreys are the two most frequent greys along the picture's edges.
func twoGreys(r *pixels.Raster) (a, b int, ok bool) {
	var counts [256]int
	all := 0
	see := func(x, y int) {
		all++
		if v, ok := grey(r.At(x, y)); ok {
			counts[v]++
		}
	}
	for x := range r.W {
		see(x, 0)
		see(x, r.H-1)
	}
	for y := range r.H {
		see(0, y)
		see(r.W-1, y)
	}
	around := func(v int) (sum int) {
		for u := max(0, v-4); u <= min(255, v+4); u++ {
			sum += counts[u]
		}
		return sum
	}
	best := func(not int) (at int) {
		most := -1
		for v := range counts {
			if not >= 0 && abs(v-not) < leastContrast {
				continue
			}
			if n := around(v)*8 + counts[v]; n > most {
				most, at = n, v
			}
		}
		return at
	}
	a = best(-1)
	b = best(a)
	d := abs(a - b)
	return a, b, d >= leastContrast && d <= mostContrast && 10*around(a) >= all && 10*around(b) >= all
}

// wave is the phase of a square wave in a line of signs, and how well it fits:
// 1 if every sign agrees or every one disagrees. The line is given as the sums of
// its first 0, 1, 2 … signs.
func wave(sums []float64, side int) (phase int, fit float64) {
	n := len(sums) - 1
	for p := range side {
		sum, sign := 0.0, -1.0 // of the square before the first
		for from, to := 0, p; from < n; from, to = to, min(to+side, n) {
			sum += sign * (sums[to] - sums[from])
			sign = -sign
		}
		if f := math.Abs(sum) / float64(n); f > fit {
			phase, fit = p, f
		}
	}
	return phase, fit
}

// added are a line's sums, of none of its values to all of them.
func added(line []float64) []float64 {
	sums := make([]float64, len(line)+1)
	for i, v := range line {
		sums[i+1] = sums[i] + v
	}
	return sums
}

// disagree is the share of the pixels at the edges, of those of the board's
// greys, that aren't as it says.
func disagree(r *pixels.Raster, b board) float64 {
	wrong, all := 0, 0
	see := func(x, y int) {
		of, shows := b.sees(r, x, y)
		if of {
			all++
		}
		if of && !shows {
			wrong++
		}
	}
	for x := range r.W {
		see(x, 0)
		see(x, r.H-1)
	}
	for y := range r.H {
		see(0, y)
		see(r.W-1, y)
	}
	return float64(wrong) / float64(max(1, all))
}

// sees says whether a pixel is of one of the board's greys, and whether of the one
// that the board has there.
func (b board) sees(r *pixels.Raster, x, y int) (of, shows bool) {
	v, ok := grey(r.At(x, y))
	if !ok || abs(v-b.colour[0]) > likeness && abs(v-b.colour[1]) > likeness {
		return false, false
	}
	return true, abs(v-b.at(x, y)) <= likeness
}

// mean is the grey that stands for both.
func (b board) mean() int { return (b.colour[0] + b.colour[1]) / 2 }

// flattened is the picture with the board's pixels of one grey, and which they
// are. Where something of the board's greys stands before it, only every other
// square agrees: such a pixel stays, since it touches one of its grey that
// disagrees.
func (b board) flattened(r *pixels.Raster) (*pixels.Raster, []bool) {
	shows := make([]bool, r.W*r.H)
	var stack []int       // of the board's greys, but not as it says
	var near [256][2]bool // which of its greys each grey is like
	for v := range near {
		near[v] = [2]bool{abs(v-b.colour[0]) <= likeness, abs(v-b.colour[1]) <= likeness}
	}
	out := pixels.NewRaster(r.W, r.H)
	out.Shrunk = r.Shrunk
	squares := b.rows(r.W)
	for y := range r.H {
		line, shown := r.Pix[4*r.W*y:][:4*r.W], shows[r.W*y:][:r.W]
		for x, square := range squares[b.square(b.x, y)] {
			v, ok := grey([4]uint8(line[4*x:]))
			switch like := &near[v]; {
			case !ok:
			case like[square]:
				shown[x] = true
			case like[1-square]:
				stack = append(stack, y*r.W+x)
			}
		}
	}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		x, y := i%r.W, i/r.W
		for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+d[0], y+d[1]
			if u < 0 || v < 0 || u >= r.W || v >= r.H || !shows[v*r.W+u] {
				continue
			}
			// A blend at the drawing's edge is close to a square's grey at times;
			// what is exactly alike is one thing.
			if r.At(x, y) == r.At(u, v) {
				shows[v*r.W+u] = false
				stack = append(stack, v*r.W+u)
			}
		}
	}
	mean := uint8(b.mean())
	for i, s := range shows {
		p := r.Pix[4*i:][:4]
		if s {
			p = []uint8{mean, mean, mean, 255}
		}
		*(*[4]uint8)(out.Pix[4*i:]) = [4]uint8(p)
	}
	return out, shows
}

// behind is a board that was taken away.
type behind struct {
	board
	shows []bool         // which pixels showed it
	was   *pixels.Raster // the picture with the board
}

// resampled takes the cells' colours from the picture without its board.
func (b behind) resampled(s sampled, x, y axisFit) (sampled, axisFit, axisFit) {
	return withoutGround(b.was, s, x, y, func(x, y int) [3]float64 {
		v := float64(b.at(x, y))
		return [3]float64{v, v, v}
	}, func(s sampled, x, y axisFit) {
		s.emptied(b, x, y, b.was.W, b.was.H)
		s.seenThrough(b, x, y)
	})
}

// seenThrough takes the colour from cells of a square's grey, between others
// perhaps so that the board shows nowhere purely. Where something of the
// drawing is of that grey, as many of its cells lie before squares of the other.
func (s sampled) seenThrough(b behind, x, y axisFit) {
	const near = 16 * fine
	middle := func(a axisFit, cell int) int { return int(a.start + float64((float64(cell)+0.5)*a.size)) }
	for _, g := range b.colour {
		var on []int // of that grey, before a square of it
		off := 0     // before one of the other
		for i, c := range s.colour {
			if c[3] < 128*fine || max(abs(int(c[0])-g*fine), abs(int(c[1])-g*fine), abs(int(c[2])-g*fine)) > near {
				continue
			}
			if b.at(middle(x, i%s.w), middle(y, i/s.w)) == g {
				on = append(on, i)
			} else {
				off++
			}
		}
		if 4*off >= len(on) {
			continue
		}
		for _, i := range on {
			s.colour[i] = [4]int32{}
		}
	}
}

// emptied takes the colour from cells in whose middle the board shows. At the
// drawing's edge blends hide it: there some of it, and its grey, will do.
func (s sampled) emptied(b behind, x, y axisFit, w, h int) {
	shows, mean := b.shows, int32(b.mean()*fine)
	for cy := range s.h {
		rows := around(y.start+float64((float64(cy)+0.5)*y.size), y.size/4, h)
		for cx := range s.w {
			cols := around(x.start+float64((float64(cx)+0.5)*x.size), x.size/4, w)
			board := 0
			for _, row := range rows {
				for _, col := range cols {
					if shows[row*w+col] {
						board++
					}
				}
			}
			c := &s.colour[cy*s.w+cx]
			near := true
			for _, v := range c[:3] {
				near = near && max(v-mean, mean-v) <= 16*fine
			}
			if 2*board > len(rows)*len(cols) || near && board > 0 {
				*c = [4]int32{}
			}
		}
	}
}
