package stack

import "slices"

// The second step's annealing (Kirkpatrick, Gelatt and Vecchi, Optimization by
// simulated annealing, 1983) moves one patch at a time up or down the order:
// mostly to a patch of its own colour, with which it may then share a part, or
// to a neighbour, over or under which it then lies.

// weights turn a cost into one number to anneal.
type weights struct{ parts, small, heights, joins, cut, over, broken int }

var (
	// coarse looks for few parts; ties steer it gently.
	coarse = weights{parts: 1000, small: 60, heights: 40, over: 700, broken: 100_000}
	// fine keeps the parts and improves the ties.
	fine = weights{parts: 100_000, small: 4000, heights: 1500, joins: 60, cut: 1, over: 70_000, broken: 10_000_000}
)

func (w weights) of(c Cost, limit, broken int) int {
	return w.parts*c.Parts + w.small*c.Small + w.heights*c.Heights + w.joins*c.Joins + w.cut*c.Cut +
		w.over*max(0, c.Heights-limit) + w.broken*broken
}

// annealer searches the orders of one connected piece.
type annealer struct {
	g      *patches
	rules  Rules
	limit  int // most heights
	trial  *trial
	quick  layer // counts moves without joins; nil for very large pieces
	random random
	same   [][]int32 // patches of the same colour, by patch
	place  []int32   // of each patch in the order
	found  byHeight
}

// byHeight keeps the best order for each number of heights; index h-1.
type byHeight []found

type found struct {
	cost  Cost
	order order // nil: none yet
}

func newAnnealer(g *patches, rules Rules, limit int) *annealer {
	n := len(g.colour)
	a := &annealer{g: g, rules: rules, limit: limit, trial: newTrial(g, rules), same: make([][]int32, n), place: make([]int32, n)}
	a.quick = newLayer(g, &a.rules)
	var of [MaxColours + 1][]int32
	for p, c := range g.colour {
		of[c] = append(of[c], int32(p))
	}
	for p, c := range g.colour {
		a.same[p] = of[c]
	}
	a.found = make(byHeight, limit)
	// The seed is fixed: the same piece always gives the same forest.
	a.random = random(n)
	return a
}

// keep notes an order whose full cost is c.
func (a *annealer) keep(o order, c Cost, broken int) {
	if broken > 0 || c.Heights > a.limit {
		return
	}
	f := &a.found[c.Heights-1]
	if f.order == nil || c.Compare(f.cost) < 0 {
		f.cost = c
		f.order = append(f.order[:0], o...)
	}
}

// best is the best order kept.
func (a *annealer) best() found {
	var b found
	for _, f := range a.found {
		if f.order != nil && (b.order == nil || f.cost.Compare(b.cost) < 0) {
			b = f
		}
	}
	return b
}

// run anneals from order o, which keeps to the rules.
func (a *annealer) run(o order, rounds int) {
	a.keepFull(o)
	if len(o) < 3 {
		return
	}
	a.keepFull(a.cool(o, rounds*3/4, coarse, 220, 50, nil))
	a.cool(a.best().order, rounds/4, fine, 900, 30, a.keep)
}

// keepFull notes an order whose cost isn't known in full.
func (a *annealer) keepFull(o order) {
	c, broken := a.trial.cost(o)
	a.keep(o, c, broken)
}

// cool anneals from hot to cold (in units of the weights) and returns the best
// order met; every order taken is shown to keep. Joins are counted only where
// keep asks for them or nothing quicker counts.
func (a *annealer) cool(o order, rounds int, w weights, hot, cold int, keep func(order, Cost, int)) order {
	now := slices.Clone(o)
	for i, p := range now {
		a.place[p] = int32(i)
	}
	quick := a.quick
	cost := a.trial.cost
	if quick != nil {
		d := withCut
		if keep == nil {
			d = withoutCut
		}
		quick.begin(now, d)
		cost = func(order) (Cost, int) {
			c, broken := quick.cost()
			if keep != nil {
				c.Joins = quick.joins(a.place)
			}
			return c, broken
		}
	}
	c, broken := cost(now)
	energy := w.of(c, a.limit, broken)
	best, least := slices.Clone(now), energy
	heat, factor := hot<<10, coolingFactor(hot, cold)
	for stage := range stages {
		if a.rules.stopped() {
			return best
		}
		for range rounds*(stage+1)/stages - rounds*stage/stages {
			i, j, ok := a.step(now)
			if !ok {
				continue
			}
			fall := -1 // drawn when needed
			tooMuch := func(e int) bool {
				if e <= energy {
					return false
				}
				if fall < 0 {
					fall = a.random.fall()
				}
				return (e-energy)<<20 > heat*fall
			}
			if quick != nil {
				if quick.shift(now[i], a.place, j) == 0 {
					a.move(now, i, j) // the same forest
					continue
				}
				// What is too much without its joins is too much with them.
				if c, broken := quick.cost(); tooMuch(w.of(c, a.limit, broken)) {
					quick.back()
					continue
				}
			}
			a.move(now, i, j)
			c, broken := cost(now)
			e := w.of(c, a.limit, broken)
			if tooMuch(e) {
				a.move(now, j, i)
				if quick != nil {
					quick.back()
				}
				continue
			}
			energy = e
			if keep != nil {
				keep(now, c, broken)
			}
			if e < least {
				least = e
				copy(best, now)
			}
		}
		heat = heat * factor >> 12
	}
	return best
}

// stages of cooling: the heat is the same within one.
const stages = 64

// coolingFactor is what to multiply the heat with after each stage, in 1/4096.
func coolingFactor(hot, cold int) int {
	for factor := 4095; ; factor-- {
		heat := hot << 10
		for range stages {
			heat = heat * factor >> 12
		}
		if heat <= cold<<10 {
			return factor
		}
	}
}

// step draws a patch's place and where to move it.
func (a *annealer) step(o order) (from, to int, ok bool) {
	from = a.random.below(len(o))
	p := o[from]
	switch dice := a.random.below(100); {
	case dice < 25:
		to = a.random.below(len(o))
	case dice < 75:
		same := a.same[p]
		to = int(a.place[same[a.random.below(len(same))]])
	default:
		near := a.g.neighbours(p)
		if len(near) == 0 {
			return 0, 0, false
		}
		to = int(a.place[near[a.random.below(len(near))].to])
	}
	return from, to, from != to
}

// move takes the patch at place i to place j.
func (a *annealer) move(o order, i, j int) {
	p := o[i]
	if i < j {
		for k := i; k < j; k++ {
			o[k] = o[k+1]
			a.place[o[k]] = int32(k)
		}
	} else {
		for k := i; k > j; k-- {
			o[k] = o[k-1]
			a.place[o[k]] = int32(k)
		}
	}
	o[j] = p
	a.place[p] = int32(j)
}
