package inspect

import "sheetsprite/engine/shape"

// run is a rectangle of a shape between the same two upright edges, as tall as
// can be.
type run struct {
	x0, x1, y0, y1 shape.Um
	up, down       []int32 // the runs that it shares part of its upper and lower end with
}

// runsOf cuts an axis-parallel shape into its runs, lowest first.
func runsOf(rings []shape.Ring) []run {
	var runs []run
	sweep := newSweep(rings)
	var open []int32 // the runs that the level line just passed crosses, left to right
	for {
		y, xs, more := sweep.next()
		next := make([]int32, 0, len(xs)/2)
		first := 0 // runs of open before it lie left of all that is to come
		for j := 0; j+1 < len(xs); j += 2 {
			x0, x1 := xs[j], xs[j+1]
			for first < len(open) && runs[open[first]].x1 <= x0 {
				first++
			}
			if first < len(open) && runs[open[first]].x0 == x0 && runs[open[first]].x1 == x1 {
				next = append(next, open[first])
				continue
			}
			id := int32(len(runs))
			r := run{x0: x0, x1: x1, y0: y}
			for k := first; k < len(open) && runs[open[k]].x0 < x1; k++ {
				r.down = append(r.down, open[k])
				runs[open[k]].up = append(runs[open[k]].up, id)
			}
			runs = append(runs, r)
			next = append(next, id)
		}
		// Those that go on get their end again at the next height.
		for _, id := range open {
			runs[id].y1 = y
		}
		open = next
		if !more {
			return runs
		}
	}
}

// deadEnds tells for each run how deep the shape goes on beyond its upper and
// its lower end if it only narrows there and ends; 0 where it ends at once, -1
// where it goes on otherwise.
func deadEnds(runs []run) (above, below []shape.Um) {
	above, below = make([]shape.Um, len(runs)), make([]shape.Um, len(runs))
	for i := len(runs) - 1; i >= 0; i-- { // runs above come later in the list
		above[i] = beyond(runs, runs[i], runs[i].up, above)
	}
	for i, r := range runs {
		below[i] = beyond(runs, r, r.down, below)
	}
	return above, below
}

// beyond is how deep the neighbours on one side of r go, given how deep it goes
// beyond them.
func beyond(runs []run, r run, side []int32, known []shape.Um) shape.Um {
	deepest := shape.Um(0)
	for _, k := range side {
		n := runs[k]
		if known[k] < 0 || n.x0 < r.x0 || n.x1 > r.x1 {
			return -1
		}
		deepest = max(deepest, n.y1-n.y0+known[k])
	}
	return deepest
}
