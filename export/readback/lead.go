package readback

import (
	"fmt"
	"math"
)

// lead is a way with the beam on that no drawing holds: straight, from where the
// beam goes on to where a closed line begins. It must lie in scrap.
type lead struct {
	own      *drawn
	from, to vertex
	file     int // line of the file
}

// leadEnd is how far before its end, in µm, a lead-in must still be clear of what
// it ends on.
const leadEnd = 10

// short is the lead-in without that end.
func (d lead) short() lead {
	n := d.length()
	back := math.Min(1, leadEnd/n)
	d.to.x -= int64(math.Round(float64(d.to.x-d.from.x) * back))
	d.to.y -= int64(math.Round(float64(d.to.y-d.from.y) * back))
	return d
}

func (d lead) length() float64 {
	return hypot(float64(d.to.x-d.from.x), float64(d.to.y-d.from.y))
}

func (d lead) fault() error {
	return fmt.Errorf("line %d: the lead-in from (%s, %s) mm runs through a part or another line", d.file, mm(d.from.x), mm(d.from.y))
}

// around is a contour with the box round it.
type around struct {
	contour
	open bool
	box  [4]int64 // left, low, right, high
}

func boxed(c contour, open bool) around {
	a := around{contour: c, open: open, box: [4]int64{math.MaxInt64, math.MaxInt64, math.MinInt64, math.MinInt64}}
	for _, v := range c {
		r := max(v.arc, -v.arc) // an arc lies within its radius of the chord
		a.box = [4]int64{min(a.box[0], v.x-r), min(a.box[1], v.y-r), max(a.box[2], v.x+r), max(a.box[3], v.y+r)}
	}
	for i, v := range c {
		if v.arc != 0 {
			n, r := c[(i+1)%len(c)], max(v.arc, -v.arc)
			a.box = [4]int64{min(a.box[0], n.x-r), min(a.box[1], n.y-r), max(a.box[2], n.x+r), max(a.box[3], n.y+r)}
		}
	}
	return a
}

// outsideParts says whether all leads stay away from all finished parts by half a
// kerf: what the beam burns is scrap. parts are each part's contours.
func outsideParts(leads []lead, parts [][]around, half int64) error {
	clear := float64(max(half, leadEnd) - oddSlack)
	for _, d := range leads {
		d := d.short()
		for _, p := range parts {
			if !d.near(p[0].box, half+leadEnd) {
				continue // the outer contour is the first one, and holds the holes
			}
			inside := false
			for _, c := range p {
				if d.near(c.box, half+leadEnd) && d.away(c) < clear {
					return d.fault()
				}
				inside = inside != c.holds(d.from)
			}
			if inside {
				return d.fault()
			}
		}
	}
	return nil
}

// besideLines says whether each lead lies on the right of its closed line, where
// the scrap is, and stays away from all other lines by a distance. It is for
// drawings of which nothing else says where the parts are.
func besideLines(leads []lead, lines []drawn, clear int64) error {
	var cuts []around
	for _, l := range lines {
		cuts = append(cuts, boxed(l.contour, l.open))
	}
	for _, d := range leads {
		own := d.own.contour
		b := own[1%len(own)]
		along := xy{b.x - own[0].x, b.y - own[0].y}
		off := xy{d.from.x - d.to.x, d.from.y - d.to.y}
		if own[0].arc != 0 || along.x*off.y-along.y*off.x >= 0 {
			return d.fault()
		}
		for i, c := range cuts {
			if lines[i].mark || &c.contour[0] == &own[0] {
				continue
			}
			if d.near(c.box, clear) && d.away(c) < float64(clear-oddSlack) {
				return d.fault()
			}
		}
	}
	return nil
}

// near says whether the lead comes that near to a box.
func (d lead) near(box [4]int64, by int64) bool {
	return max(d.from.x, d.to.x)+by >= box[0] && max(d.from.y, d.to.y)+by >= box[1] &&
		min(d.from.x, d.to.x)-by <= box[2] && min(d.from.y, d.to.y)-by <= box[3]
}

// away is the lead's distance from a contour.
func (d lead) away(c around) float64 {
	least := math.Inf(1)
	n := len(c.contour)
	for i, v := range c.contour {
		if c.open && i == n-1 {
			break
		}
		for _, e := range chords(v, c.contour[(i+1)%n]) {
			least = math.Min(least, segmentsApart(d.from, d.to, e[0], e[1]))
		}
	}
	return least
}

// chords are an edge, or for an arc chords that leave it by less than 1 µm.
func chords(a, b vertex) [][2]vertex {
	if a.arc == 0 {
		return [][2]vertex{{a, b}}
	}
	o := oddEdge{a: a, b: b}
	cx, cy := o.centre()
	r := math.Abs(float64(a.arc))
	from := math.Atan2(float64(a.y)-cy, float64(a.x)-cx)
	turn := math.Atan2(float64(b.y)-cy, float64(b.x)-cx) - from
	if turn*float64(a.arc) < 0 {
		turn += math.Copysign(2*math.Pi, float64(a.arc))
	}
	n := int(math.Ceil(math.Abs(turn) * math.Sqrt(r/8))) // a chord of angle t leaves the arc by r·t²/8
	out := make([][2]vertex, 0, max(1, n))
	at := vertex{x: a.x, y: a.y}
	for i := 1; i < n; i++ {
		t := from + turn*float64(i)/float64(n)
		to := vertex{x: int64(math.Round(cx + r*math.Cos(t))), y: int64(math.Round(cy + r*math.Sin(t)))}
		out = append(out, [2]vertex{at, to})
		at = to
	}
	return append(out, [2]vertex{at, {x: b.x, y: b.y}})
}

// segmentsApart is the distance of two segments, 0 where they cross.
func segmentsApart(a, b, c, d vertex) float64 {
	side := func(p, q, r vertex) int64 { return step((q.x-p.x)*(r.y-p.y) - (q.y-p.y)*(r.x-p.x)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b))
}

// toSegment is the distance from p to the segment from a to b.
func toSegment(p, a, b vertex) float64 {
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	px, py := float64(p.x-a.x), float64(p.y-a.y)
	long := float64(dx*dx) + float64(dy*dy)
	t := 0.0
	if long > 0 {
		t = math.Max(0, math.Min(1, (float64(px*dx)+float64(py*dy))/long))
	}
	return hypot(px-t*dx, py-t*dy)
}

// holds says whether p lies within the contour.
func (c around) holds(p vertex) bool {
	inside := false
	for i, v := range c.contour {
		for _, e := range chords(v, c.contour[(i+1)%len(c.contour)]) {
			a, b := e[0], e[1]
			if (a.y > p.y) == (b.y > p.y) {
				continue
			}
			// To the left of the edge as it rises.
			if side := (b.x-a.x)*(p.y-a.y) - (b.y-a.y)*(p.x-a.x); (side > 0) == (b.y > a.y) {
				inside = !inside
			}
		}
	}
	return inside
}
