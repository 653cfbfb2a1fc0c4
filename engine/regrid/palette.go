package regrid

import (
	"slices"

	"sheetsprite/engine/colour"
)

// spot is a colour's place in OKLab, times 10000.
type spot [3]int64

func spotOf(c colour.RGB) spot {
	l, a, b := colour.Place(c)
	return spot{l, a, b}
}

// apart is the square of the distance.
func (s spot) apart(t spot) int64 {
	l, a, b := s[0]-t[0], s[1]-t[1], s[2]-t[2]
	return l*l + a*a + b*b
}

// cluster is a set of cells that look alike.
type cluster struct {
	sum    spot // of the members' places
	cells  int64
	mean   spot
	weight int64 // the root of cells, in steps of 1/16
}

// add takes cells in whose places add up to sum.
func (c *cluster) add(sum spot, cells int64) {
	for i := range sum {
		c.sum[i] += sum[i]
	}
	c.cells += cells
	for i := range sum {
		c.mean[i] = c.sum[i] / c.cells
	}
}

// leaders bounds how many groups of colours enter the merging, whose effort
// grows with its square.
const leaders = 160

// grouped gathers places into at most leaders groups, each within a radius
// around its first member: the radius grows until they are few enough.
func grouped(places []spot) []cluster {
	slices.SortFunc(places, func(a, b spot) int { return slices.Compare(a[:], b[:]) })
	for radius := int64(30); ; radius = radius * 3 / 2 {
		var firsts []spot
		var groups []cluster
		for _, p := range places {
			near, best := -1, radius*radius
			for i, f := range firsts {
				if d := f.apart(p); d <= best {
					near, best = i, d
				}
			}
			if near < 0 {
				if len(groups) == leaders {
					groups = nil
					break
				}
				firsts, groups, near = append(firsts, p), append(groups, cluster{}), len(groups)
			}
			groups[near].add(p, 1)
		}
		for i := range groups {
			groups[i].weight = root(groups[i].cells)
		}
		if groups != nil || len(places) == 0 {
			return groups
		}
	}
}

// joined merges groups, closest first (J. H. Ward, "Hierarchical grouping to
// optimize an objective function", 1963), down to one, and says what each step
// cost: costs[k] is that of the step from k+2 groups to k+1. Large groups weigh
// by the root of their cells only, else a rare colour would be given up before
// two shades of a large area. stop may end it early.
func joined(groups []cluster, stop func(left int) bool) (rest []cluster, costs []int64) {
	groups = slices.Clone(groups)
	for len(groups) > 1 && !stop(len(groups)) {
		a, b, least := 0, 0, int64(1)<<62
		for i := range groups {
			for j := range i {
				if cost := joinCost(groups[i], groups[j]); cost < least {
					a, b, least = j, i, cost
				}
			}
		}
		costs = append(costs, least)
		groups[a].add(groups[b].sum, groups[b].cells)
		groups[a].weight = root(groups[a].cells)
		groups = slices.Delete(groups, b, b+1)
	}
	slices.Reverse(costs)
	return groups, costs
}

func joinCost(a, b cluster) int64 {
	return a.mean.apart(b.mean) * 16 * a.weight * b.weight / (a.weight + b.weight)
}

// purity says whether the cells' colours are exactly those that were drawn.
type purity int

const (
	noisy purity = iota
	pure
)

// suggested is the number of groups at which merging further becomes dear: the
// knee of error against number.
func suggested(groups []cluster, p purity) int {
	// Two single cells half a step of lightness apart cost about a million.
	const (
		dearPure  = 8_000_000   // ΔE of about 2 between single cells
		dearNoisy = 300_000_000 // ΔE of 12 between single cells, of 4 between large areas
		// Noise merges steadily: what the step from 20 groups costs, times this,
		// it doesn't reach. Chosen on 120 pictures, where it was right in 115.
		aboveNoise = 20
		noiseAt    = 18
	)
	_, costs := joined(groups, func(int) bool { return false })
	dear := int64(dearPure)
	if p == noisy {
		dear = dearNoisy
		if len(costs) > noiseAt {
			dear = max(dear, aboveNoise*costs[noiseAt])
		}
	}
	n := 1
	for n-1 < len(costs) && costs[n-1] >= dear {
		n++
	}
	return min(n, MaxColours+1)
}

// root is the root of n in steps of 1/16, at most 16 (256 cells).
func root(n int64) int64 {
	r := int64(1)
	for r*r < min(n, 256)*256 {
		r++
	}
	return r
}

// settled moves the clusters' means to where their cells are (Lloyd's k-means).
func settled(places []spot, groups []cluster) []spot {
	means := make([]spot, len(groups))
	for i, g := range groups {
		means[i] = g.mean
	}
	for range 20 {
		sums := make([]cluster, len(means))
		for _, p := range places {
			k := nearestMean(means, p)
			sums[k].add(p, 1)
		}
		moved := false
		for k := range means {
			if sums[k].cells > 0 && sums[k].mean != means[k] {
				means[k], moved = sums[k].mean, true
			}
		}
		if !moved {
			break
		}
	}
	return means
}

// nearestMean is the index of the mean nearest to p.
func nearestMean(means []spot, p spot) int {
	best, at := int64(1)<<62, 0
	for k, m := range means {
		if d := m.apart(p); d < best {
			best, at = d, k
		}
	}
	return at
}
