package shape

// Place says where a point lies.
type Place int8

// The places a point can have. On is exactly on the line.
const (
	Outside Place = -1
	On      Place = 0
	Inside  Place = 1
)

// Where says where p lies, exactly, whichever way the ring runs. Edges may be
// slanted. Even–odd rule of the ray to the right.
func (r Ring) Where(p Point) Place {
	in := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if (a.Y > p.Y) == (b.Y > p.Y) { // level or not crossing the ray's line
			if a.Y == p.Y && b.Y == p.Y && min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) || a == p || b == p {
				return On
			}
			continue
		}
		c := cross(b.Sub(a), p.Sub(a))
		if c == 0 {
			return On
		}
		if (c > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	if in {
		return Inside
	}
	return Outside
}

// Holds says whether s lies within r. The two may touch and share edges, but
// must not cross. A ring holds itself.
func (r Ring) Holds(s Ring) bool {
	for _, p := range s {
		if w := r.Where(p); w != On {
			return w == Inside
		}
	}
	// All corners of s lie on r: then the middle of an edge decides, taken at
	// twice the size so that it stays whole.
	r2, s2 := r.twice(), s.twice()
	for i, p := range s2 {
		q := s2[(i+1)%len(s2)]
		if w := r2.Where(Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2}); w != On {
			return w == Inside
		}
	}
	a, b := r.twiceArea(), s.twiceArea()
	return max(b, -b) <= max(a, -a)
}

func (r Ring) twice() Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = Point{2 * p.X, 2 * p.Y}
	}
	return out
}

// Where says where p lies: inside is in the stock, a hole is outside.
func (p Polygon) Where(q Point) Place {
	w := p.Outer.Where(q)
	if w != Inside {
		return w
	}
	for _, h := range p.Holes {
		if v := h.Where(q); v != Outside {
			return -v
		}
	}
	return Inside
}
