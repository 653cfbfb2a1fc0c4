package assemble

import (
	"slices"

	"sheetsprite/engine/shape"
)

// floor is where pads may lie, as rectangles from below.
type floor struct {
	region shape.Region
	rects  []shape.Rect
}

func newFloor(r shape.Region) floor { return floor{r, r.Rects()} }

// holds says whether all of r lies on the floor. The floor's rectangles don't
// overlap, so their shares of r add up to r's area.
func (f floor) holds(r shape.Rect) bool {
	i, _ := slices.BinarySearchFunc(f.rects, r.Min.Y, func(q shape.Rect, y shape.Um) int {
		if q.Max.Y <= y {
			return -1
		}
		return 1
	})
	w, h := r.Size()
	left := shape.Um2(w) * shape.Um2(h)
	for ; i < len(f.rects) && f.rects[i].Min.Y < r.Max.Y; i++ {
		q := f.rects[i]
		in := shape.Rect{
			Min: shape.Point{X: max(q.Min.X, r.Min.X), Y: max(q.Min.Y, r.Min.Y)},
			Max: shape.Point{X: min(q.Max.X, r.Max.X), Y: min(q.Max.Y, r.Max.Y)},
		}
		iw, ih := in.Size()
		left -= shape.Um2(iw) * shape.Um2(ih)
	}
	return left == 0
}

// spots are places for the middle of a square of a size, at the ends of where
// it can lie and every so often between.
func (f floor) spots(size, every shape.Um) []shape.Point {
	b := f.region.Bounds()
	w, h := b.Size()
	if w < size || h < size {
		return nil
	}
	// The square shrunk by 2 µm, so that a place exactly as wide as the square
	// keeps an area; each spot is tried at its true size below.
	half := size/2 - 1
	m := shape.Point{X: size, Y: size}
	frame := shape.FromRects([]shape.Rect{{Min: b.Min.Sub(m), Max: b.Max.Add(m)}})
	room := f.region.Subtract(frame.Subtract(f.region).Grow(half))
	var out []shape.Point
	for _, r := range room.Rects() {
		xs, ys := ticks(r.Min.X+1, r.Max.X-1, every), ticks(r.Min.Y+1, r.Max.Y-1, every)
		for _, y := range ys {
			for _, x := range xs {
				if at := (shape.Point{X: x, Y: y}); f.holds(around(at, size)) {
					out = append(out, at)
				}
			}
		}
	}
	return out
}

// ticks are from, to and the multiples of every between them.
func ticks(from, to, every shape.Um) []shape.Um {
	out := []shape.Um{from}
	for t := (from/every + 1) * every; t < to; t += every {
		if t > from {
			out = append(out, t)
		}
	}
	if to > from {
		out = append(out, to)
	}
	return out
}
