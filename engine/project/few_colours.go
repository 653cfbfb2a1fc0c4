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
	return colour.Reduce(counts, n, outline(counts, contour.Counts())...), nil
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

// outline is the colour to keep: the one on most free sides; in pictures
// without a silhouette the darkest one of which there is at least a hundredth.
// Colours are first grouped by the upper 4 bits of each channel, so that the
// noise of a photograph or of lossy compression doesn't scatter the outline;
// of the best group the most frequent colour is taken.
func outline(all, contour []colour.Count) []RGB {
	if groups := group(contour); len(groups) > 0 {
		return []RGB{slices.MaxFunc(groups, func(a, b cluster) int { return a.cells - b.cells }).top.Colour}
	}
	total := 0
	for _, c := range all {
		total += c.Cells
	}
	dark := slices.DeleteFunc(group(all), func(g cluster) bool { return g.cells*100 < total })
	if len(dark) == 0 {
		return nil
	}
	return []RGB{slices.MinFunc(dark, func(a, b cluster) int { return light(a.top.Colour) - light(b.top.Colour) }).top.Colour}
}

// cluster is a group of similar colours.
type cluster struct {
	cells int
	top   colour.Count // the most frequent one
}

// group puts colours that agree in the upper 4 bits of each channel together;
// in the order in which the groups first appear.
func group(counts []colour.Count) []cluster {
	var groups []cluster
	index := map[RGB]int{}
	for _, c := range counts {
		key := RGB{R: c.Colour.R >> 4, G: c.Colour.G >> 4, B: c.Colour.B >> 4}
		i, ok := index[key]
		if !ok {
			i = len(groups)
			index[key] = i
			groups = append(groups, cluster{})
		}
		groups[i].cells += c.Cells
		if c.Cells > groups[i].top.Cells {
			groups[i].top = c
		}
	}
	return groups
}

// light is a colour's luminance in units of 1e-4 × colour.FullLinear, with the
// weights of IEC 61966-2-1.
func light(c RGB) int {
	return 2126*int(colour.Linear(c.R)) + 7152*int(colour.Linear(c.G)) + 722*int(colour.Linear(c.B))
}
