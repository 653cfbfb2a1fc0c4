package readback

// A part's finished contours, laid on a sheet, and the lines that are to be cut
// along them, edge by edge.

// onSheet is a finished contour in the sheet's coordinates: seen in a mirror
// where the face is down, turned, moved.
func (c contour) onSheet(faceDown bool, turn int, dx, dy int64) contour {
	n := len(c)
	out := make(contour, n)
	for i := range c {
		v := c[i]
		if faceDown { // run the other way, so that the stock stays on the left
			v = c[n-1-i]
			v.x, v.arc = -v.x, c[(2*n-2-i)%n].arc
		}
		for range turn & 3 {
			v.x, v.y = -v.y, v.x
		}
		v.x, v.y = v.x+dx, v.y+dy
		out[i] = v
	}
	return out
}

// cutEdge is where the cut beside one straight edge along an axis runs.
type cutEdge struct {
	upright  bool  // x is at, else y is
	at       int64 // on the sheet
	from, to int64 // of the other coordinate
	part     int
}

// oddEdge is an edge that is aslant or round; its cut runs half a kerf beside it.
type oddEdge struct {
	a, b vertex
	part int
	cut  bool // found in the file
}

// step is the sign of v.
func step(v int64) int64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// straightAlong says whether the edge from a to b runs along an axis.
func straightAlong(a, b vertex) bool { return a.arc == 0 && (a.x == b.x) != (a.y == b.y) }

// cutLines are the cuts beside a contour with the stock on its left: half a
// kerf to the right. Where an edge ends at another along an axis, the cut ends
// where that one's does; beside an odd one it ends somewhere within reach.
func (c contour) cutLines(half int64, part int) (edges []cutEdge, odd []oddEdge) {
	n := len(c)
	right := func(i int) (x, y int64) { // of the edge from vertex i; none for odd ones
		a, b := c[i%n], c[(i+1)%n]
		if !straightAlong(a, b) {
			return 0, 0
		}
		return step(b.y - a.y), -step(b.x - a.x)
	}
	for i := range c {
		a, b := c[i], c[(i+1)%n]
		if !straightAlong(a, b) {
			odd = append(odd, oddEdge{a: a, b: b, part: part})
			continue
		}
		nx, ny := right(i)
		bx, by := right(i + n - 1)
		ax, ay := right(i + 1)
		e := cutEdge{upright: nx != 0, at: a.y + half*ny, from: a.x + half*bx, to: b.x + half*ax, part: part}
		if e.upright {
			e.at, e.from, e.to = a.x+half*nx, a.y+half*by, b.y+half*ay
		}
		if e.from > e.to {
			e.from, e.to = e.to, e.from
		}
		edges = append(edges, e)
	}
	return edges, odd
}
