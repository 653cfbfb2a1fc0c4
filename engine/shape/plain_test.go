package shape

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// grid is a region drawn µm by µm: the plain judge. Cell (x, y) is the square
// from x, y to x+1, y+1.
type grid struct {
	side int
	at   []bool
}

func newGrid(side int) grid { return grid{side, make([]bool, side*side)} }

func (g grid) get(x, y int) bool {
	return x >= 0 && y >= 0 && x < g.side && y < g.side && g.at[y*g.side+x]
}

// gridOf draws a region from its rectangles.
func gridOf(r Region, side int) grid {
	g := newGrid(side)
	for _, c := range r.Rects() {
		for y := c.Min.Y; y < c.Max.Y; y++ {
			for x := c.Min.X; x < c.Max.X; x++ {
				g.at[int(y)*side+int(x)] = true
			}
		}
	}
	return g
}

func (g grid) region() Region {
	var rects []Rect
	for y := range g.side {
		for x := range g.side {
			if g.get(x, y) {
				rects = append(rects, Rect{Point{Um(x), Um(y)}, Point{Um(x + 1), Um(y + 1)}})
			}
		}
	}
	return FromRects(rects)
}

// grown is the cells within d of a set one in both directions.
func (g grid) grown(dx, dy int) grid {
	out := newGrid(g.side)
	for y := range g.side {
		for x := range g.side {
			for ny := y - dy; ny <= y+dy; ny++ {
				for nx := x - dx; nx <= x+dx; nx++ {
					out.at[y*g.side+x] = out.at[y*g.side+x] || g.get(nx, ny)
				}
			}
		}
	}
	return out
}

// shrunk is the cells all of whose neighbours within d are set.
func (g grid) shrunk(d int) grid {
	out := newGrid(g.side)
	for y := range g.side {
		for x := range g.side {
			all := true
			for ny := y - d; ny <= y+d; ny++ {
				for nx := x - d; nx <= x+d; nx++ {
					all = all && g.get(nx, ny)
				}
			}
			out.at[y*g.side+x] = all
		}
	}
	return out
}

func (g grid) area() Um2 {
	n := Um2(0)
	for _, v := range g.at {
		if v {
			n++
		}
	}
	return n
}

// components labels by sides, or also by corners, and counts.
func (g grid) components(link Link, value bool) (label []int, n int) {
	label = make([]int, len(g.at))
	for i := range g.at {
		if g.at[i] != value || label[i] != 0 {
			continue
		}
		n++
		todo := []int{i}
		for len(todo) > 0 {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if g.at[k] != value || label[k] != 0 {
				continue
			}
			label[k] = n
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					x, y := k%g.side+dx, k/g.side+dy
					if (link == ByCorners || dx == 0 || dy == 0) && x >= 0 && y >= 0 && x < g.side && y < g.side {
						todo = append(todo, y*g.side+x)
					}
				}
			}
		}
	}
	return label, n
}

// holes counts what isn't set and doesn't reach the edge; where the set cells
// link by sides, the others link by corners too.
func (g grid) holes(link Link) int {
	padded := newGrid(g.side + 2)
	for y := range g.side {
		for x := range g.side {
			padded.at[(y+1)*padded.side+x+1] = g.get(x, y)
		}
	}
	_, n := padded.components(ByCorners-link, false)
	return n - 1
}

// randomRegion is a region in the middle of a grid, a margin free around it.
func randomRegion(rng *rand.Rand, side, margin int) Region {
	var rects []Rect
	in := side - 2*margin
	for range rng.IntN(14) {
		p := Point{Um(margin + rng.IntN(in)), Um(margin + rng.IntN(in))}
		q := Point{min(p.X+Um(rng.IntN(in/2+1)), Um(side-margin)), min(p.Y+Um(rng.IntN(in/2+1)), Um(side-margin))}
		rects = append(rects, Rect{p, q})
	}
	r := FromRects(rects)
	if rng.IntN(2) == 0 { // with holes
		var cut []Rect
		for range 6 {
			p := Point{Um(margin + rng.IntN(in)), Um(margin + rng.IntN(in))}
			cut = append(cut, Rect{p, p.Add(Point{Um(1 + rng.IntN(4)), Um(1 + rng.IntN(4))})})
		}
		r = r.Subtract(FromRects(cut))
	}
	return r
}

