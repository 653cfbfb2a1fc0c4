package shape

import (
	"cmp"
	"slices"
)

// step is a vertical edge between y0 and y1 for the sweep: crossing it from
// left to right changes the number of layers by by.
type step struct {
	x, y0, y1 Um
	by        int
}

// jump is a change of the number of layers at x, within the current band.
type jump struct {
	x  Um
	by int
}

// event is a jump that comes with the line at y.
type event struct {
	y Um
	jump
}

// sortEvents puts events in order of y, then x. Sorting is most of a sweep's work,
// and numbers sort in a third of the time: where the events lie within a kilometre
// of one another, which all do that anybody draws, each is packed into one.
func sortEvents(events []event) {
	const bits, few = 30, 8
	if len(events) < 16 {
		slices.SortFunc(events, byPlace)
		return
	}
	low, high := events[0], events[0]
	for _, e := range events {
		low.y, high.y = min(low.y, e.y), max(high.y, e.y)
		low.x, high.x = min(low.x, e.x), max(high.x, e.x)
		low.by, high.by = min(low.by, e.by), max(high.by, e.by)
	}
	if max(high.y-low.y, high.x-low.x) >= 1<<bits || low.by < -few || high.by >= few {
		slices.SortFunc(events, byPlace)
		return
	}
	keys := make([]uint64, len(events))
	for i, e := range events {
		keys[i] = uint64(e.y-low.y)<<(bits+4) | uint64(e.x-low.x)<<4 | uint64(e.by+few)
	}
	slices.Sort(keys)
	for i, k := range keys {
		events[i] = event{low.y + Um(k>>(bits+4)), jump{low.x + Um(k>>4&(1<<bits-1)), int(k&15) - few}}
	}
}

func byPlace(a, b event) int {
	return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.x, b.x))
}

// sweep is the region where at least one layer lies, by a horizontal line
// that moves up from edge end to edge end. It takes O(n log n) plus the size
// of all bands.
func sweep(steps []step) Region {
	events := make([]event, 0, 2*len(steps))
	for _, s := range steps {
		if s.y0 < s.y1 && s.by != 0 {
			events = append(events, event{s.y0, jump{s.x, s.by}}, event{s.y1, jump{s.x, -s.by}})
		}
	}
	sortEvents(events)
	var out Region
	var active, next []jump // in order of x, by never 0
	var xs []Um
	for i := 0; i < len(events); {
		y := events[i].y
		next = next[:0]
		k := 0
		for i < len(events) && events[i].y == y {
			x, by := events[i].x, 0
			for ; i < len(events) && events[i].y == y && events[i].x == x; i++ {
				by += events[i].by
			}
			for ; k < len(active) && active[k].x < x; k++ {
				next = append(next, active[k])
			}
			if k < len(active) && active[k].x == x {
				by += active[k].by
				k++
			}
			if by != 0 {
				next = append(next, jump{x, by})
			}
		}
		next = append(next, active[k:]...)
		active, next = next, active
		if i == len(events) {
			break
		}
		xs = xs[:0]
		n := 0
		for _, j := range active {
			was := n > 0
			n += j.by
			if was != (n > 0) {
				xs = append(xs, j.x)
			}
		}
		out.push(y, events[i].y, xs)
	}
	return out
}

// FromRects is the union of the rectangles; empty ones count for nothing.
func FromRects(rs []Rect) Region {
	steps := make([]step, 0, 2*len(rs))
	for _, r := range rs {
		if !r.Empty() {
			steps = append(steps, step{r.Min.X, r.Min.Y, r.Max.Y, 1}, step{r.Max.X, r.Min.Y, r.Max.Y, -1})
		}
	}
	return sweep(steps)
}

// FromPolygons is the union of axis-parallel polygons. Outer rings must run
// anticlockwise and holes clockwise.
func FromPolygons(ps ...Polygon) Region {
	var steps []step
	for _, p := range ps {
		steps = ringSteps(steps, p.Outer)
		for _, h := range p.Holes {
			steps = ringSteps(steps, h)
		}
	}
	return sweep(steps)
}

func ringSteps(steps []step, r Ring) []step {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		switch {
		case p.Y > q.Y: // down: the stock is to the right
			steps = append(steps, step{p.X, q.Y, p.Y, 1})
		case p.Y < q.Y:
			steps = append(steps, step{p.X, p.Y, q.Y, -1})
		}
	}
	return steps
}
