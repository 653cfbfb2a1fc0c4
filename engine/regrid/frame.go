package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file tells a screen's frame from the drawing that it shows.

// filled is the share of a quadrilateral that the hull of what was photographed fills; that
// of a drawing leaves more.
const filled = 0.95

// innerCorners looks within four corners for others, as what a screen shows has within
// the screen's frame: a quadrilateral a little smaller on every side.
func innerCorners(r *pixels.Raster, c Corners) (Corners, bool) {
	const (
		small = 300  // pixels along the longer side
		ring  = 3    // pixels of those are surely of the frame
		thick = 0.2  // of the side is the most that a frame has
		thin  = 0.01 // of the side is the least, beyond inset
		inset = 0.01 // so far within no blur from outside is left
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
	by, ok := b.reachedBy(outer)
	return ok && by == [4]int{1, 1, 1, 1}
}

// reachedBy is by how many cells corners lie further out on each side; false where they
// aren't on the same grid, or further in.
func (b rectified) reachedBy(outer Corners) (by [4]int, ok bool) {
	const (
		off    = 0.15 // of a cell
		places = 9    // along each side
	)
	view, ok := viewOf(b.corners, b.lens)
	if !ok {
		return by, false
	}
	columns, rows := float64(b.grid.x.cells), float64(b.grid.y.cells)
	for i, p := range outer {
		q := outer[(i+1)%4]
		var at [places]float64
		sum := 0.0
		for k := range places {
			t := (float64(k) + 0.5) / places
			u, v := view.back(Point{p.X + float64(t*(q.X-p.X)), p.Y + float64(t*(q.Y-p.Y))})
			at[k] = [4]float64{-v * rows, (u - 1) * columns, (v - 1) * rows, -u * columns}[i]
			sum += at[k]
		}
		cells := math.Round(sum / places)
		if math.Abs(sum/places-cells) > off || cells < 0 {
			return by, false
		}
		for _, d := range at {
			if math.Abs(d-cells) > 2*off { // the side runs another way
				return by, false
			}
		}
		by[i] = int(cells)
	}
	return by, true
}
