package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds how a grid lies in a photograph by its cells' edges alone, whatever is
// round it: all edges run along two bundles of straight lines, each of which meets in a
// point, mostly far away (J. M. Coughlan, A. L. Yuille, "Manhattan World", 1999, for edges
// that vote for directions without lines being drawn first).

// edgel is a place at which the picture changes, and the direction across the edge.
type edgel struct {
	x, y   float64 // in half diagonals from the picture's middle
	nx, ny float64 // across, of length 1
	weight float64
}

const (
	// leastEdge is how fast a channel changes at an edge, in steps of 8 bits a pixel, and
	// timesUsual how many times as fast as at most places, where there is only noise or
	// texture; clearEdge, of the fastest, is enough where edges are nearly everywhere.
	leastEdge, timesUsual, clearEdge = 5, 4, 0.5
	// mostEdgels are looked at.
	mostEdgels = 40000
)

// edgelsOf lists where a picture changes.
func edgelsOf(s *pixels.Raster) []edgel {
	half := math.Sqrt(float64(s.W*s.W)+float64(s.H*s.H)) / 2
	var list []edgel
	var strengths []float64
	for y := 1; y+1 < s.H; y++ {
		for x := 1; x+1 < s.W; x++ {
			best, gx, gy := 0, 0, 0
			for c := range 3 {
				at := func(i, j int) int { return int(s.Pix[4*((y+j)*s.W+x+i)+c]) }
				// Scharr's weights, from memory: the direction is right to a tenth of a degree.
				h := 3*(at(1, -1)-at(-1, -1)) + 10*(at(1, 0)-at(-1, 0)) + 3*(at(1, 1)-at(-1, 1))
				v := 3*(at(-1, 1)-at(-1, -1)) + 10*(at(0, 1)-at(0, -1)) + 3*(at(1, 1)-at(1, -1))
				if power := h*h + v*v; power > best {
					best, gx, gy = power, h, v
				}
			}
			strength := math.Sqrt(float64(best))
			strengths = append(strengths, strength)
			if strength >= 32*leastEdge {
				list = append(list, edgel{
					(float64(x) + 0.5 - float64(s.W)/2) / half, (float64(y) + 0.5 - float64(s.H)/2) / half,
					float64(gx) / strength, float64(gy) / strength, strength})
			}
		}
	}
	if len(strengths) == 0 {
		return nil
	}
	slices.Sort(strengths)
	least := min(timesUsual*strengths[len(strengths)/2], clearEdge*strengths[len(strengths)*49/50])
	list = slices.DeleteFunc(list, func(e edgel) bool { return e.weight < least })
	if every := (len(list) + mostEdgels - 1) / mostEdgels; every > 1 {
		for i := 0; i < len(list)/every; i++ {
			list[i] = list[i*every]
		}
		list = list[:len(list)/every]
	}
	return list
}

// bundle are lines that meet in a point, as far away as may be: at x, y they run along
// (a - c·x, b - c·y).
type bundle struct{ a, b, c float64 }

// along is the direction at a place, of length 1.
func (m bundle) along(x, y float64) (dx, dy float64) {
	dx, dy = m.a-float64(m.c*x), m.b-float64(m.c*y)
	length := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	return dx / length, dy / length
}

// off is how far an edge is from running along the bundle: the sine of the angle.
func (m bundle) off(e edgel) float64 {
	dx, dy := m.along(e.x, e.y)
	return float64(dx*e.nx) + float64(dy*e.ny)
}

