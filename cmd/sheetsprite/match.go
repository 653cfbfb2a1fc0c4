package main

import (
	"fmt"
	"io"
	"strconv"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
)

// matchRules are what --match and --touching ask for.
func (s *settings) matchRules() (r project.MatchRules, err error) {
	switch {
	case s.match.set && !s.bench.set:
		return r, badUsage("--match %s: say on which bench the shelf stands, as in --bench bench.json --match 0", quote(s.match.text))
	case s.touching.set && !s.match.set:
		return r, badUsage("--touching %s: it goes with --match, as in --match 0 --touching merge", quote(s.touching.text))
	case !s.match.set:
		return r, nil
	}
	if r.Stocks, err = s.match.count(0, project.MaxStocks); err != nil || !s.touching.set {
		return r, err
	}
	how, err := s.touching.choice("differ", "merge")
	if how == "merge" {
		r.Touching = project.TouchingMayMerge
	}
	return r, err
}

// matched cuts p's colours from the shelf where asked, and says from what.
func (s *settings) matched(p *project.Project, bench *project.Bench, out io.Writer) error {
	if !s.match.set {
		return nil
	}
	rules, err := s.matchRules()
	if err != nil {
		return err
	}
	m, err := p.MatchToShelf(bench.Shelf, rules)
	if err != nil {
		return err
	}
	p.UseMatch(m, bench.Shelf)
	printMatch(out, p, m)
	return nil
}

// printMatch shows colour by colour what was drawn and what it is cut from.
func printMatch(out io.Writer, p *project.Project, m project.ShelfMatch) {
	if len(m.Colours) == 0 {
		return
	}
	fmt.Fprintf(out, "Matched to the shelf: %d of its stocks for %d colours, off by ΔE %s on average\n", m.Stocks, len(m.Colours), deltaE(m.Mean))
	for _, c := range m.Colours {
		var drawn colour.RGB
		for _, k := range p.Palette {
			if k.Key == c.Key {
				drawn = k.RGB
			}
		}
		for _, s := range p.Stocks {
			if s.ID == c.To {
				fmt.Fprintf(out, "  %s → %s %s, ΔE %s, %d cells\n", drawn, oneLine(s.Name), s.Colour, deltaE(c.Difference), c.Cells)
			}
		}
	}
	if !m.Proven {
		fmt.Fprintln(out, "  There may be a slightly better choice: there were too many to try them all.")
	}
	fmt.Fprintln(out)
}

// deltaE is a difference with one decimal.
func deltaE(d float64) string { return strconv.FormatFloat(d, 'f', 1, 64) }
