package nest

import (
	"math"

	"sheetsprite/engine/shape"
)

// apart is the least distance between the lines of two polygons.
func apart(p, q shape.Polygon) float64 {
	least := math.Inf(1)
	for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			for _, s := range append([]shape.Ring{q.Outer}, q.Holes...) {
				for k, c := range s {
					d := s[(k+1)%len(s)]
					// Lines that don't cross are nearest at an end of one of them.
					least = min(least, toLine(a, c, d), toLine(b, c, d), toLine(c, a, b), toLine(d, a, b))
				}
			}
		}
	}
	return least
}

// toLine is the distance from p to the line from a to b.
func toLine(p, a, b shape.Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	px, py := float64(p.X-a.X), float64(p.Y-a.Y)
	t := max(0, min(1, (px*dx+py*dy)/(dx*dx+dy*dy)))
	return math.Sqrt((px-t*dx)*(px-t*dx) + (py-t*dy)*(py-t*dy))
}
