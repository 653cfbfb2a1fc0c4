package shape

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// twiceInterior is twice the number of grid points inside a ring by Pick's
// theorem (G. Pick 1899): 2A = 2I + B − 2, with B the points on the ring.
func twiceInterior(r Ring) int { return int(r.twiceArea()) - int(r.Perimeter()) + 2 }

// pickHolds counts the inner points one by one. A ring that passes a point
// twice isn't simple; it is left out.
func pickHolds(t *testing.T, r Ring) {
	t.Helper()
	if r[0] == r[len(r)-1] || r.Validate() != nil {
		return
	}
	if r.Area() < 0 {
		r = r.Reversed()
	}
	b := r.Bounds()
	in := 0
	for y := b.Min.Y; y <= b.Max.Y; y++ {
		for x := b.Min.X; x <= b.Max.X; x++ {
			if r.Where(Point{x, y}) == Inside {
				in++
			}
		}
	}
	require.Equal(t, twiceInterior(r), 2*in, "Pick's theorem on %v", r)
}

func randomLabels(rng *rand.Rand, w, h, labels int) []uint8 {
	out := make([]uint8, w*h)
	for i := range out {
		switch {
		case i > 0 && rng.IntN(3) == 0:
			out[i] = out[i-1]
		case i >= w && rng.IntN(2) == 0:
			out[i] = out[i-w]
		default:
			out[i] = uint8(rng.IntN(labels + 1))
		}
	}
	return out
}

// TestTraceLabelsEqualsTheRegions: every label by itself as a region, whose
// outlining is checked against the plain one in turn, gives the same rings.
func TestTraceLabelsEqualsTheRegions(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	for range 400 {
		w, h := 1+rng.IntN(14), 1+rng.IntN(14)
		labels := randomLabels(rng, w, h, 1+rng.IntN(5))
		for _, link := range []Link{BySides, ByCorners} {
			tr := TraceLabels(labels, w, h, link)
			ps, names := tr.Polygons(7)
			for label := uint8(1); label <= 5; label++ {
				var rects []Rect
				for i, l := range labels {
					if l == label {
						p := Point{Um(i%w) * 7, Um(h-1-i/w) * 7}
						rects = append(rects, Rect{p, p.Add(Point{7, 7})})
					}
				}
				var ours []Polygon
				for i, p := range ps {
					if names[i] == label {
						ours = append(ours, p)
					}
				}
				require.Equal(t, FromRects(rects).Polygons(link), ours)
			}
			for i := range tr.Rings {
				pickHolds(t, tr.Ring(i, 1))
			}
		}
	}
}

// frames is rectangles in rectangles.
func frames(rng *rand.Rand, w, h int) []uint8 {
	out := make([]uint8, w*h)
	for range 8 {
		x0, y0 := rng.IntN(w), rng.IntN(h)
		x1, y1 := x0+1+rng.IntN(w-x0), y0+1+rng.IntN(h-y0)
		edge, fill := uint8(rng.IntN(4)), uint8(rng.IntN(4))
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				out[y*w+x] = fill
				if x == x0 || y == y0 || x == x1-1 || y == y1-1 {
					out[y*w+x] = edge
				}
			}
		}
	}
	return out
}

// TestParentsAreTheSmallestHolesAround checks each outer ring's parent
// against all holes.
func TestParentsAreTheSmallestHolesAround(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	nested := 0
	for i := range 1000 {
		w, h := 3+rng.IntN(12), 3+rng.IntN(12)
		labels := randomLabels(rng, w, h, 1+i%4)
		if i%2 == 0 {
			labels = frames(rng, w, h)
		}
		tr := TraceLabels(labels, w, h, BySides)
		for k, r := range tr.Rings {
			ring := tr.Ring(k, 2)
			if r.Kind == HoleRing {
				require.Equal(t, OuterRing, tr.Rings[r.Parent].Kind)
				require.Equal(t, r.Label, tr.Rings[r.Parent].Label)
				require.True(t, tr.Ring(int(r.Parent), 2).Holds(ring))
				continue
			}
			inside := ring[0].Add(Point{1, -1}) // in the ring's upper left cell
			best := int32(-1)
			for n, hole := range tr.Rings {
				if hole.Kind != HoleRing || tr.Ring(n, 2).Where(inside) != Inside {
					continue
				}
				if best < 0 || -tr.Ring(n, 1).Area() < -tr.Ring(int(best), 1).Area() {
					best = int32(n)
				}
			}
			require.Equal(t, best, r.Parent, "%v", labels)
			if best >= 0 {
				nested++
			}
		}
	}
	require.Greater(t, nested, 100)
}

// euler is the Euler number of a binary picture from its 2×2 patterns:
// S. B. Gray, Local properties of binary images in two dimensions, IEEE
// Trans. Computers C-20 (1971): (Q1 − Q3 ± 2·Qd)/4, plus by sides, minus with
// corners.
func euler(g grid, link Link) int {
	q1, q3, qd := 0, 0, 0
	for y := 0; y <= g.side; y++ {
		for x := 0; x <= g.side; x++ {
			n := 0
			for _, p := range [][2]int{{x - 1, y - 1}, {x, y - 1}, {x - 1, y}, {x, y}} {
				if g.get(p[0], p[1]) {
					n++
				}
			}
			switch {
			case n == 1:
				q1++
			case n == 3:
				q3++
			case n == 2 && g.get(x-1, y-1) == g.get(x, y):
				qd++
			}
		}
	}
	if link == ByCorners {
		qd = -qd
	}
	return (q1 - q3 + 2*qd) / 4
}

func TestEulerNumberIsPiecesLessHoles(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	for i := range 500 {
		side := 1 + rng.IntN(16)
		g := newGrid(side)
		labels := make([]uint8, side*side)
		for k := range g.at {
			g.at[k] = rng.IntN(100) < 30+i%50
			if g.at[k] {
				labels[(side-1-k/side)*side+k%side] = 1
			}
		}
		for _, link := range []Link{BySides, ByCorners} {
			n := 0
			for _, r := range TraceLabels(labels, side, side, link).Rings {
				if r.Kind == OuterRing {
					n++
				} else {
					n--
				}
			}
			require.Equal(t, euler(g, link), n)
		}
	}
}

func ExampleTraceLabels() {
	picture := []string{
		"aaaa.",
		"a..a.",
		"ab.ac",
		"aaaa.",
	}
	labels := []uint8{}
	for _, row := range picture {
		for _, c := range []byte(row) {
			if c == '.' {
				labels = append(labels, 0)
			} else {
				labels = append(labels, c-'a'+1)
			}
		}
	}
	t := TraceLabels(labels, 5, 4, BySides)
	for i, r := range t.Rings {
		kind := "outer"
		if r.Kind == HoleRing {
			kind = "hole"
		}
		fmt.Printf("%d: %c %s in %d %v\n", i, 'a'+r.Label-1, kind, r.Parent, t.Ring(i, 1))
	}
	// Output:
	// 0: a outer in -1 [{0 4} {0 0} {4 0} {4 4}]
	// 1: a hole in 0 [{1 3} {3 3} {3 1} {1 1}]
	// 2: b outer in 1 [{1 2} {1 1} {2 1} {2 2}]
	// 3: c outer in -1 [{4 2} {4 1} {5 1} {5 2}]
}
