package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file draws the cells found once more, as the picture was, and compares.
// A least-squares fit takes cut-off overshoot for blur: programs that enlarge
// sharply can't write more than 255 nor less than 0. Drawn again, cut off in
// the same way, the true kernel shows.

const (
	// doubtful is what a fit leaves where it is worth comparing, in the units of
	// residual: a kernel that is right leaves 1 to 4.
	doubtful = 8
	// compared is at how many pixels, about.
	compared = 4000
	// fewCells bounds the drawings for which every kernel is tried.
	fewCells = 64 * 64
)

// byRendering takes the colours with the kernel with which the cells, drawn
// again, come closest to the picture.
func byRendering(r *pixels.Raster, x, y axisFit) (sampled, axisFit, axisFit) {
	best := sample(r, x, y)
	if x.left < doubtful && y.left < doubtful || x.line+y.line > 0 || x.cells*y.cells > fewCells {
		return best, x, y
	}
	least := missed(r, best, x, y)
	bestX, bestY := x, y
	seen := map[[2]float64][][4]float64{} // kernels that blur alike are looked at in the same places
	for _, k := range kernels {
		if k.name == box.name || k.name == x.kernel.name && k.name == y.kernel.name {
			continue
		}
		x.kernel, y.kernel = k, k
		xs, ys := spotsOf(x, r.W), spotsOf(y, r.H)
		reach := [2]float64{x.clear(), y.clear()}
		if seen[reach] == nil {
			seen[reach] = seenAt(r, xs, ys)
		}
		s := fromSeen(seen[reach], xs, ys)
		if m := missed(r, s, x, y); m < least-least/50 {
			best, least, bestX, bestY = s, m, x, y
		}
	}
	return best, bestX, bestY
}

// missed is the sum, over pixels spread over the picture, of the squares of
// what the cells drawn again differ by.
func missed(r *pixels.Raster, s sampled, x, y axisFit) int64 {
	xs, beforeX := project(x.kernel, x.lattice, r.W)
	ys, beforeY := project(y.kernel, y.lattice, r.H)
	step := spacing(r)
	total := int64(0)
	for row := step / 2; row < r.H; row += step {
		for col := step / 2; col < r.W; col += step {
			var sum [4]float64
			for j := range ys.wide {
				wy := ys.weight[row*ys.wide+j]
				if wy == 0 {
					continue
				}
				cy := min(max(ys.first[row]+j-beforeY, 0), s.h-1)
				for i := range xs.wide {
					w := wy * xs.weight[col*xs.wide+i]
					if w == 0 {
						continue
					}
					c := s.colour[cy*s.w+min(max(xs.first[col]+i-beforeX, 0), s.w-1)]
					for k := range sum {
						sum[k] += float64(w * float64(c[k]))
					}
				}
			}
			p := r.Pix[4*(row*r.W+col):][:4]
			alpha := math.Min(math.Max(sum[3], 0), 255*fine)
			for k, v := range sum {
				top := alpha
				if k == 3 {
					top = 255 * fine
				}
				d := int64(math.Round(math.Min(math.Max(v, 0), top))) - int64(p[k])*fine
				total += d * d
			}
		}
	}
	return total
}

// spacing is how many pixels lie between those that missed compares.
func spacing(r *pixels.Raster) int {
	step := max(1, int(math.Sqrt(float64(r.W*r.H)/compared)))
	if step > 1 && step%2 == 0 {
		step++ // so as not to fall in with even cells
	}
	return step
}
