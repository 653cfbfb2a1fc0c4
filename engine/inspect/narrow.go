package inspect

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// Strip is a narrow place of a part: connected, everywhere narrower than was
// asked.
type Strip struct {
	At     shape.Point // the middle of its narrowest spot
	Width2 shape.Um2   // square of the width there: the diameter of the largest disc that passes
}

// spot is a rectangle over which a part is width across.
type spot struct {
	rect   shape.Rect // may have no width or no height
	width2 shape.Um2
}

// narrowStrips lists the places of a part narrower than least, by place from
// the left, then from below.
//
// A disc that moves through an axis-parallel shape is stopped by two edges that
// face each other, or by two inner corners that turn their backs on each
// other; an inner corner and an edge come to the same as that corner's own edge
// and the edge. So the width is exact: a whole length, or the root of a sum of
// two squares, compared squared. A bulge shallower than half its width isn't a
// strip: the widest disc reaches in from its foot.
func narrowStrips(rings []shape.Ring, least shape.Um) []Strip {
	spots := facingEdges(rings, least)
	for _, s := range facingEdges(swapped(rings), least) {
		s.rect = swapRect(s.rect)
		spots = append(spots, s)
	}
	spots = append(spots, backedCorners(rings, least)...)
	return joinSpots(spots)
}

// run is a stretch between the same two upright edges.
type run struct {
	x0, x1, y0, y1 shape.Um
	endBelow       bool // nothing of the shape goes on there
}

// facingEdges finds, slab by slab from below, where two upright edges face each
// other across the shape closer than least.
func facingEdges(rings []shape.Ring, least shape.Um) []spot {
	sweep := newSweep(rings)
	var spots []spot
	var open []run
	var below, here []shape.Um
	for i := 0; ; i++ {
		y, xs, more := sweep.next()
		below, here = here, xs
		next := make([]run, 0, len(open))
		for j := 0; j+1 < len(here); j += 2 {
			if here[j+1]-here[j] >= least {
				continue
			}
			r := run{x0: here[j], x1: here[j+1], y0: y}
			k := slices.IndexFunc(open, func(o run) bool { return o.x0 == r.x0 && o.x1 == r.x1 })
			if k >= 0 {
				r = open[k]
				open[k].x1 = open[k].x0 // taken over
			} else {
				r.endBelow = !anyOverlap(below, r)
			}
			next = append(next, r)
		}
		for _, o := range open {
			if o.x1 == o.x0 {
				continue
			}
			o.y1 = y
			if s, ok := o.spot(least, !anyOverlap(here, o)); ok {
				spots = append(spots, s)
			}
		}
		open = next
		if !more {
			return spots
		}
	}
}

// spot says whether the ended run is narrow. A dead end of width w and depth
// h < w/2 lets a disc of diameter (w²/4 + h²)/h in from its foot.
func (r run) spot(least shape.Um, endAbove bool) (spot, bool) {
	w, h := r.x1-r.x0, r.y1-r.y0
	if r.endBelow != endAbove && 2*h < w && w*w+4*h*h >= 4*least*h {
		return spot{}, false
	}
	return spot{
		rect:   shape.Rect{Min: shape.Point{X: r.x0, Y: r.y0}, Max: shape.Point{X: r.x1, Y: r.y1}},
		width2: shape.Um2(w * w),
	}, true
}

// anyOverlap says whether a stretch of xs (from, to, from, to, …) shares some
// width with r.
func anyOverlap(xs []shape.Um, r run) bool {
	for j := 0; j+1 < len(xs); j += 2 {
		if xs[j] < r.x1 && xs[j+1] > r.x0 {
			return true
		}
	}
	return false
}

// inner is an inner corner; the shape is missing towards (mx, my).
type inner struct {
	at     shape.Point
	mx, my int8
}

