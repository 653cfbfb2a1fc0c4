package shape

import (
	"cmp"
	"slices"
)

// piece is a stretch of the grown region's outline, from a to b with the
// region to its left.
type piece struct {
	a, b   Point
	turn   Turn
	centre Point
	group  int // component of the region it comes from
}

// borderline collects the outline of a grown region: every edge moved out and
// every cap about a convex corner is cut down to what no grown rectangle of
// the region covers. What is left joins up into closed lines, because its ends
// are rounded in one way wherever they are reached from.
type borderline struct {
	kernel
	region Region
	groups groups // of the region's rectangles
	rectAt map[Point]int
	pieces []piece
}

// outlines is Border for caps that aren't square, without contacts.
func (k kernel) outlines(r Region) []Outline {
	b := borderline{kernel: k, region: r, rectAt: map[Point]int{}}
	rects := r.Rects()
	b.groups = groupRects(r, rects)
	for i, c := range rects {
		b.rectAt[c.Min] = i
	}
	var caps []capOf
	var sides []sideOf
	for _, p := range r.Polygons(BySides) {
		top := p.Outer[0] // upper left corner of the piece's first rectangle
		group := b.rectBelow(rects, top)
		for _, ring := range append([]Ring{p.Outer}, p.Holes...) {
			n := len(ring)
			for i, v := range ring {
				in, on := side{ring[(i+n-1)%n], v}, side{v, ring[(i+1)%n]}
				d1, n1 := in.along()
				d2, n2 := on.along()
				start, end := Um(0), Um(0)
				if cross(d1, d2) > 0 {
					start = k.flat
					c := capOf{tip{v, n1.X + d1.X, n1.Y + d1.Y}, piece{
						a: v.Add(steps(n1, k.reach)).Add(steps(d1, k.flat)),
						b: v.Add(steps(d1, k.reach)).Add(steps(n1, k.flat)), group: group,
					}}
					if k.look == RoundCorners {
						c.p.turn, c.p.centre = Anticlockwise, v
					}
					caps = append(caps, c)
				}
				w := ring[(i+2)%n]
				if cross(d2, w.Sub(on.b)) > 0 {
					end = k.flat
				}
				out := steps(n2, k.reach)
				sides = append(sides, sideOf{side{on.a.Add(out).Sub(steps(d2, start)), on.b.Add(out).Add(steps(d2, end))}, group})
			}
		}
	}
	b.addSides(sides)
	b.addCaps(caps)
	return b.join()
}

// sideOf and capOf are lines that may be seen, with the group they come from.
type sideOf struct {
	side
	group int
}

type capOf struct {
	tip
	p piece
}

// addSides adds what is seen of the sides. Where the kernel has flat sides,
// those in one line may overlap: each gives way to the one before it.
func (b *borderline) addSides(sides []sideOf) {
	type line struct{ along, level, start Um } // way, line, place on it
	of := func(s sideOf) line {
		along, off := s.along()
		return line{along.X + 2*along.Y, dot(s.a, off), dot(s.a, along)}
	}
	slices.SortStableFunc(sides, func(p, q sideOf) int {
		l, m := of(p), of(q)
		return cmp.Or(cmp.Compare(l.along, m.along), cmp.Compare(l.level, m.level), cmp.Compare(l.start, m.start))
	})
	for i, s := range sides {
		var before *side
		if i > 0 {
			if l, m := of(sides[i-1]), of(s); l.along == m.along && l.level == m.level {
				before = &sides[i-1].side
			}
		}
		b.side(s.side, s.group, before)
	}
}

// addCaps adds what is seen of the caps. Chamfers in one line may overlap too.
func (b *borderline) addCaps(caps []capOf) {
	slices.SortStableFunc(caps, func(p, q capOf) int {
		return cmp.Or(cmp.Compare(p.sx, q.sx), cmp.Compare(p.sy, q.sy),
			cmp.Compare(p.line(), q.line()), cmp.Compare(p.at.X, q.at.X))
	})
	for i, c := range caps {
		var before *tip
		if i > 0 && b.look == ChamferedCorners {
			if p := caps[i-1]; p.sx == c.sx && p.sy == c.sy && p.line() == c.line() {
				before = &caps[i-1].tip
			}
		}
		b.cap(c.tip, c.p, before)
	}
}

func steps(p Point, n Um) Point { return Point{p.X * n, p.Y * n} }

// line tells chamfers of one look apart that aren't in one line.
func (t tip) line() Um { return t.at.X*t.sx + t.at.Y*t.sy }

func (b *borderline) rectBelow(rects []Rect, top Point) int {
	i := slices.IndexFunc(rects, func(c Rect) bool { return c.Min.X == top.X && c.Max.Y == top.Y })
	return b.groups.of(i)
}

func (b *borderline) side(s side, group int, before *side) {
	var covered []span
	b.region.near(rectBetween(s.a, s.b), b.reach, func(c Rect) {
		if sp, ok := b.coverSide(s, c); ok {
			covered = append(covered, sp)
			b.groups.unite(group, b.rectAt[c.Min])
		}
	})
	along, _ := s.along()
	if before != nil {
		from, to := dot(before.a.Sub(s.a), along), dot(before.b.Sub(s.a), along)
		covered = append(covered, span{from, to, before.a, before.b})
	}
	b.visible(piece{a: s.a, b: s.b, group: group}, 0, dot(s.b.Sub(s.a), along), covered)
}

// cap adds what is seen of a cap. Its covered stretches run against its own
// way where the frame is a mirror.
func (b *borderline) cap(t tip, p piece, before *tip) {
	var covered []span
	b.region.near(rectBetween(p.a, p.b).Union(rectBetween(t.at, t.fromFrame(Point{b.reach, b.reach}))), b.reach, func(c Rect) {
		if sp, ok := b.coverCap(t, c); ok {
			covered = append(covered, sp)
			b.groups.unite(p.group, b.rectAt[c.Min])
		}
	})
	if before != nil {
		var h hull
		for _, f := range []Point{{b.flat, b.reach}, {b.reach, b.flat}} {
			h.add(t, before.fromFrame(f))
		}
		covered = append(covered, h.span)
	}
	key := func(q Point) Um { f := t.toFrame(q); return f.Y - f.X }
	from, to := key(p.a), key(p.b)
	if from > to {
		for i, s := range covered {
			covered[i] = span{-s.to, -s.from, s.toAt, s.fromAt}
		}
		from, to = -from, -to
	}
	b.visible(p, from, to, covered)
}

// visible adds the stretches of p, which runs from one key to another, that
// no span covers.
func (b *borderline) visible(p piece, from, to Um, covered []span) {
	slices.SortFunc(covered, func(s, t span) int {
		return cmp.Or(cmp.Compare(s.from, t.from), cmp.Compare(s.to, t.to))
	})
	at := p.a
	for _, s := range covered {
		if s.to <= from {
			continue
		}
		if s.from >= to {
			break
		}
		if s.from > from {
			b.pieces = append(b.pieces, piece{at, s.fromAt, p.turn, p.centre, p.group})
		}
		from, at = s.to, s.toAt
	}
	if from < to {
		b.pieces = append(b.pieces, piece{at, p.b, p.turn, p.centre, p.group})
	}
}
