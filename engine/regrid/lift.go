package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file takes away what was laid behind a drawing after it was enlarged: a
// pixel at a smooth edge is some of the drawing's and some of the ground's, and
// passes for blur while the ground is taken for cells.

// lifted is the picture r as it was before the ground was laid behind it, so far
// as the cells found say what is transparent.
func lifted(r *pixels.Raster, s sampled, x, y axisFit, ground func(x, y int) [3]float64) *pixels.Raster {
	xs, beforeX := project(x.kernel, x.lattice, r.W)
	ys, beforeY := project(y.kernel, y.lattice, r.H)
	out := pixels.NewRaster(r.W, r.H)
	out.Shrunk = r.Shrunk
	line := make([]float64, s.w) // how much of each column's cells is opaque here
	for row := range r.H {
		clear(line)
		for j := range ys.wide {
			w := ys.weight[row*ys.wide+j]
			cy := min(max(ys.first[row]+j-beforeY, 0), s.h-1)
			for cx := range line {
				if s.colour[cy*s.w+cx][3] >= 128*fine {
					line[cx] += w
				}
			}
		}
		for col := range r.W {
			alpha := 0.0
			for i := range xs.wide {
				cx := min(max(xs.first[col]+i-beforeX, 0), s.w-1)
				alpha += float64(xs.weight[col*xs.wide+i] * line[cx])
			}
			alpha = math.Min(math.Max(alpha, 0), 1)
			p, top, g := r.At(col, row), math.Round(alpha*255), ground(col, row)
			var q [4]uint8
			for c, v := range p[:3] {
				q[c] = uint8(math.Round(math.Min(math.Max(float64(v)-float64(g[c]*(1-alpha)), 0), top)))
			}
			q[3] = uint8(top)
			out.Set(col, row, q)
		}
	}
	return out
}

// withoutGround takes the cells' colours from the picture without its ground, with
// the kernel with which cells and ground, drawn again, come closest. empty takes
// the colour from cells in which it sees the ground.
func withoutGround(r *pixels.Raster, s sampled, x, y axisFit, ground func(x, y int) [3]float64, empty func(s sampled, x, y axisFit)) (sampled, axisFit, axisFit) {
	best, bestX, bestY, least := s, x, y, int64(math.MaxInt64)
	for _, k := range []kernel{x.kernel, linear, cubic, sharp, lanczos} {
		x.kernel, y.kernel = k, k
		again := s
		for range 2 { // the second time with better knowledge of what is empty
			picture := lifted(r, again, x, y, ground)
			again = sample(picture, x, y)
			empty(again, x, y)
			if m := missed(picture, again, x, y); m < least-least/50 {
				best, bestX, bestY, least = again, x, y, m
			}
		}
	}
	return best, bestX, bestY
}
