package shape

// Grow is r grown by d on all sides with square corners: its Minkowski sum
// with a square of half-width d, exact. Gaps and holes no wider than 2d
// close. A negative d shrinks by −d.
func (r Region) Grow(d Um) Region {
	if d < 0 {
		return r.Shrink(-d)
	}
	return r.GrowXY(d, d)
}

// GrowXY is r grown by dx to the left and right and by dy up and down: its
// Minkowski sum with a rectangle of these half-widths. Neither may be negative.
func (r Region) GrowXY(dx, dy Um) Region {
	steps := make([]step, 0, len(r.xs))
	for _, b := range r.bands {
		xs := r.row(b)
		for i := 0; i < len(xs); {
			x0, x1 := xs[i]-dx, xs[i+1]+dx
			for i += 2; i < len(xs) && xs[i]-dx <= x1; i += 2 {
				x1 = xs[i+1] + dx
			}
			steps = append(steps, step{x0, b.y0 - dy, b.y1 + dy, 1}, step{x1, b.y0 - dy, b.y1 + dy, -1})
		}
	}
	return sweep(steps)
}

// Shrink is r drawn back by d on all sides with square corners: the centres
// of all squares of half-width d within r, without what has no area. Pieces
// and necks no wider than 2d vanish. A negative d grows by −d.
func (r Region) Shrink(d Um) Region {
	if d < 0 {
		return r.Grow(-d)
	}
	if r.Empty() {
		return Region{}
	}
	// What isn't in r grows into it; the frame stands for all that is outside.
	b := r.Bounds()
	m := d + 1
	frame := FromRects([]Rect{{Point{b.Min.X - m, b.Min.Y - m}, Point{b.Max.X + m, b.Max.Y + m}}})
	return r.Subtract(frame.Subtract(r).Grow(d))
}
