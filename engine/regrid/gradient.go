package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds grounds whose colour changes evenly over the grid: a plane
// in each channel, through three cells of the grid's edge, on which most of
// the edge lies (M. Fischler, R. Bolles, "Random sample consensus", 1981; the
// threes are drawn the same way every time).

const (
	// leastSlope is how much a gradient changes over the grid, in steps of 8 bits:
	// less is one colour.
	leastSlope = 10
	// leastSloped is the share of the cells at the grid's edge, in percent, that
	// lie on the gradient.
	leastSloped = 35
	// leastFollowed is how much of the gradient's change its cells must show, in percent:
	// all of it but for noise, while cells of a few colours show next to none.
	leastFollowed = 50
	// offSlope is how far a cell's channels may lie off it, in steps of 8 bits.
	offSlope = 6
	// threes is how many are tried: with a third of the edge on the gradient, one
	// in 27 hits, and missing 400 times is one chance in three million.
	threes = 400
)

// plane is a colour for each place: constant, per column, per row.
type plane [3][3]float64

func (p plane) off(c cellColour, x, y int) int {
	far := 0.0
	for k, v := range [3]uint8{c.rgb.R, c.rgb.G, c.rgb.B} {
		at := p[k][0] + float64(p[k][1]*float64(x)) + float64(p[k][2]*float64(y))
		far = math.Max(far, math.Abs(at-float64(v)))
	}
	return int(math.Round(far))
}

// slope empties the cells that lie on a ground whose colour changes evenly over
// the grid, and is that ground; false if there is no such one, or if it doesn't
// reach distinctly more of the edge than one colour does, whose share in percent
// is given.
func slope(cells []cellColour, w, h, oneColour int) (plane, bool) {
	if w < 6 || h < 6 {
		return plane{}, false
	}
	var edge []int
	for i := range cells {
		if x, y := i%w, i/w; x == 0 || y == 0 || x == w-1 || y == h-1 {
			edge = append(edge, i)
		}
	}
	on := func(p plane) (list []int) {
		for _, i := range edge {
			if p.off(cells[i], i%w, i/w) <= offSlope {
				list = append(list, i)
			}
		}
		return list
	}
	var best plane
	var most []int
	state := uint64(1)
	draw := func() int {
		state = state*6364136223846793005 + 1442695040888963407
		return edge[int(state>>33)%len(edge)]
	}
	for range threes {
		p, ok := through(cells, w, []int{draw(), draw(), draw()})
		if list := on(p); ok && len(list) > len(most) {
			best, most = p, list
		}
	}
	if p, ok := through(cells, w, most); ok && len(on(p)) >= len(most) {
		best, most = p, on(p)
	}
	share := 100 * len(most) / len(edge)
	if share < leastSloped || share < oneColour+10 || best.change(w, h) < leastSlope || !best.followed(cells, w, h) {
		return plane{}, false
	}
	for i := range cells {
		if best.off(cells[i], i%w, i/w) <= offSlope {
			cells[i] = cellColour{empty: true}
		}
	}
	return best, true
}

// followed says whether the cells on the plane change as it does, from one to another a
// few columns or rows on. Through three of a drawing's colours there is a plane too, but
// its cells stay of one colour where it changes.
func (p plane) followed(cells []cellColour, w, h int) bool {
	const apart = 4 // columns or rows
	on := make([]bool, len(cells))
	for i, c := range cells {
		on[i] = p.off(c, i%w, i/w) <= offSlope
	}
	same, all := 0.0, 0.0 // what changes together, and what would if all did
	see := func(i, step, axis int) {
		for k := range apart + 1 {
			if !on[i+k*step] {
				return
			}
		}
		a, b := cells[i].rgb, cells[i+apart*step].rgb
		for c, d := range [3]float64{float64(b.R) - float64(a.R), float64(b.G) - float64(a.G), float64(b.B) - float64(a.B)} {
			expected := float64(p[c][axis] * apart)
			same += float64(d * expected)
			all += float64(expected * expected)
		}
	}
	for i := range cells {
		if i%w+apart < w {
			see(i, 1, 1)
		}
		if i/w+apart < h {
			see(i, w, 2)
		}
	}
	return all > 0 && int(math.Round(100*same/all)) >= leastFollowed
}

// withoutSlope takes the cells' colours anew where the drawing stands before a
// ground whose colour changes evenly; false where it doesn't.
func (s sampled) withoutSlope(r *pixels.Raster, x, y axisFit) (sampled, axisFit, axisFit, bool) {
	cells := s.straight()
	if slices.ContainsFunc(cells, func(c cellColour) bool { return c.empty }) {
		return s, x, y, false
	}
	_, share := edgeColour(cells, s.w, s.h)
	if share >= surelyOneColour {
		return s, x, y, false
	}
	p, ok := slope(cells, s.w, s.h, share)
	if !ok {
		return s, x, y, false
	}
	bare := sampled{s.w, s.h, slices.Clone(s.colour)}
	for i, c := range cells {
		if c.empty {
			bare.colour[i] = [4]int32{}
		}
	}
	again, ax, ay := withoutGround(r, bare, x, y, func(col, row int) (g [3]float64) {
		u, v := (float64(col)+0.5-x.start)/x.size-0.5, (float64(row)+0.5-y.start)/y.size-0.5
		for k := range g {
			g[k] = p[k][0] + float64(p[k][1]*u) + float64(p[k][2]*v)
		}
		return g
	}, func(s sampled, _, _ axisFit) {
		for i, c := range s.colour {
			if one := straight(c); !one.empty && p.off(one, i%s.w, i/s.w) <= offSlope {
				s.colour[i] = [4]int32{}
			}
		}
	})
	return again, ax, ay, true
}

// change is how much the plane changes from one side of the grid to the other.
func (p plane) change(w, h int) int {
	most := 0.0
	for _, k := range p {
		most = math.Max(most, math.Abs(float64(k[1]*float64(w)))+math.Abs(float64(k[2]*float64(h))))
	}
	return int(math.Round(most))
}

// through is the plane nearest to some cells' colours; false where they lie in
// a row.
func through(cells []cellColour, w int, list []int) (p plane, ok bool) {
	var a [3][3]float64
	var b [3][3]float64 // channel, term
	for _, i := range list {
		t := [3]float64{1, float64(i % w), float64(i / w)}
		c := cells[i].rgb
		for j := range 3 {
			for k := range 3 {
				a[j][k] += t[j] * t[k]
			}
			for k, v := range [3]uint8{c.R, c.G, c.B} {
				b[k][j] += t[j] * float64(v)
			}
		}
	}
	det := func(m [3][3]float64) float64 { // of whole numbers below 2^53, so exact enough
		return float64(m[0][0]*(float64(m[1][1]*m[2][2])-float64(m[1][2]*m[2][1]))) -
			float64(m[0][1]*(float64(m[1][0]*m[2][2])-float64(m[1][2]*m[2][0]))) +
			float64(m[0][2]*(float64(m[1][0]*m[2][1])-float64(m[1][1]*m[2][0])))
	}
	d := det(a)
	if math.Abs(d) < 0.5 {
		return plane{}, false
	}
	for k := range 3 {
		for j := range 3 {
			m := a
			for row := range 3 {
				m[row][j] = b[k][row]
			}
			p[k][j] = det(m) / d
		}
	}
	return p, true
}
