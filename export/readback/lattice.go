package readback

import "slices"

// holds says whether a point belongs to a part: in quarter q, x and y half µm
// away from the corner. join and open are half the sides of the squares there.
func (s *state) holds(part, q int, x, y, join, open int64) bool {
	within := func(dx, dy int64) bool { return x < 2*dx && y < 2*dy }
	switch {
	case s.open[q] && s.part[q] == part && within(open, open):
		return false
	case s.link != none && within(join, join):
		return part == s.link
	case s.part[q] != part:
		return false
	case !s.over[q] || within(s.keep[q], s.keep[q]):
		return true
	}
	beside, above := q^1, q^2
	freeX, freeY := s.part[beside] != part, s.part[above] != part
	if freeX && x < 2*s.back[q] || freeY && y < 2*s.back[q] {
		return false
	}
	if !freeX && !freeY && s.part[q^3] != part && s.over[beside] && s.over[above] {
		side := min(s.back[q], s.back[beside], s.back[above])
		return !within(side, side)
	}
	return true
}

// turnPoint is a vertex of an outline by its place from the nearest corner of
// the grid, y up; sign is 1 where an upright edge ends and −1 where one begins.
// The turnPoints of a shape with upright and level edges say all about it.
type turnPoint struct{ x, y, sign int32 }

// lattice works out which vertices a part must have about a corner.
type lattice struct {
	lines  []int64 // where vertices may lie, along either axis
	inside []bool  // between them
	points []turnPoint
}

// expected lists the vertices that a part must have about a corner, from the
// left, then from below. The list is good until the next call.
func (l *lattice) expected(s *state, part int, join, open, cell int64) []turnPoint {
	l.points = l.points[:0]
	l.lines = append(l.lines[:0], 0)
	if s.link != none {
		l.add(join)
	}
	if s.open != [4]bool{} {
		l.add(open)
	}
	for q := range s.back {
		l.add(s.back[q])
		l.add(s.keep[q])
	}
	slices.Sort(l.lines)
	n := len(l.lines) + 1
	l.inside = l.inside[:0]
	for i := range n {
		x := l.middle(i)
		for k := range n {
			y := l.middle(k)
			q := lowerLeft
			if x > 0 {
				q |= lowerRight
			}
			if y > 0 {
				q |= upperLeft
			}
			l.inside = append(l.inside, s.holds(part, q, max(x, -x), max(y, -y), join, open))
		}
	}
	for i, x := range l.lines {
		for k, y := range l.lines {
			at := i*n + k
			sign := count(l.inside[at]) + count(l.inside[at+n+1]) - count(l.inside[at+1]) - count(l.inside[at+n])
			if sign != 0 && !halfway(x, cell) && !halfway(y, cell) {
				l.points = append(l.points, turnPoint{int32(x), int32(y), sign})
			}
		}
	}
	return l.points
}

// halfway says whether a vertex lies in the middle between two corners, where
// neither can answer for it.
func halfway(off, cell int64) bool { return 2*off == cell || 2*off == -cell }

// add adds lines on both sides of the corner, once.
func (l *lattice) add(v int64) {
	if v != 0 && !slices.Contains(l.lines, v) {
		l.lines = append(l.lines, v, -v)
	}
}

// middle is twice the middle between line i−1 and line i.
func (l *lattice) middle(i int) int64 {
	switch n := len(l.lines); i {
	case 0:
		return 2*l.lines[0] - 2
	case n:
		return 2*l.lines[n-1] + 2
	}
	return l.lines[i-1] + l.lines[i]
}

func count(b bool) int32 {
	if b {
		return 1
	}
	return 0
}
