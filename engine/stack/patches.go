package stack

// patches is a drawing seen as a graph: its patches and their neighbours. The
// steps work on it and never look at cells.
//
// Cells that touch only at a corner belong to one patch where their colour
// joins corners. No part is saved by showing one patch at two heights: lifting
// the lower piece to the upper one keeps every region connected that was so.
type patches struct {
	label  []int32 // of each cell, -1 where empty
	w, h   int
	colour []Colour
	box    []box
	sides  []int32 // a patch's contour by itself, in sides of a cell

	// Neighbours of patch p are link[first[p]:first[p+1]], in no stated order
	// but always the same.
	first []int32
	link  []link

	corners []corner
	// beside[p] lists the corners at which a cell of p lies beside the diagonal.
	besideFirst []int32
	beside      []int32
}

// link is a neighbour and the length of the border with it; 0 where the two
// touch at corners only.
type link struct{ to, shared int32 }

// corner is a grid corner whose four cells could come to touch only across it:
// a and d lie diagonally, b and c beside them (-1: empty).
type corner struct {
	a, d, b, c int32
	col, row   int32
	rising     bool // a and d lie lower left and upper right
}

// box is a bounding box in cells, ends included.
type box struct{ x0, y0, x1, y1 int32 }

func (b box) union(c box) box {
	return box{min(b.x0, c.x0), min(b.y0, c.y0), max(b.x1, c.x1), max(b.y1, c.y1)}
}

// side is the longer side, in cells.
func (b box) side() int { return int(max(b.x1-b.x0, b.y1-b.y0)) + 1 }

// findPatches reads the graph off a drawing. Cells of the colours in joins hang
// together by corners, too, and so do two patches one of which has such a colour.
func findPatches(d Drawing, joins Colours) *patches {
	g := &patches{w: d.W, h: d.H}
	g.labelCells(d, joins)
	g.findLinks(joins)
	if joins != 0 {
		g.findCorners(joins)
	}
	return g
}

// labelCells numbers the patches in order of their first cell.
func (g *patches) labelCells(d Drawing, joins Colours) {
	parent := make([]int32, len(d.Cells))
	root := func(i int32) int32 {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	// The smaller index becomes the root, so a root is its patch's first cell.
	join := func(i, j int32) {
		i, j = root(i), root(j)
		parent[max(i, j)] = min(i, j)
	}
	i := int32(0)
	for y := range d.H {
		for x := range d.W {
			parent[i] = i
			if c := d.Cells[i]; c != 0 {
				if x > 0 && d.Cells[i-1] == c {
					join(i, i-1)
				}
				if y > 0 && d.Cells[i-int32(d.W)] == c {
					join(i, i-int32(d.W))
				}
				if joins.Has(c) && y > 0 {
					if x > 0 && d.Cells[i-int32(d.W)-1] == c {
						join(i, i-int32(d.W)-1)
					}
					if x+1 < d.W && d.Cells[i-int32(d.W)+1] == c {
						join(i, i-int32(d.W)+1)
					}
				}
			}
			i++
		}
	}
	g.label = make([]int32, len(d.Cells))
	for i, c := range d.Cells {
		x, y := int32(i%d.W), int32(i/d.W)
		switch k := root(int32(i)); {
		case c == 0:
			g.label[i] = -1
		case k == int32(i):
			g.label[i] = int32(len(g.colour))
			g.colour = append(g.colour, c)
			g.box = append(g.box, box{x, y, x, y})
		default:
			p := g.label[k]
			g.label[i] = p
			g.box[p] = g.box[p].union(box{x, y, x, y})
		}
	}
}

// at is the patch of a cell, -1 where empty or outside.
func (g *patches) at(x, y int) int32 {
	if x < 0 || y < 0 || x >= g.w || y >= g.h {
		return -1
	}
	return g.label[y*g.w+x]
}

// findLinks lists each patch's neighbours once and measures contours.
func (g *patches) findLinks(joins Colours) {
	n := len(g.colour)
	g.sides = make([]int32, n)
	type pair struct{ p, q, shared int32 }
	var pairs []pair
	seen := map[uint64]int32{} // only looked up, never ranged over
	touch := func(p, q, shared int32) {
		if p < 0 || q < 0 || p == q {
			return
		}
		if p > q {
			p, q = q, p
		}
		key := uint64(p)<<32 | uint64(q)
		i, ok := seen[key]
		if !ok {
			i = int32(len(pairs))
			seen[key] = i
			pairs = append(pairs, pair{p, q, 0})
		}
		pairs[i].shared += shared
	}
	for y := range g.h + 1 {
		for x := range g.w + 1 {
			p, left, up := g.at(x, y), g.at(x-1, y), g.at(x, y-1)
			for _, q := range [2]int32{left, up} {
				if p != q {
					if p >= 0 {
						g.sides[p]++
					}
					if q >= 0 {
						g.sides[q]++
					}
					touch(p, q, 1)
				}
			}
			across := func(p, q int32) {
				if p >= 0 && q >= 0 && (joins.Has(g.colour[p]) || joins.Has(g.colour[q])) {
					touch(p, q, 0)
				}
			}
			if joins != 0 {
				across(p, g.at(x-1, y-1))
				across(left, up)
			}
		}
	}
	g.first = make([]int32, n+1)
	for _, e := range pairs {
		g.first[e.p+1]++
		g.first[e.q+1]++
	}
	for p := range n {
		g.first[p+1] += g.first[p]
	}
	g.link = make([]link, 2*len(pairs))
	fill := append([]int32(nil), g.first[:n]...)
	for _, e := range pairs {
		g.link[fill[e.p]] = link{e.q, e.shared}
		g.link[fill[e.q]] = link{e.p, e.shared}
		fill[e.p]++
		fill[e.q]++
	}
}

// neighbours of p.
func (g *patches) neighbours(p int32) []link { return g.link[g.first[p]:g.first[p+1]] }

// findCorners lists the corners that come to be joined only if a cell beside
// the diagonal is shown lower than both of its ends.
func (g *patches) findCorners(joins Colours) {
	add := func(a, d, b, c int32, x, y int, rising bool) {
		if a >= 0 && d >= 0 && a != b && a != c && d != b && d != c && (b >= 0 || c >= 0) &&
			(joins.Has(g.colour[a]) || joins.Has(g.colour[d])) {
			g.corners = append(g.corners, corner{a, d, b, c, int32(x), int32(y), rising})
		}
	}
	for y := 1; y < g.h; y++ {
		for x := 1; x < g.w; x++ {
			ul, ur, ll, lr := g.at(x-1, y-1), g.at(x, y-1), g.at(x-1, y), g.at(x, y)
			add(ul, lr, ur, ll, x, y, false)
			add(ll, ur, ul, lr, x, y, true)
		}
	}
	g.indexCorners()
}

// indexCorners lists each patch's corners in beside.
func (g *patches) indexCorners() {
	g.besideFirst = make([]int32, len(g.colour)+1)
	each := func(do func(p int32, k int)) {
		for k, c := range g.corners {
			if c.b >= 0 {
				do(c.b, k)
			}
			if c.c >= 0 && c.c != c.b {
				do(c.c, k)
			}
		}
	}
	each(func(p int32, _ int) { g.besideFirst[p+1]++ })
	for p := range g.colour {
		g.besideFirst[p+1] += g.besideFirst[p]
	}
	g.beside = make([]int32, g.besideFirst[len(g.colour)])
	fill := append([]int32(nil), g.besideFirst...)
	each(func(p int32, k int) {
		g.beside[fill[p]] = int32(k)
		fill[p]++
	})
}
