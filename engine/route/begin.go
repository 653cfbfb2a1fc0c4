package route

import "sheetsprite/engine/shape"

// A closed contour begins best on a straight run away from corners: where the
// beam dwells or a blade is set down the edge is least exact, and a corner shows
// it most. Common practice, no source.
const (
	offCorner = 1 * shape.Mm  // from the next corner, where the run is long enough
	leastRun  = shape.Um(800) // shorter runs don't count
	goodRun   = 3 * shape.Mm  // from here on runs are as good as one another
	leadClear = shape.Um(300) // from a lead-in to all other cuts, besides the kerf
)

// BeginOnRuns moves the beginnings of closed cuts onto straight runs along an
// axis, as near as may be to where the machine comes from and goes to; the order
// stays. Contours without such a run begin where they did.
func (r *Route) BeginOnRuns(start shape.Point, end End) {
	here := start
	for i := range r.Strokes {
		s := &r.Strokes[i]
		if s.Kind == Cutting && bool(s.Closed) {
			if s.Pass > 0 && i > 0 && r.Strokes[i-1].Source == s.Source && r.Strokes[i-1].Kind == Cutting {
				s.Path = r.Strokes[i-1].Path // where the pass before it ended
			} else {
				next, ok := start, end == AtStart
				if i+1 < len(r.Strokes) {
					next, ok = r.Strokes[i+1].Begin(), true
				}
				s.beginOnRun(here, next, ok)
			}
		}
		here = s.Finish()
	}
	r.measureTravel(start, end)
}

// beginOnRun is BeginOnRuns for one stroke, between here and next.
func (s *Stroke) beginOnRun(here, next shape.Point, goesOn bool) {
	n := len(s.Path)
	edge, at := -1, shape.Point{}
	var rank, far shape.Um
	for e, v := range s.Path {
		b := s.Path[(e+1)%n].Point
		if v.Arc != nil || v.X != b.X && v.Y != b.Y {
			continue
		}
		long := length(v.Point, b)
		if long < leastRun {
			continue
		}
		off := min(offCorner, long/2)
		p := shape.Point{
			X: between(here.X, v.X, b.X, off),
			Y: between(here.Y, v.Y, b.Y, off),
		}
		d := length(here, p)
		if goesOn {
			d += length(p, next)
		}
		if k := min(long, goodRun); edge < 0 || k > rank || k == rank && d < far {
			edge, at, rank, far = e, p, k, d
		}
	}
	if edge < 0 {
		return
	}
	path := shape.Contour{{Point: at}}
	path = append(path, s.Path[edge+1:]...)
	s.Path = append(path, s.Path[:edge+1]...)
}

// between is the coordinate from a to b, but off away from both, that is
// nearest to v; a where both are one.
func between(v, a, b, off shape.Um) shape.Um {
	if a == b {
		return a
	}
	return min(max(v, min(a, b)+off), max(a, b)-off)
}

// LeadIns gives closed cuts that begin on a straight run a lead-in of that
// length: the machine file begins it in the waste, straight beside the run, so
// that the hole that the beam burns first isn't in the part's edge. It must lie
// within inner, and all other loops must be clear of it, the kerf counted; else
// half the length is tried, then none. loops are the sheet's, with the stock on
// their left: on a line that two parts share only one of them is cut, but both
// have their stock beside it.
func (r *Route) LeadIns(start shape.Point, end End, long, kerf shape.Um, inner shape.Rect, loops []Loop) {
	boxes := make([]shape.Rect, len(loops))
	for i, l := range loops {
		boxes[i] = l.Contour.Bounds()
	}
	for i := range r.Strokes {
		s := &r.Strokes[i]
		s.Lead = nil
		if s.Kind != Cutting || !bool(s.Closed) || s.Pass > 0 || len(s.Path) < 2 || s.Path[0].Arc != nil {
			continue
		}
		a, b, z := s.Path[0].Point, s.Path[1].Point, s.Path[len(s.Path)-1]
		d := b.Sub(a)
		if d.X != 0 && d.Y != 0 || z.Arc != nil || (z.X != b.X) != (d.X != 0) || (z.Y != b.Y) != (d.Y != 0) {
			continue // begins at a corner
		}
		side := shape.Point{X: sign(d.Y), Y: -sign(d.X)}
		for _, n := range []shape.Um{long, long / 2} {
			from := a.Add(shape.Point{X: side.X * n, Y: side.Y * n})
			if n > 0 && inner.Min.X <= from.X && inner.Min.Y <= from.Y && from.X <= inner.Max.X && from.Y <= inner.Max.Y && clearOfLoops(loops, boxes, s.Source, a, from, leadClear+kerf) {
				s.Lead = &from
				break
			}
		}
	}
	r.measureTravel(start, end)
}

