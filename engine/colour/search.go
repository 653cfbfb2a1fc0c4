package colour

import "slices"

// This file searches for the cheapest matching under a limit of stocks and with
// colours that mustn't become the same: branch and bound, bounded below by
// Lagrange multipliers (M. L. Fisher, "The Lagrangian relaxation method for
// solving integer programming problems", 1981). Each colour offers a price for
// being served; a stock is worth what the offers exceed its costs by, within a
// clique at most one colour's. All in whole numbers, so that every machine
// takes the same way.

const (
	// mostNodes bounds the search. 24 colours on 60 stocks mostly need below 2,000.
	mostNodes = 40_000
	// rootRounds and nodeRounds are how often prices are corrected.
	rootRounds, nodeRounds = 400, 12
)

// open is a partial matching.
type open struct {
	stock []int // of each colour, -1 where none yet
	used  []int // how many colours have each stock
	kinds int   // of stocks in use
	cost  int64
	price []int64 // offers, of colours without a stock
}

// searching is the state of the search.
type searching struct {
	*pairing
	best     []int
	bestCost int64 // 1<<62: none yet
	closed   []bool
	nodes    int
	worth    []int64 // of each stock, in the last bound
	served   [][]int // by each stock, in the last bound
}

func (p *pairing) search() (Matching, error) {
	n, m := len(p.cost), len(p.cost[0])
	s := &searching{pairing: p, bestCost: 1 << 62, closed: make([]bool, m), worth: make([]int64, m), served: make([][]int, m)}
	root := open{stock: make([]int, n), used: make([]int, m), price: make([]int64, n)}
	for i, row := range p.cost {
		root.stock[i] = -1
		two := slices.Clone(row)
		slices.Sort(two)
		root.price[i] = two[min(1, m-1)]
	}
	s.raised(&root, rootRounds)
	bound, _ := s.bound(&root)
	s.close(bound)
	s.descend(&root)
	switch {
	case s.best == nil && s.nodes <= mostNodes:
		return Matching{}, &Unmatched{"the colours that touch one another can't all differ with so few stocks: allow more, or let touching colours become the same"}
	case s.best == nil:
		return Matching{}, &Unmatched{"no way was found to keep touching colours different with so few stocks: allow more, or let touching colours become the same"}
	}
	return Matching{s.best, s.bestCost, s.nodes <= mostNodes}, nil
}

// allowed says whether a colour without a stock may get stock j.
func (s *searching) allowed(o *open, i, j int) bool {
	if s.closed[j] {
		return false
	}
	if o.used[j] == 0 {
		return o.kinds < s.limit
	}
	for k, t := range s.touching[i] {
		if t && o.stock[k] == j {
			return false
		}
	}
	return true
}

