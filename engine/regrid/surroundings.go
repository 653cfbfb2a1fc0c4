package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file finds the four corners of a screen or sheet in a photograph: what
// differs from the picture's rim is what was photographed, its hull has four
// long sides, and each side is then placed where the change is (sides.go).

// rim is how the surroundings look: for each channel a polynomial of second
// degree over the picture (constant, then as in light), and how far pixels
// scatter about it.
type rim struct {
	fit     [3]light
	base    [3]float64
	scatter float64
	w, h    int
}

func (m rim) at(x, y float64) (out [3]float64) {
	u, v := 2*x/float64(m.w)-1, 2*y/float64(m.h)-1
	for c := range out {
		out[c] = m.base[c]
		for i, t := range m.fit[c].terms(u, v) {
			out[c] += float64(m.fit[c][i] * t)
		}
	}
	return out
}

// off is how far a colour is from the surroundings', the largest of the channels.
func (m rim) off(x, y float64, p [4]float64) float64 {
	far := 0.0
	for c, v := range m.at(x, y) {
		far = math.Max(far, math.Abs(p[c]-v))
	}
	return far
}

// rimOf fits the outermost pixels, so many deep, those that disagree with most left out.
func rimOf(r *pixels.Raster, depth int) rim {
	m := rim{w: r.W, h: r.H}
	type place struct {
		x, y  float64
		p     [4]uint8
		terms [5]float64
	}
	every := 1 // so that at most some ten thousand places are looked at
	for 2*depth*(r.W+r.H)/(every*every) > 20000 {
		every++
	}
	var places []place
	for y := 0; y < r.H; y += every {
		for x := 0; x < r.W; x += every {
			if x >= depth && y >= depth && x < r.W-depth && y < r.H-depth {
				continue
			}
			q := place{x: float64(x) + 0.5, y: float64(y) + 0.5, p: r.At(x, y)}
			q.terms = light{}.terms(2*q.x/float64(r.W)-1, 2*q.y/float64(r.H)-1)
			places = append(places, q)
		}
	}
	for c := range 3 {
		v := make([]uint8, len(places))
		for i, q := range places {
			v[i] = q.p[c]
		}
		m.base[c] = median(v)
	}
	for range 5 {
		for c := range 3 {
			// The terms' own means are small on a ring but not nothing: fit the
			// constant with them, in turns.
			var a [5][6]float64
			sum, weights := 0.0, 0.0
			for _, q := range places {
				rest := float64(q.p[c]) - m.base[c]
				off := rest
				for i, t := range q.terms {
					off -= float64(m.fit[c][i] * t)
				}
				w := 1 / (1 + float64(off*off)/36)
				sum += float64(w * off)
				weights += w
				for i := range 5 {
					for j := range 5 {
						a[i][j] += float64(w * q.terms[i] * q.terms[j])
					}
					a[i][5] += float64(w * q.terms[i] * rest)
				}
			}
			for i := range 5 {
				a[i][i] += 1e-6
			}
			m.fit[c] = solved(a)
			m.base[c] += sum / weights
		}
	}
	offs := make([]float64, len(places))
	for i, q := range places {
		offs[i] = m.off(q.x, q.y, [4]float64{float64(q.p[0]), float64(q.p[1]), float64(q.p[2])})
	}
	slices.Sort(offs)
	m.scatter = offs[len(offs)*9/10]
	return m
}

// shrunk is the picture made smaller by a whole factor.
func shrunk(r *pixels.Raster, by int) *pixels.Raster {
	out := pixels.NewRaster(max(1, r.W/by), max(1, r.H/by))
	sums := make([][4]int32, out.W)
	for y := range out.H {
		clear(sums)
		for j := range by {
			line := r.Pix[4*r.W*min(y*by+j, r.H-1):][:4*r.W]
			for x := range sums {
				for i := range by {
					p := line[4*min(x*by+i, r.W-1):][:4]
					for c, v := range p {
						sums[x][c] += int32(v)
					}
				}
			}
		}
		for x, sum := range sums {
			for c, v := range sum {
				out.Pix[4*(y*out.W+x)+c] = uint8((int(v) + by*by/2) / (by * by))
			}
		}
	}
	return out
}

