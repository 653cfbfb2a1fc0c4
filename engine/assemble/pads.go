package assemble

import "sheetsprite/engine/shape"

// How pads are cut and where they go. Common practice, no source.
const (
	LeastBack = 1 * shape.Mm  // from every edge, at least; and by the foam's thickness
	LargeBack = 5 * shape.Mm  // on large parts
	Large     = 60 * shape.Mm // a part whose longer side is over this
	PadEvery  = 70 * shape.Mm // from pad to pad along a large part, at most
	OnePad    = 20 * shape.Mm // parts up to this size may lie on a single pad
	mostPads  = 400           // under one part, so that a wall of card ends, too
	longStrip = 20 * shape.Mm // the longest piece of foam
)

// padSizes are the squares that are tried, the largest first; a strip is no
// narrower than the last.
var padSizes = []shape.Um{10 * shape.Mm, 8 * shape.Mm, 6 * shape.Mm, 5 * shape.Mm, 4 * shape.Mm, 3 * shape.Mm}

// Back is how far pads of a thickness lie behind every edge of a part: then
// neither from the front nor from 45° to it does one show, since at 45° one sees
// no farther beneath an edge than the gap is high.
func Back(foam shape.Um) shape.Um { return max(LeastBack, foam) }

// pads are the pieces of foam under a part; none where it can't be held. They
// lie behind its edges, wholly on what it rests on, apart from one another, and
// its centre of area lies within their hull.
func (b *builder) pads(index int, foam shape.Um) []shape.Rect {
	part := b.region(index)
	w, h := b.shapes[index].Bounds.Size()
	large := max(w, h) > Large
	heart := centre(part)
	if large {
		under := b.beneath(index, max(LargeBack, foam))
		if pads := padding(under, heart, padSizes[:1], max(w, h)); pads != nil {
			return pads
		}
	}
	return padding(b.beneath(index, Back(foam)), heart, padSizes, max(w, h))
}

// beneath is where something may lie under a part: back from its edges, on what
// it rests on.
func (b *builder) beneath(index int, back shape.Um) shape.Region {
	r := b.region(index).Shrink(back)
	if on := b.plan.Parts[index].On; on >= 0 && !r.Empty() {
		r = r.Intersect(b.region(on))
	}
	return r
}

// padding finds pads of the largest size that holds what has its centre of area
// at heart.
func padding(under shape.Region, heart shape.Point, sizes []shape.Um, longer shape.Um) []shape.Rect {
	if under.Empty() {
		return nil
	}
	f := newFloor(under)
	for _, size := range sizes {
		if r := around(heart, size); longer <= OnePad && f.holds(r) {
			return []shape.Rect{r}
		}
		p := padder{floor: f, heart: heart, size: size, spots: f.spots(size, max(10*shape.Mm, longer/40))}
		every := max(PadEvery, longer/20)
		if longer > Large {
			p.rows(every)
		}
		if p.hold() {
			if longer > OnePad && len(p.pads) == 1 && size > sizes[len(sizes)-1] {
				continue // two smaller ones hold better than one
			}
			p.spread(every * 9 / 14)
			p.stretch()
			return p.pads
		}
	}
	return nil
}

// padder places pads of one size.
type padder struct {
	floor floor
	heart shape.Point
	size  shape.Um
	spots []shape.Point // middles of pads
	pads  []shape.Rect
}

// around is a square about a middle.
func around(at shape.Point, size shape.Um) shape.Rect {
	low := shape.Point{X: at.X - size/2, Y: at.Y - size/2}
	return shape.Rect{Min: low, Max: low.Add(shape.Point{X: size, Y: size})}
}

// add puts a pad at a spot unless it would lie on another one.
func (p *padder) add(spot shape.Point) bool {
	r := around(spot, p.size)
	for _, q := range p.pads {
		if r.Min.X < q.Max.X && q.Min.X < r.Max.X && r.Min.Y < q.Max.Y && q.Min.Y < r.Max.Y {
			return false
		}
	}
	p.pads = append(p.pads, r)
	return true
}

// rows puts pads in even rows and columns, wherever there is a spot close by.
func (p *padder) rows(every shape.Um) {
	if len(p.spots) == 0 {
		return
	}
	b := shape.Rect{Min: p.spots[0], Max: p.spots[0]}
	for _, s := range p.spots {
		b.Min = shape.Point{X: min(b.Min.X, s.X), Y: min(b.Min.Y, s.Y)}
		b.Max = shape.Point{X: max(b.Max.X, s.X), Y: max(b.Max.Y, s.Y)}
	}
	w, h := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	cols, lines := (w+every-1)/every, (h+every-1)/every
	for r := range lines + 1 {
		for c := range cols + 1 {
			node := b.Min
			if cols > 0 {
				node.X += w * c / cols
			}
			if lines > 0 {
				node.Y += h * r / lines
			}
			if spot, ok := p.beside(node, every/4); ok {
				p.add(spot)
			}
		}
	}
}

