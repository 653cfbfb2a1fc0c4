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
// the parts on it, back from that one's edge, and on the part itself.
func hiding(u Upper, below shape.Outline) shape.Region {
	r := u.cover().Shrink(MarkBack + MarkWidth/2)
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