// clearOfLoops says whether the way from `from` to a, where the loop `own` is begun, is
// that far from all loops, but for the run on which it ends.
func clearOfLoops(loops []Loop, boxes []shape.Rect, own int, a, from shape.Point, away shape.Um) bool {
	way := shape.Rect{
		Min: shape.Point{X: min(a.X, from.X) - away, Y: min(a.Y, from.Y) - away},
		Max: shape.Point{X: max(a.X, from.X) + away, Y: max(a.Y, from.Y) + away},
	}
	meets := func(b shape.Rect) bool {
		return b.Min.X < way.Max.X && way.Min.X < b.Max.X && b.Min.Y < way.Max.Y && way.Min.Y < b.Max.Y ||
			b.Min.X == b.Max.X && way.Min.X < b.Min.X && b.Min.X < way.Max.X && b.Min.Y < way.Max.Y && way.Min.Y < b.Max.Y ||
			b.Min.Y == b.Max.Y && way.Min.Y < b.Min.Y && b.Min.Y < way.Max.Y && b.Min.X < way.Max.X && way.Min.X < b.Max.X
	}
	for k, l := range loops {
		if !meets(boxes[k]) {
			continue
		}
		n := len(l.Contour)
		for e, v := range l.Contour {
			box := shape.Contour{v, {Point: l.Contour[(e+1)%n].Point}}.Bounds()
			if v.Arc != nil { // at most a half turn, so within its radius of the chord
				m := shape.Point{X: v.Arc.Radius, Y: v.Arc.Radius}
				box.Min, box.Max = box.Min.Sub(m), box.Max.Add(m)
			} else if w, h := box.Size(); k == own && min(w, h) == 0 && contains(box, shape.Rect{Min: a, Max: a}) {
				continue // where it ends
			}
			if meets(box) {
				return false
			}
		}
	}
	return true
}

func sign(v shape.Um) shape.Um {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// measureTravel adds up the way with the beam off, and the lead-ins.
func (r *Route) measureTravel(start shape.Point, end End) {
	r.Travel, r.Leads = 0, 0
	here := start
	for i := range r.Strokes {
		s := &r.Strokes[i]
		if r.skips(s) {
			continue
		}
		r.Travel += length(here, s.From())
		if s.Lead != nil {
			r.Leads += length(*s.Lead, s.Begin())
		}
		here = s.To()
	}
	if end == AtStart && len(r.Strokes) > 0 {
		r.Travel += length(here, start)
	}
}

// From is where the machine file turns the beam on: the lead-in's beginning, or
// the stroke's, or where the machine stands when a blade goes down.
func (s Stroke) From() shape.Point {
	switch {
	case s.Lead != nil:
		return *s.Lead
	case len(s.Drive) > 0:
		return s.Drive[0].Point
	}
	return s.Begin()
}

// To is where the machine file turns the beam off.
func (s Stroke) To() shape.Point {
	if n := len(s.Drive); n > 0 {
		return s.Drive[n-1].Point
	}
	return s.Finish()
}

// SkipMarks leaves the marks out of what counts.
func (r *Route) SkipMarks(start shape.Point, end End) {
	r.Skips = SkipMarks
	r.measureTravel(start, end)
}
