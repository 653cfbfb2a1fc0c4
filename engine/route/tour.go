package route

import "sheetsprite/engine/shape"

// tour is an order of nodes and a way for each, kept to what must come before
// what.
type tour struct {
	nodes []node
	order []int32
	at    []int32 // where each node stands in the order
	way   []int32 // for each node
	start shape.Point
	end   End
}

func (t *tour) in(n int32) shape.Point  { return t.nodes[n].ways[t.way[n]].in }
func (t *tour) out(n int32) shape.Point { return t.nodes[n].ways[t.way[n]].out }

// before is where the machine stands before place i of the order.
func (t *tour) before(i int) shape.Point {
	if i == 0 {
		return t.start
	}
	return t.out(t.order[i-1])
}

// after is where it goes from what stands before place i; ok is false where
// nothing follows.
func (t *tour) after(i int) (shape.Point, bool) {
	if i < len(t.order) {
		return t.in(t.order[i]), true
	}
	return t.start, t.end == AtStart
}

// hop is the travel from p to place i.
func (t *tour) hop(p shape.Point, i int) shape.Um {
	q, ok := t.after(i)
	if !ok {
		return 0
	}
	return length(p, q)
}

// travel is the whole way with the beam off.
func (t *tour) travel() shape.Um {
	var sum shape.Um
	for i, n := range t.order {
		sum += length(t.before(i), t.in(n)) + t.nodes[n].ways[t.way[n]].inner
	}
	return sum + t.hop(t.before(len(t.order)), len(t.order))
}

// mayReverse says whether places i to j may be run in the opposite order:
// nothing in there must come before another in there.
func (t *tour) mayReverse(i, j int) bool {
	for k := i; k <= j; k++ {
		for _, m := range t.nodes[t.order[k]].must {
			if int(t.at[m]) <= j {
				return false
			}
		}
	}
	return true
}

// mayPass says whether places i to j may come after places j+1 to k.
func (t *tour) mayPass(i, j, k int) bool {
	for p := i; p <= j; p++ {
		for _, m := range t.nodes[t.order[p]].must {
			if at := int(t.at[m]); at > j && at <= k {
				return false
			}
		}
	}
	return true
}

// reverse runs places i to j in the opposite order, each node the other way round.
func (t *tour) reverse(i, j int) {
	for a, b := i, j; a <= b; a, b = a+1, b-1 {
		x, y := t.order[a], t.order[b]
		t.order[a], t.order[b] = y, x
		t.at[y], t.at[x] = int32(a), int32(b)
		t.way[x] = t.nodes[x].ways[t.way[x]].reverse
		if x != y {
			t.way[y] = t.nodes[y].ways[t.way[y]].reverse
		}
	}
}

// rotate puts places i to j after places j+1 to k, all in their direction.
func (t *tour) rotate(i, j, k int, room []int32) {
	room = append(room[:0], t.order[i:j+1]...)
	n := copy(t.order[i:], t.order[j+1:k+1])
	copy(t.order[i+n:], room)
	for p := i; p <= k; p++ {
		t.at[t.order[p]] = int32(p)
	}
}
