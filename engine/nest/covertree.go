package nest

// coverTree counts how often each of n places is covered and finds the first
// that isn't.
type coverTree struct {
	size  int // a power of two, at least n
	least []int32
	added []int32 // to all below, not yet in their least
}

func (t *coverTree) reset(n int) {
	t.size = 1
	for t.size < n {
		t.size *= 2
	}
	if cap(t.least) < 2*t.size {
		t.least, t.added = make([]int32, 2*t.size), make([]int32, 2*t.size)
	}
	t.least, t.added = t.least[:2*t.size], t.added[:2*t.size]
	clear(t.least)
	clear(t.added)
	for i := t.size + n; i < 2*t.size; i++ {
		t.least[i] = 1 << 30 // places that aren't there are never free
	}
	if n < t.size {
		for i := t.size - 1; i > 0; i-- {
			t.least[i] = min(t.least[2*i], t.least[2*i+1])
		}
	}
}

// add changes the count of the places from, …, to−1 by d, without recursion:
// up both edges of the range at once.
func (t *coverTree) add(from, to, d int32) {
	if from >= to {
		return
	}
	l, r := int(from)+t.size, int(to)+t.size // r is one past
	l0, r0 := l, r-1
	for ; l < r; l, r = l/2, r/2 {
		if l&1 == 1 {
			t.least[l] += d
			t.added[l] += d
			l++
		}
		if r&1 == 1 {
			r--
			t.least[r] += d
			t.added[r] += d
		}
	}
	t.rise(l0)
	t.rise(r0)
}

// rise brings what lies above place i up to date.
func (t *coverTree) rise(i int) {
	for i /= 2; i > 0; i /= 2 {
		t.least[i] = min(t.least[2*i], t.least[2*i+1]) + t.added[i]
	}
}

// firstFree is the first place that nothing covers.
func (t *coverTree) firstFree() (int, bool) {
	if t.least[1] > 0 {
		return 0, false
	}
	i, above := 1, int32(0)
	for i < t.size {
		above += t.added[i]
		i *= 2
		if t.least[i]+above > 0 {
			i++
		}
	}
	return i - t.size, true
}
