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
			cost, _ := plain.cost(o)
			tree := plain.tree(o)
			require.Equal(t, tree.cost(g, rules), cost)
			if quick := newLayer(g, &rules); quick != nil {
				quick.begin(o, withCut)
				same(t, plain, quick, o, placesOf(o))
			}
			// A tree's own order gives a tree that's as good.
			again, _ := plain.cost(tree.orderOf())
			require.LessOrEqual(t, again.Parts, cost.Parts)
		}
	}
}

func placesOf(o order) []int32 {
	place := make([]int32, len(o))
	for i, p := range o {
		place[p] = int32(i)
	}
	return place
}

// same checks the quick count of an order against the plain one.
func same(t *testing.T, plain *trial, quick layer, o order, place []int32) {
	t.Helper()
	cost, broken := plain.cost(o)
	got, gotBroken := quick.cost()
	got.Joins = quick.joins(place)
	require.Equal(t, cost, got)
	require.Equal(t, broken, gotBroken)
}

// However patches are moved in an order, and moves taken back, what the tree
// counts is what laying all patches anew counts.
func TestMovesAreCountedAsLaidAnew(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 8))
	for n := range 60 {
		w, h := 2+r.IntN(17), 2+r.IntN(17)
		d := Drawing{W: w, H: h, Cells: make([]Colour, w*h)}
		for i := range d.Cells {
			d.Cells[i] = Colour(1 + r.IntN(3+n%4))
		}
		rules := Rules{SmallCells: 1 + n%3}
		if n%3 > 0 {
			rules.Joins = d.Colours()
		}
		rules.Under(2, 1)
		whole := findPatches(d, rules.Joins)
		for _, piece := range newFlood(whole).whole() {
			g := whole.sub(piece.patches)
			quick := newLayer(g, &rules)
			if quick == nil || len(g.colour) < 2 {
				continue
			}
			a := newAnnealer(g, rules, 99)
			o := make(order, len(g.colour))
			for i, p := range r.Perm(len(o)) {
				o[i], a.place[p] = int32(p), int32(i)
			}
			quick.begin(o, withCut)
			for range 150 {
				i, j := r.IntN(len(o)), r.IntN(len(o))
				quick.shift(o[i], a.place, j)
				if r.IntN(2) == 0 {
					quick.back()
				} else {
					a.move(o, i, j)
				}
				same(t, a.trial, quick, o, a.place)
			}
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
