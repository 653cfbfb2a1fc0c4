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

// firstReach is how far around the wanted place is looked at first.
const firstReach = 4 * shape.Mm

// nearest is f's free place on b that is nearest to want; of equals the one
// with the lesser x, then y. Ever wider surroundings are looked at, until
// nothing outside them can be nearer.
func (s *search) nearest(b *board, f *form, want shape.Point) (shape.Point, bool) {
	right, top := b.w-f.w, b.h-f.h
	if right < 0 || top < 0 {
		return shape.Point{}, false
	}
	s.gather(b, f, right, 0, top)
	centre := shape.Point{X: min(max(want.X, 0), right), Y: min(max(want.Y, 0), top)}
	for reach := shape.Um(firstReach); ; {
		w := shape.Rect{
			Min: shape.Point{X: max(0, centre.X-reach), Y: max(0, centre.Y-reach)},
			Max: shape.Point{X: min(right, centre.X+reach), Y: min(top, centre.Y+reach)},
		}
		best, far, ok := s.nearestWithin(w, want)
		all := w.Min == shape.Point{} && w.Max == shape.Point{X: right, Y: top}
		// A nearer place is at most as far from the centre as from the wanted place.
		if all || ok && far <= shape.Um2(reach)*shape.Um2(reach) {
			return best, ok
		}
		reach *= 2
	}
}

// nearestWithin is nearest among the places in w, with the square of the distance.
func (s *search) nearestWithin(w shape.Rect, want shape.Point) (best shape.Point, far shape.Um2, ok bool) {
	// The nearest place is straight above, below or beside the wanted one, or
	// on the side of a rectangle that isn't free.
	xs := []shape.Um{min(max(want.X, w.Min.X), w.Max.X)}
	var no []shape.Rect
	for _, n := range s.no {
		if n.Min.X > w.Max.X || n.Max.X < w.Min.X || n.Min.Y > w.Max.Y || n.Max.Y < w.Min.Y {
			continue
		}
		no = append(no, n)
		for _, x := range []shape.Um{n.Min.X, n.Max.X} {
			if x >= w.Min.X && x <= w.Max.X {
				xs = append(xs, x)
			}
		}
	}
	slices.SortFunc(no, func(a, b shape.Rect) int { return cmp.Compare(a.Min.Y, b.Min.Y) })
	down := slices.Clone(no)
	slices.SortFunc(down, func(a, b shape.Rect) int { return cmp.Compare(b.Max.Y, a.Max.Y) })
	slices.SortFunc(xs, func(a, b shape.Um) int {
		return cmp.Or(cmp.Compare(distance(a, want.X), distance(b, want.X)), cmp.Compare(a, b))
	})
	for _, x := range slices.Compact(xs) {
		dx := shape.Um2(distance(x, want.X))
		if ok && dx*dx >= far {
			break
		}
		y, free := nearestOn(no, down, x, min(max(want.Y, w.Min.Y), w.Max.Y), w.Min.Y, w.Max.Y)
		if !free {
			continue
		}
		dy := shape.Um2(distance(y, want.Y))
		if d := dx*dx + dy*dy; !ok || d < far {
			best, far, ok = shape.Point{X: x, Y: y}, d, true
		}
	}
	return best, far, ok
}

// nearestOn is the free y from low to high that is nearest to want, at this x.
// The rectangles come in order of where they begin, and once more from above
// in order of where they end.
func nearestOn(up, down []shape.Rect, x, want, low, high shape.Um) (shape.Um, bool) {
	above, below := want, want
	for i := range up {
		if r := &up[i]; r.Min.Y < above && above < r.Max.Y && r.Min.X < x && x < r.Max.X {
			above = r.Max.Y
		}
	}
	for i := range down {
		if r := &down[i]; r.Min.Y < below && below < r.Max.Y && r.Min.X < x && x < r.Max.X {
			below = r.Min.Y
		}
	}
	switch {
	case below >= low && (above > high || want-below <= above-want):
		return below, true
	case above <= high:
		return above, true
	}
	return 0, false
}

func distance(a, b shape.Um) shape.Um { return max(a-b, b-a) }
