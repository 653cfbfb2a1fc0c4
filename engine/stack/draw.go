package stack

import (
	"cmp"
	"slices"
)

// forest draws a tree's parts on the grid.
func (t tree) forest(g *patches) *Forest {
	f := &Forest{W: g.w, H: g.h}
	heights := t.heights()
	parts := make([]Part, len(t))
	partOf := make([]int32, len(g.colour))
	for i, p := range t {
		parts[i] = Part{Colour: p.colour, Height: heights[i], On: p.on}
		f.Heights = max(f.Heights, heights[i])
		for _, q := range p.shows {
			partOf[q] = int32(i)
		}
	}
	// chain[h-1] is the part at height h below the cell at hand.
	chain := make([]int32, f.Heights)
	chainOf := func(part int32) []int32 {
		if part < 0 {
			return chain[:0]
		}
		h := heights[part]
		for k := part; k >= 0; k = int32(t[k].on) {
			chain[heights[k]-1] = k
		}
		return chain[:h]
	}
	open := make([]openRun, f.Heights)
	for y := range g.h {
		shown, from := int32(-1), 0
		for x := 0; x <= g.w; x++ {
			part := int32(-1)
			if p := g.at(x, y); p >= 0 {
				part = partOf[p]
			}
			if part == shown {
				continue
			}
			if shown >= 0 {
				parts[shown].Shows = append(parts[shown].Shows, Run{int32(y), int32(from), int32(x)})
			}
			shown, from = part, x
			now := chainOf(part)
			for h := range open {
				k := int32(-1)
				if h < len(now) {
					k = now[h]
				}
				open[h].turn(parts, k, x, y)
			}
		}
	}
	f.Parts = inOrder(parts)
	return f
}

// openRun is a run of a part's cells that may still grow.
type openRun struct{ part1, from int32 } // part1: the part plus 1, 0 for none

// turn ends the run at column x where another part, or none, begins.
func (r *openRun) turn(parts []Part, part int32, x, y int) {
	if r.part1 == part+1 {
		return
	}
	if r.part1 > 0 {
		p := &parts[r.part1-1]
		p.Cells = append(p.Cells, Run{int32(y), r.from, int32(x)})
	}
	*r = openRun{part + 1, int32(x)}
}

// inOrder sorts parts by height, top row and left column, and leads On along.
func inOrder(parts []Part) []Part {
	order := make([]int, len(parts))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		p, q := parts[i], parts[j]
		return cmp.Or(
			cmp.Compare(p.Height, q.Height),
			cmp.Compare(p.Cells[0].Y, q.Cells[0].Y),
			cmp.Compare(p.Cells[0].X0, q.Cells[0].X0),
		)
	})
	place := make([]int, len(parts))
	for to, from := range order {
		place[from] = to
	}
	out := make([]Part, len(parts))
	for to, from := range order {
		out[to] = parts[from]
		if out[to].On >= 0 {
			out[to].On = place[out[to].On]
		}
	}
	return out
}
