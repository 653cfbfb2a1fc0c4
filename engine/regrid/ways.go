package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file tells what was photographed from what lies round it, in several ways.

// way is one of the ways to look for what stands out.
type way int

const (
	asItIs way = iota
	broad      // what is thinner than a strip is left out: textures reach from the rim
	cutOff     // what can't be reached from the rim without a sudden change: surroundings may have two colours
)

var ways = []way{asItIs, broad, cutOff}

// cornersBy looks, in one of the ways, for a quadrilateral that stands out from the
// picture's rim; full as standsOut has it.
func cornersBy(r *pixels.Raster, w way) (c Corners, full float64, ok bool) {
	const small = 240 // pixels along the longer side are enough for a first look
	by := max(1, (max(r.W, r.H)+small-1)/small)
	s := shrunk(r, by)
	if c, full, ok = standsOut(s, rimOf(s, max(2, min(s.W, s.H)/30)), w); !ok {
		return Corners{}, 0, false
	}
	c = c.scaled(float64(by)).fromUpperLeft()
	return settledSides(r, c, float64(5*by)+2, float64(2*by)+2), full, true
}

// standsOut is the quadrilateral round what differs from a picture's rim, and how much of
// it that fills with its hull, 0 to 1.
func standsOut(s *pixels.Raster, m rim, w way) (c Corners, full float64, ok bool) {
	var inside []bool
	switch {
	case w == cutOff:
		inside = unreached(s)
	case m.scatter > 40:
		return Corners{}, 0, false
	default:
		stands := math.Max(12, 2.5*m.scatter)
		inside = make([]bool, s.W*s.H)
		for y := range s.H {
			for x := range s.W {
				p := s.At(x, y)
				inside[y*s.W+x] = m.off(float64(x)+0.5, float64(y)+0.5, [4]float64{float64(p[0]), float64(p[1]), float64(p[2])}) > stands
			}
		}
	}
	if w != asItIs {
		inside = opened(inside, s.W, s.H)
	}
	hull := hullOf(largest(inside, s.W, s.H))
	if c, ok = fourSides(hull); !ok {
		return Corners{}, 0, false
	}
	return c, areaOf(hull) / areaOf(c[:]), true
}

// unreached are the pixels to which no way leads from the rim by small changes.
func unreached(s *pixels.Raster) []bool {
	const (
		least = 5   // change from pixel to pixel, of 255
		times = 2.5 // what nine in ten changes along the rim stay below
	)
	change := func(i, j int) (far int) {
		for c := range 3 {
			far = max(far, abs(int(s.Pix[4*i+c])-int(s.Pix[4*j+c])))
		}
		return far
	}
	var along []int
	for x := 1; x < s.W; x++ {
		along = append(along, change(x-1, x), change((s.H-1)*s.W+x-1, (s.H-1)*s.W+x))
	}
	for y := 1; y < s.H; y++ {
		along = append(along, change((y-1)*s.W, y*s.W), change(y*s.W-1, (y+1)*s.W-1))
	}
	slices.Sort(along)
	most := least
	if len(along) > 0 {
		most = max(least, int(times*float64(along[len(along)*9/10])))
	}
	inside := make([]bool, s.W*s.H)
	var open []int
	for i := range inside {
		if x, y := i%s.W, i/s.W; x == 0 || y == 0 || x == s.W-1 || y == s.H-1 {
			open = append(open, i)
		} else {
			inside[i] = true
		}
	}
	for len(open) > 0 {
		i := open[len(open)-1]
		open = open[:len(open)-1]
		for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			x, y := i%s.W+d[0], i/s.W+d[1]
			if j := y*s.W + x; x >= 0 && y >= 0 && x < s.W && y < s.H && inside[j] && change(i, j) <= most {
				inside[j] = false
				open = append(open, j)
			}
		}
	}
	return inside
}

// opened leaves out what is no square of some pixels.
func opened(in []bool, w, h int) []bool {
	const reach = 3 // to all sides of the square's middle
	across := func(in []bool, all bool, next, count int, starts func(line int) int, lines int) []bool {
		out := make([]bool, len(in))
		for line := range lines {
			at := starts(line)
			for i := range count {
				v := all
				for j := max(0, i-reach); j <= min(count-1, i+reach); j++ {
					if in[at+j*next] != all {
						v = !all
					}
				}
				out[at+i*next] = v
			}
		}
		return out
	}
	for _, all := range []bool{true, false} {
		in = across(in, all, 1, w, func(y int) int { return y * w }, h)
		in = across(in, all, w, h, func(x int) int { return x }, w)
	}
	return in
}
