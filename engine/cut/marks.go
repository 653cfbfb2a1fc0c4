package cut

import (
	"slices"

	"sheetsprite/engine/shape"
)

// How marks are drawn. Common practice, no source, but for MarkBack, which is
// what a hand is off by at most.
const (
	MarkWidth   = shape.Um(200) // the line, at most
	MarkBack    = shape.Um(500) // from the edge of the part that hides it, at the least
	numberClear = shape.Um(400) // from a number to the marks around it
)

// Upper is a part that lies on another one.
type Upper struct {
	Outline shape.Outline // finished
	Float   shape.Um      // height of the foam under it; 0: it lies flat
	Joins   []shape.Rect  // its corners may hang free: what they cover counts for nothing
}

// cover is what the part surely hides.
func (u Upper) cover() shape.Region {
	r := shape.FromPolygons(u.Outline.Polygon())
	if len(u.Joins) > 0 {
		r = r.Subtract(shape.FromRects(u.Joins))
	}
	return r
}

// hiding is where the middles of mark lines may run beneath a part: back from its
// edge by as much as a hand is off, or by the height it floats above, so that
// nobody who looks aslant sees them.
func hiding(u Upper) shape.Region {
	return u.cover().Shrink(max(MarkBack, u.Float) + MarkWidth/2)
}

// onto is the region less what would leave the piece with its line. A backer with
// round or slanted edges is larger than all that lies on it, so that only what
// lies beyond a seam is taken off there.
func (c *Piece) onto(r shape.Region) shape.Region {
	bare := c.Part.Bare() // no mark goes round a pin
	switch {
	case r.Empty():
		return r
	case axisParallel(bare):
		return r.Intersect(shape.FromPolygons(bare.Polygon()).Shrink(MarkWidth / 2))
	case c.Of == "":
		return r
	}
	var on []shape.Polygon
	for _, p := range r.Intersect(shape.FromRects([]shape.Rect{grown(c.Within, -MarkWidth/2)})).Polygons(shape.BySides) {
		if c.Part.Outline.Flatten(5).Where(p.Outer[0]) == shape.Inside {
			on = append(on, p)
		}
	}
	return shape.FromPolygons(on...)
}

// edges are the lines that a piece's seams lie on: no tab there, since what it
// leaves would keep the pieces apart.
func (c *Piece) edges() []shape.Rect {
	if c.Of == "" {
		return nil
	}
	var out []shape.Rect
	w, b := c.Within, c.Whole.Bounds
	add := func(seam bool, r shape.Rect) {
		if seam {
			out = append(out, r)
		}
	}
	add(w.Min.X > b.Min.X, shape.Rect{Min: w.Min, Max: shape.Point{X: w.Min.X, Y: w.Max.Y}})
	add(w.Max.X < b.Max.X, shape.Rect{Min: shape.Point{X: w.Max.X, Y: w.Min.Y}, Max: w.Max})
	add(w.Min.Y > b.Min.Y, shape.Rect{Min: w.Min, Max: shape.Point{X: w.Max.X, Y: w.Min.Y}})
	add(w.Max.Y < b.Max.Y, shape.Rect{Min: shape.Point{X: w.Min.X, Y: w.Max.Y}, Max: w.Max})
	return out
}

// places draws a region's lines, open where a seam cuts them: a line along the
// seam would be taken for the upper part's edge.
func (c *Piece) places(h shape.Region) {
	seams := c.edges()
	along := func(p, q shape.Point) bool {
		return slices.ContainsFunc(seams, func(s shape.Rect) bool {
			d := shape.Um(MarkWidth / 2)
			if s.Min.X == s.Max.X {
				return p.X == q.X && (p.X == s.Min.X-d || p.X == s.Min.X+d)
			}
			return p.Y == q.Y && (p.Y == s.Min.Y-d || p.Y == s.Min.Y+d)
		})
	}
	for _, ring := range rings(h) {
		n, first := len(ring), -1
		for i, v := range ring {
			if along(v.Point, ring[(i+1)%n].Point) {
				first = i
				break
			}
		}
		if first < 0 {
			c.Places = append(c.Places, ring)
			continue
		}
		var open shape.Contour
		for k := 1; k <= n; k++ { // from where the seam's line ends
			v := ring[(first+k)%n]
			open = append(open, v)
			if along(v.Point, ring[(first+k+1)%n].Point) {
				if len(open) > 1 {
					c.Ticks = append(c.Ticks, open)
				}
				open = nil
			}
		}
	}
}

// ticks are the corners of what floats that lie on the piece.
func (c *Piece) ticks(all, h shape.Region) []shape.Contour {
	if c.Of == "" {
		return ticks(h)
	}
	return slices.DeleteFunc(ticks(all), func(t shape.Contour) bool {
		return slices.ContainsFunc(t, func(v shape.Vertex) bool { return !reaches(h, v.Point) })
	})
}

// reaches says whether a point lies in a region or on its edge.
func reaches(r shape.Region, p shape.Point) bool {
	return slices.ContainsFunc(r.Rects(), func(q shape.Rect) bool {
		return q.Min.X <= p.X && p.X <= q.Max.X && q.Min.Y <= p.Y && p.Y <= q.Max.Y
	})
}

// How corners are ticked. Common practice, no source.
const (
	tickLength = shape.Um(1500) // along both edges, a third of the shorter one at most
	leastTick  = shape.Um(300)
)

// ticks are the corners of a region's outer lines only, where they turn left: an
// open line along both edges of each. What floats would throw light on more.
func ticks(r shape.Region) []shape.Contour {
	var out []shape.Contour
	for _, p := range r.Polygons(shape.BySides) {
		n := len(p.Outer)
		for i, at := range p.Outer {
			a, b := p.Outer[(i+n-1)%n].Sub(at), p.Outer[(i+1)%n].Sub(at)
			if b.X*a.Y-b.Y*a.X <= 0 { // anticlockwise: the stock is on the left
				continue
			}
			long := min(tickLength, max(a.X, -a.X, a.Y, -a.Y)/3, max(b.X, -b.X, b.Y, -b.Y)/3)
			if long < leastTick {
				continue
			}
			end := func(d shape.Point) shape.Vertex {
				u := unit(d)
				return shape.Vertex{Point: at.Add(shape.Point{X: u.X * long, Y: u.Y * long})}
			}
			out = append(out, shape.Contour{end(a), {Point: at}, end(b)})
		}
	}
	return out
}

// rings are the closed lines round a region.
func rings(r shape.Region) []shape.Contour {
	var out []shape.Contour
	for _, p := range r.Polygons(shape.BySides) {
		out = append(out, p.Outer.Contour())
		for _, h := range p.Holes {
			out = append(out, h.Contour())
		}
	}
	return out
}

func axisParallel(o shape.Outline) bool {
	for _, c := range append([]shape.Contour{o.Outer}, o.Holes...) {
		for i, v := range c {
			if d := c[(i+1)%len(c)].Sub(v.Point); v.Arc != nil || d.X != 0 && d.Y != 0 {
				return false
			}
		}
	}
	return true
}
