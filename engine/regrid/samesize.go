package regrid

import (
	"math"
	"slices"
)

// unlikeAnyway is a dip so deep that cells aren't as wide as high.
const unlikeAnyway = 0.1

// sameWithin says whether cells are about as wide as high.
func sameWithin(w, h float64) bool { return math.Abs(w-h) < 0.03*w }

// sameSize looks, where noise hides the grid along one axis or both, for cells as wide as
// they are high, of sizes that came near along either: once it is known where to look,
// the place in a cell is found among all.
func sameSize(sx, sy *sketch, xs, ys []axisFit) (best placed, found bool) {
	const (
		sizes = 3   // of each axis
		near  = 0.9 // dip of an axis along which looking further is worth while
		surer = 0.5 // dip that is believed: less than otherwise, for many are tried
	)
	var tried []float64
	least := surer
	for _, f := range slices.Concat(xs[:min(sizes, len(xs))], ys[:min(sizes, len(ys))]) {
		if f.dip > near || f.line > 0 || f.size < leastSize || f.size*3 > float64(min(sx.size, sy.size)) ||
			slices.ContainsFunc(tried, func(t float64) bool { return math.Abs(t-f.size) < 0.02*t }) {
			continue
		}
		tried = append(tried, f.size)
		x := ofSize(sx, f.size)
		if x.dip >= least {
			continue
		}
		if y := ofSize(sy, x.size); y.dip < least && sameWithin(x.size, y.size) {
			best, found, least = placed{x: x, y: y}, true, max(x.dip, y.dip)
		}
	}
	if found {
		best.x, best.y = best.x.settled(sx), best.y.settled(sy)
	}
	return best, found
}
