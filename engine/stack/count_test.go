package stack

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The three ways to count what an order costs agree, on graphs of all sizes.
func TestCountersAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for n := range 120 {
		w, h := 1+r.IntN(18), 1+r.IntN(18)
		d := Drawing{W: w, H: h, Cells: make([]Colour, w*h)}
		for i := range d.Cells {
			d.Cells[i] = Colour(r.IntN(4 + n%3))
		}
		joins := d.Colours()
		if n%3 == 0 {
			joins = 0
		}
		rules := Rules{Joins: joins, SmallCells: 1 + n%3}
		rules.Under(2, 1)
		whole := findPatches(d, joins)
		for _, piece := range newFlood(whole).whole() {
			g := whole.sub(piece.patches)
			o := make(order, len(g.colour))
			for i, p := range r.Perm(len(o)) {
				o[i] = int32(p)
			}
			plain := newTrial(g, rules)
			cost, broken := plain.cost(o)
			tree := plain.tree(o)
			require.Equal(t, tree.cost(g, rules), cost)
			quickCost, quickBroken := light(g, &rules, plain)(o)
			require.Equal(t, broken, quickBroken)
			cost.Joins, cost.Cut = quickCost.Joins, quickCost.Cut
			require.Equal(t, cost, quickCost)
			// A tree's own order gives a tree that's as good.
			again, _ := plain.cost(tree.orderOf())
			require.LessOrEqual(t, again.Parts, cost.Parts)
		}
	}
}

// The larger words hold more patches and find the same.
func TestSolverIsTheSameInEveryWord(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 100 {
		d := Drawing{W: 5, H: 4, Cells: make([]Colour, 20)}
		for i := range d.Cells {
			d.Cells[i] = Colour(1 + r.IntN(4))
		}
		rules := Rules{Joins: d.Colours(), SmallCells: 1}
		g := findPatches(d, rules.Joins)
		one := newSolver[[1]uint64](g, rules, allShow, 9, fewBound).options()
		four := newSolver[[4]uint64](g, rules, allShow, 9, fewBound).options()
		require.Len(t, four.list, len(one.list))
		for i := range one.list {
			require.Equal(t, one.list[i].cost, four.list[i].cost)
			require.Equal(t, one.list[i].grow(), four.list[i].grow())
			require.Equal(t, one.list[i].cost, one.list[i].grow().cost(g, rules))
		}
	}
}

func TestSubsetsAreAllMetOnce(t *testing.T) {
	all := [2]uint64{1<<3 | 1<<63, 1<<0 | 1<<5}
	seen := map[[2]uint64]bool{}
	s := all
	for !isEmpty(s) {
		require.False(t, seen[s])
		require.Equal(t, s, and(s, all))
		seen[s] = true
		s = nextSubset(s, all)
	}
	require.Len(t, seen, 15)
}