// turnOf is by how much most edges are turned from upright, -45 to 45 degrees, in radians.
func turnOf(list []edgel) (turn float64, ok bool) {
	const bins = 90
	var votes, smooth [bins]float64
	total := 0.0
	for _, e := range list {
		angle := math.Atan2(e.ny, e.nx) / (math.Pi / 2) // in quarters
		votes[int(math.Floor((angle-math.Floor(angle))*bins))%bins] += e.weight
		total += e.weight
	}
	best := 0
	for i := range smooth {
		for d := -2; d <= 2; d++ {
			smooth[i] += votes[(i+d+bins)%bins]
		}
		smooth[i] = math.Round(smooth[i])
		if smooth[i] > smooth[best] {
			best = i
		}
	}
	turn = float64(best) + 0.5
	if turn > bins/2 {
		turn -= bins
	}
	return turn * math.Pi / 180, smooth[best] > total*0.2 // of edges at random, a twentieth
}

// bundleOf fits the lines that run at about an angle.
func bundleOf(list []edgel, angle float64) bundle {
	m := bundle{math.Cos(angle), math.Sin(angle), 0}
	for _, wide := range []float64{0.12, 0.12, 0.1, 0.08, 0.06, 0.06, 0.06} {
		// The residual is linear in a small turn d of (a, b) and in c.
		var dd, dc, cc, d0, c0 float64
		for _, e := range list {
			off := m.off(e)
			if math.Abs(off) > 3*wide {
				continue
			}
			q := off / wide
			w := e.weight / (1 + float64(q*q))
			w /= 1 + float64(q*q)
			td := float64(-m.b*e.nx) + float64(m.a*e.ny)
			tc := -(float64(e.x*e.nx) + float64(e.y*e.ny))
			rest := float64(m.a*e.nx) + float64(m.b*e.ny) + float64(m.c*tc)
			dd += float64(w * td * td)
			dc += float64(w * td * tc)
			cc += float64(w * tc * tc)
			d0 -= float64(w * td * rest)
			c0 -= float64(w * tc * rest)
		}
		det := float64(dd*cc) - float64(dc*dc)
		if det < 1e-9 {
			return m
		}
		d := (float64(d0*cc) - float64(c0*dc)) / det
		c := (float64(dd*c0) - float64(dc*d0)) / det
		a, b := m.a-float64(d*m.b), m.b+float64(d*m.a)
		length := math.Sqrt(float64(a*a) + float64(b*b))
		m = bundle{a / length, b / length, math.Min(math.Max(m.c+c, -0.6), 0.6)}
	}
	return m
}

// line is the bundle's through a place, as p·x + q·y + r = 0.
func (m bundle) line(x, y float64) [3]float64 {
	dx, dy := m.along(x, y)
	return [3]float64{dy, -dx, float64(dx*y) - float64(dy*x)}
}

// meet is where two lines cross.
func meet(l, m [3]float64) Point {
	det := float64(l[0]*m[1]) - float64(l[1]*m[0])
	return Point{(float64(l[1]*m[2]) - float64(l[2]*m[1])) / det, (float64(l[2]*m[0]) - float64(l[0]*m[2])) / det}
}

