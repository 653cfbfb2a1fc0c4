package nest

import (
	"math/rand/v2"
	"slices"

	"sheetsprite/engine/shape"
)

// Where all forms are rectangles the packing can be built from below: the
// lowest stretch of the skyline gets the rectangle that suits it best, the
// first in the order among equals; where none fits it is filled up to its
// lower neighbour. The order is then changed a little, again and again.
// (Best fit: Burke, Kendall, Whitwell, Oper. Res. 52, 2004; scores and search
// over orders: Leung, Zhang, Sim, Eur. J. Oper. Res. 215, 2011; from memory.)

// skyline is that search.
type skyline struct {
	p     *problem
	rng   *rand.Rand
	order []int // of copies
	trial []int
	spots []spot
	cost  cost
	best  answer
	line  []stretch
	next  []int32 // the copy after each in the order; the last entry is before the first
	work  int
}

// stretch is a level piece of the skyline.
type stretch struct{ x, y, w shape.Um }

// suitsSkyline says whether a problem consists of rectangles that may go anywhere.
func (p *problem) suitsSkyline() bool {
	if len(p.held) > 0 || len(p.units) != len(p.copies) {
		return false
	}
	return !slices.ContainsFunc(p.kinds, func(k kind) bool { return !k.rect })
}

func newSkyline(p *problem, lane int) *skyline {
	s := &skyline{p: p, rng: rand.New(rand.NewPCG(uint64(lane), 0x736b79))}
	for _, u := range p.order(sortings[(lane+1)%len(sortings)]) {
		s.order = append(s.order, p.units[u].copies[0])
	}
	s.spots = make([]spot, len(p.copies))
	s.next = make([]int32, len(p.copies)+1)
	s.cost = s.build(s.order)
	s.best = answer{spots: slices.Clone(s.spots), cost: s.cost}
	return s
}

func (s *skyline) found() answer { return s.best }

func (s *skyline) spent() int { return s.work }

func (s *skyline) idle() bool { return len(s.order) < 2 }

// build fills sheet after sheet.
func (s *skyline) build(order []int) cost {
	for i := range s.spots {
		s.spots[i].sheet = -1
	}
	head := int32(len(order))
	at := head
	for _, c := range order {
		s.next[at] = int32(c)
		at = int32(c)
	}
	s.next[at] = -1
	for n := 0; n < maxSheets && s.next[head] >= 0; n++ {
		spec, ok := s.p.sheet(n)
		if !ok {
			break
		}
		if spec.w > 0 && spec.h > 0 {
			s.fill(n, spec, head)
		}
	}
	return s.p.cost(s.spots, 0)
}

// fill puts what fits onto sheet n.
func (s *skyline) fill(n int, spec sheetSpec, head int32) {
	s.line = append(s.line[:0], stretch{0, 0, spec.w})
	for s.next[head] >= 0 {
		i := s.lowest()
		g := gap{w: s.line[i].w, room: spec.h - s.line[i].y, left: spec.h, right: spec.h}
		if i > 0 {
			g.left = s.line[i-1].y - s.line[i].y
		}
		if i+1 < len(s.line) {
			g.right = s.line[i+1].y - s.line[i].y
		}
		before, form, score := s.choose(head, g)
		if score < 0 {
			if len(s.line) == 1 {
				return
			}
			s.raise(i)
			continue
		}
		c := s.next[before]
		s.next[before] = s.next[c]
		f := &s.p.kindOf(int(c)).forms[form]
		x := s.line[i].x
		if g.onRight(f.h) {
			x += g.w - f.w
		}
		s.spots[c] = spot{int32(n), int8(form), shape.Point{X: x, Y: s.line[i].y}}
		s.stand(i, x, f.w, f.h)
	}
}

// gap is the lowest stretch: its width, the height above it, and how high the
// walls beside it stand.
type gap struct{ w, room, left, right shape.Um }

// onRight says whether a rectangle of height h that is narrower than the gap
// goes to its right end: to the wall that it is level with, else the higher.
func (g gap) onRight(h shape.Um) bool {
	if h == g.left || h == g.right {
		return h != g.left
	}
	return g.right > g.left
}

