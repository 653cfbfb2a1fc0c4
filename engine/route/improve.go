package route

import "sheetsprite/engine/shape"

// improver shortens a tour by small changes: another way through a node, a
// stretch reversed (2-opt), a short stretch moved elsewhere (or-opt), each
// only between near nodes and only where what must come first still does.
// Nodes whose surroundings changed wait in a queue.
// (2-opt: Croes, Oper. Res. 6, 1958; or-opt: Or, thesis, Northwestern, 1976;
// from memory.)
type improver struct {
	*tour
	near   [][]int32
	queue  []int32
	queued []bool
	room   []int32
	brisk  bool // part of a large job
}

func newImprover(t *tour, share int) *improver {
	m := &improver{tour: t, queued: make([]bool, len(t.nodes)), brisk: share > 1}
	most := mostNeighbours
	if m.brisk {
		most = briskNeighbours
	}
	m.near = neighbours(t.nodes, most)
	return m
}

func (m *improver) wake(place int) {
	if place < 0 || place >= len(m.order) {
		return
	}
	if n := m.order[place]; !m.queued[n] {
		m.queued[n] = true
		m.queue = append(m.queue, n)
	}
}

func (m *improver) wakeAll() {
	for i := range m.order {
		m.wake(i)
	}
}

// run works off the queue and returns by how much less travel there is.
func (m *improver) run() (saved shape.Um) {
	for head := 0; head < len(m.queue); head++ {
		n := m.queue[head]
		m.queued[n] = false
		for {
			d := m.reway(int(m.at[n]))
			if d == 0 {
				d = m.twoOpt(n)
			}
			if d == 0 {
				d = m.orOpt(n)
			}
			if d == 0 {
				break
			}
			saved += d
		}
		if head > 4096 && head*2 > len(m.queue) {
			m.queue = m.queue[:copy(m.queue, m.queue[head+1:])]
			head = -1
		}
	}
	m.queue = m.queue[:0]
	return saved
}

// reway takes the best way through the node at a place.
func (m *improver) reway(i int) shape.Um {
	n := m.order[i]
	nd := &m.nodes[n]
	if len(nd.ways) == 1 {
		return 0
	}
	p := m.before(i)
	now := nd.ways[m.way[n]]
	old := length(p, now.in) + now.inner + m.hop(now.out, i+1)
	best, way := old, m.way[n]
	r, ends := m.after(i + 1)
	for w := range nd.ways {
		o := &nd.ways[w]
		if beyond(p, o.in, best-o.inner) {
			continue
		}
		d := length(p, o.in) + o.inner
		if ends {
			if d >= best || beyond(o.out, r, best-d) {
				continue
			}
			d += length(o.out, r)
		}
		if d < best {
			best, way = d, int32(w)
		}
	}
	if best == old {
		return 0
	}
	m.way[n] = way
	m.wake(i - 1)
	m.wake(i + 1)
	return old - best
}

// twoOpt tries to put a near node beside n by reversing what lies between.
func (m *improver) twoOpt(n int32) shape.Um {
	i := int(m.at[n])
	in, out := m.in(n), m.out(n)
	next := m.hop(out, i+1)
	prev := length(m.before(i), in)
	for _, c := range m.near[n] {
		j := int(m.at[c])
		// c, reversed, to follow n: places i+1 to j turn round (or j+1 to i).
		if q := m.out(c); !beyond(out, q, next) && length(out, q) < next {
			lo, hi := min(i, j), max(i, j)
			if s := m.tryReverse(lo+1, hi); s > 0 {
				return s
			}
		}
		// c, reversed, to come before n.
		if q := m.in(c); !beyond(q, in, prev) && length(q, in) < prev {
			lo, hi := min(i, j), max(i, j)
			if s := m.tryReverse(lo, hi-1); s > 0 {
				return s
			}
		}
	}
	return 0
}

// tryReverse reverses places i to j if that saves travel.
func (m *improver) tryReverse(i, j int) shape.Um {
	p, first, last := m.before(i), m.order[i], m.order[j]
	old := length(p, m.in(first)) + m.hop(m.out(last), j+1)
	// A reversed way has in and out exchanged, so nothing changes in between.
	a, b := m.turned(last), m.turned(first)
	if beyond(p, a.in, old) {
		return 0
	}
	now := length(p, a.in) + m.hop(b.out, j+1)
	if now >= old || !m.mayReverse(i, j) {
		return 0
	}
	m.reverse(i, j)
	m.wake(i - 1)
	m.wake(i)
	m.wake(j)
	m.wake(j + 1)
	return old - now
}

