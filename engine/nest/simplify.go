package nest

import (
	"math"
	"slices"

	"sheetsprite/engine/shape"
)

// Searching takes time by the product of two shapes' rows. A shape of very
// many rows (joins, setbacks, dithering) is covered by a slightly larger one
// of fewer: what no part is likely to enter is filled, then rows that differ
// least become one, then columns. The cover never lies inside the shape, so
// distances hold; shapes of few rows stay exact.
const (
	mostRects    = 40
	mostAdded    = 20 // 1/20 of the area at most, for rows and for columns
	coarseRects  = 14 // in the first answer of a large job: 1,032 parts of the harbour take 2 % more sheets and an eighth of the time
	coarseAdded  = 12
	ruggedRects  = 48 // what is still of more than that then is rugged, and laid roughly: a drawing of 256 × 256 cells takes as many sheets and half the time
	roughRects   = 20
	roughAdded   = 3
	fillNarrower = 1900 * shape.Um(1) // notches: cells are 2 mm or more
)

// simplified is a region that holds r.
func simplified(r shape.Region) shape.Region {
	if len(r.Rects()) <= mostRects {
		return r
	}
	return merged(r, mostRects, mostAdded)
}

// coarse is a region of few rectangles that holds r, of the same bounds: quick
// to lay where there is much to lay.
func coarse(r shape.Region) shape.Region {
	if len(r.Rects()) <= coarseRects {
		return r
	}
	r = merged(r, coarseRects, coarseAdded)
	if len(r.Rects()) > ruggedRects {
		r = merged(r, roughRects, roughAdded)
	}
	return r
}

// merged is a region that holds r, of most rectangles if no more than one part in
// so many is added to the area, for rows and for columns.
func merged(r shape.Region, most int, added shape.Um2) shape.Region {
	r = r.Grow(fillNarrower / 2).Shrink(fillNarrower / 2)
	r = mergedRows(r, most, added)
	return mirrored(mergedRows(mirrored(r), most, added))
}

// mirrored has x and y exchanged.
func mirrored(r shape.Region) shape.Region {
	rects := r.Rects()
	for i, a := range rects {
		rects[i] = shape.Rect{Min: shape.Point{X: a.Min.Y, Y: a.Min.X}, Max: shape.Point{X: a.Max.Y, Y: a.Max.X}}
	}
	return shape.FromRects(rects)
}

// row is a level band with where it is taken: xs[0] to xs[1], xs[2] to xs[3], …
type row struct {
	y0, y1 shape.Um
	xs     []shape.Um
}

func (r row) width() (w shape.Um) {
	for i := 0; i < len(r.xs); i += 2 {
		w += r.xs[i+1] - r.xs[i]
	}
	return w
}

// with is the smallest row that holds r and the one that lies on it.
func (r row) with(above row) row {
	spans := make([][2]shape.Um, 0, (len(r.xs)+len(above.xs))/2)
	for _, xs := range [][]shape.Um{r.xs, above.xs} {
		for i := 0; i < len(xs); i += 2 {
			spans = append(spans, [2]shape.Um{xs[i], xs[i+1]})
		}
	}
	slices.SortFunc(spans, func(a, b [2]shape.Um) int { return int(a[0] - b[0]) })
	out := row{y0: r.y0, y1: above.y1}
	for _, s := range spans {
		if n := len(out.xs); n > 0 && s[0] <= out.xs[n-1] {
			out.xs[n-1] = max(out.xs[n-1], s[1])
			continue
		}
		out.xs = append(out.xs, s[0], s[1])
	}
	return out
}

func (r row) area() shape.Um2 { return shape.Um2(r.y1-r.y0) * shape.Um2(r.width()) }

// rowsOf are a region's rows, lowest first.
func rowsOf(r shape.Region) (rows []row) {
	for _, a := range r.Rects() {
		if n := len(rows); n == 0 || rows[n-1].y0 != a.Min.Y {
			rows = append(rows, row{y0: a.Min.Y, y1: a.Max.Y})
		}
		last := &rows[len(rows)-1]
		last.xs = append(last.xs, a.Min.X, a.Max.X)
	}
	return rows
}

// regionOf is what rows take.
func regionOf(rows []row) shape.Region {
	var rects []shape.Rect
	for _, b := range rows {
		for i := 0; i < len(b.xs); i += 2 {
			rects = append(rects, shape.Rect{Min: shape.Point{X: b.xs[i], Y: b.y0}, Max: shape.Point{X: b.xs[i+1], Y: b.y1}})
		}
	}
	return shape.FromRects(rects)
}

// mergedRows makes one row of two that touch, again and again those that gain
// the least area, until few are left or too much would be gained.
func mergedRows(r shape.Region, most int, added shape.Um2) shape.Region {
	rows, count := rowsOf(r), len(r.Rects())
	left := r.Area() / added
	gains := make([]shape.Um2, max(0, len(rows)-1)) // of each row with the one above
	measure := func(i int) {
		if i < 0 || i+1 >= len(rows) {
			return
		}
		gains[i] = math.MaxInt64
		if rows[i].y1 == rows[i+1].y0 {
			gains[i] = rows[i].with(rows[i+1]).area() - rows[i].area() - rows[i+1].area()
		}
	}
	for i := range gains {
		measure(i)
	}
	for count > most {
		best, gain := -1, left+1
		for i, g := range gains {
			if g < gain {
				best, gain = i, g
			}
		}
		if best < 0 {
			break
		}
		one := rows[best].with(rows[best+1])
		count -= (len(rows[best].xs) + len(rows[best+1].xs) - len(one.xs)) / 2
		rows[best] = one
		rows = slices.Delete(rows, best+1, best+2)
		gains = slices.Delete(gains, best, best+1)
		measure(best - 1)
		measure(best)
		left -= gain
	}
	return regionOf(rows)
}
