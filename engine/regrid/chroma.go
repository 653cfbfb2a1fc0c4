package regrid

import "sheetsprite/engine/regrid/pixels"

// chroma is how many pixels a JPEG's samples of colour are wide and high, often.
const chroma = 2

// mayBeChroma says whether flat cells may be but a JPEG's samples of colour, which some
// readers don't smooth: so it is where a cell is one of its blocks, which are flat
// then but for these. There are more colours then than drawings mostly have.
func (g placed) mayBeChroma(r *pixels.Raster) bool {
	if g.x.lattice != whole(r.W/chroma, r.W) || g.y.lattice != whole(r.H/chroma, r.H) {
		return false
	}
	const drawn = 24
	colours := map[[4]int32]bool{}
	for _, c := range flat(r, g.exact[0], g.exact[1]).colour {
		if colours[c] = true; len(colours) > drawn {
			return true
		}
	}
	return false
}