// areaOf is the area of a polygon, clockwise in the picture.
func areaOf(p []Point) (area float64) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		area += (float64(a.X*b.Y) - float64(b.X*a.Y)) / 2
	}
	return area
}

// largest lists the corners of the pixels of the largest set that hangs
// together by sides; nil where it fills less than a twentieth.
func largest(inside []bool, w, h int) []Point {
	seen := make([]bool, len(inside))
	var best []int
	for i, in := range inside {
		if !in || seen[i] {
			continue
		}
		set := []int{i}
		seen[i] = true
		for at := 0; at < len(set); at++ {
			x, y := set[at]%w, set[at]/w
			for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				u, v := x+d[0], y+d[1]
				if j := v*w + u; u >= 0 && v >= 0 && u < w && v < h && inside[j] && !seen[j] {
					seen[j] = true
					set = append(set, j)
				}
			}
		}
		if len(set) > len(best) {
			best = set
		}
	}
	if len(best)*20 < w*h {
		return nil
	}
	var points []Point
	for _, i := range best {
		x, y := float64(i%w), float64(i/w)
		points = append(points, Point{x, y}, Point{x + 1, y}, Point{x, y + 1}, Point{x + 1, y + 1})
	}
	return points
}

// hullOf is the convex hull, clockwise in the picture (A. M. Andrew, "Another
// efficient algorithm for convex hulls in two dimensions", 1979).
func hullOf(points []Point) []Point {
	slices.SortFunc(points, func(a, b Point) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	points = slices.Compact(points)
	if len(points) < 4 {
		return nil
	}
	half := func(points []Point) []Point {
		var out []Point
		for _, p := range points {
			for len(out) >= 2 && cross(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	lower := half(points)
	slices.Reverse(points)
	return append(lower, half(points)...)
}

func cross(a, b, c Point) float64 {
	return float64((b.X-a.X)*(c.Y-b.Y)) - float64((b.Y-a.Y)*(c.X-b.X))
}

// fourSides takes sides off the hull until four are left, each time the one
// whose neighbours, made longer until they meet, add least area.
func fourSides(hull []Point) (Corners, bool) {
	hull = slices.Clone(hull)
	for len(hull) > 4 {
		least, at := math.Inf(1), -1
		var meet Point
		n := len(hull)
		for i := range n { // the side from i to i+1
			a, b, c, d := hull[(i+n-1)%n], hull[i], hull[(i+1)%n], hull[(i+2)%n]
			p, ok := crossing(a, b, d, c)
			if !ok {
				continue
			}
			if area := math.Abs(cross(b, c, p)); area < least {
				least, at, meet = area, i, p
			}
		}
		if at < 0 {
			return Corners{}, false
		}
		hull[at] = meet
		hull = slices.Delete(hull, (at+1)%n, (at+1)%n+1)
	}
	if len(hull) < 4 {
		return Corners{}, false
	}
	return Corners(hull), true
}

// crossing is where the ray from a through b meets the ray from d through c,
// beyond b and c.
func crossing(a, b, d, c Point) (Point, bool) {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-d.X, c.Y-d.Y
	det := float64(ux*vy) - float64(uy*vx)
	if math.Abs(det) < 1e-9 {
		return Point{}, false
	}
	s := (float64((d.X-a.X)*vy) - float64((d.Y-a.Y)*vx)) / det
	t := (float64((d.X-a.X)*uy) - float64((d.Y-a.Y)*ux)) / det
	if s < 1-1e-9 || t < 1-1e-9 {
		return Point{}, false
	}
	return Point{a.X + float64(s*ux), a.Y + float64(s*uy)}, true
}

// fromUpperLeft begins with the corner nearest to the upper left.
func (c Corners) fromUpperLeft() Corners {
	first := 0
	for i, p := range c {
		if p.X+p.Y < c[first].X+c[first].Y {
			first = i
		}
	}
	return Corners{c[first], c[(first+1)%4], c[(first+2)%4], c[(first+3)%4]}
}
