package shape

// Point is a place in the plane; x runs right, y runs up.
type Point struct{ X, Y Um }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p − q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Rect is an axis-parallel rectangle from Min to Max. It is empty where Max
// isn't above and right of Min.
type Rect struct{ Min, Max Point }

// Empty says whether r has no area.
func (r Rect) Empty() bool { return r.Max.X <= r.Min.X || r.Max.Y <= r.Min.Y }

// Size is r's width and height; zero for an empty rectangle.
func (r Rect) Size() (w, h Um) {
	if r.Empty() {
		return 0, 0
	}
	return r.Max.X - r.Min.X, r.Max.Y - r.Min.Y
}

// Union is the smallest rectangle that holds both; an empty one counts for nothing.
func (r Rect) Union(s Rect) Rect {
	if r.Empty() {
		return s
	}
	if s.Empty() {
		return r
	}
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}
