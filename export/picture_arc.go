package export

import (
	"math"

	"sheetsprite/engine/shape"
)

// chordsPerArc is into how many straight edges the picture cuts an arc.
const chordsPerArc = 16

// chords are the ends of the straight edges that the picture draws for the arc
// from v to next, rounded to the µm. Halving only: roots and quotients give the
// same digits on every machine.
func chords(v shape.Vertex, next shape.Point) []shape.Point {
	ps := []shape.Point{v.Point, next}
	for n := 1; n < chordsPerArc; n *= 2 {
		finer := make([]shape.Point, 0, 2*len(ps))
		for i, p := range ps[:len(ps)-1] {
			finer = append(finer, p, midArc(p, ps[i+1], v))
		}
		ps = append(finer, next)
	}
	return ps[1:]
}

// midArc is halfway along the arc of v from a to b, at most a half turn.
func midArc(a, b shape.Point, v shape.Vertex) shape.Point {
	// Square to the chord, away from the centre: to the right of the way from a
	// to b where the arc runs anticlockwise.
	dx, dy := float64(b.Y-a.Y), float64(a.X-b.X)
	if v.Arc.Turn == shape.Clockwise {
		dx, dy = -dx, -dy
	}
	n := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if n == 0 {
		return a
	}
	r := float64(v.Arc.Radius)
	return v.Arc.Centre.Add(shape.Point{
		X: shape.Um(math.Round(float64(dx*r) / n)),
		Y: shape.Um(math.Round(float64(dy*r) / n)),
	})
}
