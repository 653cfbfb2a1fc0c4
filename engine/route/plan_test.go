package route

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func TestEverythingIsCutOnceAndInsideFirst(t *testing.T) {
	rounds := uint64(20)
	if testing.Short() {
		rounds = 4
	}
	for seed := range rounds {
		rng := rand.New(rand.NewPCG(seed, 1))
		s, parent := nestedSheet(rng, 1+rng.IntN(5), 1+rng.IntN(5))
		s.Passes = 1 + rng.IntN(3)
		s.Repeat = Repeat(rng.IntN(2))
		s.End = End(rng.IntN(2))
		s.Start = shape.Point{X: shape.Um(rng.IntN(9000)), Y: -500}
		for range rng.IntN(4) {
			a := shape.Point{X: shape.Um(rng.IntN(50_000)), Y: shape.Um(rng.IntN(50_000))}
			s.Marks = append(s.Marks, Mark{Path: shape.Contour{{Point: a}, {Point: a.Add(shape.Point{X: 900, Y: 700})}}})
		}
		r, err := Plan(s)
		require.NoError(t, err)
		requireOrder(t, s, parent, r)
		require.Equal(t, travelOf(s, r), r.Travel, "seed %d", seed)
		require.LessOrEqual(t, r.Floor, r.Travel, "seed %d", seed)

		want, at := wantedBits(s)
		for pass := range s.Passes {
			var of []Stroke
			for _, st := range r.Strokes {
				if st.Kind == Cutting && st.Pass == pass {
					of = append(of, st)
				}
			}
			require.ElementsMatch(t, want, lineBits(of, at), "seed %d, pass %d", seed, pass)
		}
		marks := 0
		for _, st := range r.Strokes {
			if st.Kind == Marking {
				marks++
			}
		}
		require.Equal(t, len(s.Marks), marks)

		again, err := Plan(s)
		require.NoError(t, err)
		require.Equal(t, r, again, "seed %d", seed)
	}
}

// Neighbours that share edges, as at gap 0, with tabs on either side.
func TestNoLineIsCutTwice(t *testing.T) {
	rounds := uint64(30)
	if testing.Short() {
		rounds = 6
	}
	for seed := range rounds {
		rng := rand.New(rand.NewPCG(seed, 2))
		var s Sheet
		for x := range shape.Um(4) {
			for y := range shape.Um(4) {
				if rng.IntN(6) == 0 {
					continue
				}
				c := square(x*5000, y*5000, 5000)
				if rng.IntN(4) == 0 { // sticks into what would be its neighbour, which then lies elsewhere
					c = square(x*5000, y*5000, 4000)
				}
				l := Loop{Contour: c}
				if rng.IntN(2) == 0 {
					l.Tabs = []Tab{{rng.IntN(4), 1000, 1500}, {rng.IntN(4), 2000, 2600}}
				}
				s.Loops = append(s.Loops, l)
			}
		}
		// One part fills a hole of another to the last µm.
		s.Loops = append(s.Loops, Loop{Contour: square(-9000, 0, 8000)},
			Loop{Contour: square(-7000, 2000, 3000).Reversed()}, Loop{Contour: square(-7000, 2000, 3000)})
		r, err := Plan(s)
		require.NoError(t, err)
		want, at := wantedBits(s)
		require.ElementsMatch(t, want, lineBits(r.Strokes, at), "seed %d", seed)
	}
}

func TestWhatASharedLineFreesComesAfterItsHoles(t *testing.T) {
	// The part in the middle is cut free by its four neighbours' edges alone.
	var s Sheet
	for _, at := range []shape.Point{{X: 0, Y: 10_000}, {X: 20_000, Y: 10_000}, {X: 10_000, Y: 0}, {X: 10_000, Y: 20_000}, {X: 10_000, Y: 10_000}} {
		s.Loops = append(s.Loops, Loop{Contour: square(at.X, at.Y, 10_000)})
	}
	s.Loops = append(s.Loops, Loop{Contour: square(14_000, 14_000, 2000).Reversed()})
	r, err := Plan(s)
	require.NoError(t, err)
	require.Len(t, r.Strokes, 5, "the middle one has no line of its own")
	assert.Equal(t, 5, r.Strokes[0].Source, "the hole comes first")
}

func TestRefusals(t *testing.T) {
	c := square(0, 0, 1000)
	for want, s := range map[string]Sheet{
		"passes are -1":                    {Passes: -1},
		"loop 0 has no vertex":             {Loops: []Loop{{}}},
		"mark 0 has no vertex":             {Marks: []Mark{{}}},
		"tab 0 is on edge 4":               {Loops: []Loop{{Contour: c, Tabs: []Tab{{4, 0, 1}}}}},
		"tab 0 runs from 900 to 1001":      {Loops: []Loop{{Contour: c, Tabs: []Tab{{0, 900, 1001}}}}},
		"not a straight run along an axis": {Loops: []Loop{{Contour: shape.Contour{{Point: c[0].Point}, {Point: c[2].Point}}, Tabs: []Tab{{0, 0, 1}}}}},
	} {
		_, err := Plan(s)
		assert.ErrorContains(t, err, want)
	}
}
