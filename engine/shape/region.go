package shape

// Region is a set of points bounded by axis-parallel lines: what unions,
// differences and growing work on. The zero value is the empty region. A
// Region is never changed once made.
//
// Invariant: horizontal bands from below, not overlapping, none empty; each
// with the x where its rows begin and end, strictly increasing, even in
// number; bands that touch differ. So equal regions are equal field by field.
// A region is closed and has no parts without area.
type Region struct {
	bands []band
	xs    []Um
}

// band is the rows y0 ≤ y ≤ y1 with the intervals xs[i0:i1] of its region.
type band struct {
	y0, y1 Um
	i0, i1 int
}

func (r Region) row(b band) []Um { return r.xs[b.i0:b.i1] }

// push appends a band on top, keeping the invariant; xs is copied.
func (r *Region) push(y0, y1 Um, xs []Um) {
	if len(xs) == 0 || y0 >= y1 {
		return
	}
	if n := len(r.bands); n > 0 {
		last := &r.bands[n-1]
		if last.y1 == y0 && equal(r.row(*last), xs) {
			last.y1 = y1
			return
		}
	}
	i := len(r.xs)
	r.xs = append(r.xs, xs...)
	r.bands = append(r.bands, band{y0, y1, i, len(r.xs)})
}

func equal(a, b []Um) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// Empty says whether r has no area.
func (r Region) Empty() bool { return len(r.bands) == 0 }

// Equal says whether r and s are the same points.
func (r Region) Equal(s Region) bool {
	if len(r.bands) != len(s.bands) {
		return false
	}
	for i, b := range r.bands {
		c := s.bands[i]
		if b.y0 != c.y0 || b.y1 != c.y1 || !equal(r.row(b), s.row(c)) {
			return false
		}
	}
	return true
}

// Area is exact.
func (r Region) Area() Um2 {
	var sum Um2
	for _, b := range r.bands {
		var w Um
		xs := r.row(b)
		for i := 0; i < len(xs); i += 2 {
			w += xs[i+1] - xs[i]
		}
		sum += Um2(w) * Um2(b.y1-b.y0)
	}
	return sum
}

// Bounds is the smallest rectangle that holds r.
func (r Region) Bounds() Rect {
	var out Rect
	for _, b := range r.bands {
		xs := r.row(b)
		out = out.Union(Rect{Point{xs[0], b.y0}, Point{xs[len(xs)-1], b.y1}})
	}
	return out
}

// Rects is r as rectangles that don't overlap: from below, left to right, as
// wide as they can be.
func (r Region) Rects() []Rect {
	var out []Rect
	for _, b := range r.bands {
		xs := r.row(b)
		for i := 0; i < len(xs); i += 2 {
			out = append(out, Rect{Point{xs[i], b.y0}, Point{xs[i+1], b.y1}})
		}
	}
	return out
}

// Moved is r shifted by d.
func (r Region) Moved(d Point) Region {
	var out Region
	for _, b := range r.bands {
		out.bands = append(out.bands, band{b.y0 + d.Y, b.y1 + d.Y, b.i0, b.i1})
	}
	for _, x := range r.xs {
		out.xs = append(out.xs, x+d.X)
	}
	return out
}
