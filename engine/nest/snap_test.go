package nest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func TestSnapNeverOverlapsAndStaysNear(t *testing.T) {
	for seed := range uint64(rounds(25)) {
		rng := rand.New(rand.NewPCG(seed, 5))
		j := randomJob(rng)
		n, err := Nest(j, 0, 1)
		require.NoError(t, err)
		if len(n.Placements) == 0 {
			continue
		}
		i := rng.IntN(len(n.Placements))
		want := n.Placements[i]
		want.At = shape.Point{X: shape.Um(rng.IntN(60_000)), Y: shape.Um(rng.IntN(60_000))}
		got, ok := Snap(j, n.Placements, want)
		require.True(t, ok, "seed %d: at least the old place is free", seed)
		old := n.Placements[i].At
		require.LessOrEqual(t, squared(got.At, want.At), squared(old, want.At), "seed %d", seed)
		n.Placements[i] = got
		n.Sheets = newProblem(j).sheetsOf(n.Placements)
		require.Empty(t, judge(j, n), "seed %d", seed)
		// A free place stays where it is wanted.
		again, ok := Snap(j, n.Placements, got)
		require.True(t, ok)
		require.Equal(t, got, again, "seed %d", seed)
	}
}

func squared(p, q shape.Point) shape.Um2 {
	d := p.Sub(q)
	return shape.Um2(d.X)*shape.Um2(d.X) + shape.Um2(d.Y)*shape.Um2(d.Y)
}

// On a small sheet every place can be tried.
func TestSnapFindsTheNearestPlaceOfAll(t *testing.T) {
	for seed := range uint64(rounds(8)) {
		rng := rand.New(rand.NewPCG(seed, 6))
		j := Job{Gap: shape.Um(rng.IntN(3)), Supply: Supply{Sheets: []Sheets{{Size: Size{24, 20}}}}}
		for range 4 {
			j.Pieces = append(j.Pieces, Piece{Outline: blob(rng, 2, 0), Copies: 1})
			if w, _ := j.Pieces[len(j.Pieces)-1].Outline.Bounds().Size(); w > 20 {
				j.Pieces[len(j.Pieces)-1].Outline = box(3, 2)
			}
		}
		n, err := Nest(j, 0, 1)
		require.NoError(t, err)
		if len(n.Placements) < 4 {
			continue
		}
		want := n.Placements[0]
		want.At = shape.Point{X: shape.Um(rng.IntN(24)), Y: shape.Um(rng.IntN(20))}
		got, ok := Snap(j, n.Placements, want)
		require.True(t, ok)
		best := shape.Um2(1 << 60)
		for x := range shape.Um(24) {
			for y := range shape.Um(20) {
				tried := want
				tried.At = shape.Point{X: x, Y: y}
				all := append([]Placement{tried}, n.Placements[1:]...)
				if judgeSheet(j, Sheet{Size: Size{24, 20}, Used: newProblem(j).sheetsOf(all)[0].Used}, all) == "" && keepsAlongAnAxis(j, all) {
					best = min(best, squared(tried.At, want.At))
				}
			}
		}
		assert.Equal(t, best, squared(got.At, want.At), "seed %d", seed)
	}
}

// keepsAlongAnAxis is the gap as the package states it, the plain way.
func keepsAlongAnAxis(j Job, ps []Placement) bool {
	var all []shape.Region
	for _, p := range ps {
		r := shape.FromPolygons(p.Outline(j.Pieces[p.Piece]).Polygon())
		rects := r.Rects()
		for i := range rects {
			rects[i].Max = rects[i].Max.Add(shape.Point{X: j.Gap, Y: j.Gap})
		}
		r = shape.FromRects(rects)
		for _, s := range all {
			if !r.Intersect(s).Empty() {
				return false
			}
		}
		all = append(all, r)
	}
	return true
}