// byBearings is a quadrilateral round most of the edges, its sides along them, with a
// margin.
func byBearings(r *pixels.Raster) (Corners, bool) {
	const (
		longest = 480
		few     = 200  // edges are too few to tell
		outer   = 0.02 // of the edges may lie beyond a side
		aligned = 0.03 // sine of the angle by which edges may be off
		margin  = 0.1  // of the length between sides, beyond each
	)
	by := max(1, (max(r.W, r.H)+longest-1)/longest)
	s := r
	if by > 1 {
		s = shrunk(r, by)
	}
	list := edgelsOf(s)
	turn, ok := turnOf(list)
	if !ok || len(list) < few {
		return Corners{}, false
	}
	level, upright := bundleOf(list, turn), bundleOf(list, turn+math.Pi/2)
	// Places along one line of each bundle, through the middle of all edges.
	var sx, sy, weights float64
	for _, e := range list {
		if math.Min(math.Abs(level.off(e)), math.Abs(upright.off(e))) < aligned {
			sx, sy, weights = sx+float64(e.weight*e.x), sy+float64(e.weight*e.y), weights+e.weight
		}
	}
	if weights == 0 {
		return Corners{}, false
	}
	mx, my := sx/weights, sy/weights
	across, down := level.line(mx, my), upright.line(mx, my)
	reach := func(own, other bundle, on [3]float64) (from, to float64) {
		dx, dy := other.along(mx, my)
		var places []float64
		for _, e := range list {
			if math.Abs(own.off(e)) < aligned {
				p := meet(own.line(e.x, e.y), on)
				places = append(places, float64((p.X-mx)*dx)+float64((p.Y-my)*dy))
			}
		}
		if len(places) < few/4 {
			return 0, 0
		}
		slices.Sort(places)
		n := float64(len(places) - 1)
		from, to = places[int(outer*n)], places[int((1-outer)*n)]
		return from - float64((to-from)*margin), to + float64((to-from)*margin)
	}
	top, bottom := reach(level, upright, down)
	left, right := reach(upright, level, across)
	if bottom-top < 0.1 || right-left < 0.1 {
		return Corners{}, false
	}
	at := func(m bundle, along bundle, d float64) [3]float64 {
		dx, dy := along.along(mx, my)
		return m.line(mx+float64(d*dx), my+float64(d*dy))
	}
	above, below := at(level, upright, top), at(level, upright, bottom)
	west, east := at(upright, level, left), at(upright, level, right)
	c := Corners{meet(above, west), meet(above, east), meet(below, east), meet(below, west)}
	half := math.Sqrt(float64(s.W*s.W)+float64(s.H*s.H)) / 2
	for i := range c {
		c[i] = Point{(float64(c[i].X*half) + float64(s.W)/2) * float64(by), (float64(c[i].Y*half) + float64(s.H)/2) * float64(by)}
	}
	_, ok = projectionOf(c)
	return c, ok
}

// alongBearings finds the grid by its cells' edges alone.
func alongBearings(r *pixels.Raster) (best rectified, found bool) {
	c, ok := byBearings(r)
	if !ok {
		return rectified{}, false
	}
	l := unbending(r)
	flat, ok := straightened(r, c, l, longestRectified)
	if !ok {
		return rectified{}, false
	}
	g, ok := smoothGrid(flat)
	if !ok {
		return rectified{}, false
	}
	// The cells in which the drawing surely is.
	const margin = 0.1 / 1.2 // as byBearings leaves it
	view, _ := viewOf(c, l)
	inner := func(a lattice, pixels int) (from, to float64, cells int) {
		first := math.Round((float64(margin*float64(pixels)) - a.start) / a.size)
		last := math.Round((float64((1-margin)*float64(pixels)) - a.start) / a.size)
		return (a.start + float64(first*a.size)) / float64(pixels), (a.start + float64(last*a.size)) / float64(pixels), int(last - first)
	}
	left, right, columns := inner(g.x.lattice, flat.W)
	top, bottom, rows := inner(g.y.lattice, flat.H)
	if min(columns, rows) < 4 {
		return rectified{}, false
	}
	var core Corners
	for i, p := range [4]Point{{left, top}, {right, top}, {right, bottom}, {left, bottom}} {
		core[i].X, core[i].Y = view.at(p.X, p.Y)
	}
	best, found = recounted(r, core, bent(r, core, l, columns, rows), columns, rows)
	if !found {
		return rectified{}, false
	}
	return best.ended(r), true
}

// recounted moves corners to where so many cells between them are flattest.
func recounted(r *pixels.Raster, c Corners, l lens, columns, rows int) (b rectified, ok bool) {
	b.corners, b.lens = nudged(r, c, l, columns, rows)
	if b.flat, ok = straightened(r, b.corners, b.lens, longestRectified); !ok {
		return b, false
	}
	if b.grid, ok = gridBetween(b.flat); !ok {
		return b, false
	}
	return b, b.grid.x.cells == columns && b.grid.y.cells == rows
}
