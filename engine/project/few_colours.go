package project

import (
	"slices"

	"sheetsprite/engine/colour"
)

// fewColours picks n colours for all pictures together. The outline's colour
// is one of them, however few cells it has. Pictures are decoded one after the
// other and again later, so that only one is in memory at a time. nil where
// there are no more than n colours anyway.
func fewColours(inputs []NamedBytes, n int) ([]RGB, error) {
	var all, contour colour.Histogram
	for _, input := range inputs {
		r, err := decodePNG(input)
		if err != nil {
			return nil, in(showName(input.Name), err)
		}
		r.count(&all, &contour)
	}
	counts := all.Counts()
	if len(counts) <= n {
		return nil, nil
	}
	return colour.Reduce(counts, n, colour.Outline(counts, contour.Counts())...), nil
}

// count adds the picture's cells to all, and to contour each cell as often as
// one of its sides is free: next to an empty cell, or at the picture's edge if
// the picture has empty cells at all (else it has no silhouette).
func (r raster) count(all, contour *colour.Histogram) {
	silhouette := slices.ContainsFunc(r.pixels, func(px pixel) bool { return !px.full })
	empty := func(x, y int) bool {
		return x < 0 || y < 0 || x >= r.w || y >= r.h || !r.pixels[y*r.w+x].full
	}
	for i, px := range r.pixels {
		if !px.full {
			continue
		}
		all.Add(px.rgb, 1)
		if !silhouette {
			continue
		}
		x, y := i%r.w, i/r.w
		for _, side := range [][2]int{{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}} {
			if empty(side[0], side[1]) {
				contour.Add(px.rgb, 1)
			}
		}
	}
}
