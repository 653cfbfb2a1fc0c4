package nest

import "sheetsprite/engine/shape"

// Quarter is a number of quarter turns anticlockwise, 0 to 3.
type Quarter uint8

// Point is p turned about the origin.
func (q Quarter) Point(p shape.Point) shape.Point {
	switch q & 3 {
	case 1:
		return shape.Point{X: -p.Y, Y: p.X}
	case 2:
		return shape.Point{X: -p.X, Y: -p.Y}
	case 3:
		return shape.Point{X: p.Y, Y: -p.X}
	}
	return p
}

// Contour is c turned about the origin.
func (q Quarter) Contour(c shape.Contour) shape.Contour {
	out := make(shape.Contour, len(c))
	for i, v := range c {
		out[i] = shape.Vertex{Point: q.Point(v.Point), Arc: v.Arc.About(q.Point)}
	}
	return out
}

// Outline is o turned about the origin.
func (q Quarter) Outline(o shape.Outline) shape.Outline {
	out := shape.Outline{Outer: q.Contour(o.Outer)}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, q.Contour(h))
	}
	return out
}

// Rect is r turned about the origin.
func (q Quarter) Rect(r shape.Rect) shape.Rect {
	a, b := q.Point(r.Min), q.Point(r.Max)
	return shape.Rect{
		Min: shape.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)},
		Max: shape.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)},
	}
}

// allowed are the turns a piece may take, in order.
func (t Turns) allowed() []Quarter {
	switch t {
	case HalfTurns:
		return []Quarter{0, 2}
	case AsDrawn:
		return []Quarter{0}
	}
	return []Quarter{0, 1, 2, 3}
}
