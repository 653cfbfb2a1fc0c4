package relief

import (
	"math"
	"slices"

	"sheetsprite/engine/shape"
)

// sagitta is how far a drawn arc may lie from the true one, µm: a tenth of a
// pixel at real size.
const sagitta = 25.0

// outlineEdges is a part's boundary as straight pieces, the part to their left.
func outlineEdges(o shape.Outline) []Edge {
	edges := contourEdges(nil, o.Outer)
	for _, hole := range o.Holes {
		edges = contourEdges(edges, hole)
	}
	return edges
}

func contourEdges(edges []Edge, c shape.Contour) []Edge {
	for i, v := range c {
		to := c[(i+1)%len(c)].Point
		at := v.Point
		if v.Arc != nil {
			for _, p := range arcPoints(v, to) {
				edges = appendEdge(edges, at, p)
				at = p
			}
		}
		edges = appendEdge(edges, at, to)
	}
	return edges
}

func appendEdge(edges []Edge, a, b shape.Point) []Edge {
	if a == b {
		return edges
	}
	return append(edges, Edge{int32(a.X), int32(a.Y), int32(b.X), int32(b.Y)})
}

// arcPoints are points between the ends of the arc that starts at v.
func arcPoints(v shape.Vertex, to shape.Point) []shape.Point {
	r := float64(v.Arc.Radius)
	if r <= 0 {
		return nil
	}
	a0 := math.Atan2(float64(v.Y-v.Arc.Centre.Y), float64(v.X-v.Arc.Centre.X))
	a1 := math.Atan2(float64(to.Y-v.Arc.Centre.Y), float64(to.X-v.Arc.Centre.X))
	sweep := a1 - a0
	if v.Arc.Turn == shape.Anticlockwise && sweep < 0 {
		sweep += 2 * math.Pi
	} else if v.Arc.Turn == shape.Clockwise && sweep > 0 {
		sweep -= 2 * math.Pi
	}
	step := 2 * math.Acos(1-min(sagitta/r, 1))
	n := int(math.Ceil(math.Abs(sweep) / step))
	var points []shape.Point
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(a0 + sweep*float64(i)/float64(n))
		points = append(points, shape.Point{
			X: v.Arc.Centre.X + shape.Um(math.Round(r*cos)),
			Y: v.Arc.Centre.Y + shape.Um(math.Round(r*sin)),
		})
	}
	return points
}

// appendQuads fills the area left of the edges with trapezia, slab by slab of
// height: within a slab no edge starts or ends, so that the edges that cross
// it, from left to right, take turns at entering and leaving the part.
func appendQuads(quads []Quad, edges []Edge) []Quad {
	type rising struct{ Edge } // Y0 < Y1
	var up []rising
	var ys []int32
	for _, e := range edges {
		ys = append(ys, e.Y0, e.Y1)
		if e.Y0 > e.Y1 {
			e = Edge{e.X1, e.Y1, e.X0, e.Y0}
		}
		if e.Y0 < e.Y1 {
			up = append(up, rising{e})
		}
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	slices.SortFunc(up, func(a, b rising) int { return int(a.Y0 - b.Y0) })
	xAt := func(e rising, y int32) int32 {
		if e.X0 == e.X1 {
			return e.X0
		}
		return e.X0 + int32(int64(e.X1-e.X0)*int64(y-e.Y0)/int64(e.Y1-e.Y0))
	}
	var crossing []rising
	open := map[[2]int32]int{} // by left and right side, upright quads that reach the slab below
	for i := 0; i+1 < len(ys); i++ {
		y0, y1 := ys[i], ys[i+1]
		crossing = slices.DeleteFunc(crossing, func(e rising) bool { return e.Y1 <= y0 })
		for len(up) > 0 && up[0].Y0 <= y0 {
			crossing = append(crossing, up[0])
			up = up[1:]
		}
		slices.SortFunc(crossing, func(a, b rising) int {
			return int(xAt(a, y0)) + int(xAt(a, y1)) - int(xAt(b, y0)) - int(xAt(b, y1))
		})
		for j := 0; j+1 < len(crossing); j += 2 {
			l, r := crossing[j], crossing[j+1]
			q := Quad{y0, y1, xAt(l, y0), xAt(r, y0), xAt(l, y1), xAt(r, y1)}
			upright := q.XL0 == q.XL1 && q.XR0 == q.XR1
			key := [2]int32{q.XL0, q.XR0}
			if below, ok := open[key]; ok && upright && quads[below].Y1 == y0 {
				quads[below].Y1 = y1
				continue
			}
			if upright {
				open[key] = len(quads)
			}
			quads = append(quads, q)
		}
	}
	return quads
}
