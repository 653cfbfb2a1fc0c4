package shape

// Turn says how a contour runs from one vertex to the next.
type Turn int8

// The ways to the next vertex.
const (
	Straight      Turn = 0
	Anticlockwise Turn = 1  // along an arc about its centre
	Clockwise     Turn = -1 // along an arc about its centre
)

// Vertex is a corner of a contour and the way from it to the next one. There are
// many: a large drawing's plan holds a million, nearly all of straight edges.
type Vertex struct {
	Point
	Arc *Arc // to the next vertex; nil: straight
}

// Arc is the round way from a vertex to the next one. It is never changed once
// made, as contours share it.
type Arc struct {
	Turn   Turn // never Straight
	Centre Point
	Radius Um
}

// Reversed is the arc run the other way round; nil stays nil.
func (a *Arc) Reversed() *Arc {
	if a == nil {
		return nil
	}
	return &Arc{-a.Turn, a.Centre, a.Radius}
}

// About is the arc about another centre; nil stays nil.
func (a *Arc) About(centre func(Point) Point) *Arc {
	if a == nil {
		return nil
	}
	return &Arc{a.Turn, centre(a.Centre), a.Radius}
}

// Contour is a closed line of straight edges and arcs. It is what is cut and
// what the files hold. Arcs appear only where a shape is meant to be round:
// whole-µm centre and radius, end points rounded to the nearest µm, each at
// most a half turn. What an arc encloses is meant as its chord and the angle
// between its ends as seen from the centre. Orientation as for Ring.
type Contour []Vertex

// Outline is a part's boundary: one outer contour and the holes in it.
type Outline struct {
	Outer Contour
	Holes []Contour
}

// Contour is the ring as a contour.
func (r Ring) Contour() Contour {
	c := make(Contour, len(r))
	for i, p := range r {
		c[i].Point = p
	}
	return c
}

// Outline is the polygon as an outline.
func (p Polygon) Outline() Outline {
	o := Outline{Outer: p.Outer.Contour()}
	for _, h := range p.Holes {
		o.Holes = append(o.Holes, h.Contour())
	}
	return o
}

// Ring is the contour's vertices, arcs taken as their chords.
func (c Contour) Ring() Ring {
	r := make(Ring, len(c))
	for i, v := range c {
		r[i] = v.Point
	}
	return r
}

// Straight says whether the contour has no arcs.
func (c Contour) Straight() bool {
	for _, v := range c {
		if v.Arc != nil {
			return false
		}
	}
	return true
}

// Reversed is the contour run the other way round, from the same first vertex.
func (c Contour) Reversed() Contour {
	n := len(c)
	out := make(Contour, n)
	for i, v := range c {
		way := c[(i+n-1)%n] // the edge that ended in v now starts there
		out[(n-i)%n] = Vertex{v.Point, way.Arc.Reversed()}
	}
	return out
}

// Moved is the contour shifted by d.
func (c Contour) Moved(d Point) Contour {
	out := make(Contour, len(c))
	for i, v := range c {
		out[i] = Vertex{v.Point.Add(d), v.Arc.About(d.Add)}
	}
	return out
}

// Moved is the outline shifted by d.
func (o Outline) Moved(d Point) Outline {
	out := Outline{Outer: o.Outer.Moved(d)}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, h.Moved(d))
	}
	return out
}

// Polygon is the outline with straight edges; it panics where there are arcs
// (use Flatten).
func (o Outline) Polygon() Polygon {
	ring := func(c Contour) Ring {
		if !c.Straight() {
			panic("shape: Outline.Polygon on an outline with arcs")
		}
		return c.Ring()
	}
	p := Polygon{Outer: ring(o.Outer)}
	for _, h := range o.Holes {
		p.Holes = append(p.Holes, ring(h))
	}
	return p
}
