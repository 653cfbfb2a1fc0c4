package shape

// Ring is a closed line through its points; the last one joins the first.
//
// Invariant: at least four points, no point twice in a row, no three in one
// line, edges parallel to an axis unless a doc comment says otherwise; it
// touches neither itself nor another ring of its shape. An outer ring runs
// anticlockwise (positive area), a hole clockwise (negative area). Validate
// names the first rule that is broken.
type Ring []Point

// Polygon is a piece of stock with straight edges: one outer ring and the
// holes in it.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// Area is the enclosed area, positive for an anticlockwise ring and negative
// for a clockwise one. Exact for axis-parallel rings; where slanted edges make
// it a half µm², it is rounded towards zero.
func (r Ring) Area() Um2 { return r.twiceArea() / 2 }

// twiceArea is the sum of the cross products of neighbouring points, taken
// from the first point so that a ring far from the origin can't overflow.
func (r Ring) twiceArea() Um2 {
	if len(r) == 0 {
		return 0
	}
	var sum Um2
	o := r[0]
	for i := 1; i+1 < len(r); i++ {
		sum += cross(r[i].Sub(o), r[i+1].Sub(o))
	}
	return sum
}

// cross is twice the signed area of the triangle 0, p, q.
func cross(p, q Point) Um2 { return Um2(p.X)*Um2(q.Y) - Um2(p.Y)*Um2(q.X) }

// Bounds is the smallest rectangle that holds the ring.
func (r Ring) Bounds() Rect {
	if len(r) == 0 {
		return Rect{}
	}
	b := Rect{r[0], r[0]}
	for _, p := range r[1:] {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return b
}

// Perimeter is the length of an axis-parallel ring, exact. For slanted edges
// use Contour.Length.
func (r Ring) Perimeter() Um {
	var sum Um
	for i, p := range r {
		d := r[(i+1)%len(r)].Sub(p)
		sum += abs(d.X) + abs(d.Y)
	}
	return sum
}

func abs(x Um) Um {
	if x < 0 {
		return -x
	}
	return x
}

// Reversed is the ring run the other way round, from the same first point.
func (r Ring) Reversed() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[(len(r)-i)%len(r)] = p
	}
	return out
}

// Moved is the ring shifted by d.
func (r Ring) Moved(d Point) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = p.Add(d)
	}
	return out
}

// Area is the area of the stock: the outer ring's less the holes'.
func (p Polygon) Area() Um2 {
	a := p.Outer.Area()
	for _, h := range p.Holes {
		a += h.Area()
	}
	return a
}

// Bounds is the smallest rectangle that holds the polygon.
func (p Polygon) Bounds() Rect { return p.Outer.Bounds() }

// Perimeter is the length of all its rings.
func (p Polygon) Perimeter() Um {
	l := p.Outer.Perimeter()
	for _, h := range p.Holes {
		l += h.Perimeter()
	}
	return l
}
