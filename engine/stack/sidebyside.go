package stack

// SideBySide makes each patch a part of its own, all at height 1, as the
// drawing shows them. Cells that touch at a corner are one part where their
// stock can join them. Where two diagonals cross, only one can be joined: the
// one that saves a part, else the outline's; the other one is listed in Apart.
// outline is that colour, 0 where there is none.
func SideBySide(d Drawing, r Rules, outline Colour) *Forest {
	g := findPatches(d, 0)
	lead := make([]int32, len(g.colour))
	for p := range lead {
		lead[p] = int32(p)
	}
	join := func(a, d int32) { lead[max(find(lead, a), find(lead, d))] = min(find(lead, a), find(lead, d)) }
	joins := func(a, d int32) bool {
		return a >= 0 && d >= 0 && g.colour[a] == g.colour[d] && r.Joins.Has(g.colour[a])
	}
	type crossed struct{ ul, ll, ur, lr, x, y int32 }
	var both []crossed
	for y := 1; y < d.H; y++ {
		for x := 1; x < d.W; x++ {
			ul, ur, ll, lr := g.at(x-1, y-1), g.at(x, y-1), g.at(x-1, y), g.at(x, y)
			falling, rising := joins(ul, lr), joins(ll, ur)
			switch {
			case falling && rising:
				if g.colour[ul] != g.colour[ll] {
					both = append(both, crossed{ul, ll, ur, lr, int32(x), int32(y)})
				}
			case falling:
				join(ul, lr)
			case rising:
				join(ll, ur)
			}
		}
	}
	var apart []Diagonal
	for _, k := range both {
		falling := find(lead, k.ul) != find(lead, k.lr)
		rising := find(lead, k.ll) != find(lead, k.ur)
		if falling == rising {
			rising = g.colour[k.ll] == outline
		}
		if rising {
			join(k.ll, k.ur)
		} else {
			join(k.ul, k.lr)
		}
		apart = append(apart, Diagonal{Col: k.x, Row: k.y, Rising: !rising})
	}
	var t tree
	at := map[int32]int{}
	for p := range g.colour {
		q := find(lead, int32(p))
		i, ok := at[q]
		if !ok {
			i = len(t)
			at[q] = i
			t = append(t, treePart{colour: g.colour[p], on: -1})
		}
		t[i].shows = append(t[i].shows, int32(p))
	}
	f := t.forest(g)
	f.Apart = apart
	return f
}

// ByPatch is how many parts d would be with each patch, joined by sides only,
// a part of its own.
func ByPatch(d Drawing) int { return len(findPatches(d, 0).colour) }
