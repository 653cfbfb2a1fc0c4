package nest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// ragged is a random piece of many rectangles: rows that reach as far as they like.
func ragged(rng *rand.Rand) shape.Outline {
	var rects []shape.Rect
	for y := range shape.Um(12) {
		from, to := shape.Um(rng.IntN(8)), shape.Um(9+rng.IntN(8))
		rects = append(rects, shape.Rect{Min: shape.Point{X: from * 2000, Y: y * 2000}, Max: shape.Point{X: to * 2000, Y: y*2000 + 2000}})
	}
	return shape.FromRects(rects).Polygons(shape.BySides)[0].Outline()
}

// What is laid instead of a shape holds it, has its bounds, and is simpler.
func TestCoarseHoldsTheShape(t *testing.T) {
	simpler := 0
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 9))
		r := cover(blob(rng, 3000, 100))
		if seed%2 == 0 {
			r = cover(ragged(rng))
		}
		c := coarse(r)
		require.True(t, r.Subtract(c).Empty(), "seed %d", seed)
		require.Equal(t, r.Bounds(), c.Bounds(), "seed %d", seed)
		require.LessOrEqual(t, c.Area(), r.Grow(fillNarrower/2).Shrink(fillNarrower/2).Area()*4/3, "seed %d", seed)
		if len(c.Rects()) < len(r.Rects()) {
			simpler++
		}
	}
	require.Positive(t, simpler)
}

// A quick first answer is an answer to the job, at the cost that is said; the true
// shapes join later and make it no worse.
func TestALargeJobBeginsQuicklyAndGoesOn(t *testing.T) {
	j := Job{Gap: shape.Mm, Supply: Supply{Sheets: []Sheets{{Size: Size{90 * shape.Mm, 120 * shape.Mm}}}, Margins: Even(5 * shape.Mm)}}
	rng := rand.New(rand.NewPCG(12, 10))
	for range 4 {
		j.Pieces = append(j.Pieces, Piece{ID: "blob", Outline: blob(rng, 3000, 100), Copies: 60})
		j.Pieces = append(j.Pieces, Piece{ID: "ragged", Outline: ragged(rng), Copies: 20})
	}
	s, err := Start(j)
	require.NoError(t, err)
	require.True(t, s.p.isLarge())
	first := s.Best()
	require.Empty(t, judge(j, first))
	require.Equal(t, s.p.cost(s.best.spots, len(s.best.apart)), s.best.cost)
	s.Improve(s.lanesFrom/roundWork, 2)
	require.Len(t, s.lanes, 1)
	s.Improve(1, 2)
	require.Len(t, s.lanes, laneCount)
	require.Empty(t, judge(j, s.Best()))
	require.LessOrEqual(t, sheetsFrom(s.Best()), sheetsFrom(first))
}
