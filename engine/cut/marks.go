package cut

import "sheetsprite/engine/shape"

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

// hiding is where the middles of mark lines may run on a part: beneath one of
// the parts on it, and on the part itself: back from that one's edge by as much
// as a hand is off, or by the height it floats above, so that nobody who looks
// aslant sees them.
func hiding(u Upper, below shape.Outline) shape.Region {
	r := u.cover().Shrink(max(MarkBack, u.Float) + MarkWidth/2)
	if r.Empty() {
		return r
	}
	return onto(r, below)
}

// onto is the region less what would leave the part below with its line. A
// backer with round or slanted edges is larger than all that lies on it, so
// nothing is taken away there.
func onto(r shape.Region, below shape.Outline) shape.Region {
	if !axisParallel(below) {
		return r
	}
	return r.Intersect(shape.FromPolygons(below.Polygon()).Shrink(MarkWidth / 2))
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
			if d := c[(i+1)%len(c)].Sub(v.Point); v.Turn != shape.Straight || d.X != 0 && d.Y != 0 {
				return false
			}
		}
	}
	return true
}
