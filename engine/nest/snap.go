package nest

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// Snap moves a piece to the free place of its sheet that is nearest to where
// it is wanted, in the turn that is wanted: inside the margins and with the
// gap kept from the other placements (one of the same piece and copy counts
// for nothing). ok is false where that sheet has no free place, or the
// placement names something that isn't there.
func Snap(j Job, others []Placement, want Placement) (snapped Placement, ok bool) {
	j.Fixed = []Placement{want}
	if j.Validate() != nil {
		return want, false
	}
	j.Fixed = nil
	p := &problem{job: j}
	spec, ok := p.sheet(want.Sheet)
	if !ok {
		return want, false
	}
	b := &board{sheetSpec: spec}
	for _, o := range others {
		if o.Sheet != want.Sheet || o.Piece == want.Piece && o.Copy == want.Copy || o.Piece < 0 || o.Piece >= len(j.Pieces) {
			continue
		}
		k := newKind(j.Pieces[o.Piece].Outline, QuarterTurns, j.Gap)
		b.put(&k.forms[k.byTurn[o.Turn&3]], o.At.Sub(p.corner()))
	}
	piece := j.Pieces[want.Piece]
	k := newKind(piece.Outline, piece.Turns, j.Gap)
	if k.byTurn[want.Turn] < 0 {
		return want, false
	}
	var s search
	at, ok := s.nearest(b, &k.forms[k.byTurn[want.Turn]], want.At.Sub(p.corner()))
	if ok {
		want.At = at.Add(p.corner())
	}
	return want, ok
}

// nearest is f's free place on b that is nearest to want; of equals the one
// with the lesser x, then y.
func (s *search) nearest(b *board, f *form, want shape.Point) (best shape.Point, ok bool) {
	right, top := b.w-f.w, b.h-f.h
	if right < 0 || top < 0 {
		return best, false
	}
	s.gather(b, f, right, 0, top)
	// The nearest place is straight above, below or beside the wanted one, or
	// on the side of a rectangle that isn't free.
	xs := []shape.Um{min(max(want.X, 0), right)}
	for _, n := range s.no {
		for _, x := range []shape.Um{n.Min.X, n.Max.X} {
			if x >= 0 && x <= right {
				xs = append(xs, x)
			}
		}
	}
	slices.SortFunc(xs, func(a, b shape.Um) int {
		return cmp.Or(cmp.Compare(distance(a, want.X), distance(b, want.X)), cmp.Compare(a, b))
	})
	xs = slices.Compact(xs)
	wanted := min(max(want.Y, 0), top)
	var far shape.Um2
	for _, x := range xs {
		dx := shape.Um2(distance(x, want.X))
		if ok && dx*dx >= far {
			break
		}
		y, free := s.nearestOn(x, wanted, top)
		if !free {
			continue
		}
		dy := shape.Um2(distance(y, want.Y))
		if d := dx*dx + dy*dy; !ok || d < far {
			best, far, ok = shape.Point{X: x, Y: y}, d, true
		}
	}
	return best, ok
}

// nearestOn is the free y from 0 to top that is nearest to want, at this x.
func (s *search) nearestOn(x, want, top shape.Um) (shape.Um, bool) {
	var rows []shape.Rect
	for _, n := range s.no {
		if n.Min.X < x && x < n.Max.X {
			rows = append(rows, n)
		}
	}
	slices.SortFunc(rows, func(a, b shape.Rect) int { return cmp.Compare(a.Min.Y, b.Min.Y) })
	up := want
	for _, r := range rows {
		if r.Min.Y < up && up < r.Max.Y {
			up = r.Max.Y
		}
	}
	slices.SortFunc(rows, func(a, b shape.Rect) int { return cmp.Compare(b.Max.Y, a.Max.Y) })
	down := want
	for _, r := range rows {
		if r.Min.Y < down && down < r.Max.Y {
			down = r.Min.Y
		}
	}
	switch {
	case down >= 0 && (up > top || want-down <= up-want):
		return down, true
	case up <= top:
		return up, true
	}
	return 0, false
}

func distance(a, b shape.Um) shape.Um { return max(a-b, b-a) }