func (m *improver) turned(n int32) way {
	nd := &m.nodes[n]
	return nd.ways[nd.ways[m.way[n]].reverse]
}

// longestMoved is how many nodes or-opt moves at once.
const longestMoved = 3

// orOpt tries to move a short stretch that begins or ends with n beside a near node.
func (m *improver) orOpt(n int32) shape.Um {
	at := int(m.at[n])
	for size := range longestMoved {
		for _, i := range []int{at, at - size} {
			j := i + size
			if i < 0 || j >= len(m.order) || size == 0 && i != at {
				continue
			}
			if s := m.moveStretch(i, j, n); s > 0 {
				return s
			}
			if size == 0 {
				break
			}
		}
	}
	return 0
}

// moveStretch tries to put places i to j beside a near node of n.
func (m *improver) moveStretch(i, j int, n int32) shape.Um {
	p, first, last := m.before(i), m.order[i], m.order[j]
	saved := length(p, m.in(first)) + m.hop(m.out(last), j+1) - m.hop(p, j+1)
	if saved <= 0 {
		return 0
	}
	for _, c := range m.near[n] {
		k := int(m.at[c])
		if k >= i && k <= j {
			continue
		}
		for _, to := range []int{k, k + 1} { // in before place `to`
			if to >= i && to <= j+1 {
				continue
			}
			q := m.before(to)
			r, ends := m.after(to)
			limit := saved
			if ends {
				limit += length(q, r)
			}
			if s := m.insert(i, j, slot{to, q, r, ends}, limit); s > 0 {
				return s
			}
		}
	}
	return 0
}

// slot is a place of the order, where the machine stands before it, and where it
// goes from there, if anywhere.
type slot struct {
	to   int
	q, r shape.Point
	ends bool
}

// cost is the travel by way of what is run from in to out, if less than limit.
func (s *slot) cost(in, out shape.Point, limit shape.Um) (shape.Um, bool) {
	if beyond(s.q, in, limit) {
		return 0, false
	}
	d := length(s.q, in)
	if s.ends {
		if d >= limit || beyond(out, s.r, limit-d) {
			return 0, false
		}
		d += length(out, s.r)
	}
	return d, d < limit
}

// least is no more than the travel by way of anything that begins and ends in a box.
func (s *slot) least(b shape.Rect) shape.Um {
	d := outside(s.q, b)
	if s.ends {
		d += outside(s.r, b)
	}
	return d
}

// insert moves places i to j into a slot if that costs less than what is saved,
// in the direction that costs less, a single node in its best way.
func (m *improver) insert(i, j int, s slot, saved shape.Um) shape.Um {
	first, last, to := m.order[i], m.order[j], s.to
	best, reversed, way := saved, false, int32(-1)
	if i == j {
		nd := &m.nodes[first]
		inner := nd.ways[m.way[first]].inner
		if s.least(nd.box)-inner >= saved {
			return 0
		}
		if d, ok := s.cost(m.in(first), m.out(last), best); ok {
			best = d
		}
		for w := range nd.ways {
			o := &nd.ways[w]
			if d, ok := s.cost(o.in, o.out, best+inner-o.inner); ok {
				best, way = d+o.inner-inner, int32(w)
			}
		}
	} else {
		if d, ok := s.cost(m.in(first), m.out(last), best); ok {
			best = d
		}
		if d, ok := s.cost(m.turned(last).in, m.turned(first).out, best); ok && m.mayReverse(i, j) {
			best, reversed = d, true
		}
	}
	if best >= saved {
		return 0
	}
	if to > j && !m.mayPass(i, j, to-1) || to < i && !m.mayPass(to, i-1, j) {
		return 0
	}
	if reversed {
		m.reverse(i, j)
	}
	if way >= 0 {
		m.way[first] = way
	}
	if to > j {
		m.rotate(i, j, to-1, m.room)
		m.wakeRound(i, to-1-(j-i), to-1)
	} else {
		m.rotate(to, i-1, j, m.room)
		m.wakeRound(to, to+(j-i), j)
	}
	return saved - best
}

// wakeRound wakes both sides of what was joined anew.
func (m *improver) wakeRound(places ...int) {
	for _, p := range places {
		m.wake(p - 1)
		m.wake(p)
		m.wake(p + 1)
	}
}
