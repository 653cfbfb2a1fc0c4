package route

import (
	"math"

	"sheetsprite/engine/shape"
)

// floor is a length that no order's travel goes below: a tree of least length
// that joins the start and all nodes, each counted as near as the boxes of
// their beginnings and ends are, for every walk through them holds such a
// tree; and the travel between the lines of each.
// (Minimum spanning tree: Prim, Bell Syst. Tech. J. 36, 1957; from memory.)
func (s Sheet) floor(marks, cuts []node) shape.Um {
	nodes := append(marks[:len(marks):len(marks)], cuts...)
	far := make([]shape.Um, len(nodes))
	for i, n := range nodes {
		far[i] = toBox(s.Start, n.box)
	}
	var sum shape.Um
	for range nodes {
		best := -1
		for i, d := range far {
			if d >= 0 && (best < 0 || d < far[best]) {
				best = i
			}
		}
		sum += far[best]
		far[best] = -1
		least := shape.Um(math.MaxInt64)
		for _, w := range nodes[best].ways {
			least = min(least, w.inner)
		}
		sum += least
		for i := range far {
			if far[i] > 0 {
				far[i] = min(far[i], boxGap(nodes[best].box, nodes[i].box))
			}
		}
	}
	return sum
}
