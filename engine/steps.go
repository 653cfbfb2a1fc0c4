package engine

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

// stack makes the drawing's forest in the sprite's style.
func (d *drawing) stack(s *project.Sprite, set project.Settings, stop func() bool, begun *stack.Begun) (*stack.Forest, error) {
	r := d.rules(s, set)
	r.Stop, r.Begun = stop, begun
	switch s.Stack.Style {
	case project.SideBySide:
		return stack.SideBySide(d.Drawing, r, d.outlineColour(s)), nil
	case project.ByHand:
		return stack.ByHand(d.Drawing, r, d.colours(s.Stack.Order))
	}
	return stack.Fewest(d.Drawing, r)
}

// first is stack without the search's second step.
func (d *drawing) first(s *project.Sprite, set project.Settings, begun *stack.Begun) (*stack.Forest, error) {
	if s.Stack.Style == project.SideBySide || s.Stack.Style == project.ByHand {
		return d.stack(s, set, nil, nil) // there is no search
	}
	r := d.rules(s, set)
	r.Begun = begun
	return stack.First(d.Drawing, r)
}

// outlineColour is the colour of the outline as the maker named it; 0 where
// there is none.
func (d *drawing) outlineColour(s *project.Sprite) stack.Colour {
	for _, c := range d.colours(s.Stack.OutlineOnTop) {
		return c
	}
	return 0
}

// joinFits says whether cells of a stock can be joined at a corner.
func joinFits(set project.Settings, s *project.Sprite, stock project.Stock) bool {
	_, ok := outline.Joinable(s.Cell, stock.LeastStrip, set.Join)
	return ok && set.Corners == project.Join
}

// outline gives the forest its shapes, by outline.Build or Rough. The stocks are
// what Layer.Stock points into: the drawing's, then the backer's if it is
// another one.
func (d *drawing) outline(p *project.Project, s *project.Sprite, f *stack.Forest,
	build func(*stack.Forest, outline.Options) (*outline.Layout, error)) (*outline.Layout, []project.Stock, error) {
	stocks := slices.Clone(d.stocks)
	set := p.Settings
	o := outline.Options{Cell: s.Cell, Corners: set.Corners, Join: set.Join}
	if s.Stack.Float >= project.LowestFloat {
		o.Floats = []int{s.Stack.Float}
	}
	for i, stock := range stocks {
		o.Stocks = append(o.Stocks, outlineStock(set, i, stock))
	}
	if set.Border > 0 || s.Stack.Style == project.SideBySide {
		stock := d.backer(p, f)
		i := slices.IndexFunc(stocks, func(st project.Stock) bool { return st.ID == stock.ID })
		if i < 0 {
			i = len(stocks)
			stocks = append(stocks, stock)
		}
		o.Backer = &outline.Backer{
			Stock: outlineStock(set, i, stock), Border: set.Border, Edge: set.Edge, FillIn: set.FillIn,
		}
	}
	l, err := build(f, o)
	return l, stocks, err
}

func outlineStock(set project.Settings, index int, s project.Stock) outline.Stock {
	return outline.Stock{Index: index, LeastStrip: s.LeastStrip, Kerf: set.KerfOf(s)}
}

// backer is the stock that the backer is cut from: the one that the settings
// name, else the project's first board, else that of the lowest part.
func (d *drawing) backer(p *project.Project, f *stack.Forest) project.Stock {
	if stock, ok := p.StockByID(p.Settings.Backer); ok {
		return stock
	}
	for _, stock := range p.Stocks {
		if stock.Kind == project.MountBoard || stock.Kind == project.GreyBoard {
			return stock
		}
	}
	return d.stocks[f.Parts[0].Colour-1]
}
