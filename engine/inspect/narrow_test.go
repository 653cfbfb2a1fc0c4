package inspect

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// drawn gives the rings of the cells marked '#', those of one connected shape,
// with cells of 1 mm.
func drawn(t *testing.T, picture string) []shape.Ring {
	t.Helper()
	rows := strings.Fields(picture)
	labels := make([]uint8, 0, len(rows)*len(rows[0]))
	for _, r := range rows {
		require.Len(t, r, len(rows[0]))
		for _, c := range r {
			labels = append(labels, map[rune]uint8{'#': 1}[c])
		}
	}
	return ringsOf(labels, len(rows[0]), len(rows))
}

func ringsOf(labels []uint8, w, h int) []shape.Ring {
	ps, _ := shape.TraceLabels(labels, w, h, shape.BySides).Polygons(shape.Mm)
	var rings []shape.Ring
	for _, p := range ps {
		rings = append(append(rings, p.Outer), p.Holes...)
	}
	return rings
}

func TestNarrowStrips(t *testing.T) {
	for _, c := range []struct {
		name, picture string
		least         shape.Um
		want          []string // "x,y width²" in cells from the lower left, and square cells
	}{
		{"as wide as it must be", `
			###
			###
			###`, 3000, nil},
		{"a square all too narrow", `##
			##`, 2001, []string{"1,1 4"}},
		{"a bar", `.....
			.###.
			.....`, 1001, []string{"2.5,1.5 1"}},
		{"a bar exactly wide enough", `###`, 1000, nil},
		{"a dead end", `
			###..
			#####
			###..`, 1500, []string{"4,1.5 1"}},
		{"a bridge", `
			###.###
			#######
			###.###`, 1500, []string{"3.5,1.5 1"}},
		{"two bridges are two places", `
			###.###.###
			###########
			###.###.###`, 1500, []string{"3.5,1.5 1", "7.5,1.5 1"}},
		{"from corner to corner, aslant", `
			###...
			####..
			####..
			..####
			..####
			...###`, 2500, []string{"3,3 4"}}, // two cells straight across; 2√2 aslant lie in the same place
		{"dead ends half as deep as wide", `
			.###..
			#####.
			######
			.#####
			..###.`, 3000, []string{"0.5,3 4", "5.5,2 4"}},
		{"a neck aslant", `
			####....
			####....
			#####...
			..######
			...#####
			...#####`, 2236, nil}, // √5 = 2.2361
		{"the same neck, for wider strips", `
			####....
			####....
			#####...
			..######
			...#####
			...#####`, 2237, []string{"3,3.5 5"}},
		{"about a hole", `
			#####
			#.###
			#####
			#####
			#####`, 1500, []string{"0.5,3.5 1"}},
		{"a bulge shallower than half its width", `
			.###.
			#####
			#####
			#####
			#####`, 4000, nil},
		{"an L", `
			#..
			#..
			###`, 1500, []string{"0.5,2 1"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, s := range narrowStrips(drawn(t, c.picture), c.least, nil) {
				got = append(got, fmt.Sprintf("%v,%v %v", number(s.At.X), number(s.At.Y), float64(s.Width2)/1e6))
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// TestNarrowestEqualsPlain holds the sweep and the buckets against every pair
// of edges and every pair of corners with nothing of the outside between them.
func TestNarrowestEqualsPlain(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 6))
	for range 3000 {
		w, h := 1+rng.IntN(7), 1+rng.IntN(7)
		labels := make([]uint8, w*h)
		for i := range labels {
			if rng.IntN(100) < 65 {
				labels[i] = 1
			}
		}
		rings := ringsOf(labels, w, h)
		least := shape.Um(500 + rng.IntN(4000))
		want := plainNarrowest(rings, labels, w, h, least)
		got := shape.Um2(0)
		for _, s := range narrowStrips(rings, least, nil) {
			if got == 0 || s.Width2 < got {
				got = s.Width2
			}
		}
		require.Equal(t, want, got, "least %d, %d × %d cells %v", least, w, h, labels)
	}
}

// plainNarrowest looks at every maximal bar of cells and every pair of inner
// corners of a shape of 1 mm cells; 0 where nothing is narrower than least.
func plainNarrowest(rings []shape.Ring, labels []uint8, w, h int, least shape.Um) shape.Um2 {
	at := func(x, y int) bool { // y from below
		return x >= 0 && y >= 0 && x < w && y < h && labels[(h-1-y)*w+x] != 0
	}
	best := shape.Um2(0)
	offer := func(d2 shape.Um2) {
		if d2 < shape.Um2(least*least) && (best == 0 || d2 < best) {
			best = d2
		}
	}
	for _, turned := range []bool{false, true} {
		in, w, h := at, w, h
		if turned {
			in, w, h = func(x, y int) bool { return at(y, x) }, h, w
		}
		for x0 := range w {
			for x1 := x0 + 1; x1 <= w; x1++ {
				// rows in which exactly the cells x0 ≤ x < x1 stand by themselves
				exact := func(y int) bool {
					if in(x0-1, y) || in(x1, y) {
						return false
					}
					for x := x0; x < x1; x++ {
						if !in(x, y) {
							return false
						}
					}
					return true
				}
				// how many rows the shape goes on from row y over x0 ≤ x < x1 if it
				// only narrows and ends; -1 otherwise
				var dead func(x0, x1, y, step int) int
				dead = func(x0, x1, y, step int) int {
					deepest := 0
					for x := x0; x < x1; x++ {
						if !in(x, y) || x > x0 && in(x-1, y) {
							continue
						}
						end := x
						for in(end, y) {
							end++
						}
						d := dead(x, end, y+step, step)
						if d < 0 || end > x1 || in(x-1, y) {
							return -1
						}
						deepest = max(deepest, d+1)
					}
					return deepest
				}
				for y0 := 0; y0 < h; y0++ {
					if !exact(y0) || exact(y0-1) {
						continue
					}
					y1 := y0
					for exact(y1) {
						y1++
					}
					wide := float64(x1 - x0)
					up, down := dead(x0, x1, y1, 1), dead(x0, x1, y0-1, -1)
					bulge := (up < 0) != (down < 0) && 2*(y1-y0+max(up, down)) < x1-x0
					if !bulge {
						offer(shape.Um2(wide * wide * 1e6))
					}
				}
			}
		}
	}
	corners := innerCorners(rings)
	for _, p := range corners {
		for _, q := range corners {
			v := q.at.Sub(p.at)
			if q.mx != -p.mx || q.my != -p.my || v == (shape.Point{}) ||
				v.X*shape.Um(p.mx) > 0 || v.Y*shape.Um(p.my) > 0 {
				continue
			}
			x0, x1 := int(min(p.at.X, q.at.X)/1000), int(max(p.at.X, q.at.X)/1000)
			y0, y1 := int(min(p.at.Y, q.at.Y)/1000), int(max(p.at.Y, q.at.Y)/1000)
			filled := true
			for x := x0; x < max(x1, x0+1); x++ {
				for y := y0; y < max(y1, y0+1); y++ {
					filled = filled && at(x, y)
				}
			}
			if filled {
				offer(shape.Um2(v.X*v.X + v.Y*v.Y))
			}
		}
	}
	return best
}

func TestRootRoundsDown(t *testing.T) {
	for _, v := range []shape.Um{0, 1, 9, 10, 599, 600, 4242, 12_800_000} {
		assert.Equal(t, v/10*10, root(shape.Um2(v*v)))
		if v > 0 {
			assert.Equal(t, (v-1)/10*10, root(shape.Um2(v*v-1)))
		}
	}
}

// A corner can be joined from joinedCell on, and not 4 µm below it (sides are
// even).
func TestJoinedCellIsTheLeast(t *testing.T) {
	for strip := shape.Um(50); strip < 5000; strip += 7 {
		least := joinedCell(strip)
		_, ok := outline.Joinable(least, strip, 0)
		assert.True(t, ok, "strip %d", strip)
		_, ok = outline.Joinable(least-4, strip, 0)
		assert.False(t, ok, "strip %d", strip)
	}
}

func TestSquaredKeepsRoundCornersOutside(t *testing.T) {
	round := shape.Contour{
		{Point: shape.Point{X: 1000}},
		{Point: shape.Point{X: 3000}, Arc: &shape.Arc{Turn: shape.Anticlockwise, Centre: shape.Point{X: 3000, Y: 1000}, Radius: 1000}},
		{Point: shape.Point{X: 4000, Y: 1000}},
		{Point: shape.Point{X: 4000, Y: 4000}},
		{Point: shape.Point{Y: 4000}},
		{Point: shape.Point{Y: 1000}}, // chamfered
	}
	want := shape.Ring{{X: 4000}, {X: 4000, Y: 4000}, {Y: 4000}, {}}
	got := squared(shape.Outline{Outer: round})[0]
	i := slices.Index(got, want[0])
	require.GreaterOrEqual(t, i, 0, "%v", got)
	assert.Equal(t, want, append(slices.Clone(got[i:]), got[:i]...))
}
