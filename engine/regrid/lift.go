package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file takes away what was laid behind a drawing after it was enlarged: a
// pixel at a smooth edge is some of the drawing's and some of the ground's, and
// passes for blur while the ground is taken for cells.

// lifted draws the picture r as it was before the ground was laid behind it, so
// far as the cells found say what is transparent. Only the pixels that sample and
// missed look at are worked out, a few hundred rows and columns of a large
// picture; the others in out, which is as large as r, stay as they are.
func lifted(out, r *pixels.Raster, s sampled, x, y axisFit, ground func(x, y int) [3]float64) {
	xs, beforeX := project(x.kernel, x.lattice, r.W)
	ys, beforeY := project(y.kernel, y.lattice, r.H)
	cols, rows := lookedAt(x, r, r.W), lookedAt(y, r, r.H)
	line := make([]float64, s.w) // how much of each column's cells is opaque here
	for _, row := range rows {
		clear(line)
		for j := range ys.wide {
			w := ys.weight[row*ys.wide+j]
			if w == 0 {
				continue
			}
			cy := min(max(ys.first[row]+j-beforeY, 0), s.h-1)
			for cx := range line {
				if s.colour[cy*s.w+cx][3] >= 128*fine {
					line[cx] += w
				}
			}
		}
		for _, col := range cols {
			alpha := 0.0
			for i := range xs.wide {
				cx := min(max(xs.first[col]+i-beforeX, 0), s.w-1)
				alpha += float64(xs.weight[col*xs.wide+i] * line[cx])
			}
			p := r.Pix[4*(row*r.W+col):][:4]
			switch {
			case alpha >= 1:
				out.Set(col, row, [4]uint8{p[0], p[1], p[2], 255})
				continue
			case alpha <= 0:
				out.Set(col, row, [4]uint8{})
				continue
			}
			top, g := math.Floor(float64(alpha*255)+0.5), ground(col, row)
			q := [4]uint8{3: uint8(top)}
			for c, v := range p[:3] {
				q[c] = uint8(min(max(float64(v)-float64(g[c]*(1-alpha)), 0), top) + 0.5)
			}
			out.Set(col, row, q)
		}
	}
}

// lookedAt lists, in order, the pixels along an axis that sample looks at with the
// axis's kernel, and those that missed compares.
func lookedAt(f axisFit, r *pixels.Raster, size int) []int {
	in := make([]bool, size)
	step := spacing(r)
	for i := step / 2; i < size; i += step {
		in[i] = true
	}
	for _, list := range spotsOf(f, size).pixels {
		for _, p := range list {
			in[p] = true
		}
	}
	var all []int
	for i, yes := range in {
		if yes {
			all = append(all, i)
		}
	}
	return all
}

// withoutGround takes the cells' colours from the picture without its ground, with
// the kernel with which cells and ground, drawn again, come closest. empty takes
// the colour from cells in which it sees the ground.
func withoutGround(r *pixels.Raster, s sampled, x, y axisFit, ground func(x, y int) [3]float64, empty func(s sampled, x, y axisFit)) (sampled, axisFit, axisFit) {
	best, bestX, bestY, least := s, x, y, int64(math.MaxInt64)
	picture := pixels.NewRaster(r.W, r.H)
	found := x.kernel.name
	for i, k := range []kernel{x.kernel, linear, cubic, sharp, lanczos} {
		if i > 0 && k.name == found {
			continue
		}
		x.kernel, y.kernel = k, k
		again := s
		for range 2 { // the second time with better knowledge of what is empty
			lifted(picture, r, again, x, y, ground)
			again = sample(picture, x, y)
			empty(again, x, y)
			if m := missed(picture, again, x, y); m < least-least/50 {
				best, bestX, bestY, least = again, x, y, m
			}
		}
	}
	return best, bestX, bestY
}
