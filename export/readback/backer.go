package readback

import "sheetsprite/engine/project"

// judgeBacker looks at a backer that stands out: each of its edges must lie the
// border's width away from a line of the grid (or, at a join of the backer's
// own, half the join's side), each arc be about a corner with that radius; and
// where no cell of the drawing is near, there is no backer.
func (w *sweep) judgeBacker() error {
	border := int64(w.settings.Border)
	outs := []int64{border}
	if side := w.joinSide(w.layers[0].stock); side > 2*border && 2*side <= w.cell {
		outs = append(outs, side/2)
	}
	for _, p := range w.parts {
		if p.height != 1 {
			continue
		}
		for _, c := range p.contours {
			for i, v := range c {
				if !w.fromGrid(v, c[(i+1)%len(c)], outs) {
					return w.faultNear(p.layer, v.x, v.y, "the backer's edge isn't as far from the drawing as the border is wide")
				}
			}
		}
	}
	return w.noStrayBacker()
}

// fromGrid says whether an edge is where the border puts one; outs are the ways
// that edges may lie out from a line of the grid. Where slanted edges and arcs
// end at one another that point is rounded, so those are held to 1 µm.
func (w *sweep) fromGrid(v, n vertex, outs []int64) bool {
	dx, dy := n.x-v.x, n.y-v.y
	border := int64(w.settings.Border)
	for _, out := range outs {
		switch {
		case v.arc != 0:
			if w.settings.Edge == project.Round && v.arc == border && w.aboutCorner(v, n, out-border) {
				return true
			}
		case dx == 0: // stock lies to the left of the way
			if w.onLine(v.x-w.x-sign(dy)*out, 0) || w.bridged() && w.onLine(v.x-w.x-sign(dy)*(out+1), 0) {
				return true
			}
		case dy == 0:
			if w.onLine(v.y-w.y+sign(dx)*out, 0) || w.bridged() && w.onLine(v.y-w.y+sign(dx)*(out+1), 0) {
				return true
			}
		case w.settings.Edge == project.Chamfered:
			// The way out is (dy, −dx); a chamfer lies border + flat out along both
			// axes together, from a point where two lines of the grid meet.
			far := out + octagonFlat(border) + (out - border)
			sx, sy := sign(dy), -sign(dx)
			if w.onLine(sx*(v.x-w.x)+sy*(v.y-w.y)-far, 2) && w.onLine(sx*(n.x-w.x)+sy*(n.y-w.y)-far, 2) {
				return true
			}
		}
	}
	return false
}

// bridged says whether round borders of cells that stand in one row pass one another
// at less than 2 µm: the line between their corners then counts as drawn, 2 µm wide,
// so that the border may stand 1 µm further out there.
func (w *sweep) bridged() bool {
	apart := 2 * int64(w.settings.Border)
	return w.settings.Edge == project.Round && apart > 0 && (apart+w.cell-1)/w.cell*w.cell-apart <= 2
}

// onLine says whether v is a whole number of cells, give or take slack.
func (w *sweep) onLine(v, slack int64) bool {
	r := (v%w.cell + w.cell) % w.cell
	return r <= slack || w.cell-r <= slack
}

// aboutCorner says whether an arc from v to n is about a corner of the grid, or
// about one shifted by off along both axes.
func (w *sweep) aboutCorner(v, n vertex, off int64) bool {
	at := func(v vertex, x, y int64) bool {
		dx, dy, r := v.x-x, v.y-y, v.arc
		d := dx*dx + dy*dy
		return (r-1)*(r-1) <= d && d <= (r+1)*(r+1)
	}
	n.arc = v.arc
	reach := v.arc/w.cell + 2
	c0, r0 := (v.x-w.x)/w.cell, (v.y-w.y)/w.cell
	for col := max(0, c0-reach); col <= min(int64(w.cols), c0+reach); col++ {
		for row := max(0, r0-reach); row <= min(int64(w.rows), r0+reach); row++ {
			x, y := w.x+col*w.cell, w.y+row*w.cell
			for _, d := range [4][2]int64{{-off, -off}, {-off, off}, {off, -off}, {off, off}} {
				if at(v, x+d[0], y+d[1]) && at(n, x+d[0], y+d[1]) {
					return true
				}
				if off == 0 {
					break
				}
			}
			for _, d := range [4][2]int64{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				if off == 0 && w.bridged() && at(v, x+d[0], y+d[1]) && at(n, x+d[0], y+d[1]) {
					return true
				}
			}
		}
	}
	return false
}

// octagonFlat is half the side of an octagon around a circle of that radius:
// (√2−1) times it, rounded up.
func octagonFlat(r int64) int64 {
	s := r
	for s*s < 2*r*r {
		s += max(1, (2*r*r-s*s)/(4*r))
	}
	return s - r
}

// noStrayBacker sees that no backer lies under a cell's centre from which every
// cell of the drawing is more than twice the border away, unless holes are
// filled.
func (w *sweep) noStrayBacker() error {
	if w.settings.FillIn {
		return nil
	}
	near := int((2*int64(w.settings.Border) + w.cell/2) / w.cell)
	sums := make([]int, (w.cols+1)*(w.rows+1)) // how many cells above and left of a corner are drawn
	for row := range w.rows {
		for col := range w.cols {
			i := (row+1)*w.corners() + col + 1
			sums[i] = sums[i-1] + sums[i-w.corners()] - sums[i-w.corners()-1]
			if w.cellAt(col, row) != empty {
				sums[i]++
			}
		}
	}
	for row := range w.rows {
		for col := range w.cols {
			if w.ownerAt(1, col, row) == none {
				continue
			}
			l, r := max(0, col-near), min(w.cols, col+near+1)
			t, b := max(0, row-near)*w.corners(), min(w.rows, row+near+1)*w.corners()
			if sums[b+r]-sums[b+l]-sums[t+r]+sums[t+l] == 0 {
				return w.faultAt(0, col, row, "the backer lies where the drawing is far away")
			}
		}
	}
	return nil
}

func sign(v int64) int64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}
