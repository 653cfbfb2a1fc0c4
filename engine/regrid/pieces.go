package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file takes a sheet's pieces out of its ground, before any grid is known.

// sheetGround is the colour on most of the picture's rim.
func sheetGround(r *pixels.Raster) (ground [4]uint8, ok bool) {
	var rim [][4]uint8
	for x := range r.W {
		rim = append(rim, r.At(x, 0), r.At(x, r.H-1))
	}
	for y := range r.H {
		rim = append(rim, r.At(0, y), r.At(r.W-1, y))
	}
	for c := range ground {
		v := make([]uint8, len(rim))
		for i, p := range rim {
			v[i] = p[c]
		}
		slices.Sort(v)
		ground[c] = v[len(v)/2]
	}
	bare := 0
	for _, p := range rim {
		if !stands(p, ground) {
			bare++
		}
	}
	return ground, 100*bare >= leastBare*len(rim)
}

// stands says whether a pixel is something before the ground.
func stands(p, ground [4]uint8) bool {
	for c, v := range p {
		if abs(int(v)-int(ground[c])) > offSheet {
			return true
		}
	}
	return false
}

// piecesOf are the sets of pixels before the ground that hang together.
func piecesOf(r *pixels.Raster, ground [4]uint8) []island {
	mask := Result{W: r.W, H: r.H, Cells: make([]int, r.W*r.H)}
	for i := range mask.Cells {
		if stands([4]uint8(r.Pix[4*i:]), ground) {
			mask.Cells[i] = 1
		}
	}
	list := mask.islands()
	return slices.DeleteFunc(list, func(s island) bool { return len(s.cells) < speck })
}

// usualSide is the side of a cell of most of the larger pieces, in the sheet's pixels; 0
// where no grid shows in them. by is how many of those a pixel of the pieces has.
func usualSide(r *pixels.Raster, pieces []island, by int, ground [4]uint8) float64 {
	const looked = 12 // pieces are enough
	largest := slices.Clone(pieces)
	slices.SortStableFunc(largest, func(a, b island) int { return len(b.cells) - len(a.cells) })
	var sides []float64
	for i := range largest[:min(looked, len(largest))] {
		if g, ok := straightGrid(cutOut(r, largest, i, by, 4, ground).flat); ok {
			sides = append(sides, math.Min(g.x.size, g.y.size))
		}
	}
	if len(sides) == 0 {
		return 0
	}
	return middleOf(sides)
}

// cutOut is one of the pieces with a margin of about a cell of ground: what belongs to
// other pieces is taken away.
func cutOut(r *pixels.Raster, pieces []island, i, by int, cell float64, ground [4]uint8) own {
	margin := int(cell) + 2*by
	onSheet := func(p island, margin int) rectangle {
		return rectangle{max(0, p.x0*by-margin), max(0, p.y0*by-margin), min(r.W, p.x1*by+margin), min(r.H, p.y1*by+margin)}
	}
	a := onSheet(pieces[i], margin)
	out := own{at: a, flat: pixels.NewRaster(a.x1-a.x0, a.y1-a.y0), ground: ground}
	out.flat.Shrunk = r.Shrunk
	for y := range out.flat.H {
		copy(out.flat.Pix[4*y*out.flat.W:][:4*out.flat.W], r.Pix[4*((y+a.y0)*r.W+a.x0):])
	}
	for j, other := range pieces {
		if j == i || !a.touches(onSheet(other, by), 0) {
			continue
		}
		b := onSheet(other, 2*by)
		for y := max(a.y0, b.y0); y < min(a.y1, b.y1); y++ {
			for x := max(a.x0, b.x0); x < min(a.x1, b.x1); x++ {
				if p := pieces[i]; x < p.x0*by || x >= p.x1*by || y < p.y0*by || y >= p.y1*by {
					out.flat.Set(x-a.x0, y-a.y0, ground)
				}
			}
		}
	}
	return out
}
