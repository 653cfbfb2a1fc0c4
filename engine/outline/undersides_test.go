package outline

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// The textbook way: down through one cell, from the part seen there to the
// board, card and what holds it added up.
func TestUndersidesAddUpCellByCell(t *testing.T) {
	rng := rand.New(rand.NewPCG(30, 11))
	for range 200 {
		d := randomDrawing(rng, 1+rng.IntN(8), 1+rng.IntN(8), 1+rng.IntN(5), 0.3*rng.Float64())
		f, err := stack.First(d, stack.Rules{ExtraHeights: 3})
		require.NoError(t, err)
		if len(f.Parts) == 0 {
			continue
		}
		o := Options{Cell: 3000, Corners: project.Apart}
		stocks := make([]project.Stock, 6)
		for i := range stocks {
			stocks[i].Thickness = 100 + shape.Um(rng.IntN(3000))
			o.Stocks = append(o.Stocks, Stock{Index: i})
		}
		lift := rng.IntN(2)
		if lift == 1 {
			o.Backer = &Backer{Stock: Stock{Index: 5}}
		}
		how := project.Stack{
			Foam: []shape.Um{0, 3000}[rng.IntN(2)], Float: []int{0, 2, 3}[rng.IntN(3)], FloatBy: 200 + shape.Um(rng.IntN(2000)),
		}
		l, err := Build(f, o)
		require.NoError(t, err)
		under := l.Undersides(how, stocks)
		highest := shape.Um(0)
		for _, layer := range l.Layers {
			for _, p := range layer.Parts {
				if p.Tree < 0 {
					require.Equal(t, how.Gap(1), under[p.Index])
					continue
				}
				r := f.Parts[p.Tree].Shows[0]
				total := shape.Um(0)
				for _, q := range f.Parts {
					if has(q, r.X0, r.Y) {
						total += stocks[q.Colour-1].Thickness + how.Gap(q.Height+lift)
					}
				}
				if lift == 1 {
					total += stocks[5].Thickness + how.Gap(1)
				}
				require.Equal(t, total, under[p.Index]+stocks[layer.Stock].Thickness)
				highest = max(highest, total)
			}
		}
		require.Equal(t, highest, l.Top(how, stocks))
	}
}

// has says whether a part has a cell.
func has(p stack.Part, x, y int32) bool {
	for _, r := range p.Cells {
		if r.Y == y && r.X0 <= x && x < r.X1 {
			return true
		}
	}
	return false
}
