package route

import (
	"math/rand/v2"

	"sheetsprite/engine/shape"
)

// A tour that no small change shortens is kicked: two neighbouring stretches
// change places (a double bridge close by), what that disturbed is improved
// again, and the old tour comes back where the new one is longer.
// (Iterated local search with segment-wise double bridges: Johnson, McGeoch,
// 1997, as in nearest.go; from memory.)

// kicks is how often the tour is kicked: a small sheet until it is nearly
// optimal, a large one so often that a thousand parts take well under a second
// (measured: 0.55 s for 1,230 contours, 2 % more travel than 20 times as many
// kicks leave). A kick's work grows with the square of the ways through a node,
// so contours with many ways get fewer: what they have to choose from makes up
// for it (measured on 22 sheets of 5 to 130 marks and contours: 40 times as many
// kicks save 0.1 % of the travel).
func (t *tour) kicks(share int) int {
	n, ways := len(t.nodes), 0
	for i := range t.nodes {
		ways += len(t.nodes[i].ways)
	}
	each := max(1, ways/n)
	most := min(6_000, max(10*n, min(12_000, 400*n)/(each*each)))
	if share > 1 {
		most /= briskKicks * share
	}
	return most
}

// A sheet of a large job is shaken with fewer kicks, each of which looks at fewer
// near nodes and at those alone between which something is joined anew.
const (
	briskNeighbours = 6
	briskKicks      = 2 // times fewer
)

// longestKick is how many nodes a stretch that changes places has at most.
const longestKick = 50

// wakeKicked wakes what stands beside the joints of a kick: before and at place i,
// before and at mid, at and after k.
func (m *improver) wakeKicked(i, mid, k int) {
	if !m.brisk {
		m.wakeRound(i, mid, k)
		return
	}
	for _, p := range []int{i - 1, i, mid - 1, mid, k, k + 1} {
		m.wake(p)
	}
}

// shake kicks the tour so many times.
func (m *improver) shake(times int) {
	n := len(m.order)
	if n < 4 {
		return
	}
	rng := rand.New(rand.NewPCG(uint64(n), 0x726f757465))
	order, at, way := make([]int32, n), make([]int32, n), make([]int32, n)
	copy(order, m.order)
	copy(at, m.at)
	copy(way, m.way)
	for range times {
		i := rng.IntN(n - 1)
		j := min(n-2, i+rng.IntN(longestKick))
		k := min(n-1, j+1+rng.IntN(longestKick))
		if !m.mayPass(i, j, k) {
			continue
		}
		p := m.before(i)
		cost := func() (d shape.Um) {
			mid := i + k - j
			return length(p, m.in(m.order[i])) + length(m.before(mid), m.in(m.order[mid])) + m.hop(m.before(k+1), k+1)
		}
		old := length(p, m.in(m.order[i])) + length(m.before(j+1), m.in(m.order[j+1])) + m.hop(m.before(k+1), k+1)
		m.rotate(i, j, k, m.room)
		lost := cost() - old
		m.wakeKicked(i, i+k-j, k)
		if m.run() >= lost {
			copy(order, m.order)
			copy(at, m.at)
			copy(way, m.way)
			continue
		}
		copy(m.order, order)
		copy(m.at, at)
		copy(m.way, way)
	}
}
