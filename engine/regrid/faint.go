package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file looks where a photograph shows so few edges, or its corners are so little
// off, that no number of cells stands out along an axis by itself: that cells are about
// as wide as high tells it then.

// hopeless is a dip so shallow that a number of cells is but a guess.
const hopeless = 0.93

// oblique is how much wider or higher cells may seem, seen aslant.
const oblique = 1.12

// aboutSquare says whether cells that may be seen aslant are as wide as high.
func (g placed) aboutSquare() bool {
	return max(g.x.size, g.y.size) < oblique*min(g.x.size, g.y.size)
}

// faintWithin finds the grid within four corners that may be a little off: once the
// number of cells is supposed, they can be moved to where these are flat, and then the
// grid must show as clearly as any.
func faintWithin(r *pixels.Raster, c Corners) (rectified, bool) {
	b, ok := faintBetween(r, c)
	return b, ok && b.grid.dip() <= leastPhotoDip
}

// faintBetween is the likeliest grid of about square cells between four corners, moved a
// little.
func faintBetween(r *pixels.Raster, c Corners) (b rectified, found bool) {
	l := unbending(r)
	flat, ok := straightened(r, c, l, longestRectified)
	if !ok {
		return rectified{}, false
	}
	supposed, ok := squareGrid(flat)
	if !ok {
		return rectified{}, false
	}
	columns, rows := supposed.x.cells, supposed.y.cells
	b = rectified{flat: flat, grid: supposed, corners: c, lens: l}
	again := rectified{}
	again.corners, again.lens = nudged(r, c, l, columns, rows)
	if again.flat, ok = straightened(r, again.corners, again.lens, longestRectified); ok {
		if again.grid = countedGrid(again.flat, columns, rows); again.grid.dip() < b.grid.dip() {
			b = again
		}
	}
	return b, b.grid.dip() < hopeless
}

// countedGrid is the grid of so many cells that fills a straightened picture.
func countedGrid(flat *pixels.Raster, columns, rows int) placed {
	sx, sy := sketches(flat)
	return placed{x: bestKernel(sx.size, sx.residual, columns), y: bestKernel(sy.size, sy.residual, rows)}
}

// squareGrid is the grid of about square cells that fills a straightened picture, of the
// numbers of cells that come nearest along either axis.
func squareGrid(flat *pixels.Raster) (best placed, found bool) {
	const (
		nearest = 3 // numbers of either axis
		least   = 4 // cells along each
	)
	sx, sy := sketches(flat)
	xs, ys := wholeFits(&sx), wholeFits(&sy)
	ratio := float64(flat.H) / float64(flat.W)
	tried := map[[2]int]bool{}
	columns, rows := map[int]axisFit{}, map[int]axisFit{} // only asked
	deepest := math.Inf(1)
	try := func(n, m int) {
		if tried[[2]int{n, m}] || min(n, m) < least || n > most(sx.size) || m > most(sy.size) {
			return
		}
		if by := float64(m) / (float64(n) * ratio); by > oblique || by < 1/oblique {
			return
		}
		tried[[2]int{n, m}] = true
		if _, ok := columns[n]; !ok {
			columns[n] = bestKernel(sx.size, sx.residual, n)
		}
		if _, ok := rows[m]; !ok {
			rows[m] = bestKernel(sy.size, sy.residual, m)
		}
		// Both must show: of one alone there is always some number that does.
		if d := columns[n].dip * rows[m].dip; max(columns[n].dip, rows[m].dip) < 1 && d < deepest {
			best, found, deepest = placed{x: columns[n], y: rows[m]}, true, d
		}
	}
	for _, x := range xs[:min(nearest, len(xs))] {
		middle := int(math.Round(float64(x.cells) * ratio))
		for by := -1; by <= 1; by++ {
			try(x.cells, middle+by)
		}
	}
	for _, y := range ys[:min(nearest, len(ys))] {
		middle := int(math.Round(float64(y.cells) / ratio))
		for by := -1; by <= 1; by++ {
			try(middle+by, y.cells)
		}
	}
	return best, found
}
