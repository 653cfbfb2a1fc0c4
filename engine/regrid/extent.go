package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds where a grid ends, once it is known how its cells lie: the drawing and
// its ground end at a line that nearly all cells along it differ across, or, where what is
// round them looks like the ground, with the drawing.

const (
	// beyond is how far outside the grid known so far cells are looked at, in its sides.
	beyond = 0.6
	// differs is how far two cells' channels are apart where they aren't alike, of 255:
	// shading and noise make less.
	differs = 14
	// allAlong is the share of the cells along a line that differ across the grid's end.
	allAlong = 0.85
)

// wider is a grid with rows and columns around it that may be of the picture or not.
type wider struct {
	x0, y0, x1, y1 int // the grid known, in cells of this one
	w, h           int
	colour         [][4]float64 // of each cell: red, green, blue, and 1 if it lies in the picture
}

// withRound looks at the cells of a grid within corners and at those round it.
func withRound(r *pixels.Raster, c Corners, l lens, columns, rows int) (o wider, ok bool) {
	view, ok := viewOf(c, l)
	if !ok {
		return o, false
	}
	more := func(n int) int { return int(math.Ceil(beyond*float64(n))) + 4 }
	o = wider{x0: more(columns), y0: more(rows)}
	o.x1, o.y1 = o.x0+columns, o.y0+rows
	o.w, o.h = o.x1+o.x0, o.y1+o.y0
	o.colour = make([][4]float64, o.w*o.h)
	for y := range o.h {
		for x := range o.w {
			at := &o.colour[y*o.w+x]
			at[3] = 1
			for j := range 3 {
				for i := range 3 {
					u := (float64(x-o.x0) + 0.25*float64(i+1)) / float64(columns)
					v := (float64(y-o.y0) + 0.25*float64(j+1)) / float64(rows)
					px, py := view.at(u, v)
					if !(px >= 0 && py >= 0 && px < float64(r.W) && py < float64(r.H)) {
						at[3] = 0
						continue
					}
					p := between(r, px, py)
					for c := range 3 {
						at[c] += p[c] / 9
					}
				}
			}
		}
	}
	return o, true
}

// side is one of the four, clockwise from above; rows are counted from it inwards.
type side int

// at is the cell at a place along a side, so many rows inside the grid known.
func (o wider) at(s side, along, in int) [4]float64 {
	x, y := along, o.y0+in
	switch s {
	case 1:
		x, y = o.x1-1-in, along
	case 2:
		y = o.y1 - 1 - in
	case 3:
		x, y = o.x0+in, along
	}
	if x < 0 || y < 0 || x >= o.w || y >= o.h {
		return [4]float64{}
	}
	return o.colour[y*o.w+x]
}

// span is from where to where along a side the grid known reaches.
func (o wider) span(s side) (from, to int) {
	if s%2 == 0 {
		return o.x0, o.x1
	}
	return o.y0, o.y1
}

// across is how many of the cells along a line of the grid known differ from their
// neighbours further out, and of how many; the line is the outer one of row in.
func (o wider) across(s side, in int) (differ, of int) {
	from, to := o.span(s)
	for k := from; k < to; k++ {
		a, b := o.at(s, k, in), o.at(s, k, in-1)
		if a[3] == 0 || b[3] == 0 {
			continue
		}
		of++
		far := 0.0
		for c := range 3 {
			far = math.Max(far, math.Abs(a[c]-b[c]))
		}
		if math.Round(far) >= differs {
			differ++
		}
	}
	return differ, of
}

// grown is how many more rows the grid has beyond a side. What doesn't end at a line, nor
// with a row of nothing but ground, is no drawing: a texture, or things that lie about.
func (o wider) grown(s side) int {
	from, to := o.span(s)
	rows, quiet := 0, false
	for out := 0; ; out++ {
		differ, of := o.across(s, -out)
		switch {
		case 2*of < to-from && quiet: // the picture ends
			return rows
		case 2*of < to-from:
			return 0
		case !o.ends(s, -out):
			if differ > 0 {
				rows, quiet = out, false
			} else {
				quiet = true
			}
		case !o.ends(s, -out-1):
			return out
		case o.blended(s, -out-1): // it ends within the row
			return rows
		case !o.quiet(s, -out-2):
			return out
		default: // the drawing's own last row
			rows, quiet = out+1, false
		}
	}
}

// ends says whether nearly all cells along a line differ across it.
func (o wider) ends(s side, in int) bool {
	differ, of := o.across(s, in)
	return of > 0 && float64(differ) >= allAlong*float64(of)
}

// quiet says whether all cells along a line are as beyond it.
func (o wider) quiet(s side, in int) bool {
	differ, of := o.across(s, in)
	return of > 0 && differ == 0
}

// blended says whether a row's cells are mostly mixtures of those on both sides of it: then
// a line lies within the row.
func (o wider) blended(s side, in int) bool {
	const slack = 10
	from, to := o.span(s)
	mixed, of := 0, 0
	for k := from; k < to; k++ {
		a, m, b := o.at(s, k, in+1), o.at(s, k, in), o.at(s, k, in-1)
		if a[3] == 0 || m[3] == 0 || b[3] == 0 {
			continue
		}
		of++
		between := true
		for c := range 3 {
			between = between && math.Abs(a[c]-m[c])+math.Abs(m[c]-b[c]) <= math.Abs(a[c]-b[c])+slack
		}
		if between {
			mixed++
		}
	}
	return 2*mixed >= of
}

// ended is the grid with the rows and columns that belong to it on every side; b itself
// where there are no more, or they don't fit.
func (b rectified) ended(r *pixels.Raster) rectified {
	o, ok := withRound(r, b.corners, b.lens, b.grid.x.cells, b.grid.y.cells)
	if !ok {
		return b
	}
	var by [4]int
	for s := range by {
		by[s] = o.grown(side(s))
	}
	return b.grownBy(r, by)
}

// grownBy is the grid with so many more rows or columns on each side; b itself where they
// don't fit.
func (b rectified) grownBy(r *pixels.Raster, by [4]int) rectified {
	view, ok := viewOf(b.corners, b.lens)
	if !ok || by == [4]int{} {
		return b
	}
	columns, rows := b.grid.x.cells, b.grid.y.cells
	more, ok := recounted(r, view.reaching(columns, rows, by), b.lens, columns+by[1]+by[3], rows+by[0]+by[2])
	if !ok || more.grid.dip() > float64(b.grid.dip()*1.2)+0.02 {
		return b
	}
	return more
}

// reaching are the corners of a grid with so many more rows or columns on each side than
// the view's has.
func (v view) reaching(columns, rows int, by [4]int) (c Corners) {
	left, right := -float64(by[3])/float64(columns), 1+float64(by[1])/float64(columns)
	top, bottom := -float64(by[0])/float64(rows), 1+float64(by[2])/float64(rows)
	for i, p := range [4]Point{{left, top}, {right, top}, {right, bottom}, {left, bottom}} {
		c[i].X, c[i].Y = v.at(p.X, p.Y)
	}
	return c
}
