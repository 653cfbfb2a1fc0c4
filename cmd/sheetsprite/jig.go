package main

import (
	"slices"
	"strconv"
	"strings"

	"sheetsprite/engine/project"
)

// jigs reads --jig: sprites by their names, a height of each, and the stock that its
// jig is cut from, which comes into the project where only the bench or the starter
// has it.
func (s *settings) jigs(p *project.Project) error {
	for text := range strings.SplitSeq(s.jig.text, ",") {
		name, rest, _ := strings.Cut(strings.TrimSpace(text), "=")
		high, stock, ok := strings.Cut(rest, ":")
		height, err := strconv.Atoi(high)
		if !ok || err != nil || height < 1 || height > project.MaxHeights || stock == "" {
			return badUsage("--jig %s: give a sprite, a height from 1 and a stock, as in --jig gull=2:grey-board", quote(s.jig.text))
		}
		i := slices.IndexFunc(p.Sprites, func(sp project.Sprite) bool { return sp.Name == name })
		if i < 0 {
			return &project.InputError{What: "--jig: there is no sprite " + quote(name) + ": name them as the files are, without their endings"}
		}
		if err := needStock(p, stock); err != nil {
			return err
		}
		stack := &p.Sprites[i].Stack
		stack.Jigs = slices.DeleteFunc(slices.Clone(stack.Jigs), func(j project.Jig) bool { return j.Height == height })
		stack.Jigs = append(stack.Jigs, project.Jig{Height: height, Stock: stock})
	}
	return nil
}

// needStock brings a stock into the project, from its bench or from what everybody
// has.
func needStock(p *project.Project, id string) error {
	if _, ok := p.StockByID(id); ok {
		return nil
	}
	if p.Bench != nil {
		if st, ok := p.Bench.ShelfOf(id); ok {
			p.Stocks = append(p.Stocks, st.Stock)
			return nil
		}
	}
	for _, st := range project.Starter() {
		if st.ID == id {
			p.Stocks = append(p.Stocks, st)
			return nil
		}
	}
	return &project.InputError{What: "--jig: there is no stock " + quote(id) + ": name one of the project, of the bench's shelf, or a general one such as grey-board"}
}
