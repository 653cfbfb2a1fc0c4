package nest

import "sheetsprite/engine/shape"

// board is a sheet with forms on it, in inner coordinates.
type board struct {
	sheetSpec
	taken []shape.Rect // of all forms on it, not overlapping
	area  shape.Um2    // of them
	parts int
	low   []shape.Um // for each form of all kinds: no place is free below; nil until asked
}

func (b *board) put(f *form, at shape.Point) {
	for _, r := range f.rects {
		r.Min, r.Max = r.Min.Add(at), r.Max.Add(at)
		b.taken = append(b.taken, r)
		b.area += shape.Um2(r.Max.X-r.Min.X) * shape.Um2(r.Max.Y-r.Min.Y)
	}
	b.parts++
}

// overlaps says whether f at that place would lie over something.
func (b *board) overlaps(f *form, at shape.Point) bool {
	for _, a := range f.rects {
		a.Min, a.Max = a.Min.Add(at), a.Max.Add(at)
		for _, t := range b.taken {
			if a.Min.X < t.Max.X && t.Min.X < a.Max.X && a.Min.Y < t.Max.Y && t.Min.Y < a.Max.Y {
				return true
			}
		}
	}
	return false
}

// mark is a state of a board that it can be taken back to.
type mark struct {
	taken, parts int
	area         shape.Um2
}

func (b *board) mark() mark { return mark{len(b.taken), b.parts, b.area} }

// back takes the board to an earlier state of its own.
func (b *board) back(m mark) {
	b.taken, b.parts, b.area = b.taken[:m.taken], m.parts, m.area
	for i := range b.low {
		b.low[i] = 0
	}
}
