package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// projection takes places in the unit square to places in the picture, straight
// lines to straight lines.
type projection [8]float64

// projectionOf takes 0,0 1,0 1,1 and 0,1 to the corners. False where these
// aren't those of a convex quadrilateral, clockwise in the picture. Source: P.
// Heckbert, "Fundamentals of texture mapping and image warping" (1989), 2.2.3.
func projectionOf(c Corners) (projection, bool) {
	for i := range c {
		a, b, d := c[i], c[(i+1)%4], c[(i+2)%4]
		if turn := float64((b.X-a.X)*(d.Y-b.Y)) - float64((b.Y-a.Y)*(d.X-b.X)); !(turn > 1e-6) {
			return projection{}, false
		}
	}
	dx1, dx2, sx := c[1].X-c[2].X, c[3].X-c[2].X, c[0].X-c[1].X+c[2].X-c[3].X
	dy1, dy2, sy := c[1].Y-c[2].Y, c[3].Y-c[2].Y, c[0].Y-c[1].Y+c[2].Y-c[3].Y
	det := float64(dx1*dy2) - float64(dx2*dy1)
	g := (float64(sx*dy2) - float64(dx2*sy)) / det
	h := (float64(dx1*sy) - float64(sx*dy1)) / det
	return projection{
		c[1].X - c[0].X + float64(g*c[1].X), c[3].X - c[0].X + float64(h*c[3].X), c[0].X,
		c[1].Y - c[0].Y + float64(g*c[1].Y), c[3].Y - c[0].Y + float64(h*c[3].Y), c[0].Y,
		g, h,
	}, true
}

func (p projection) at(u, v float64) (x, y float64) {
	w := float64(p[6]*u) + float64(p[7]*v) + 1
	return (float64(p[0]*u) + float64(p[1]*v) + p[2]) / w, (float64(p[3]*u) + float64(p[4]*v) + p[5]) / w
}

// back takes a place in the picture to the unit square's plane.
func (p projection) back(q Point) (u, v float64) {
	// at is u, v for which both numerators are as many times the denominator.
	a, b, c := p[0]-float64(q.X*p[6]), p[1]-float64(q.X*p[7]), q.X-p[2]
	d, e, f := p[3]-float64(q.Y*p[6]), p[4]-float64(q.Y*p[7]), q.Y-p[5]
	det := float64(a*e) - float64(b*d)
	return (float64(c*e) - float64(b*f)) / det, (float64(a*f) - float64(c*d)) / det
}

// between is the picture at a place between pixels' centres.
func between(r *pixels.Raster, x, y float64) (out [4]float64) {
	x, y = x-0.5, y-0.5
	if x >= 0 && y >= 0 && x < float64(r.W-1) && y < float64(r.H-1) { // nearly everywhere
		ax, ay := int(x), int(y)
		fx, fy := x-float64(ax), y-float64(ay)
		p, q := r.Pix[4*(ay*r.W+ax):][:8], r.Pix[4*((ay+1)*r.W+ax):][:8]
		for c := range out {
			top := float64(p[c]) + float64(fx*(float64(p[c+4])-float64(p[c])))
			low := float64(q[c]) + float64(fx*(float64(q[c+4])-float64(q[c])))
			out[c] = top + float64(fy*(low-top))
		}
		return out
	}
	x0, y0 := math.Floor(x), math.Floor(y)
	fx, fy := x-x0, y-y0
	col := func(v float64) int { return int(min(max(v, 0), float64(r.W-1))) }
	row := func(v float64) int { return int(min(max(v, 0), float64(r.H-1))) }
	ax, bx, ay, by := col(x0), col(x0+1), row(y0), row(y0+1)
	p00, p10 := r.Pix[4*(ay*r.W+ax):][:4], r.Pix[4*(ay*r.W+bx):][:4]
	p01, p11 := r.Pix[4*(by*r.W+ax):][:4], r.Pix[4*(by*r.W+bx):][:4]
	for c := range out {
		top := float64(p00[c]) + float64(fx*(float64(p10[c])-float64(p00[c])))
		low := float64(p01[c]) + float64(fx*(float64(p11[c])-float64(p01[c])))
		out[c] = top + float64(fy*(low-top))
	}
	return out
}

const (
	// longestRectified and shortestRectified bound the sides of the straightened
	// picture: enough pixels for a hundred cells and more.
	longestRectified  = 960
	shortestRectified = 16
)

// straightened is the part of the picture within the corners, made rectangular
// at about the picture's own scale; where that is longer than it may be, each pixel is the
// mean of several places.
func straightened(r *pixels.Raster, c Corners, l lens, longest int) (*pixels.Raster, bool) {
	p, ok := viewOf(c, l)
	if !ok {
		return nil, false
	}
	w := max(distance(c[0], c[1]), distance(c[3], c[2]))
	h := max(distance(c[0], c[3]), distance(c[1], c[2]))
	times := int(math.Ceil(max(w, h)/float64(longest) - 1e-9))
	times = max(1, times)
	out := pixels.NewRaster(
		int(min(max(math.Round(w/float64(times)), shortestRectified), float64(longest))),
		int(min(max(math.Round(h/float64(times)), shortestRectified), float64(longest))))
	for y := range out.H {
		for x := range out.W {
			var sum [4]float64
			for j := range times {
				for i := range times {
					u := (float64(x) + (float64(i)+0.5)/float64(times)) / float64(out.W)
					v := (float64(y) + (float64(j)+0.5)/float64(times)) / float64(out.H)
					px, py := p.at(u, v)
					for k, s := range between(r, px, py) {
						sum[k] += s
					}
				}
			}
			var px [4]uint8
			for k, s := range sum {
				px[k] = uint8(math.Round(s / float64(times*times)))
			}
			out.Set(x, y, px)
		}
	}
	return out, true
}

func distance(a, b Point) float64 {
	return math.Sqrt(float64((a.X-b.X)*(a.X-b.X)) + float64((a.Y-b.Y)*(a.Y-b.Y)))
}
