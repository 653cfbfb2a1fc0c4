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
	sum   spot // of the members' places
	cells int64
}

func (c cluster) mean() spot {
	return spot{c.sum[0] / c.cells, c.sum[1] / c.cells, c.sum[2] / c.cells}
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
			for c := range p {
				groups[near].sum[c] += p[c]
			}
			groups[near].cells++
		}
		if groups != nil || len(places) == 0 {
			return groups
		}
	}
}

// merging is one step of joining the two groups that lie closest.
type merging struct {
	a, b int
	cost int64
}

// joined merges groups, closest first (J. H. Ward, "Hierarchical grouping to
// optimize an objective function", 1963), until few are left or the next step
// would cost more than dearest. Large groups weigh by the root of their cells
// only, else a rare colour would be given up before two shades of a large area.
func joined(groups []cluster, few int, dearest int64) []cluster {
	groups = slices.Clone(groups)
	for len(groups) > 1 {
		best := merging{cost: 1 << 62}
		for i := range groups {
			m := groups[i].mean()
			for j := range i {
				if cost := joinCost(groups[i], groups[j], m); cost < best.cost {
					best = merging{j, i, cost}
				}
			}
		}
		if len(groups) <= few && best.cost > dearest {
			break
		}
		if len(groups) <= few && dearest < 0 {
			break
		}
		for c := range 3 {
			groups[best.a].sum[c] += groups[best.b].sum[c]
		}
		groups[best.a].cells += groups[best.b].cells
		groups = slices.Delete(groups, best.b, best.b+1)
	}
	return groups
}

func joinCost(a, b cluster, meanA spot) int64 {
	wa, wb := root(a.cells), root(b.cells)
	return meanA.apart(b.mean()) * 16 * wa * wb / (wa + wb)
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
		means[i] = g.mean()
	}
	for range 20 {
		sums := make([]cluster, len(means))
		for _, p := range places {
			k := nearest2(means, p)
			for c := range p {
				sums[k].sum[c] += p[c]
			}
			sums[k].cells++
		}
		moved := false
		for k := range means {
			if sums[k].cells > 0 && sums[k].mean() != means[k] {
				means[k], moved = sums[k].mean(), true
			}
		}
		if !moved {
			break
		}
	}
	return means
}

// nearest2 is the index of the mean nearest to p.
func nearest2(means []spot, p spot) int {
	best, at := int64(1)<<62, 0
	for k, m := range means {
		if d := m.apart(p); d < best {
			best, at = d, k
		}
	}
	return at
}
