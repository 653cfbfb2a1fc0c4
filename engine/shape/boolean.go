package shape

// Union is the points of either, closed.
func (r Region) Union(s Region) Region { return combine(r, s, func(a, b bool) bool { return a || b }) }

// Intersect is the points of both, without what has no area.
func (r Region) Intersect(s Region) Region {
	return combine(r, s, func(a, b bool) bool { return a && b })
}

// Subtract is the points of r that aren't in s, closed.
func (r Region) Subtract(s Region) Region {
	return combine(r, s, func(a, b bool) bool { return a && !b })
}

// Differ is the points of exactly one of the two, closed.
func (r Region) Differ(s Region) Region { return combine(r, s, func(a, b bool) bool { return a != b }) }

// combine runs over the bands of both from below. keep(false, false) must be
// false. Time is linear in both regions' bands once cut at each other's ends.
func combine(r, s Region, keep func(a, b bool) bool) Region {
	var out Region
	var xs []Um
	i, j := 0, 0
	if len(r.bands) == 0 && len(s.bands) == 0 {
		return out
	}
	y := lowest(r, s)
	for i < len(r.bands) || j < len(s.bands) {
		var a, b []Um
		top := Um(1<<63 - 1)
		if i < len(r.bands) {
			if c := r.bands[i]; c.y0 <= y {
				a, top = r.row(c), min(top, c.y1)
			} else {
				top = min(top, c.y0)
			}
		}
		if j < len(s.bands) {
			if c := s.bands[j]; c.y0 <= y {
				b, top = s.row(c), min(top, c.y1)
			} else {
				top = min(top, c.y0)
			}
		}
		xs = combineRows(xs[:0], a, b, keep)
		out.push(y, top, xs)
		y = top
		if i < len(r.bands) && r.bands[i].y1 == y {
			i++
		}
		if j < len(s.bands) && s.bands[j].y1 == y {
			j++
		}
	}
	return out
}

func lowest(r, s Region) Um {
	if len(r.bands) == 0 {
		return s.bands[0].y0
	}
	if len(s.bands) == 0 {
		return r.bands[0].y0
	}
	return min(r.bands[0].y0, s.bands[0].y0)
}

func combineRows(out, a, b []Um, keep func(a, b bool) bool) []Um {
	in := false
	for i, j := 0, 0; i < len(a) || j < len(b); {
		var x Um
		switch {
		case j == len(b) || i < len(a) && a[i] <= b[j]:
			x = a[i]
		default:
			x = b[j]
		}
		if i < len(a) && a[i] == x {
			i++
		}
		if j < len(b) && b[j] == x {
			j++
		}
		if now := keep(i%2 == 1, j%2 == 1); now != in {
			out = append(out, x)
			in = now
		}
	}
	return out
}
