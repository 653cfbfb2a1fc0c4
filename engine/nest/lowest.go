package nest

import (
	"slices"

	"sheetsprite/engine/shape"
)

// A form's places on a board that are not free are a union of open
// rectangles, one for each rectangle of the form and each taken one: the
// Minkowski sum of the taken one and the form's, mirrored. What is left is
// closed, so its lowest and leftmost point has an x that is 0 or a
// rectangle's right side and a y that is the floor or a rectangle's top. A
// line swept upwards over the rectangles, with how often each such x is
// covered kept in a tree of ranges, finds it exactly.
// (Bottom-left placement: Baker, Coffman, Rivest, SIAM J. Comput. 9, 1980;
// no-fit polygons: Art, IBM Cambridge, 1966; from memory.)

// search finds places; it keeps its memory between questions. The zero value
// is ready.
type search struct {
	no       []shape.Rect // places that are not free
	xs       []shape.Um   // candidates, ascending
	from, to []int32      // candidates that each of no covers
	starts   []int64      // y where each of no starts, then its number
	ends     []int64      // y where it ends
	tree     coverTree
	known    nofit
	work     int // elementary steps so far
}

// numberBits are the low bits of an event: the number of a rectangle.
const numberBits = 24

// lowest is the lowest of f's free places on b with floor ≤ y ≤ ceiling, the
// leftmost of those.
func (s *search) lowest(b *board, f *form, floor, ceiling shape.Um) (shape.Point, bool) {
	right := b.w - f.w
	ceiling = min(ceiling, b.h-f.h)
	if right < 0 || ceiling < floor {
		return shape.Point{}, false
	}
	s.gather(b, f, right, floor, ceiling)
	s.work += 8 + 16*len(s.no)
	if len(s.no) == 0 {
		return shape.Point{X: 0, Y: floor}, true
	}
	s.prepare(right, floor)
	y, started, ended := floor, 0, 0
	for {
		for ; started < len(s.starts); started++ {
			e := s.starts[started]
			if shape.Um(e>>numberBits)+floor-1 >= y {
				break
			}
			i := e & (1<<numberBits - 1)
			s.tree.add(s.from[i], s.to[i], 1)
		}
		for ; ended < len(s.ends); ended++ {
			e := s.ends[ended]
			if shape.Um(e>>numberBits)+floor-1 > y {
				break
			}
			i := e & (1<<numberBits - 1)
			s.tree.add(s.from[i], s.to[i], -1)
		}
		if i, ok := s.tree.firstFree(); ok {
			return shape.Point{X: s.xs[i], Y: y}, true
		}
		if ended == len(s.ends) {
			return shape.Point{}, false
		}
		if y = shape.Um(s.ends[ended]>>numberBits) + floor - 1; y > ceiling {
			return shape.Point{}, false
		}
	}
}

// gather lists the rectangles of places that are not free, as far as they
// reach into the places asked for.
func (s *search) gather(b *board, f *form, right, floor, ceiling shape.Um) {
	s.no = s.no[:0]
	add := func(n shape.Rect, at shape.Point) {
		n.Min, n.Max = n.Min.Add(at), n.Max.Add(at)
		if n.Max.X > 0 && n.Min.X < right && n.Max.Y > floor && n.Min.Y < ceiling {
			s.no = append(s.no, n)
		}
	}
	for _, l := range b.laid {
		if l.at.Y+l.h <= floor || l.at.Y >= ceiling+f.h {
			continue
		}
		if no := s.known.between(l.form, f, &s.work); no != nil {
			s.work += len(no)
			for _, n := range no {
				add(n, l.at)
			}
			continue
		}
		s.work += len(l.rects) * len(f.rects)
		for _, t := range l.rects {
			for _, a := range f.rects {
				add(overlapping(t, a), l.at)
			}
		}
	}
}

// prepare makes the candidates, what covers them, and the events.
func (s *search) prepare(right, floor shape.Um) {
	s.xs = append(s.xs[:0], 0)
	for _, n := range s.no {
		if n.Max.X <= right {
			s.xs = append(s.xs, n.Max.X)
		}
	}
	slices.Sort(s.xs)
	s.xs = slices.Compact(s.xs)
	s.from, s.to = s.from[:0], s.to[:0]
	s.starts, s.ends = s.starts[:0], s.ends[:0]
	for i, n := range s.no {
		lo, exact := slices.BinarySearch(s.xs, n.Min.X)
		if exact {
			lo++
		}
		hi, _ := slices.BinarySearch(s.xs, n.Max.X)
		s.from, s.to = append(s.from, int32(lo)), append(s.to, int32(hi))
		if lo < hi {
			s.starts = append(s.starts, int64(max(n.Min.Y-floor, -1)+1)<<numberBits|int64(i))
		}
		s.ends = append(s.ends, int64(n.Max.Y-floor+1)<<numberBits|int64(i))
	}
	slices.Sort(s.starts)
	slices.Sort(s.ends)
	s.tree.reset(len(s.xs))
}
