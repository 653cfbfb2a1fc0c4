package assemble

import (
	"math/big"
	"slices"

	"sheetsprite/engine/shape"
)

// fine is how far a region may stay behind round and slanted edges.
const fine = shape.Um(200)

// Inscribed is an outline as a region: exact where all edges are parallel to an
// axis, else bands of fine height that lie wholly within it.
func Inscribed(o shape.Outline) shape.Region {
	rings := []shape.Ring{o.Outer.Flatten(1)}
	for _, h := range o.Holes {
		rings = append(rings, h.Flatten(1))
	}
	if upright(rings) {
		return shape.FromPolygons(shape.Polygon{Outer: rings[0], Holes: rings[1:]})
	}
	b := o.Bounds()
	var in []shape.Rect
	for y := b.Min.Y; y < b.Max.Y; y += fine {
		in = append(in, band(rings, y, min(y+fine, b.Max.Y))...)
	}
	return shape.FromRects(in)
}

func upright(rings []shape.Ring) bool {
	for _, r := range rings {
		for i, p := range r {
			if d := r[(i+1)%len(r)].Sub(p); d.X != 0 && d.Y != 0 {
				return false
			}
		}
	}
	return true
}

// band is the rectangles from y0 to y1 that lie within the rings: where no edge
// runs between the two, all of it is in or all of it is out.
func band(rings []shape.Ring, y0, y1 shape.Um) []shape.Rect {
	var edges []shape.Rect // the edges' extents, as high as the band
	xs := []shape.Um{}
	middle := y0 + y1 // twice
	for _, r := range rings {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			if p.Y > q.Y {
				p, q = q, p
			}
			if q.Y < y0 || p.Y > y1 {
				continue
			}
			a, c := p.X, q.X
			if p.Y != q.Y {
				a, c = along(p, q, 2*max(y0, p.Y)), along(p, q, 2*min(y1, q.Y))
				if 2*p.Y <= middle && middle < 2*q.Y {
					xs = append(xs, along(p, q, middle))
				}
			}
			edges = append(edges, shape.Rect{
				Min: shape.Point{X: min(a, c) - 1, Y: y0}, Max: shape.Point{X: max(a, c) + 1, Y: y1},
			})
		}
	}
	slices.Sort(xs)
	var in []shape.Rect
	for i := 0; i+1 < len(xs); i += 2 {
		in = append(in, shape.Rect{Min: shape.Point{X: xs[i], Y: y0}, Max: shape.Point{X: xs[i+1], Y: y1}})
	}
	return shape.FromRects(in).Subtract(shape.FromRects(edges)).Rects()
}

// along is the x at which the edge from p to q has half of y2 for its y.
func along(p, q shape.Point, y2 shape.Um) shape.Um {
	return p.X + (q.X-p.X)*(y2-2*p.Y)/(2*(q.Y-p.Y))
}

// centre is the centre of area of a region, to the µm.
func centre(r shape.Region) shape.Point {
	var x, y, all big.Int
	for _, q := range r.Rects() {
		w, h := q.Size()
		area := big.NewInt(int64(w) * int64(h))
		all.Add(&all, area)
		x.Add(&x, new(big.Int).Mul(area, big.NewInt(int64(q.Min.X+q.Max.X))))
		y.Add(&y, new(big.Int).Mul(area, big.NewInt(int64(q.Min.Y+q.Max.Y))))
	}
	if all.Sign() == 0 {
		return shape.Point{}
	}
	all.Lsh(&all, 1)
	return shape.Point{X: shape.Um(x.Div(&x, &all).Int64()), Y: shape.Um(y.Div(&y, &all).Int64())}
}
