package regrid

import (
	"fmt"

	"sheetsprite/engine/regrid/pixels"
)

// countedBetween is the grid between four corners where the maker counted its columns
// and rows; how the lens bent it is found.
func countedBetween(r *pixels.Raster, c Corners, count [2]int) (rectified, error) {
	for _, n := range count {
		if n < 1 || n > maxCells {
			return rectified{}, &OptionError{fmt.Sprintf("there are %d × %d cells between the corners, but 1 to %d along each side can be", count[0], count[1], maxCells)}
		}
	}
	through := func(l lens) (b rectified, ok bool) {
		if b.flat, ok = straightened(r, c, l, longestRectified); !ok {
			return rectified{}, false
		}
		sx, sy := sketches(b.flat)
		b.lens = l
		b.grid = placed{x: bestKernel(sx.size, sx.residual, count[0]), y: bestKernel(sy.size, sy.residual, count[1])}
		return b, true
	}
	best, ok := through(unbending(r))
	if !ok {
		return rectified{}, &NotASprite{noSpan}
	}
	if best.grid.dip() < surelyFlat {
		return best, nil
	}
	l := bent(r, c, best.lens, count[0], count[1])
	if l.bend == best.lens.bend {
		return best, nil
	}
	if b, ok := through(l); ok && b.grid.dip() < best.grid.dip()*leastBetter {
		best = b
	}
	return best, nil
}

// noSpan says what is wrong with corners that no picture has.
const noSpan = "the four corners don't span a grid: give them clockwise from the upper left"

// Straightened is what lies within the grid of a photograph, made rectangular, its cells
// square and some pixels large; nil where the grid lies straight in the picture.
func (r *Result) Straightened() *pixels.Raster {
	if r.flat == nil {
		return nil
	}
	w, h := r.Grid.X.Cells, r.Grid.Y.Cells
	side := min(max(1, (r.flat.W+w-1)/w, (r.flat.H+h-1)/h), max(1, 2*longestRectified/max(w, h)))
	out := pixels.NewRaster(w*side, h*side)
	for y := range out.H {
		for x := range out.W {
			out.Set(x, y, r.flat.At((2*x+1)*r.flat.W/(2*out.W), (2*y+1)*r.flat.H/(2*out.H)))
		}
	}
	return out
}
