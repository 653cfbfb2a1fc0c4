package nest

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"sheetsprite/engine/shape"
)

// reorder improves an answer for any shapes: units are placed one by one in
// an order, and the order is changed a little, again and again, where that
// makes nothing worse.
type reorder struct {
	p     *problem
	rng   *rand.Rand
	ask   search
	now   *layout
	order []int // of units, that gave now
	cost  cost
	best  answer
	tried map[uint64]bool // orders, so that a small set is soon through
	again int             // how often in a row an order was tried before
}

// answer is spots with what they cost.
type answer struct {
	spots []spot
	apart []int
	cost  cost
}

// newReorder makes the first answer of one lane; each lane starts in another
// order.
func newReorder(p *problem, lane int) *reorder {
	r := &reorder{p: p, rng: rand.New(rand.NewPCG(uint64(lane), 0x6e657374))}
	r.ask.known.shared = &p.nofit
	r.tried = map[uint64]bool{}
	r.now = newLayout(p, &r.ask)
	r.order = p.order(sortings[lane%len(sortings)])
	r.cost = r.build(r.order, 0)
	r.best = r.answer()
	return r
}

func (r *reorder) found() answer { return r.best }

func (r *reorder) spent() int { return r.ask.work }

func (r *reorder) idle() bool { return len(r.order) < 2 || r.again >= mostAgain }

func (r *reorder) answer() answer {
	return answer{slices.Clone(r.now.spots), slices.Clone(r.now.apart), r.cost}
}

// sortings are the orders to start with: the hardest to place first.
var sortings = []func(p *problem, u unit) shape.Um2{
	func(_ *problem, u unit) shape.Um2 { return u.area },
	func(p *problem, u unit) shape.Um2 { return shape.Um2(p.long(u)) },
	func(p *problem, u unit) shape.Um2 { return shape.Um2(p.short(u)) },
	func(p *problem, u unit) shape.Um2 { return shape.Um2(p.long(u)) + shape.Um2(p.short(u)) },
}

// long is the longer side of a unit's first copy.
func (p *problem) long(u unit) shape.Um {
	f := &p.kindOf(u.copies[0]).forms[0]
	return max(f.w, f.h)
}

func (p *problem) short(u unit) shape.Um {
	f := &p.kindOf(u.copies[0]).forms[0]
	return min(f.w, f.h)
}

// order is all units, those kept together first, then by the sorting; what is
// equal lies side by side, so that its places are found quickly.
func (p *problem) order(by func(*problem, unit) shape.Um2) []int {
	out := make([]int, len(p.units))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int {
		ua, ub := p.units[a], p.units[b]
		return cmp.Or(
			-cmp.Compare(min(len(ua.copies), 2), min(len(ub.copies), 2)),
			-cmp.Compare(by(p, ua), by(p, ub)),
			cmp.Compare(p.copies[ua.copies[0]].kind, p.copies[ub.copies[0]].kind),
		)
	})
	return out
}

// build places the units in order. The first kept of them lie already where
// they would come to lie.
func (r *reorder) build(order []int, kept int) cost {
	l := r.now
	old := slices.Clone(l.spots)
	wasApart := slices.Clone(l.apart)
	l.clear()
	for _, u := range order[:kept] {
		for _, c := range r.p.units[u].copies {
			if s := old[c]; s.sheet >= 0 {
				for len(l.boards) <= int(s.sheet) {
					l.open()
				}
				l.putCopy(c, s)
			}
		}
		if slices.Contains(wasApart, u) {
			l.apart = append(l.apart, u)
		}
	}
	for _, u := range order[kept:] {
		l.place(u)
	}
	r.ask.work += 4 * len(l.spots)
	return r.p.cost(l.spots, len(l.apart))
}

// mostAgain is after how many orders in a row that were tried before a set
// counts as through.
const mostAgain = 200

// mostTried bounds the memory of orders.
const mostTried = 50_000

// improve tries other orders.
func (r *reorder) improve(until int) {
	n := len(r.order)
	if n < 2 {
		return
	}
	order := make([]int, n)
	for r.ask.work < until && r.again < mostAgain {
		copy(order, r.order)
		first := r.change(order)
		r.ask.work += n
		if k := r.fingerprint(order); r.tried[k] {
			r.again++
			continue
		} else if len(r.tried) < mostTried {
			r.tried[k] = true
		}
		r.again = 0
		before, beforeApart := slices.Clone(r.now.spots), slices.Clone(r.now.apart)
		c := r.build(order, first)
		if c.compare(r.cost) > 0 {
			copy(r.now.spots, before)
			r.now.apart = beforeApart
			continue
		}
		r.cost = c
		copy(r.order, order)
		if c.compare(r.best.cost) < 0 {
			r.best = r.answer()
		}
	}
}

// fingerprint tells orders apart by what lies where in them; copies of one
// kind are the same.
func (r *reorder) fingerprint(order []int) uint64 {
	h := uint64(14695981039346656037) // FNV-1a's offset and prime
	mix := func(v int) { h = (h ^ uint64(v)) * 1099511628211 }
	for _, u := range order {
		un := &r.p.units[u]
		mix(len(un.copies))
		for _, c := range un.copies {
			mix(r.p.copies[c].kind)
		}
	}
	return h
}

// change moves one unit or swaps two, and says from where on the order is
// another one.
func (r *reorder) change(order []int) int {
	n := len(order)
	for {
		i, j := r.rng.IntN(n), r.rng.IntN(n)
		if i == j {
			continue
		}
		if r.rng.IntN(2) == 0 {
			order[i], order[j] = order[j], order[i]
			return min(i, j)
		}
		u := order[i]
		order = slices.Delete(order, i, i+1)
		_ = slices.Insert(order, j, u) // in place: there is room for one
		return min(i, j)
	}
}
