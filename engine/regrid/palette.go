package regrid

import "sheetsprite/engine/colour"

// settled moves the clusters' means to where their cells are (Lloyd's k-means).
func settled(places []colour.Spot, groups []colour.Group) []colour.Spot {
	means := make([]colour.Spot, len(groups))
	for i, g := range groups {
		means[i] = g.Mean
	}
	for range 20 {
		sums, cells := make([]colour.Spot, len(means)), make([]int64, len(means))
		for _, p := range places {
			k := nearestMean(means, p)
			if groups[k].Kept && p.Apart(groups[k].Mean) > colour.Clearly*colour.Clearly {
				continue // it may be nearest, but it isn't of the outline
			}
			cells[k]++
			for i, v := range p {
				sums[k][i] += v
			}
		}
		moved := false
		for k, n := range cells {
			if n == 0 {
				continue
			}
			if mean := (colour.Spot{sums[k][0] / n, sums[k][1] / n, sums[k][2] / n}); mean != means[k] {
				means[k], moved = mean, true
			}
		}
		if !moved {
			break
		}
	}
	return means
}

// nearestMean is the index of the mean nearest to p.
func nearestMean(means []colour.Spot, p colour.Spot) int {
	best, at := int64(1)<<62, 0
	for k, m := range means {
		if d := m.Apart(p); d < best {
			best, at = d, k
		}
	}
	return at
}
