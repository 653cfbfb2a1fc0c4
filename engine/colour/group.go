package colour

import "slices"

// Group is a set of cells that look alike.
type Group struct {
	Mean   Spot // of the members' places
	Cells  int64
	sum    Spot
	weight int64 // the root of Cells, in steps of 1/16
	Kept   bool  // an outline's: no clearly different colour joins it
}

// add takes cells in whose places add up to sum.
func (g *Group) add(sum Spot, cells int64) {
	g.Cells += cells
	for i := range sum {
		g.sum[i] += sum[i]
		g.Mean[i] = g.sum[i] / g.Cells
	}
	g.weight = root(g.Cells)
}

// leaders bounds how many groups of colours enter the merging, whose effort
// grows with its square.
const leaders = 160

// Gather puts colours into at most 160 groups, each within a radius around its
// first member: the radius grows until they are few enough. Counts needn't be
// in any order.
func Gather(counts []Count) []Group {
	type member struct {
		at    Spot
		cells int64
	}
	members := make([]member, 0, len(counts))
	for _, c := range counts {
		if c.Cells > 0 {
			members = append(members, member{SpotOf(c.Colour), int64(c.Cells)})
		}
	}
	slices.SortFunc(members, func(a, b member) int { return slices.Compare(a.at[:], b.at[:]) })
	for radius := int64(30); ; radius = radius * 3 / 2 {
		var firsts []Spot
		var groups []Group
		for _, m := range members {
			near, best := -1, radius*radius
			for i, f := range firsts {
				if d := f.Apart(m.at); d <= best {
					near, best = i, d
				}
			}
			if near < 0 {
				if len(groups) == leaders {
					groups = nil
					break
				}
				firsts, groups, near = append(firsts, m.at), append(groups, Group{}), len(groups)
			}
			groups[near].add(Spot{m.at[0] * m.cells, m.at[1] * m.cells, m.at[2] * m.cells}, m.cells)
		}
		if groups != nil || len(members) == 0 {
			return groups
		}
	}
}

// Clearly is how far apart two colours lie that are never shades of one: a
// distance in OKLab of 0.1, about ΔE 10.
const Clearly = 1000

// Merge joins groups, closest first, until n are left; its argument stays as
// it is. What lies nearest to a colour of keep is joined with nothing that
// clearly differs from it as long as anything else can be joined: a thin
// outline has few cells, and would be given up first.
func Merge(groups []Group, n int, keep ...RGB) []Group {
	groups = slices.Clone(groups)
	for _, k := range keep {
		near, at := int64(1)<<62, -1
		for i, g := range groups {
			if d := g.Mean.Apart(SpotOf(k)); d < near {
				near, at = d, i
			}
		}
		if at >= 0 {
			groups[at].Kept = true
		}
	}
	rest, _ := joined(groups, func(left int) bool { return left <= n })
	return rest
}

// joined merges groups, closest first (J. H. Ward, "Hierarchical grouping to
// optimize an objective function", 1963), down to one, and says what each step
// cost: costs[k] is that of the step from k+2 groups to k+1. Large groups weigh
// by the root of their cells only, else a rare colour would be given up before
// two shades of a large area. stop may end it early.
func joined(groups []Group, stop func(left int) bool) (rest []Group, costs []int64) {
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
		groups[a].add(groups[b].sum, groups[b].Cells)
		groups[a].Kept = groups[a].Kept || groups[b].Kept
		groups = slices.Delete(groups, b, b+1)
	}
	slices.Reverse(costs)
	return groups, costs
}

func joinCost(a, b Group) int64 {
	apart := a.Mean.Apart(b.Mean)
	cost := apart * 16 * a.weight * b.weight / (a.weight + b.weight)
	if (a.Kept || b.Kept) && apart > Clearly*Clearly {
		cost += 1 << 50 // above any other: distances² are below 2^29, weights at most 256
	}
	return cost
}

// root is the root of n in steps of 1/16, at most 16 (256 cells).
func root(n int64) int64 {
	r := int64(1)
	for r*r < min(n, 256)*256 {
		r++
	}
	return r
}