// The scores of a rectangle in a gap, worst to best.
const (
	loose       = iota // touches one wall, level with neither
	level              // level with one wall
	wide               // fills the width and stands out
	wideLow            // fills the width, below both walls
	wideLevel          // fills the width, level with one wall
	wideLevel2         // with both
	bestOfScore = wideLevel2
)

func (g gap) score(w, h shape.Um) int {
	isLevel := h == g.left || h == g.right
	if w < g.w {
		if isLevel {
			return level
		}
		return loose
	}
	switch {
	case h == g.left && h == g.right:
		return wideLevel2
	case isLevel:
		return wideLevel
	case h < g.left && h < g.right:
		return wideLow
	}
	return wide
}

// choose finds the best of what is left, as the one before it in the list.
func (s *skyline) choose(head int32, g gap) (before int32, form, score int) {
	score = -1
	last := -1
	for at := head; s.next[at] >= 0; at = s.next[at] {
		kind := s.p.copies[s.next[at]].kind
		if kind == last {
			continue
		}
		last = kind
		k := &s.p.kinds[kind]
		s.work += 2 // takes about as long as two steps of the other lanes
		for i := range k.forms {
			f := &k.forms[i]
			if f.w > g.w || f.h > g.room {
				continue
			}
			if sc := g.score(f.w, f.h); sc > score {
				before, form, score = at, i, sc
				if sc == bestOfScore {
					return before, form, score
				}
			}
		}
	}
	return before, form, score
}

// lowest is the lowest stretch, the leftmost of equals.
func (s *skyline) lowest() int {
	best := 0
	for i := range s.line {
		if s.line[i].y < s.line[best].y {
			best = i
		}
	}
	return best
}

// raise fills stretch i up to its lower neighbour.
func (s *skyline) raise(i int) {
	y := never
	if i > 0 {
		y = s.line[i-1].y
	}
	if i+1 < len(s.line) {
		y = min(y, s.line[i+1].y)
	}
	s.line[i].y = y
	s.merge(i)
}

// stand puts a rectangle onto stretch i, at its left or right end.
func (s *skyline) stand(i int, x, w, h shape.Um) {
	t := s.line[i]
	top := stretch{x, t.y + h, w}
	switch {
	case w == t.w:
		s.line[i] = top
		s.merge(i)
	case x == t.x:
		s.line[i] = stretch{x + w, t.y, t.w - w}
		s.line = slices.Insert(s.line, i, top)
		s.merge(i)
	default:
		s.line[i].w -= w
		s.line = slices.Insert(s.line, i+1, top)
		s.merge(i + 1)
	}
}

// merge makes one stretch of i and the neighbours level with it.
func (s *skyline) merge(i int) {
	if i+1 < len(s.line) && s.line[i+1].y == s.line[i].y {
		s.line[i].w += s.line[i+1].w
		s.line = slices.Delete(s.line, i+1, i+2)
	}
	if i > 0 && s.line[i-1].y == s.line[i].y {
		s.line[i-1].w += s.line[i].w
		s.line = slices.Delete(s.line, i, i+1)
	}
}

// improve tries other orders.
func (s *skyline) improve(until int) {
	n := len(s.order)
	if n < 2 {
		return
	}
	before := make([]spot, n)
	for s.work < until {
		s.work += 2 * n
		s.trial = append(s.trial[:0], s.order...)
		for range 1 + s.rng.IntN(2) {
			i, j := s.rng.IntN(n), s.rng.IntN(n)
			s.trial[i], s.trial[j] = s.trial[j], s.trial[i]
		}
		copy(before, s.spots)
		c := s.build(s.trial)
		if c.compare(s.cost) > 0 {
			copy(s.spots, before)
			continue
		}
		s.cost = c
		copy(s.order, s.trial)
		if c.compare(s.best.cost) < 0 {
			s.best = answer{spots: slices.Clone(s.spots), cost: c}
		}
	}
}
