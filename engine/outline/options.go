package outline

import (
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Options are what Build needs to know beside the forest.
type Options struct {
	Cell    shape.Um // cell side, positive
	Stocks  []Stock  // Stocks[c-1] is what stack.Colour c is cut from
	Corners project.Corners
	Join    shape.Um // side of all joins, rounded up to even; 0: as cell and stock ask
	Backer  *Backer  // nil: none
	Floats  []int    // heights of the layout that are lifted off what they rest on
}

// Stock is what Build needs to know of sheet goods. Colours with the same
// Index share their layers.
type Stock struct {
	Index      int      // into the project's stocks, or whatever the caller numbers
	LeastStrip shape.Um // narrowest strip that holds
	Kerf       shape.Um // width the cut removes
}

// Backer is the lowest part: the silhouette grown by the border.
type Backer struct {
	Stock  Stock
	Border shape.Um     // 0 or more
	Edge   project.Edge // how convex corners look; nothing to see where Border is 0
	FillIn bool         // enclosed empty cells are filled, else holes are shrunk by the border
}

// LeastOpening is the least side of the square taken out of a corner that
// stays apart; a little more than two kerfs, where that is wider. A hand's and a
// machine's error is below it (common practice, no source).
const LeastOpening = shape.Um(100)

// Joinable is the side of the join of a stock with that least strip, in µm,
// even, and whether the corner can be joined at all: a join may take at most
// half a cell. override is the side the maker asks for, 0 for none.
//
// The narrowest place of the square is its half diagonal on either side, side/√2
// in all, so the side is √2 × the least strip, and at least a quarter of the
// cell so that it doesn't look like a thread.
func Joinable(cell, leastStrip, override shape.Um) (side shape.Um, ok bool) {
	side = override
	if side <= 0 {
		// ⌈cell/4⌉ and ⌈√(2·strip²)⌉, then up to even.
		side = max((cell+3)/4, rootUp(2*shape.Um2(leastStrip)*shape.Um2(leastStrip)))
	}
	side += side % 2
	return side, side > 0 && 2*side <= cell
}

// rootUp is the least s with s² ≥ n, by Newton's method on whole numbers.
func rootUp(n shape.Um2) shape.Um {
	if n <= 0 {
		return 0
	}
	s := n
	for t := (s + 1) / 2; t < s; t = (s + n/s) / 2 {
		s = t
	}
	if s*s < n { // s is ⌊√n⌋
		s++
	}
	return shape.Um(s)
}

// opening is the side of the square taken out of a corner that stays apart,
// even, and at most half a cell, so that the cell's middle always stands.
//
// What is left of the two cells is half a side apart along both axes, and each
// cut runs half a kerf outside its cell (an odd kerf's half rounded up). So the
// two cuts pass one another only where the side is more than two kerfs.
func opening(cell, kerf shape.Um) shape.Um {
	side := LeastOpening
	if kerf > 0 {
		side = max(side, 4*((kerf+1)/2)+2)
	}
	return min(side, cell/4*2)
}
