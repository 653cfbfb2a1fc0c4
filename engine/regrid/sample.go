package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file takes a colour from each cell.

// fine is the unit of sampled colours: 1/fine of a step of 8 bits.
const fine = 16

// sampled are the colours of a grid's cells: red, green, blue, alpha, times
// fine, premultiplied.
type sampled struct {
	w, h   int
	colour [][4]int32
}

// spots says, for each cell along an axis, at which pixels it is looked at and
// how much each cell weighs there on average.
type spots struct {
	pixels [][]int
	mix    bands // cells to cells; first is a cell of the lattice, which may be -before
	before int
}

// mostSpots bounds how many pixels of a cell are looked at along each axis: a
// median of 7×7 has long ceased to gain from more.
const mostSpots = 7

// spotsOf chooses the pixels around each cell's middle that other cells hardly
// reach.
func spotsOf(f axisFit, pixels int) spots {
	rows, before := project(f.kernel, f.lattice, pixels)
	s := spots{pixels: make([][]int, f.cells), before: before}
	s.mix = bands{cells: rows.cells, wide: rows.wide + 2, first: make([]int, f.cells)}
	s.mix.wide = min(s.mix.wide, rows.cells)
	s.mix.weight = make([]float64, f.cells*s.mix.wide)
	reach := f.clear()
	for c := range f.cells {
		middle := f.start + float64((float64(c)+0.5)*f.size)
		s.pixels[c] = around(middle, reach, pixels)
		low := rows.first[s.pixels[c][0]]
		s.mix.first[c] = min(low, rows.cells-s.mix.wide)
		for _, p := range s.pixels[c] {
			for j := range rows.wide {
				at := rows.first[p] + j - s.mix.first[c]
				if at < s.mix.wide {
					s.mix.weight[c*s.mix.wide+at] += rows.weight[p*rows.wide+j] / float64(len(s.pixels[c]))
				}
			}
		}
	}
	return s
}

// clear is how far from a cell's middle, in pixels, its colour stands nearly
// alone.
func (f axisFit) clear() float64 {
	switch f.kernel.name {
	case box.name, area.name:
		return math.Max(0, (f.size-float64(f.line))/2-math.Min(1, f.size/8)-0.5)
	case faint.name:
		return 0.35 * f.size
	case soft.name:
		return 0.25 * f.size
	case medium.name:
		return 0.2 * f.size
	case softer.name, softest.name:
		return 0.12 * f.size
	}
	return 0.1 * f.size
}

// around lists the pixels whose centres lie within reach of the middle, evenly
// spread and at most mostSpots; at least the nearest one.
func around(middle, reach float64, pixels int) []int {
	within := func(p float64) int { return int(min(max(p, 0), float64(pixels-1))) }
	low, high := math.Ceil(middle-reach-0.5), math.Floor(middle+reach-0.5)
	if high <= low {
		return []int{within(math.Floor(middle - 1e-9))}
	}
	count := min(mostSpots, int(high-low)+1)
	list := make([]int, 0, count)
	for i := range count {
		p := within(math.Round(low + (high-low)*float64(i)/float64(count-1)))
		if len(list) == 0 || list[len(list)-1] != p {
			list = append(list, p)
		}
	}
	return list
}

// sample takes each cell's colour: the median of what its spots show, from
// which is taken what its neighbours add there, clipping included.
func sample(r *pixels.Raster, x, y axisFit) sampled {
	xs, ys := spotsOf(x, r.W), spotsOf(y, r.H)
	return fromSeen(seenAt(r, xs, ys), xs, ys)
}

// seenAt are the medians of what the spots show.
func seenAt(r *pixels.Raster, xs, ys spots) [][4]float64 {
	seen := make([][4]float64, 0, len(xs.pixels)*len(ys.pixels))
	var values [4][]uint8
	for _, rows := range ys.pixels {
		for _, cols := range xs.pixels {
			for c := range values {
				values[c] = values[c][:0]
			}
			for _, row := range rows {
				for _, col := range cols {
					p := r.Pix[4*(row*r.W+col):][:4]
					for c, v := range p {
						values[c] = append(values[c], v)
					}
				}
			}
			var middle [4]float64
			for c := range values {
				middle[c] = median(values[c])
			}
			seen = append(seen, middle)
		}
	}
	return seen
}

// fromSeen are the cells' own colours.
func fromSeen(seen [][4]float64, xs, ys spots) sampled {
	out := sampled{w: len(xs.pixels), h: len(ys.pixels), colour: make([][4]int32, len(seen))}
	for i, c := range unmixed(seen, xs, ys) {
		for j, v := range c {
			out.colour[i][j] = int32(math.Round(float64(v * fine)))
		}
	}
	return out
}

// median is the middle value, or the mean of the middle half where there are
// many.
func median(v []uint8) float64 {
	low, high := slices.Min(v), slices.Max(v)
	if low == high {
		return float64(low)
	}
	var counts [256]int // quicker than sorting, as most values are close to one another
	for _, x := range v {
		counts[x]++
	}
	n := len(v)
	from, to := n/4, n-n/4
	sum, at := 0, 0
	for x := int(low); x <= int(high) && at < to; x++ {
		next := at + counts[x]
		sum += x * max(0, min(next, to)-max(at, from))
		at = next
	}
	return float64(sum) / float64(to-from)
}

// unmixed solves for the cells' own colours by correcting them, time and again,
// by what rendering them misses; a picture cannot hold less than 0 or more
// than 255, nor a colour more than its alpha.
func unmixed(seen [][4]float64, xs, ys spots) [][4]float64 {
	w, h := len(xs.pixels), len(ys.pixels)
	if xs.alone() && ys.alone() {
		return seen
	}
	own := slices.Clone(seen)
	half := make([][4]float64, w*h)
	const still = 128 // of a step of 8 bits: what moves by less is left
	for turn, moving := 0, true; turn < 12 && moving; turn++ {
		moving = false
		for cy := range h { // along x
			for cx := range w {
				half[cy*w+cx] = mixed(xs, cx, own[cy*w:][:w], 1)
			}
		}
		for cy := range h {
			for cx := range w {
				got := mixed(ys, cy, half[cx:], w)
				i := cy*w + cx
				alpha := min(max(got[3], 0), 255)
				for c := range got {
					top := alpha
					if c == 3 {
						top = 255
					}
					before := own[i][c]
					v := min(max(before+(seen[i][c]-min(max(got[c], 0), top)), 0), 255)
					moving = moving || int(still*math.Abs(v-before)) > 0
					own[i][c] = v
				}
			}
		}
	}
	return own
}

// alone says whether no cell shows at another's spots.
func (s spots) alone() bool {
	for c := range s.pixels {
		for j := range s.mix.wide {
			v := s.mix.weight[c*s.mix.wide+j]
			if s.mix.first[c]+j != c+s.before && math.Abs(v) > 1e-9 {
				return false
			}
		}
	}
	return true
}

// mixed is what cell c's spots show of a row of cells, each so many after the one
// before; beyond its ends the last cells repeat.
func mixed(s spots, c int, row [][4]float64, every int) [4]float64 {
	var red, green, blue, alpha float64
	last := (len(row) - 1) / every
	at := s.mix.first[c] - s.before
	for j, v := range s.mix.weight[c*s.mix.wide:][:s.mix.wide] {
		if v == 0 {
			continue
		}
		p := &row[every*min(max(at+j, 0), last)]
		red += float64(v * p[0])
		green += float64(v * p[1])
		blue += float64(v * p[2])
		alpha += float64(v * p[3])
	}
	return [4]float64{red, green, blue, alpha}
}