// wellFormed checks the invariant stated on Region.
func wellFormed(t *testing.T, r Region) {
	t.Helper()
	for i, b := range r.bands {
		xs := r.row(b)
		require.Less(t, b.y0, b.y1)
		require.NotEmpty(t, xs)
		require.Zero(t, len(xs)%2)
		for k := 1; k < len(xs); k++ {
			require.Less(t, xs[k-1], xs[k])
		}
		if i > 0 {
			before := r.bands[i-1]
			require.LessOrEqual(t, before.y1, b.y0)
			require.False(t, before.y1 == b.y0 && equal(r.row(before), xs))
		}
	}
}

func TestOperationsEqualThePlainOnes(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	const side, margin = 34, 7
	for range 400 {
		a, b := randomRegion(rng, side, margin), randomRegion(rng, side, margin)
		ga, gb := gridOf(a, side), gridOf(b, side)
		for name, op := range map[string]struct {
			ours  Region
			plain func(p, q bool) bool
		}{
			"union":     {a.Union(b), func(p, q bool) bool { return p || q }},
			"intersect": {a.Intersect(b), func(p, q bool) bool { return p && q }},
			"subtract":  {a.Subtract(b), func(p, q bool) bool { return p && !q }},
			"differ":    {a.Differ(b), func(p, q bool) bool { return p != q }},
		} {
			plain := newGrid(side)
			for i := range plain.at {
				plain.at[i] = op.plain(ga.at[i], gb.at[i])
			}
			wellFormed(t, op.ours)
			require.True(t, op.ours.Equal(plain.region()), name)
			require.Equal(t, plain.area(), op.ours.Area(), name)
		}
		dx, dy := rng.IntN(margin), rng.IntN(margin)
		require.True(t, a.GrowXY(Um(dx), Um(dy)).Equal(ga.grown(dx, dy).region()), "grow by %d, %d", dx, dy)
		d := rng.IntN(margin)
		require.True(t, a.Grow(Um(d)).Equal(ga.grown(d, d).region()), "grow by %d", d)
		require.True(t, a.Shrink(Um(d)).Equal(ga.shrunk(d).region()), "shrink by %d", d)
		require.True(t, a.Grow(-Um(d)).Equal(a.Shrink(Um(d))))
		// Closing and opening: growing and shrinking back never loses, and
		// shrinking and growing back never gains.
		require.True(t, a.Subtract(a.Grow(Um(d)).Shrink(Um(d))).Empty())
		require.True(t, a.Shrink(Um(d)).Grow(Um(d)).Subtract(a).Empty())
	}
}

func TestPolygonsAreTheRegion(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	const side = 20
	for i := range 600 {
		r := randomRegion(rng, side, 1)
		if i%3 == 0 { // many contacts at corners
			r = randomCells(rng, side, side, 1, 0.5)
		}
		g := gridOf(r, side)
		for _, link := range []Link{BySides, ByCorners} {
			ps := r.Polygons(link)
			_, n := g.components(link, true)
			require.Len(t, ps, n)
			holes := 0
			var area Um2
			for _, p := range ps {
				area += p.Area()
				holes += len(p.Holes)
				require.Positive(t, p.Outer.Area())
				for _, h := range p.Holes {
					require.Negative(t, h.Area())
					require.True(t, p.Outer.Holds(h))
				}
			}
			require.Equal(t, g.area(), area)
			require.Equal(t, g.holes(link), holes)
			require.True(t, FromPolygons(ps...).Equal(r))
		}
		// Grown by a little, nothing touches in a point only.
		for _, p := range r.Moved(Point{5, 5}).scaled(10).Grow(2).Polygons(BySides) {
			require.NoError(t, p.Validate())
			require.Equal(t, p.Bounds(), FromPolygons(p).Bounds())
		}
	}
}

// scaled is r about the origin times n.
func (r Region) scaled(n Um) Region {
	rects := r.Rects()
	for i, c := range rects {
		rects[i] = Rect{Point{c.Min.X * n, c.Min.Y * n}, Point{c.Max.X * n, c.Max.Y * n}}
	}
	return FromRects(rects)
}
