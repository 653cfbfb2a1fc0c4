package shape

// span is a covered stretch of a line, closed, with its ends' place along it
// and in the plane, rounded to the nearest µm.
type span struct {
	from, to     Um
	fromAt, toAt Point
}

// side is a ring's edge moved out by the kernel's reach: from a to b, with the
// grown region to its left.
type side struct{ a, b Point }

// along is the unit step from a to b, off the one away from the stock.
func (s side) along() (along, off Point) {
	d := s.b.Sub(s.a)
	along = Point{sign(d.X), sign(d.Y)}
	return along, Point{along.Y, -along.X}
}

// coverSide is the stretch of s that the rectangle c, grown, covers: where it
// lies on both sides of s, or beyond s with its own side on s.
func (k kernel) coverSide(s side, c Rect) (span, bool) {
	along, off := s.along()
	// c's extent along s and away from it, from a.
	t0, t1 := dot(c.Min.Sub(s.a), along), dot(c.Max.Sub(s.a), along)
	e0, e1 := dot(c.Min.Sub(s.a), off), dot(c.Max.Sub(s.a), off)
	t0, t1, e0, e1 = min(t0, t1), max(t0, t1), min(e0, e1), max(e0, e1)
	if e0 > k.reach || e1 <= -k.reach {
		return span{}, false
	}
	w := k.half(max(e0, -e1, 0))
	t0, t1 = max(t0-w, 0), min(t1+w, dot(s.b.Sub(s.a), along))
	at := func(t Um) Point { return s.a.Add(Point{along.X * t, along.Y * t}) }
	return span{t0, t1, at(t0), at(t1)}, t0 < t1
}

func dot(p, q Point) Um { return p.X*q.X + p.Y*q.Y }

// half is half the kernel's width at the distance e from its middle line,
// rounded to the nearest µm.
func (k kernel) half(e Um) Um {
	switch {
	case k.look == RoundCorners:
		return nearestRoot(Um2(k.reach)*Um2(k.reach) - Um2(e)*Um2(e))
	case e <= k.flat:
		return k.reach
	}
	return k.reach + k.flat - e
}

// inFrame is c as seen from the tip: t at the origin, its empty quadrant to
// the upper right.
func (t tip) inFrame(c Rect) Rect {
	p, q := c.Min.Sub(t.at), c.Max.Sub(t.at)
	return rectBetween(Point{p.X * t.sx, p.Y * t.sy}, Point{q.X * t.sx, q.Y * t.sy})
}

func (t tip) toFrame(p Point) Point {
	p = p.Sub(t.at)
	return Point{p.X * t.sx, p.Y * t.sy}
}

func (t tip) fromFrame(p Point) Point { return t.at.Add(Point{p.X * t.sx, p.Y * t.sy}) }

// hull gathers points of a tip's cap and keeps the outermost two. The way
// along the cap is y − x in the tip's frame: both coordinates run one way
// along it, so that this orders even rounded points.
type hull struct {
	span
	any bool
}

func (h *hull) add(t tip, p Point) {
	f := t.toFrame(p)
	key := f.Y - f.X
	if !h.any || key < h.from {
		h.from, h.fromAt = key, p
	}
	if !h.any || key > h.to {
		h.to, h.toAt = key, p
	}
	h.any = true
}

// coverCap is the stretch of the tip's cap that the rectangle c, grown,
// covers. Both are convex and grown by one kernel, so it is a single stretch.
func (k kernel) coverCap(t tip, c Rect) (span, bool) {
	r := t.inFrame(c)
	if r.Max == (Point{}) {
		return span{}, false // the tip's own rectangle
	}
	var h hull
	if k.look == RoundCorners {
		k.arcMeets(&h, t, c, r)
	} else {
		k.chamferMeets(&h, t, r)
	}
	return h.span, h.any && h.from < h.to
}

// arcMeets adds the ends of the arc that c covers, and where the arc meets
// the outline of c grown: its four sides and the arcs about its corners.
func (k kernel) arcMeets(h *hull, t tip, c, r Rect) {
	d := k.reach
	d2 := Um2(d) * Um2(d)
	for _, p := range []Point{{d, 0}, {0, d}} {
		ex, ey := max(r.Min.X-p.X, p.X-r.Max.X, 0), max(r.Min.Y-p.Y, p.Y-r.Max.Y, 0)
		if Um2(ex)*Um2(ex)+Um2(ey)*Um2(ey) <= d2 {
			h.add(t, t.fromFrame(p))
		}
	}
	within := func(n Um2, lo, hi Um) bool { // lo ≤ √n ≤ hi
		return (lo <= 0 || Um2(lo)*Um2(lo) <= n) && hi >= 0 && n <= Um2(hi)*Um2(hi)
	}
	for _, x := range []Um{r.Min.X - d, r.Max.X + d} {
		if n := d2 - Um2(x)*Um2(x); 0 <= x && x <= d && within(n, r.Min.Y, r.Max.Y) {
			h.add(t, t.fromFrame(Point{x, nearestRoot(n)}))
		}
	}
	for _, y := range []Um{r.Min.Y - d, r.Max.Y + d} {
		if n := d2 - Um2(y)*Um2(y); 0 <= y && y <= d && within(n, r.Min.X, r.Max.X) {
			h.add(t, t.fromFrame(Point{nearestRoot(n), y}))
		}
	}
	for i := range 4 {
		q, zx, zy := r.Min, Um(-1), Um(-1) // a corner and the way out of r there
		if i&1 == 1 {
			q.X, zx = r.Max.X, 1
		}
		if i&2 == 2 {
			q.Y, zy = r.Max.Y, 1
		}
		left, right, ok := crossings(t.at, t.fromFrame(q), d)
		if !ok {
			continue
		}
		if t.sx*t.sy < 0 {
			left, right = right, left // the frame is a mirror
		}
		dist, rest := distance2(Point{}, q), Um2(0)
		rest = 4*d2 - dist
		// Left is q/2 + h·(−q.Y, q.X), right is q/2 − h·(−q.Y, q.X).
		for _, s := range []Um{1, -1} {
			if notNegative(q.X, -s*q.Y, dist, rest) && notNegative(q.Y, s*q.X, dist, rest) &&
				notNegative(-zx*q.X, -zx*s*q.Y, dist, rest) && notNegative(-zy*q.Y, zy*s*q.X, dist, rest) {
				if s > 0 {
					h.add(t, left)
				} else {
					h.add(t, right)
				}
			}
		}
	}
}

// chamferMeets adds the ends of what r, grown, covers of the chamfer
// x + y = reach + flat between x = flat and x = reach: the octagon is the
// points that keep eight bounds, each of which bounds x. All at twice the size.
func (k kernel) chamferMeets(h *hull, t tip, r Rect) {
	b, sum := k.reach, k.reach+k.flat
	if r.Max.X+r.Max.Y <= 0 || r.Min.X+r.Min.Y > 2*sum {
		return // on the stock's side, at most with its own chamfer on this line
	}
	lo := max(2*k.flat, 2*(r.Min.X-b), 2*(sum-r.Max.Y-b), r.Min.X-r.Max.Y)
	hi := min(2*b, 2*(r.Max.X+b), 2*(sum-r.Min.Y+b), r.Max.X-r.Min.Y+2*sum)
	if lo >= hi {
		return
	}
	for _, x := range []Um{lo, hi} {
		h.add(t, Point{
			floorDiv(2*t.at.X+t.sx*x+1, 2),
			floorDiv(2*t.at.Y+t.sy*(2*sum-x)+1, 2),
		})
	}
}
