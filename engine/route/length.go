package route

import (
	"math"

	"sheetsprite/engine/shape"
)

// length is the distance from p to q, rounded to the nearest micrometre (as
// TSPLIB's EUC_2D rounds to the nearest unit). Square roots are rounded the
// same way by every processor.
func length(p, q shape.Point) shape.Um {
	dx, dy := float64(p.X-q.X), float64(p.Y-q.Y)
	return shape.Um(math.Sqrt(float64(dx*dx)+float64(dy*dy)) + 0.5)
}

// beyond says, without a root, that p and q are surely no nearer than d: no
// distance is less than either coordinate's.
func beyond(p, q shape.Point, d shape.Um) bool {
	dx, dy := p.X-q.X, p.Y-q.Y
	return dx >= d || -dx >= d || dy >= d || -dy >= d
}

// outside is how far p lies outside a box along x or y, whichever is more: no more
// than the distance.
func outside(p shape.Point, b shape.Rect) shape.Um {
	return max(0, b.Min.X-p.X, p.X-b.Max.X, b.Min.Y-p.Y, p.Y-b.Max.Y)
}

// toBox is the distance from p to a box, 0 inside.
func toBox(p shape.Point, b shape.Rect) shape.Um {
	return length(p, shape.Point{X: min(max(p.X, b.Min.X), b.Max.X), Y: min(max(p.Y, b.Min.Y), b.Max.Y)})
}

// edgeLength is the length of the edge or arc from v to end, rounded to the
// nearest µm.
func edgeLength(v shape.Vertex, end shape.Point) shape.Um {
	if v.Arc == nil {
		return length(v.Point, end)
	}
	chord := math.Sqrt(float64(length2(v.Point, end)))
	angle := v.Angle(end)
	if angle <= 0 {
		return shape.Um(chord + 0.5)
	}
	// The radius that the chord and the angle ask for, as Contour.Length has it.
	return shape.Um(float64(chord/2*angle/math.Sin(angle/2)) + 0.5)
}

func length2(p, q shape.Point) shape.Um2 {
	d := p.Sub(q)
	return shape.Um2(d.X)*shape.Um2(d.X) + shape.Um2(d.Y)*shape.Um2(d.Y)
}
