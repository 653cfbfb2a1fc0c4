package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file tells a screen's frame from the drawing that it shows.

// innerCorners looks within four corners for others, as what a screen shows has within
// the screen's frame: a quadrilateral a little smaller on every side.
func innerCorners(r *pixels.Raster, c Corners) (Corners, bool) {
	const (
		small  = 300  // pixels along the longer side
		ring   = 3    // pixels of those are surely of the frame
		thick  = 0.2  // of the side is the most that a frame has
		thin   = 0.01 // of the side is the least, beyond inset
		inset  = 0.01 // so far within no blur from outside is left
		filled = 0.95 // so much of a quadrilateral its hull fills; a drawing leaves more
	)
	view, ok := projectionOf(c)
	if !ok {
		return Corners{}, false
	}
	for i := range c {
		q := [4]Point{{inset, inset}, {1 - inset, inset}, {1 - inset, 1 - inset}, {inset, 1 - inset}}[i]
		c[i].X, c[i].Y = view.at(q.X, q.Y)
	}
	flat, ok := straightened(r, c, unbending(r), small)
	if !ok || min(flat.W, flat.H) < 10*ring {
		return Corners{}, false
	}
	in, full, ok := standsOut(flat, rimOf(flat, ring), asItIs)
	if !ok || full < filled {
		return Corners{}, false
	}
	in = in.fromUpperLeft()
	w, h := float64(flat.W), float64(flat.H)
	least := 1.0
	for i, p := range in {
		q := [4]Point{{0, 0}, {w, 0}, {w, h}, {0, h}}[i]
		x, y := math.Abs(p.X-q.X)/w, math.Abs(p.Y-q.Y)/h
		if max(x, y) > thick || min(x, y) < thin {
			return Corners{}, false
		}
		least = min(least, x, y)
	}
	view, _ = projectionOf(c)
	for i, p := range in {
		in[i].X, in[i].Y = view.at(p.X/w, p.Y/h)
	}
	reach := least * 0.8 * min(distance(c[0], c[1]), distance(c[1], c[2]))
	return settledSides(r, in, min(reach, 12), min(reach, 8)), true
}

// frames says whether corners further out are those of a frame that was drawn: one cell
// wide on all sides. A screen's is as wide by chance at most, and mostly wider.
func (b rectified) frames(outer Corners) bool {
	const (
		off    = 0.15 // of a cell
		places = 9    // along each side
	)
	view, ok := viewOf(b.corners, b.lens)
	if !ok {
		return false
	}
	columns, rows := float64(b.grid.x.cells), float64(b.grid.y.cells)
	for i, p := range outer {
		q := outer[(i+1)%4]
		sum := 0.0
		for k := range places {
			t := (float64(k) + 0.5) / places
			u, v := view.back(Point{p.X + float64(t*(q.X-p.X)), p.Y + float64(t*(q.Y-p.Y))})
			sum += [4]float64{-v * rows, (u - 1) * columns, (v - 1) * rows, -u * columns}[i]
		}
		if math.Abs(sum/places-1) > off {
			return false
		}
	}
	return true
}
