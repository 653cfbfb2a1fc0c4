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

// Most places of a rugged shape's edge aren't worth the time: few rectangles are left,
// and they hold it.
func TestARuggedShapeIsLaidRoughly(t *testing.T) {
	for seed := range uint64(20) {
		rng := rand.New(rand.NewPCG(seed, 11))
		var rects []shape.Rect
		for y := range shape.Um(90) {
			for x := range shape.Um(3) {
				from, to := 30*x+shape.Um(rng.IntN(12)), 30*x+18+shape.Um(rng.IntN(10))
				rects = append(rects, shape.Rect{Min: shape.Point{X: from * 3000, Y: y * 3000}, Max: shape.Point{X: to * 3000, Y: y*3000 + 3000}})
			}
		}
		r := shape.FromRects(rects)
		require.Greater(t, len(merged(r, coarseRects, coarseAdded).Rects()), ruggedRects, "seed %d", seed)
		c := coarse(r)
		require.True(t, r.Subtract(c).Empty(), "seed %d", seed)
		require.Equal(t, r.Bounds(), c.Bounds(), "seed %d", seed)
		require.LessOrEqual(t, len(c.Rects()), 2*roughRects, "seed %d", seed)
	}
}

// The textbook way of mergedRows: all gains anew each time.
func plainMergedRows(r shape.Region, most int, added shape.Um2) shape.Region {
	rows := rowsOf(r)
	count := func() (n int) {
		for _, w := range rows {
			n += len(w.xs) / 2
		}
		return n
	}
	for left := r.Area() / added; count() > most; {
		best, gain := -1, left+1
		for i := 0; i+1 < len(rows); i++ {
			if g := rows[i].with(rows[i+1]).area() - rows[i].area() - rows[i+1].area(); rows[i].y1 == rows[i+1].y0 && g < gain {
				best, gain = i, g
			}
		}
		if best < 0 {
			break
		}
		rows[best] = rows[best].with(rows[best+1])
		rows = append(rows[:best+1], rows[best+2:]...)
		left -= gain
	}
	return regionOf(rows)
}

func TestMergedRowsAreTheTextbooks(t *testing.T) {
	for seed := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, 12))
		r := cover(blob(rng, 3000, 100))
		for _, added := range []shape.Um2{20, 12, 3} {
			for _, most := range []int{4, 14, 40} {
				require.True(t, plainMergedRows(r, most, added).Equal(mergedRows(r, most, added)), "seed %d", seed)
			}
		}
	}
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
