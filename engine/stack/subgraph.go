package stack

// sub is the graph of some patches by themselves, as they lie in a region: what
// isn't among them counts as empty. Patch i of the result is members[i].
func (g *patches) sub(members []int32) *patches {
	local := make(map[int32]int32, len(members))
	for i, p := range members {
		local[p] = int32(i)
	}
	to := func(p int32) int32 {
		if q, ok := local[p]; ok {
			return q
		}
		return -1
	}
	n := len(members)
	s := &patches{w: g.w, h: g.h, colour: make([]Colour, n), box: make([]box, n), sides: make([]int32, n), first: make([]int32, n+1)}
	marked := map[int32]bool{}
	for i, p := range members {
		s.colour[i], s.box[i], s.sides[i] = g.colour[p], g.box[p], g.sides[p]
		for _, l := range g.neighbours(p) {
			if q := to(l.to); q >= 0 {
				s.link = append(s.link, link{q, l.shared})
			}
		}
		s.first[i+1] = int32(len(s.link))
		if len(g.corners) == 0 {
			continue
		}
		for _, k := range g.beside[g.besideFirst[p]:g.besideFirst[p+1]] {
			c := g.corners[k]
			if marked[k] || to(c.a) < 0 || to(c.d) < 0 {
				continue
			}
			marked[k] = true
			c.a, c.d, c.b, c.c = to(c.a), to(c.d), to(c.b), to(c.c)
			s.corners = append(s.corners, c)
		}
	}
	s.indexCorners()
	return s
}
