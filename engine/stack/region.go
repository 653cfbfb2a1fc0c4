package stack

// region is a connected set of patches, in the order in which they were reached.
type region struct {
	patches []int32
	colours Colours
}

// flood splits sets of patches into regions. It keeps its memory between calls.
type flood struct {
	g     *patches
	mark  []int32 // stamp of the set that a patch belongs to
	stamp int32
	work  int // links looked at so far: the operations that bounds count
}

func newFlood(g *patches) *flood {
	return &flood{g: g, mark: make([]int32, len(g.colour))}
}

// split returns the regions of those members for which keep holds, ordered by
// their first patch among members.
func (f *flood) split(members []int32, keep func(p int32) bool) []region {
	f.stamp++
	in, n := f.stamp, 0
	for _, p := range members {
		if keep(p) {
			f.mark[p] = in
			n++
		}
	}
	var out []region
	all := make([]int32, 0, n) // the regions, one after the other
	for _, p := range members {
		if f.mark[p] != in {
			continue
		}
		// Taken patches get the mark of no set, so that each is taken once.
		f.mark[p] = 0
		from := len(all)
		all = append(all, p)
		colours := Colours(0)
		for i := from; i < len(all); i++ {
			q := all[i]
			colours |= Of(f.g.colour[q])
			links := f.g.neighbours(q)
			f.work += len(links) + 1
			for _, l := range links {
				if f.mark[l.to] == in {
					f.mark[l.to] = 0
					all = append(all, l.to)
				}
			}
		}
		out = append(out, region{all[from:len(all):len(all)], colours})
	}
	return out
}

// whole are the drawing's connected pieces.
func (f *flood) whole() []region {
	all := make([]int32, len(f.g.colour))
	for p := range all {
		all[p] = int32(p)
	}
	return f.split(all, func(int32) bool { return true })
}

// measure is what one part cut from the whole region costs by itself.
func (f *flood) measure(r region, rules Rules) Cost {
	f.stamp++
	b, cut := f.g.box[r.patches[0]], 0
	for _, p := range r.patches {
		b = b.union(f.g.box[p])
		cut += int(f.g.sides[p])
		for _, l := range f.g.neighbours(p) {
			if f.mark[l.to] == f.stamp {
				cut -= 2 * int(l.shared)
			}
		}
		f.mark[p] = f.stamp
		f.work += len(f.g.neighbours(p))
	}
	c := Cost{Parts: 1, Heights: 1, Cut: cut}
	if b.side() <= rules.SmallCells {
		c.Small = 1
	}
	return c
}
