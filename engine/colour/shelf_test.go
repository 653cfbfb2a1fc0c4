package colour

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// byTrial is the judge: all matchings tried, one after the other.
func byTrial(wanted []Wanted, shelf []RGB, rules ShelfRules) (least int64, found bool) {
	p := newPairing(wanted, shelf, rules)
	stock := make([]int, len(wanted))
	var try func(i int, cost int64)
	try = func(i int, cost int64) {
		if found && cost >= least {
			return
		}
		if i == len(wanted) {
			kinds := map[int]bool{}
			for _, j := range stock {
				kinds[j] = true
			}
			if len(kinds) <= p.limit {
				least, found = cost, true
			}
			return
		}
	next:
		for j := range shelf {
			for k := range i {
				if p.touching[i][k] && stock[k] == j {
					continue next
				}
			}
			stock[i] = j
			try(i+1, cost+p.cost[i][j])
		}
	}
	try(0, 0)
	return least, found
}

func randomCase(d *rand.Rand, colours, stocks int) (wanted []Wanted, shelf []RGB, rules ShelfRules) {
	random := func() RGB { return RGB{uint8(d.IntN(256)), uint8(d.IntN(256)), uint8(d.IntN(256))} }
	for range colours {
		wanted = append(wanted, Wanted{random(), int64(1 + d.IntN(400))})
	}
	for range stocks {
		shelf = append(shelf, random())
	}
	for i := range colours {
		for k := range i {
			if d.IntN(3) > 0 {
				rules.Touching = append(rules.Touching, [2]int{i, k})
			}
		}
	}
	return wanted, shelf, rules
}

// On random cases small enough to try everything, nothing is better, and what
// can't be matched is said not to be.
func TestMatchShelfIsOptimal(t *testing.T) {
	d := rand.New(rand.NewPCG(6, 6))
	matched, refused := 0, 0
	for range 400 {
		wanted, shelf, rules := randomCase(d, 1+d.IntN(6), 1+d.IntN(7))
		rules.Stocks = d.IntN(len(wanted) + 1)
		rules.Sharing = Sharing(d.IntN(5) / 4)
		if d.IntN(4) == 0 {
			rules.Touching = nil
		}
		least, ok := byTrial(wanted, shelf, rules)
		got, err := MatchShelf(wanted, shelf, rules)
		if !ok {
			var none *Unmatched
			assert.ErrorAs(t, err, &none, "%v %v %+v", wanted, shelf, rules)
			refused++
			continue
		}
		require.NoError(t, err, "%v %v %+v", wanted, shelf, rules)
		matched++
		assert.Equal(t, least, got.Cost, "%v %v %+v", wanted, shelf, rules)
		assert.True(t, got.Proven)
		keepsRules(t, wanted, shelf, rules, got)
	}
	assert.Greater(t, matched, 200)
	assert.Greater(t, refused, 20)
}

// keepsRules checks a matching against the rules by themselves, and its cost.
func keepsRules(t *testing.T, wanted []Wanted, shelf []RGB, rules ShelfRules, m Matching) {
	t.Helper()
	require.Len(t, m.Stock, len(wanted))
	kinds := map[int]int{}
	cost := 0.0
	for i, j := range m.Stock {
		kinds[j]++
		cost += Difference(wanted[i].Colour, shelf[j]) * float64(wanted[i].Shows)
	}
	assert.InDelta(t, cost, float64(m.Cost)*Step, 1e-3)
	if rules.Stocks > 0 {
		assert.LessOrEqual(t, len(kinds), rules.Stocks)
	}
	if rules.Sharing == OneEach {
		assert.Len(t, kinds, len(wanted))
	}
	for _, pair := range rules.Touching {
		assert.NotEqual(t, m.Stock[pair[0]], m.Stock[pair[1]])
	}
}

// Palettes and shelves as large as they come are matched with proof, and
// equal the linear assignment where all must differ.
func TestMatchShelfLarge(t *testing.T) {
	d := rand.New(rand.NewPCG(7, 7))
	for _, c := range []struct{ colours, stocks, limit int }{
		{24, 60, 0}, {24, 60, 12}, {24, 60, 16}, {24, 30, 0}, {12, 200, 8}, {90, 60, 0},
	} {
		wanted, shelf, rules := randomCase(d, c.colours, c.stocks)
		if c.colours > 60 { // a project's colours don't all touch
			rules.Touching = rules.Touching[:300]
		}
		if c.limit > 0 {
			rules.Touching = rules.Touching[:c.colours]
		}
		rules.Stocks = c.limit
		got, err := MatchShelf(wanted, shelf, rules)
		require.NoError(t, err)
		assert.True(t, got.Proven, "%+v", c)
		keepsRules(t, wanted, shelf, rules, got)
		again, _ := MatchShelf(wanted, shelf, rules)
		assert.Equal(t, got, again)
	}
}

// The linear assignment equals what the general search finds.
func TestMatchShelfOneEach(t *testing.T) {
	d := rand.New(rand.NewPCG(8, 8))
	for range 30 {
		wanted, shelf, _ := randomCase(d, 2+d.IntN(10), 14)
		rules := ShelfRules{Sharing: OneEach}
		p := newPairing(wanted, shelf, rules)
		_, cost := assigned(p.cost)
		searched, err := p.search()
		require.NoError(t, err)
		assert.True(t, searched.Proven)
		assert.Equal(t, cost, searched.Cost)
	}
}

func TestMatchShelfRefusals(t *testing.T) {
	wanted := []Wanted{{RGB{255, 0, 0}, 1}, {RGB{0, 255, 0}, 1}, {RGB{0, 0, 255}, 1}}
	shelf := []RGB{{200, 0, 0}, {0, 200, 0}}
	triangle := [][2]int{{0, 1}, {1, 2}, {0, 2}}
	for _, c := range []struct {
		shelf []RGB
		rules ShelfRules
		why   string
	}{
		{nil, ShelfRules{}, "the shelf is empty: put stocks on it first"},
		{shelf, ShelfRules{Sharing: OneEach}, "3 colours must each get a stock of their own, but the shelf has 2: add stocks, or let touching colours become the same"},
		{append(shelf, RGB{0, 0, 9}), ShelfRules{Stocks: 2, Touching: triangle}, "3 colours must each get a stock of their own, but at most 2 stocks are allowed: allow more, or let touching colours become the same"},
	} {
		_, err := MatchShelf(wanted, c.shelf, c.rules)
		assert.EqualError(t, err, c.why)
	}
	none, err := MatchShelf(nil, shelf, ShelfRules{})
	assert.NoError(t, err)
	assert.Empty(t, none.Stock)
}

// A ring of five colours needs three stocks, though only two touch at a time.
func TestMatchShelfRing(t *testing.T) {
	var wanted []Wanted
	var ring [][2]int
	for i := range 5 {
		wanted = append(wanted, Wanted{RGB{uint8(i), 0, 0}, 1})
		ring = append(ring, [2]int{i, (i + 1) % 5})
	}
	shelf := []RGB{{0, 0, 0}, {80, 80, 80}, {160, 160, 160}}
	_, err := MatchShelf(wanted, shelf, ShelfRules{Stocks: 2, Touching: ring})
	assert.EqualError(t, err, "the colours that touch one another can't all differ with so few stocks: allow more, or let touching colours become the same")
	got, err := MatchShelf(wanted, shelf, ShelfRules{Touching: ring})
	assert.NoError(t, err)
	keepsRules(t, wanted, shelf, ShelfRules{Touching: ring}, got)
}
