package route

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// newTour orders the nodes by always going to the nearest that may come next.
func newTour(nodes []node, start shape.Point, end End) *tour {
	n := len(nodes)
	t := &tour{
		nodes: nodes, order: make([]int32, 0, n), at: make([]int32, n), way: make([]int32, n), start: start, end: end,
	}
	waits := make([]int, n) // how many must come before each
	for i := range nodes {
		for _, m := range nodes[i].must {
			waits[m]++
		}
	}
	left := make([]int32, n)
	for i := range left {
		left[i] = int32(i)
	}
	for here := start; len(left) > 0; {
		best, bestWay, far := -1, int32(0), shape.Um(1)<<60
		for i, c := range left {
			if waits[c] > 0 || toBox(here, nodes[c].box) >= far {
				continue
			}
			for w := range nodes[c].ways {
				if d := length(here, nodes[c].ways[w].in); d < far {
					best, bestWay, far = i, int32(w), d
				}
			}
		}
		c := left[best]
		left = slices.Delete(left, best, best+1) // keeps the order, so that ties go to the earlier one
		t.at[c], t.way[c] = int32(len(t.order)), bestWay
		t.order = append(t.order, c)
		here = t.out(c)
		for _, m := range nodes[c].must {
			waits[m]--
		}
	}
	return t
}

// mostNeighbours is how many near nodes of each node are tried beside it.
// (8 to 10 are usual for two-dimensional tours: Johnson, McGeoch, in: Local
// Search in Combinatorial Optimization, 1997; from memory.)
const mostNeighbours = 9

// neighbours lists, for each node, so many of the nearest others, by the distance
// of their boxes, then of their centres.
func neighbours(nodes []node, most int) [][]int32 {
	type near struct {
		node   int32
		gap, d shape.Um
	}
	compare := func(a, b near) int {
		return cmp.Or(cmp.Compare(a.gap, b.gap), cmp.Compare(a.d, b.d), cmp.Compare(a.node, b.node))
	}
	// By x, so that the search can stop where x alone is too far.
	byX := make([]int32, len(nodes))
	widest := shape.Um(0)
	for i := range byX {
		byX[i] = int32(i)
		widest = max(widest, nodes[i].box.Max.X-nodes[i].box.Min.X)
	}
	slices.SortFunc(byX, func(a, b int32) int {
		return cmp.Or(cmp.Compare(nodes[a].box.Min.X, nodes[b].box.Min.X), cmp.Compare(a, b))
	})
	out := make([][]int32, len(nodes))
	for place, i := range byX {
		var best []near
		visit := func(c int32) {
			e := near{c, boxGap(nodes[i].box, nodes[c].box), length(centre(nodes[i].box), centre(nodes[c].box))}
			if len(best) == most && compare(e, best[len(best)-1]) >= 0 {
				return
			}
			k, _ := slices.BinarySearchFunc(best, e, compare)
			best = slices.Insert(best, k, e)
			best = best[:min(len(best), most)]
		}
		full := func(dx shape.Um) bool { return len(best) == most && dx > best[len(best)-1].gap }
		for k := place + 1; k < len(byX) && !full(nodes[byX[k]].box.Min.X-nodes[i].box.Max.X); k++ {
			visit(byX[k])
		}
		for k := place - 1; k >= 0 && !full(nodes[i].box.Min.X-nodes[byX[k]].box.Min.X-widest); k-- {
			visit(byX[k])
		}
		for _, b := range best {
			out[i] = append(out[i], b.node)
		}
	}
	return out
}

func boxGap(a, b shape.Rect) shape.Um {
	return length(shape.Point{}, shape.Point{
		X: max(0, a.Min.X-b.Max.X, b.Min.X-a.Max.X),
		Y: max(0, a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y),
	})
}

func centre(b shape.Rect) shape.Point {
	return shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
}