// backedCorners finds the pairs of inner corners that turn their backs on each
// other closer than least. A pair with something of the outside between them
// may be listed too; then a narrower place lies within their rectangle.
func backedCorners(rings []shape.Ring, least shape.Um) []spot {
	corners := innerCorners(rings)
	type bucket struct{ x, y shape.Um }
	of := func(p shape.Point) bucket { return bucket{floorDiv(p.X, least), floorDiv(p.Y, least)} }
	near := map[bucket][]inner{}
	for _, c := range corners {
		near[of(c.at)] = append(near[of(c.at)], c)
	}
	var spots []spot
	for _, p := range corners {
		if p.mx > 0 { // its partner, missing to the left, lists the pair
			continue
		}
		b := of(p.at)
		for dx := shape.Um(-1); dx <= 1; dx++ {
			for dy := shape.Um(-1); dy <= 1; dy++ {
				for _, q := range near[bucket{b.x + dx, b.y + dy}] {
					v := q.at.Sub(p.at)
					backed := q.mx == -p.mx && q.my == -p.my &&
						v.X*shape.Um(p.mx) <= 0 && v.Y*shape.Um(p.my) <= 0
					d2 := v.X*v.X + v.Y*v.Y
					if !backed || d2 == 0 || d2 >= least*least {
						continue
					}
					spots = append(spots, spot{rect: shape.Rect{
						Min: shape.Point{X: min(p.at.X, q.at.X), Y: min(p.at.Y, q.at.Y)},
						Max: shape.Point{X: max(p.at.X, q.at.X), Y: max(p.at.Y, q.at.Y)},
					}, width2: shape.Um2(d2)})
				}
			}
		}
	}
	return spots
}

// innerCorners lists the corners where the shape fills three quadrants.
func innerCorners(rings []shape.Ring) []inner {
	var corners []inner
	for _, r := range rings {
		for i, p := range r {
			in := p.Sub(r[(i+len(r)-1)%len(r)])
			out := r[(i+1)%len(r)].Sub(p)
			if in.X*out.Y-in.Y*out.X < 0 { // the shape lies to the left: a right turn is an inner corner
				corners = append(corners, inner{p, sign(out.X - in.X), sign(out.Y - in.Y)})
			}
		}
	}
	return corners
}

// joinSpots makes one strip of spots that touch.
func joinSpots(spots []spot) []Strip {
	slices.SortFunc(spots, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.rect.Min.X, b.rect.Min.X), cmp.Compare(a.rect.Min.Y, b.rect.Min.Y),
			cmp.Compare(a.rect.Max.X, b.rect.Max.X), cmp.Compare(a.rect.Max.Y, b.rect.Max.Y))
	})
	leader := make([]int, len(spots)) // the smallest index of each connected set
	find := func(i int) int {
		for leader[i] != i {
			leader[i] = leader[leader[i]]
			i = leader[i]
		}
		return i
	}
	for i := range spots {
		leader[i] = i
	}
	for i, a := range spots {
		for j := i + 1; j < len(spots) && spots[j].rect.Min.X <= a.rect.Max.X; j++ {
			b := spots[j].rect
			if b.Min.Y <= a.rect.Max.Y && b.Max.Y >= a.rect.Min.Y {
				ri, rj := find(i), find(j)
				leader[max(ri, rj)] = min(ri, rj)
			}
		}
	}
	best := make(map[int]int)
	var order []int
	for i, s := range spots {
		r := find(i)
		if b, seen := best[r]; !seen {
			best[r] = i
			order = append(order, r)
		} else if s.width2 < spots[b].width2 {
			best[r] = i
		}
	}
	var strips []Strip
	for _, r := range order {
		s := spots[best[r]]
		strips = append(strips, Strip{
			At:     shape.Point{X: (s.rect.Min.X + s.rect.Max.X) / 2, Y: (s.rect.Min.Y + s.rect.Max.Y) / 2},
			Width2: s.width2,
		})
	}
	return strips
}

func sign(v shape.Um) int8 { return int8(cmp.Compare(v, 0)) }

func floorDiv(a, b shape.Um) shape.Um {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
