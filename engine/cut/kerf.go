// Package cut turns finished parts into what a machine cuts and marks: the cut
// lines beside the finished edges, tabs, marks where the parts on top go, and
// numbers.
//
// The cut's middle runs half a kerf outside the finished shape: outer contours
// grow, holes shrink. Moved back by as much, a cut line is the finished shape
// again, exactly where edges are parallel to an axis and to the µm where they
// are round or slanted. A place where that can't be, because a gap or a hole is
// no wider than the kerf, is a Fault.
package cut

import (
	"sheetsprite/engine/shape"
)

// Fault is a place where a part can't be cut with its kerf: a gap or a hole no
// wider than the kerf.
type Fault struct {
	At shape.Point // in the layers' coordinates
}

// Kerfed is a part's cut lines, in order of the finished contours and vertex by
// vertex. faults is empty where moving it back gives the finished shape.
func Kerfed(finished shape.Outline, kerf shape.Um) (line shape.Outline, faults []Fault) {
	half := HalfKerf(kerf)
	if half == 0 {
		return finished, nil
	}
	line, ok := offset(finished, half)
	if !axisParallel(finished) {
		if faults := bent(finished, line); ok && len(faults) > 0 {
			return line, faults
		}
		if !ok || line.Validate() != nil || !kept(finished, line) {
			return line, roundFaults(finished, line, half)
		}
		return line, nil
	}
	was := shape.FromPolygons(finished.Polygon())
	grown := was.Grow(half)
	for _, r := range grown.Shrink(half).Differ(was).Rects() {
		faults = append(faults, Fault{middle(r)})
	}
	if len(faults) > 0 {
		return line, mergedFaults(faults, kerf)
	}
	// What is left to go wrong is that cut lines meet in a point.
	seen := map[shape.Point]bool{}
	for _, p := range grown.Polygons(shape.BySides) {
		for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
			for _, q := range r {
				if seen[q] {
					faults = append(faults, Fault{q})
				}
				seen[q] = true
			}
		}
	}
	return line, faults
}

// bent are the ends of straight edges along an axis whose cut lines are not: there
// the outline turns back on itself, as where a round edge runs into a straight one
// that goes the other way, and the notch between the two is narrower than any kerf.
func bent(was, line shape.Outline) (faults []Fault) {
	look := func(a, b shape.Contour) {
		if len(a) != len(b) {
			return
		}
		for i, v := range a {
			k := (i + 1) % len(a)
			if v.Arc != nil {
				continue
			}
			if v.X == a[k].X && b[i].X != b[k].X || v.Y == a[k].Y && b[i].Y != b[k].Y {
				faults = append(faults, Fault{v.Point})
			}
		}
	}
	look(was.Outer, line.Outer)
	for i := range was.Holes {
		look(was.Holes[i], line.Holes[i])
	}
	return faults
}

// kept says whether each contour still runs the way it ran.
func kept(a, b shape.Outline) bool {
	same := (a.Outer.Area() > 0) == (b.Outer.Area() > 0)
	for i := range a.Holes {
		same = same && b.Holes[i].Area() < 0
	}
	return same
}

// roundFaults finds where a shape with arcs fails: holes that are too small,
// else its outer contour.
func roundFaults(was, line shape.Outline, half shape.Um) []Fault {
	var faults []Fault
	for i, h := range was.Holes {
		b := h.Bounds()
		if w, hh := b.Size(); min(w, hh) <= 2*half || line.Holes[i].Validate() != nil || line.Holes[i].Area() >= 0 {
			faults = append(faults, Fault{middle(b)})
		}
	}
	if len(faults) == 0 {
		faults = append(faults, Fault{was.Outer[0].Point})
	}
	return faults
}

func middle(r shape.Rect) shape.Point {
	return shape.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
}

// mergedFaults leaves out places within a kerf of one before, which are the
// same gap seen in several rectangles.
func mergedFaults(faults []Fault, kerf shape.Um) []Fault {
	var out []Fault
next:
	for _, f := range faults {
		for _, g := range out {
			d := f.At.Sub(g.At)
			if max(d.X, -d.X) <= kerf && max(d.Y, -d.Y) <= kerf {
				continue next
			}
		}
		out = append(out, f)
	}
	return out
}
