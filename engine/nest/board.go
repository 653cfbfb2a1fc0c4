package nest

import "sheetsprite/engine/shape"

// board is a sheet with forms on it, in inner coordinates.
type board struct {
	sheetSpec
	laid []laid     // not overlapping
	area shape.Um2  // of them
	low  []shape.Um // for each form of all kinds: no place is free below; nil until asked
}

// laid is a form with the place of its lower left corner.
type laid struct {
	*form
	at shape.Point
}

func (b *board) put(f *form, at shape.Point) {
	b.laid = append(b.laid, laid{f, at})
	b.area += f.area
}

// room is the area that is left, 0 where the margins leave none.
func (b *board) room() shape.Um2 {
	return max(0, shape.Um2(max(0, b.w))*shape.Um2(max(0, b.h))-b.area)
}

// overlaps says whether f at that place would lie over something.
func (b *board) overlaps(f *form, at shape.Point) bool {
	for _, l := range b.laid {
		d := l.at.Sub(at)
		for _, a := range f.rects {
			for _, t := range l.rects {
				if a.Min.X < t.Max.X+d.X && t.Min.X+d.X < a.Max.X && a.Min.Y < t.Max.Y+d.Y && t.Min.Y+d.Y < a.Max.Y {
					return true
				}
			}
		}
	}
	return false
}

// back takes the board to when it had so many forms on it.
func (b *board) back(count int) {
	for _, l := range b.laid[count:] {
		b.area -= l.area
	}
	b.laid = b.laid[:count]
	clear(b.low)
}
