package colour

import "slices"

// Outline is the colour of the line round a drawing, or none: the one on most
// free sides, which contour counts; where contour is empty, the darkest of
// which there is at least a hundredth of all.
//
// Colours are first grouped by the upper 4 bits of each channel, so that the
// noise of a photograph or of lossy compression doesn't scatter the outline;
// of the best group the most frequent colour is taken.
func Outline(all, contour []Count) []RGB {
	if groups := alike(contour); len(groups) > 0 {
		return []RGB{slices.MaxFunc(groups, func(a, b alikes) int { return a.cells - b.cells }).top.Colour}
	}
	total := 0
	for _, c := range all {
		total += c.Cells
	}
	dark := slices.DeleteFunc(alike(all), func(g alikes) bool { return g.cells*100 < total })
	if len(dark) == 0 {
		return nil
	}
	return []RGB{slices.MinFunc(dark, func(a, b alikes) int { return light(a.top.Colour) - light(b.top.Colour) }).top.Colour}
}

// alikes are similar colours.
type alikes struct {
	cells int
	top   Count // the most frequent one
}

// alike puts colours that agree in the upper 4 bits of each channel together,
// in the order in which they first appear.
func alike(counts []Count) []alikes {
	var groups []alikes
	index := map[RGB]int{}
	for _, c := range counts {
		key := RGB{R: c.Colour.R >> 4, G: c.Colour.G >> 4, B: c.Colour.B >> 4}
		i, ok := index[key]
		if !ok {
			i = len(groups)
			index[key] = i
			groups = append(groups, alikes{})
		}
		groups[i].cells += c.Cells
		if c.Cells > groups[i].top.Cells {
			groups[i].top = c
		}
	}
	return groups
}

// light is a colour's luminance in units of 1e-4 × FullLinear, with the
// weights of IEC 61966-2-1.
func light(c RGB) int {
	return 2126*int(Linear(c.R)) + 7152*int(Linear(c.G)) + 722*int(Linear(c.B))
}
