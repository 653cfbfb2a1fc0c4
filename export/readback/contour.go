package readback

import "fmt"

// vertex is a corner of a contour in µm, y up, and the way to the next one.
type vertex struct {
	x, y int64
	arc  int64 // 0: straight; else the radius, positive where the arc runs anticlockwise
}

// contour is a closed line; the last vertex joins the first.
type contour []vertex

// part is a piece of stock as a file holds it: the outer contour, then its holes.
type part struct {
	id       string // "" where the file has none
	contours []contour
}

// turn is twice the signed area within the contour's chords, or, where that is
// nothing, the way its arcs run: only its sign is used.
func (c contour) turn() int64 {
	var sum, arcs int64
	for i, v := range c {
		n := c[(i+1)%len(c)]
		sum += (v.x-c[0].x)*(n.y-c[0].y) - (n.x-c[0].x)*(v.y-c[0].y)
		arcs += v.arc
	}
	if sum == 0 {
		return arcs
	}
	return sum
}

// check names the first thing that makes c no contour to cut.
func (c contour) check() error {
	if len(c) < 2 {
		return fmt.Errorf("has %d vertices", len(c))
	}
	for i, v := range c {
		n := c[(i+1)%len(c)]
		if v.x == n.x && v.y == n.y {
			return fmt.Errorf("has the same vertex twice at (%s, %s) mm", mm(v.x), mm(v.y))
		}
	}
	if c.turn() == 0 {
		return fmt.Errorf("encloses nothing at (%s, %s) mm", mm(c[0].x), mm(c[0].y))
	}
	return nil
}

// split puts contours together to parts: one that runs anticlockwise begins a
// part, those that run clockwise after it are its holes. Whether they lie in it
// is for the sweep to see.
func split(contours []contour) ([]part, error) {
	var parts []part
	for i, c := range contours {
		if err := c.check(); err != nil {
			return nil, fmt.Errorf("contour %d %w", i+1, err)
		}
		if c.turn() > 0 {
			parts = append(parts, part{contours: contours[i : i+1 : i+1]})
			continue
		}
		if len(parts) == 0 {
			return nil, fmt.Errorf("contour %d is a hole, and no part stands before it", i+1)
		}
		p := &parts[len(parts)-1]
		p.contours = contours[i-len(p.contours) : i+1 : i+1]
	}
	return parts, nil
}

// sameContour says where a and b differ; "" where they don't.
func sameContour(a, b contour) string {
	for i := range a {
		if i >= len(b) {
			break
		}
		if a[i] != b[i] {
			return fmt.Sprintf("at (%s, %s) mm", mm(a[i].x), mm(a[i].y))
		}
	}
	if len(a) != len(b) {
		return fmt.Sprintf("in their number of vertices, %d and %d", len(a), len(b))
	}
	return ""
}

// sameParts says where two readings of a layer differ; "" where they don't.
func sameParts(a, b []part) string {
	for i := range min(len(a), len(b)) {
		if len(a[i].contours) != len(b[i].contours) {
			return fmt.Sprintf("in the holes of part %d", i+1)
		}
		for k := range a[i].contours {
			if where := sameContour(a[i].contours[k], b[i].contours[k]); where != "" {
				return fmt.Sprintf("in part %d %s", i+1, where)
			}
		}
	}
	if len(a) != len(b) {
		return fmt.Sprintf("in their number of parts, %d and %d", len(a), len(b))
	}
	return ""
}
