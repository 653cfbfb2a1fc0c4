package colour

import (
	"fmt"
	"math"
)

// Wanted is a palette colour for which a stock is looked for.
type Wanted struct {
	Colour RGB
	Shows  int64 // how many cells of it are seen; 1 to mostShows; what is beyond counts as that
}

// Sharing says whether several colours may be cut from one stock.
type Sharing int

const (
	MayShare Sharing = iota
	OneEach
)

// ShelfRules are what a matching must keep. The zero value asks for nothing.
type ShelfRules struct {
	Stocks   int // how many different stocks may be used; 0: any number
	Sharing  Sharing
	Touching [][2]int // colours, as indices, that mustn't get the same stock
}

// Matching is which stock each colour gets.
type Matching struct {
	Stock  []int // index in the shelf, for each colour
	Cost   int64 // sum of Shows × CIEDE2000, in units of Step
	Proven bool  // that no other matching costs less; false only where the search became too long
}

// Unmatched is the error of a shelf that can't meet the rules.
type Unmatched struct{ Why string }

func (e *Unmatched) Error() string { return e.Why }

// mostShows keeps sums within 62 bits: ΔE is below 200, colours at most MostMatched.
const mostShows = 1 << 24

// MostMatched bounds the number of colours, and that of stocks.
const MostMatched = 1000

// MatchShelf gives each colour a stock so that the differences that show are
// least in sum. Where several matchings cost the same the result is still the
// same every time. It fails with an Unmatched where no matching keeps the rules.
//
// Without touching colours and limits each colour takes the nearest stock;
// where all must differ it's a linear assignment (assignment.go); the rest is
// searched with bounds (search.go).
func MatchShelf(wanted []Wanted, shelf []RGB, rules ShelfRules) (Matching, error) {
	n, m := len(wanted), len(shelf)
	switch {
	case n == 0:
		return Matching{Proven: true}, nil
	case m == 0:
		return Matching{}, &Unmatched{"the shelf is empty: put stocks on it first"}
	case n > MostMatched || m > MostMatched:
		return Matching{}, &Unmatched{fmt.Sprintf("%d colours and %d stocks are too many to match: at most %d of each", n, m, MostMatched)}
	}
	p := newPairing(wanted, shelf, rules)
	if p.limit > m {
		p.limit = m
	}
	if need := p.mostTouching(); need > p.limit {
		if need > m {
			return Matching{}, &Unmatched{fmt.Sprintf("%d colours must each get a stock of their own, but the shelf has %d: add stocks, or let touching colours become the same", need, m)}
		}
		return Matching{}, &Unmatched{fmt.Sprintf("%d colours must each get a stock of their own, but at most %d stocks are allowed: allow more, or let touching colours become the same", need, p.limit)}
	}
	if stock, cost, ok := p.nearest(); ok {
		return Matching{stock, cost, true}, nil
	}
	if p.limit >= n && p.allTouch() {
		stock, cost := assigned(p.cost)
		return Matching{stock, cost, true}, nil
	}
	return p.search()
}

// pairing is a matching to be made.
type pairing struct {
	cost     [][]int64 // of colour i from stock j
	touching [][]bool
	limit    int     // of different stocks
	cliques  [][]int // every colour in one; all of a clique touch one another
}

func newPairing(wanted []Wanted, shelf []RGB, rules ShelfRules) *pairing {
	n := len(wanted)
	p := &pairing{cost: make([][]int64, n), touching: make([][]bool, n), limit: rules.Stocks}
	if p.limit <= 0 {
		p.limit = len(shelf)
	}
	for i, w := range wanted {
		p.cost[i] = make([]int64, len(shelf))
		p.touching[i] = make([]bool, n)
		for j, s := range shelf {
			p.cost[i][j] = int64(math.Round(Difference(w.Colour, s)*1e6)) * min(max(w.Shows, 1), mostShows)
		}
		for k := range n {
			p.touching[i][k] = rules.Sharing == OneEach && i != k
		}
	}
	for _, t := range rules.Touching {
		if t[0] != t[1] {
			p.touching[t[0]][t[1]], p.touching[t[1]][t[0]] = true, true
		}
	}
	for i := range n {
		p.intoClique(i)
	}
	return p
}

// intoClique puts a colour into the largest clique all of which it touches.
func (p *pairing) intoClique(i int) {
	best := -1
	for k, clique := range p.cliques {
		all := true
		for _, other := range clique {
			all = all && p.touching[i][other]
		}
		if all && (best < 0 || len(clique) > len(p.cliques[best])) {
			best = k
		}
	}
	if best < 0 {
		p.cliques = append(p.cliques, []int{i})
		return
	}
	p.cliques[best] = append(p.cliques[best], i)
}

// mostTouching is the size of the largest clique found.
func (p *pairing) mostTouching() int {
	most := 0
	for _, c := range p.cliques {
		most = max(most, len(c))
	}
	return most
}

func (p *pairing) allTouch() bool { return len(p.cliques) == 1 }

// nearest gives each colour its nearest stock; false where that breaks a rule.
func (p *pairing) nearest() (stock []int, cost int64, ok bool) {
	stock = make([]int, len(p.cost))
	used := map[int]bool{}
	for i, row := range p.cost {
		for j, c := range row {
			if c < row[stock[i]] {
				stock[i] = j
			}
		}
		used[stock[i]] = true
		cost += row[stock[i]]
	}
	return stock, cost, len(used) <= p.limit && p.keeps(stock)
}

// keeps says whether no touching colours have the same stock.
func (p *pairing) keeps(stock []int) bool {
	for i := range stock {
		for k := range i {
			if p.touching[i][k] && stock[i] == stock[k] {
				return false
			}
		}
	}
	return true
}
