package route

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// flatness is how far the chords that stand for arcs may leave them when it
// is asked what lies inside what.
const flatness = 20 * shape.Um(1)

// inside finds for each loop the smallest one round it, -1 where there is
// none. Of two that are the same line an inner contour (clockwise) is round an
// outer one, else the later round the earlier.
func inside(loops []Loop) []int {
	type ring struct {
		shape.Ring
		box  shape.Rect
		area shape.Um2
		loop int
	}
	rings := make([]ring, len(loops))
	for i, l := range loops {
		r := l.Contour.Flatten(flatness)
		rings[i] = ring{r, l.Contour.Bounds(), r.Area(), i}
	}
	size := func(r ring) shape.Um2 { return max(r.area, -r.area) }
	slices.SortStableFunc(rings, func(a, b ring) int {
		outer := func(r ring) int {
			if r.area > 0 {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(size(a), size(b)), cmp.Compare(outer(a), outer(b)))
	})
	parent := make([]int, len(loops))
	for i, r := range rings {
		parent[r.loop] = -1
		for _, s := range rings[i+1:] {
			if len(s.Ring) > 2 && contains(s.box, r.box) && holds(s.Ring, r.Ring, loops[r.loop].Contour[0].Point) {
				parent[r.loop] = s.loop
				break
			}
		}
	}
	return parent
}

// holds is Ring.Holds, and for a contour without extent whether its point is inside.
func holds(r, s shape.Ring, p shape.Point) bool {
	if len(s) < 3 {
		return r.Where(p) == shape.Inside
	}
	return r.Holds(s)
}

func contains(r, s shape.Rect) bool {
	return r.Min.X <= s.Min.X && r.Min.Y <= s.Min.Y && r.Max.X >= s.Max.X && r.Max.Y >= s.Max.Y
}
