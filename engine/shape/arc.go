package shape

import "math"

// Angle is how far the arc from v to its end turns about its centre, in
// radians, 0 to π; 0 for a straight edge. It takes no part in decisions.
func (v Vertex) Angle(end Point) float64 {
	if v.Arc == nil {
		return 0
	}
	a, b := v.Point.Sub(v.Arc.Centre), end.Sub(v.Arc.Centre)
	c := cross(a, b)
	if c < 0 {
		c = -c // at most a half turn, so the side is known from Turn
	}
	return math.Atan2(float64(c), float64(Um2(a.X)*Um2(b.X)+Um2(a.Y)*Um2(b.Y)))
}

// segment is the area between an arc and its chord, in µm².
func segment(chord2, angle float64) float64 {
	h := math.Sin(angle / 2)
	if h == 0 {
		return 0
	}
	return chord2 / 8 * (angle - math.Sin(angle)) / float64(h*h)
}

func distance2(p, q Point) Um2 {
	d := q.Sub(p)
	return Um2(d.X)*Um2(d.X) + Um2(d.Y)*Um2(d.Y)
}

// Area is the enclosed area, positive for an anticlockwise contour, rounded
// to the nearest µm² (1e-6 mm²); exact where there are no arcs.
func (c Contour) Area() Um2 {
	a := c.Ring().twiceArea()
	var arcs float64
	for i, v := range c {
		end := c[(i+1)%len(c)].Point
		if v.Arc != nil {
			arcs += float64(float64(v.Arc.Turn) * segment(float64(distance2(v.Point, end)), v.Angle(end)))
		}
	}
	if arcs == 0 {
		return a / 2
	}
	return Um2(math.Round(float64(a)/2 + arcs))
}

// Length is the length of the line, rounded to the nearest µm; exact where
// all edges are parallel to an axis.
func (c Contour) Length() Um {
	var exact Um
	var slanted float64
	for i, v := range c {
		end := c[(i+1)%len(c)].Point
		d := end.Sub(v.Point)
		switch {
		case v.Arc != nil:
			chord := math.Sqrt(float64(distance2(v.Point, end)))
			if angle := v.Angle(end); angle > 0 {
				slanted += chord / 2 * angle / math.Sin(angle/2)
			}
		case d.X == 0 || d.Y == 0:
			exact += abs(d.X) + abs(d.Y)
		default:
			slanted += math.Sqrt(float64(distance2(v.Point, end)))
		}
	}
	return exact + Um(math.Round(slanted))
}

// Bounds is the smallest rectangle that holds the contour, arcs included.
func (c Contour) Bounds() Rect {
	b := c.Ring().Bounds()
	for i, v := range c {
		if v.Arc == nil {
			continue
		}
		end := c[(i+1)%len(c)].Point
		for _, u := range []Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			if v.passes(end, u) {
				p := v.Arc.Centre.Add(Point{u.X * v.Arc.Radius, u.Y * v.Arc.Radius})
				b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
				b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
			}
		}
	}
	return b
}

// passes says whether the arc from v to end runs through the direction u from
// its centre, its ends not counted.
func (v Vertex) passes(end, u Point) bool {
	a, b := v.Point.Sub(v.Arc.Centre), end.Sub(v.Arc.Centre)
	if v.Arc.Turn == Clockwise {
		a, b = b, a
	}
	return cross(a, u) > 0 && cross(u, b) > 0
}

// Area is the area of the stock, rounded as Contour.Area is.
func (o Outline) Area() Um2 {
	a := o.Outer.Area()
	for _, h := range o.Holes {
		a += h.Area()
	}
	return a
}

// Length is the length of all its contours.
func (o Outline) Length() Um {
	l := o.Outer.Length()
	for _, h := range o.Holes {
		l += h.Length()
	}
	return l
}

// Bounds is the smallest rectangle that holds the outline.
func (o Outline) Bounds() Rect { return o.Outer.Bounds() }

// Flatten is the contour with each arc replaced by chords that leave it by no
// more than tolerance (at least 1 µm) and whose ends lie on it, rounded to the
// nearest µm. Points that fall on one another or in line are left out.
func (c Contour) Flatten(tolerance Um) Ring {
	tolerance = max(tolerance, 1)
	r := make(Ring, 0, len(c))
	for i, v := range c {
		r = append(r, v.Point)
		if v.Arc == nil {
			continue
		}
		end := c[(i+1)%len(c)].Point
		angle := v.Angle(end)
		n := 1
		// A chord over the angle φ leaves its circle by r(1−cos φ/2).
		if half := math.Acos(max(0, 1-float64(tolerance)/float64(max(v.Arc.Radius, 1)))); half > 0 {
			n = max(1, int(math.Ceil(float64(angle/(2*half))-1e-9)))
		}
		a := v.Point.Sub(v.Arc.Centre)
		for k := 1; k < n; k++ {
			sin, cos := math.Sincos(float64(angle * float64(k) / float64(n)))
			sin *= float64(v.Arc.Turn)
			r = append(r, v.Arc.Centre.Add(Point{
				Um(math.Round(float64(float64(a.X)*cos) - float64(float64(a.Y)*sin))),
				Um(math.Round(float64(float64(a.X)*sin) + float64(float64(a.Y)*cos))),
			}))
		}
	}
	return r.simplified()
}

// Flatten is the outline with all arcs flattened.
func (o Outline) Flatten(tolerance Um) Polygon {
	p := Polygon{Outer: o.Outer.Flatten(tolerance)}
	for _, h := range o.Holes {
		p.Holes = append(p.Holes, h.Flatten(tolerance))
	}
	return p
}

// simplified is the ring without repeated points and without the middle one
// of three in line.
func (r Ring) simplified() Ring {
	for r.runsOn() {
		out := r[:0:0]
		n := len(r)
		for i, p := range r {
			before := r[(i+n-1)%n]
			if len(out) > 0 {
				before = out[len(out)-1]
			}
			after := r[(i+1)%n]
			if cross(p.Sub(before), after.Sub(p)) != 0 {
				out = append(out, p)
			}
		}
		r = out
	}
	return r
}

// runsOn says whether a point of the ring lies on another or in line with its
// neighbours.
func (r Ring) runsOn() bool {
	n := len(r)
	for i, p := range r {
		if cross(p.Sub(r[(i+n-1)%n]), r[(i+1)%n].Sub(p)) == 0 {
			return true
		}
	}
	return false
}
