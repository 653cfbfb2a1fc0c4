package project

import (
	"errors"
	"math"
	"slices"

	"sheetsprite/engine/colour"
)

// MatchRules say which stocks may stand for a drawing's colours. The zero value
// takes any number of stocks, lets colours that touch nowhere share one, and
// keeps touching ones different.
type MatchRules struct {
	Stocks   int // how many different ones at most; 0: any number
	Sharing  colour.Sharing
	Touching Touching
}

// Touching says whether colours that touch in a drawing may become the same.
type Touching int

const (
	TouchingDiffer Touching = iota
	TouchingMayMerge
)

// Matched is the stock found for a palette colour.
type Matched struct {
	Key        byte
	From       string // ID of the stock it had
	To         string // ID of the stock on the shelf
	Difference float64
	Cells      int64 // that show, in all copies
}

// ShelfMatch is which stock each colour of a project would be cut from.
type ShelfMatch struct {
	Colours []Matched // those that a cell has, in the palette's order
	Stocks  int       // how many different ones
	Mean    float64   // CIEDE2000 of a cell, on average, to 1e-6
	Proven  bool      // that no other choice is better
}

// MatchToShelf finds the stocks of the shelf from which the drawings differ
// least: least sum, over all cells that show, of CIEDE2000 between the palette's
// colour and the stock's. Nothing is changed; see UseMatch. Of stocks that look
// exactly alike the first on the shelf is taken. Colours touch where cells of
// theirs share a side. What a cell shows is the first frame's, as it is cut.
//
// Errors: an InputError where the shelf can't meet the rules.
func (p *Project) MatchToShelf(shelf []Shelf, rules MatchRules) (ShelfMatch, error) {
	var looks []RGB
	var ids []string
	for _, s := range shelf {
		if !slices.Contains(looks, s.Stock.Colour) {
			looks, ids = append(looks, s.Stock.Colour), append(ids, s.Stock.ID)
		}
	}
	shows, touching := p.shows()
	var m ShelfMatch
	var wanted []colour.Wanted
	number := map[byte]int{}
	most := int64(1)
	for _, c := range p.Palette {
		if n := shows[c.Key]; n > 0 {
			number[c.Key] = len(wanted)
			wanted = append(wanted, colour.Wanted{Colour: c.RGB, Shows: n})
			m.Colours = append(m.Colours, Matched{Key: c.Key, From: c.Stock, Cells: n})
			most = max(most, n)
		}
	}
	if by := (most + 1<<24 - 1) >> 24; by > 1 { // many copies of large drawings: only the proportions matter
		for i := range wanted {
			wanted[i].Shows = max(1, wanted[i].Shows/by)
		}
	}
	r := colour.ShelfRules{Stocks: rules.Stocks, Sharing: rules.Sharing}
	if rules.Touching == TouchingDiffer {
		for _, t := range touching {
			r.Touching = append(r.Touching, [2]int{number[t[0]], number[t[1]]})
		}
	}
	found, err := colour.MatchShelf(wanted, looks, r)
	var none *colour.Unmatched
	if errors.As(err, &none) {
		return ShelfMatch{}, wrong("the drawing's colours can't be matched to the shelf: %s", none.Why)
	}
	if err != nil {
		return ShelfMatch{}, err
	}
	m.Proven = found.Proven
	used := map[int]bool{}
	sum, cells := int64(0), int64(0)
	for i, w := range wanted {
		j := found.Stock[i]
		used[j] = true
		m.Colours[i].To = ids[j]
		m.Colours[i].Difference = colour.Difference(w.Colour, looks[j])
		sum += int64(math.Round(m.Colours[i].Difference*1e6)) * w.Shows
		cells += w.Shows
	}
	m.Stocks = len(used)
	if cells > 0 {
		m.Mean = float64((sum+cells/2)/cells) / 1e6
	}
	return m, nil
}

// shows counts the cells of each key, in all copies, and lists which touch
// which, each pair once.
func (p *Project) shows() (cells map[byte]int64, touching [][2]byte) {
	cells = map[byte]int64{}
	var met [256][256]bool
	for i := range p.Sprites {
		s := &p.Sprites[i]
		grid := s.Frames[0].Cells
		meet := func(a, b byte) {
			if a, b = min(a, b), max(a, b); a != Empty && b != Empty && a != b && !met[a][b] {
				met[a][b] = true
				touching = append(touching, [2]byte{a, b})
			}
		}
		for at, key := range grid {
			if key != Empty {
				cells[key] += int64(max(1, s.Copies))
			}
			if at%s.W > 0 {
				meet(grid[at-1], key)
			}
			if at >= s.W {
				meet(grid[at-s.W], key)
			}
		}
	}
	return cells, touching
}

// UseMatch cuts the colours from the stocks found. The drawing's colours stay
// as they were drawn. Stocks that no colour uses any more go.
func (p *Project) UseMatch(m ShelfMatch, shelf []Shelf) {
	to := map[byte]string{}
	for _, c := range m.Colours {
		to[c.Key] = c.To
	}
	for i := range p.Palette {
		if id, ok := to[p.Palette[i].Key]; ok {
			p.Palette[i].Stock = id
		}
	}
	for _, s := range shelf {
		used := slices.ContainsFunc(p.Palette, func(c Colour) bool { return c.Stock == s.Stock.ID })
		at := slices.IndexFunc(p.Stocks, func(old Stock) bool { return old.ID == s.Stock.ID })
		switch {
		case used && at >= 0:
			p.Stocks[at] = s.Stock
		case used:
			p.Stocks = append(p.Stocks, s.Stock)
		}
	}
	p.Stocks = slices.DeleteFunc(p.Stocks, func(s Stock) bool {
		return !p.beside(s.ID) && !slices.ContainsFunc(p.Palette, func(c Colour) bool { return c.Stock == s.ID })
	})
}