// beside is the free spot nearest to a place, within reach and no nearer to a
// pad than twice that.
func (p *padder) beside(place shape.Point, reach shape.Um) (spot shape.Point, ok bool) {
	least := shape.Um2(reach)*shape.Um2(reach) + 1
	for _, s := range p.spots {
		if d := square(s.Sub(place)); d < least && p.nearest(s) >= 4*shape.Um2(reach)*shape.Um2(reach) && p.free(s) {
			spot, ok, least = s, true, d
		}
	}
	return spot, ok
}

// nearest is the square of the way from a spot to the nearest pad's middle.
func (p *padder) nearest(spot shape.Point) shape.Um2 {
	near := shape.Um2(1) << 62
	for _, q := range p.pads {
		near = min(near, square(spot.Sub(middle(q))))
	}
	return near
}

// hold puts down the pads farthest from one another, then others until the
// heart lies within their hull.
func (p *padder) hold() bool {
	if len(p.spots) == 0 {
		return false
	}
	if len(p.pads) == 0 {
		p.add(p.farthest(p.spots, p.heart))
	}
	for len(p.pads) < 3 {
		spot, away := p.loneliest()
		if away == 0 {
			break
		}
		p.add(spot)
		if within(p.heart, hull(p.pads)) {
			return true
		}
	}
	for range len(p.spots) {
		h := hull(p.pads)
		if within(p.heart, h) {
			return true
		}
		if !p.reach(outward(p.heart, h)) {
			return false
		}
	}
	return false
}

// reach adds the free spot that lies farthest along a direction.
func (p *padder) reach(way shape.Point) bool {
	best, most := -1, shape.Um2(0)
	for i, s := range p.spots {
		if d := dot(s.Sub(p.heart), way); (best < 0 || d > most) && p.free(s) {
			best, most = i, d
		}
	}
	return best >= 0 && p.add(p.spots[best])
}

func (p *padder) free(spot shape.Point) bool {
	n := len(p.pads)
	ok := p.add(spot)
	p.pads = p.pads[:n]
	return ok
}

// spread adds pads until no spot is farther than within from the nearest one: in
// even rows of every that is the middle between four pads.
func (p *padder) spread(within shape.Um) {
	for len(p.pads) < mostPads {
		spot, away := p.loneliest()
		if away <= shape.Um2(within)*shape.Um2(within) || !p.add(spot) {
			return
		}
	}
}

func (p *padder) farthest(spots []shape.Point, from shape.Point) shape.Point {
	best, most := spots[0], shape.Um2(-1)
	for _, s := range spots {
		if d := square(s.Sub(from)); d > most {
			best, most = s, d
		}
	}
	return best
}

// loneliest is the free spot farthest from the nearest pad.
func (p *padder) loneliest() (spot shape.Point, away shape.Um2) {
	for _, s := range p.spots {
		if near := p.nearest(s); near > away && p.free(s) {
			spot, away = s, near
		}
	}
	return spot, away
}

// stretch makes strips of pads that are narrower than the widest squares, along
// the way that has more room.
func (p *padder) stretch() {
	if p.size >= padSizes[0] {
		return
	}
	for i := range p.pads {
		across, up := p.longest(i, 1, 0), p.longest(i, 0, 1)
		w, _ := across.Size()
		_, h := up.Size()
		if w >= h {
			p.pads[i] = across
		} else {
			p.pads[i] = up
		}
	}
}

// longest is pad i as long as there is room, a millimetre at a time on either
// side in turn.
func (p *padder) longest(i int, dx, dy shape.Um) shape.Rect {
	r := p.pads[i]
	stuck := [2]bool{}
	for k := 0; !stuck[0] || !stuck[1]; k = 1 - k {
		if stuck[k] {
			continue
		}
		q := r
		if k == 0 {
			q.Min = q.Min.Sub(shape.Point{X: dx * shape.Mm, Y: dy * shape.Mm})
		} else {
			q.Max = q.Max.Add(shape.Point{X: dx * shape.Mm, Y: dy * shape.Mm})
		}
		w, h := q.Size()
		if max(w, h) > longStrip || !p.floor.holds(q) || p.near(i, q) {
			stuck[k] = true
			continue
		}
		r = q
	}
	return r
}

// near says whether r comes close to a pad other than i.
func (p *padder) near(i int, r shape.Rect) bool {
	r = shape.Rect{Min: r.Min.Sub(shape.Point{X: shape.Mm, Y: shape.Mm}), Max: r.Max.Add(shape.Point{X: shape.Mm, Y: shape.Mm})}
	for k, q := range p.pads {
		if k != i && r.Min.X < q.Max.X && q.Min.X < r.Max.X && r.Min.Y < q.Max.Y && q.Min.Y < r.Max.Y {
			return true
		}
	}
	return false
}

func middle(r shape.Rect) shape.Point {
	return shape.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
}
func square(p shape.Point) shape.Um2 { return dot(p, p) }
func dot(p, q shape.Point) shape.Um2 {
	return shape.Um2(p.X)*shape.Um2(q.X) + shape.Um2(p.Y)*shape.Um2(q.Y)
}
