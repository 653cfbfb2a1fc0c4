package stack

// tree is a forest of patches: what a step decides, before it is drawn as
// parts. Parts rest on parts that come before them.
type tree []treePart

// treePart is one part: its region is what it shows and what all parts on it show.
type treePart struct {
	colour Colour
	on     int     // index of the part it rests on, -1 for none
	shows  []int32 // patches
}

// graft adds other's parts, with its lowest ones on part on.
func (t tree) graft(other tree, on int) tree {
	base := len(t)
	for _, p := range other {
		if p.on < 0 {
			p.on = on
		} else {
			p.on += base
		}
		t = append(t, p)
	}
	return t
}

// heights of the parts, 1 for those that rest on none.
func (t tree) heights() []int {
	h := make([]int, len(t))
	for i, p := range t {
		h[i] = 1
		if p.on >= 0 {
			h[i] = h[p.on] + 1
		}
	}
	return h
}

// cost counts what the tree costs, straight from its definition.
func (t tree) cost(g *patches, r Rules) Cost {
	h := t.heights()
	var c Cost
	partOf := make([]int32, len(g.colour))
	for i := range partOf {
		partOf[i] = -1
	}
	boxes := make([]box, len(t))
	cut := make([]int, len(t))
	for i := len(t) - 1; i >= 0; i-- {
		b := g.box[t[i].shows[0]]
		for _, p := range t[i].shows {
			partOf[p] = int32(i)
			b = b.union(g.box[p])
			cut[i] += int(g.sides[p])
		}
		boxes[i] = b
	}
	// A border between two patches is inside every part that holds both.
	depthOfBoth := func(i, j int32) []int {
		var both []int
		up := map[int32]bool{}
		for k := i; k >= 0; k = int32(t[k].on) {
			up[k] = true
		}
		for k := j; k >= 0; k = int32(t[k].on) {
			if up[k] {
				both = append(both, int(k))
			}
		}
		return both
	}
	inside := make([]int, len(t))
	for p := range g.colour {
		if partOf[p] < 0 {
			continue
		}
		for _, l := range g.neighbours(int32(p)) {
			if l.to > int32(p) && l.shared > 0 && partOf[l.to] >= 0 {
				for _, k := range depthOfBoth(partOf[p], partOf[l.to]) {
					inside[k] += int(l.shared)
				}
			}
		}
	}
	for i := len(t) - 1; i >= 0; i-- {
		c.Parts++
		c.Heights = max(c.Heights, h[i])
		c.Cut += cut[i] - 2*inside[i]
		if boxes[i].side() <= r.SmallCells {
			c.Small++
		}
		if on := t[i].on; on >= 0 {
			boxes[on] = boxes[on].union(boxes[i])
			cut[on] += cut[i]
		}
	}
	at := func(p int32) int {
		if p < 0 || partOf[p] < 0 {
			return 0
		}
		return h[partOf[p]]
	}
	for _, k := range g.corners {
		if at(k.a) > 0 && min(at(k.a), at(k.d)) > max(at(k.b), at(k.c)) {
			c.Joins++
		}
	}
	return c
}