// bound is what completing o costs at least, at its prices, and which stocks
// it would use.
func (s *searching) bound(o *open) (total int64, chosen []int) {
	total = o.cost
	for i, j := range o.stock {
		if j < 0 {
			total += o.price[i]
		}
	}
	var fresh []int
	for j := range s.worth {
		s.worth[j], s.served[j] = 0, s.served[j][:0]
		for _, clique := range s.cliques {
			best, gain := -1, int64(0)
			for _, i := range clique {
				if o.stock[i] < 0 && s.cost[i][j]-o.price[i] < gain && s.allowed(o, i, j) {
					best, gain = i, s.cost[i][j]-o.price[i]
				}
			}
			if best >= 0 {
				s.worth[j] += gain
				s.served[j] = append(s.served[j], best)
			}
		}
		switch {
		case s.worth[j] == 0:
		case o.used[j] > 0:
			total += s.worth[j]
			chosen = append(chosen, j)
		default:
			fresh = append(fresh, j)
		}
	}
	slices.SortStableFunc(fresh, func(a, b int) int {
		switch d := s.worth[a] - s.worth[b]; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	for _, j := range fresh[:min(len(fresh), s.limit-o.kinds)] {
		total += s.worth[j]
		chosen = append(chosen, j)
	}
	return total, chosen
}

// raised corrects o's prices, towards those whose bound is highest, and gives
// that bound: colours that no stock serves offer more, those that several
// serve less.
func (s *searching) raised(o *open, rounds int) int64 {
	high := int64(-1) << 62
	kept := slices.Clone(o.price)
	step := int64(64) // in 1/64 of what the gap suggests
	idle := 0
	for range rounds {
		total, chosen := s.bound(o)
		if total > high {
			high, idle = total, 0
			copy(kept, o.price)
		} else if idle++; idle >= 8 {
			idle, step = 0, max(1, step*2/3)
		}
		if rounds == rootRounds {
			s.complete(o, chosen)
		}
		if high >= s.bestCost {
			break
		}
		times := make([]int64, len(o.stock))
		for _, j := range chosen {
			for _, i := range s.served[j] {
				times[i]++
			}
		}
		off := int64(0)
		for i, j := range o.stock {
			if j < 0 {
				off += (1 - times[i]) * (1 - times[i])
			}
		}
		if off == 0 {
			break // each is served once: the bound is reached
		}
		gap := min(s.bestCost, 2*max(total, 0)+1<<20) - total
		move := max(1, gap/off*step/64)
		for i, j := range o.stock {
			if j < 0 {
				o.price[i] = max(0, o.price[i]+(1-times[i])*move)
			}
		}
	}
	copy(o.price, kept)
	return high
}

// complete makes a matching with the stocks that a bound uses: colours with the
// most to lose first. It is kept if it is better than the best.
func (s *searching) complete(o *open, chosen []int) {
	stock := slices.Clone(o.stock)
	cost := o.cost
	for _, i := range s.urgent(o, chosen) {
		best := -1
		for _, j := range chosen {
			free := best < 0 || s.cost[i][j] < s.cost[i][best]
			for k, t := range s.touching[i] {
				free = free && !(t && stock[k] == j)
			}
			if free {
				best = j
			}
		}
		if best < 0 {
			return
		}
		stock[i] = best
		cost += s.cost[i][best]
	}
	if cost < s.bestCost {
		s.best, s.bestCost = stock, cost
	}
}

// urgent lists the colours without a stock by what they lose if they don't get
// their nearest of some stocks.
func (s *searching) urgent(o *open, stocks []int) []int {
	var list []int
	loss := make([]int64, len(o.stock))
	for i, has := range o.stock {
		if has >= 0 {
			continue
		}
		list = append(list, i)
		one, two := int64(1)<<61, int64(1)<<61
		for _, j := range stocks {
			switch c := s.cost[i][j]; {
			case c < one:
				one, two = c, one
			case c < two:
				two = c
			}
		}
		loss[i] = two - one
	}
	slices.SortStableFunc(list, func(a, b int) int {
		switch {
		case loss[a] > loss[b]:
			return -1
		case loss[a] < loss[b]:
			return 1
		}
		return 0
	})
	return list
}

// close shuts the stocks with which no matching can be better than the best:
// at the last bound's prices, using one of them costs more than there is to win.
func (s *searching) close(bound int64) {
	if s.best == nil {
		return
	}
	worth := slices.Clone(s.worth)
	slices.Sort(worth)
	last := min(0, worth[min(s.limit, len(worth))-1]) // what it would take the place of
	for j, w := range s.worth {
		if w > last && bound-last+w >= s.bestCost && !slices.Contains(s.best, j) {
			s.closed[j] = true
		}
	}
}

// descend tries all stocks for the colour with the most to lose.
func (s *searching) descend(o *open) {
	if s.nodes++; s.nodes > mostNodes {
		return
	}
	if s.raised(o, nodeRounds) >= s.bestCost {
		return
	}
	i, stocks := s.next(o)
	if i < 0 { // all have one
		if o.cost < s.bestCost {
			s.best, s.bestCost = slices.Clone(o.stock), o.cost
		}
		return
	}
	price := slices.Clone(o.price)
	for _, j := range stocks {
		o.stock[i] = j
		o.used[j]++
		if o.used[j] == 1 {
			o.kinds++
		}
		o.cost += s.cost[i][j]
		if b, _ := s.bound(o); b < s.bestCost {
			s.descend(o)
		}
		o.cost -= s.cost[i][j]
		if o.used[j] == 1 {
			o.kinds--
		}
		o.used[j]--
		o.stock[i] = -1
		copy(o.price, price)
	}
}

// next is the colour to decide on, and the stocks it may have, the cheapest
// first; -1 where all are decided.
func (s *searching) next(o *open) (colour int, stocks []int) {
	colour = -1
	loss := int64(-1)
	for i, has := range o.stock {
		if has >= 0 {
			continue
		}
		one, two, count := int64(1)<<61, int64(1)<<61, 0
		for j, c := range s.cost[i] {
			if !s.allowed(o, i, j) {
				continue
			}
			count++
			switch {
			case c < one:
				one, two = c, one
			case c < two:
				two = c
			}
		}
		if count == 0 {
			return i, nil
		}
		if two-one > loss {
			colour, loss = i, two-one
		}
	}
	if colour < 0 {
		return -1, nil
	}
	for j := range s.cost[colour] {
		if s.allowed(o, colour, j) {
			stocks = append(stocks, j)
		}
	}
	slices.SortStableFunc(stocks, func(a, b int) int {
		switch d := s.cost[colour][a] - s.cost[colour][b]; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return colour, stocks
}
