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
// two squares, compared squared. A dead end shallower than half its width is a bulge,
// not a strip: nothing passes there, and wider discs reach in from its foot.
//
// Spots that passOver names aren't listed; nil names none.
func narrowStrips(rings []shape.Ring, least shape.Um, passOver func(shape.Rect) bool) []Strip {
	spots := facingEdges(rings, least)
	for _, s := range facingEdges(swapped(rings), least) {
		s.rect = swapRect(s.rect)
		spots = append(spots, s)
	}
	spots = append(spots, backedCorners(rings, least)...)
	if passOver != nil {
		spots = slices.DeleteFunc(spots, func(s spot) bool { return passOver(s.rect) })
	}
	return joinSpots(spots)
}

// facingEdges finds where two upright edges face each other across the shape
// closer than least.
func facingEdges(rings []shape.Ring, least shape.Um) []spot {
	runs := runsOf(rings)
	above, below := deadEnds(runs)
	var spots []spot
	for i, r := range runs {
		w, h := r.x1-r.x0, r.y1-r.y0
		if w >= least {
			continue
		}
		// Where it ends on one side only, by itself or in narrower dead ends, it
		// may be a bulge.
		if up, down := above[i], below[i]; (up < 0) != (down < 0) && 2*(h+max(up, down)) < w {
			continue
		}
		spots = append(spots, spot{
			rect:   shape.Rect{Min: shape.Point{X: r.x0, Y: r.y0}, Max: shape.Point{X: r.x1, Y: r.y1}},
			width2: shape.Um2(w * w),
		})
	}
	return spots
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

// Narrowest is the narrowest place of a part that is narrower than least; ok is
// false where there is none.
func Narrowest(o shape.Outline, least shape.Um) (s Strip, ok bool) {
	for _, t := range narrowStrips(squared(o), least, nil) {
		if !ok || t.Width2 < s.Width2 {
			s, ok = t, true
		}
	}
	return s, ok
}
