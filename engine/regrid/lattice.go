package regrid

import "math"

// lattice says where cells lie along an axis.
type lattice struct {
	size  float64 // of a cell, in pixels
	start float64 // where cell 0 begins, in pixels from the picture's edge
	cells int     // cells 0 to cells-1 are those in the grid
}

// whole is the lattice of n cells that fill size pixels.
func whole(n, size int) lattice { return lattice{float64(size) / float64(n), 0, n} }

// isWhole says whether the lattice fills size pixels exactly.
func (l lattice) isWhole(size int) bool {
	return l.start == 0 && l.size == float64(size)/float64(l.cells)
}

// cropped is the lattice of the cells of which at least half lies inside;
// start may be of any cell.
func cropped(size, start float64, pixels int) lattice {
	const slack = 1e-6 // exactly half counts
	first := math.Ceil(-start/size - 0.5 - slack)
	start += float64(first * size)
	n := math.Floor((float64(pixels)-start)/size + 0.5 + slack)
	return lattice{size, start, int(n)}
}
