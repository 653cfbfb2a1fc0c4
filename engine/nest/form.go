package nest

import (
	"slices"

	"sheetsprite/engine/shape"
)

// form is a piece's stock in one of its turns, grown by the gap to the right
// and upwards and moved so that it starts at 0, 0. Two forms that don't
// overlap keep the gap (each could as well be grown by half of it on all
// sides), so everything after this knows no gap.
type form struct {
	turn  Quarter
	id    int32    // among the forms of all kinds; -1: of none
	w, h  shape.Um // size, gap included
	area  shape.Um2
	rects []shape.Rect // not overlapping, from below
}

// kind is all pieces of equal forms.
type kind struct {
	forms  []form  // at least one; no two equal, by turn
	byTurn [4]int8 // the form a turn gives, -1 where it isn't allowed
	area   shape.Um2
	rect   bool // each form is one rectangle
	first  int  // number of its first form among those of all kinds
}

// newKind makes the forms of an outline.
func newKind(o shape.Outline, turns Turns, gap shape.Um) kind {
	flat := simplified(cover(o))
	k := kind{byTurn: [4]int8{-1, -1, -1, -1}}
	var seen []shape.Region
	for _, q := range turns.allowed() {
		r := grown(turned(flat, q), gap)
		if i := slices.IndexFunc(seen, r.Equal); i >= 0 {
			k.byTurn[q] = int8(i)
			continue
		}
		k.byTurn[q] = int8(len(seen))
		seen = append(seen, r)
		rects := r.Rects()
		w, h := r.Bounds().Size()
		k.forms = append(k.forms, form{turn: q, id: -1, w: w, h: h, area: r.Area(), rects: rects})
		k.area = r.Area()
	}
	k.rect = len(k.forms[0].rects) == 1
	return k
}

// coarsened is the kind with the same forms in few rectangles; what they take
// off a sheet is counted as before.
func (k kind) coarsened() kind {
	k.forms = slices.Clone(k.forms)
	for i := range k.forms {
		k.forms[i].rects = coarse(shape.FromRects(k.forms[i].rects)).Rects()
	}
	k.rect = len(k.forms[0].rects) == 1
	return k
}

func turned(r shape.Region, q Quarter) shape.Region {
	if q == 0 {
		return r
	}
	rects := r.Rects()
	var b shape.Rect
	for i := range rects {
		rects[i] = q.Rect(rects[i])
		b = b.Union(rects[i])
	}
	return shape.FromRects(rects).Moved(shape.Point{X: -b.Min.X, Y: -b.Min.Y})
}

// grown is r and all that lies up to gap to the right and above, with the
// notches and holes filled that a square of the gap's size can't enter: every
// other form is a union of such squares, so nothing could use them.
func grown(r shape.Region, gap shape.Um) shape.Region {
	if gap == 0 {
		return r
	}
	rects := r.Rects()
	for i := range rects {
		rects[i].Max = rects[i].Max.Add(shape.Point{X: gap, Y: gap})
	}
	return shape.FromRects(rects).Grow(gap / 2).Shrink(gap / 2)
}

// equal says whether two kinds have the same forms for the same turns.
func (k kind) equal(l kind) bool {
	return k.byTurn == l.byTurn && slices.EqualFunc(k.forms, l.forms, func(a, b form) bool {
		return a.turn == b.turn && slices.Equal(a.rects, b.rects)
	})
}

// cutSize is the form's size without the gap.
func (f form) cutSize(gap shape.Um) (w, h shape.Um) { return f.w - gap, f.h - gap }
