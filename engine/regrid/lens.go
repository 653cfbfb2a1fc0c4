package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// lens bends straight lines as a camera's does: a place at distance ρ from the
// picture's middle, in half diagonals, is seen at ρ·(1 + bend·ρ²). Source: D.
// C. Brown, "Close-range camera calibration" (1971), the first radial term.
type lens struct {
	bend  float64 // above 0 like a pillow, below 0 like a barrel
	x, y  float64 // the middle
	scale float64 // 1 / half diagonal²
}

const (
	// mostBend is the strongest bend that is looked for, a fisheye's excepted.
	mostBend = 0.16
	// bendGain is by how much cells must become more even before a bend is
	// believed, in percent: noise alone changes them by less.
	bendGain = 8
)

// unbending is the lens of a picture that doesn't bend.
func unbending(r *pixels.Raster) lens {
	w, h := float64(r.W)/2, float64(r.H)/2
	return lens{0, w, h, 1 / (float64(w*w) + float64(h*h))}
}

// seen is where the lens shows a place.
func (l lens) seen(x, y float64) (float64, float64) {
	dx, dy := x-l.x, y-l.y
	f := 1 + float64(l.bend*(float64(dx*dx)+float64(dy*dy))*l.scale)
	return l.x + float64(dx*f), l.y + float64(dy*f)
}

// unbent is the place that the lens shows at p.
func (l lens) unbent(p Point) Point {
	x, y := p.X, p.Y
	for range 30 { // the bend is far below 1, so that this closes in
		sx, sy := l.seen(x, y)
		x += p.X - sx
		y += p.Y - sy
	}
	return Point{x, y}
}

// view takes places in the unit square to places in a bent picture.
type view struct {
	projection
	lens
}

// viewOf takes 0,0 1,0 1,1 and 0,1 to the corners, as projectionOf does.
func viewOf(c Corners, l lens) (view, bool) {
	if l.bend != 0 {
		for i := range c {
			c[i] = l.unbent(c[i])
		}
	}
	p, ok := projectionOf(c)
	return view{p, l}, ok
}

func (v view) at(s, t float64) (x, y float64) {
	x, y = v.projection.at(s, t)
	if v.bend == 0 {
		return x, y
	}
	return v.seen(x, y)
}

// back is the place in the unit square's plane that is seen at q.
func (v view) back(q Point) (s, t float64) {
	if v.bend != 0 {
		q = v.unbent(q)
	}
	return v.projection.back(q)
}

// bent finds the bend with which the cells between the corners are flattest.
func bent(r *pixels.Raster, c Corners, l lens, columns, rows int) lens {
	first, ok := unevenness(r, c, l, columns, rows)
	if !ok {
		return l
	}
	best, at := first, l
	try := func(bend float64) {
		next := l
		next.bend = bend
		if u, ok := unevenness(r, c, next, columns, rows); ok && u < best && math.Abs(bend) <= mostBend {
			best, at = u, next
		}
	}
	const coarse = 0.02
	for k := 1; float64(k)*coarse <= mostBend; k++ {
		try(l.bend + float64(k)*coarse)
		try(l.bend - float64(k)*coarse)
	}
	for step := coarse / 2; step > 0.001; step /= 2 {
		middle := at.bend
		try(middle + step)
		try(middle - step)
	}
	if best*100 > first*(100-bendGain) {
		return l
	}
	return at
}
