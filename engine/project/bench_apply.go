package project

import (
	"slices"

	"sheetsprite/engine/shape"
)

// PlanOn makes p one that is cut on a machine of the bench: it takes a copy of
// that machine, of the shelf's stocks that the project uses and of how the
// machine cuts them. The drawing stays.
//
// A palette colour whose stock is the card that goes with its colour (CardFor),
// or that bears the ID of a stock on the shelf, is cut from the shelf: from the
// stock of that ID, else from the first one of exactly that colour. A nearly
// equal one isn't taken: which cards may stand for one another is the maker's
// to say. Kerfs become what machine and stock say together; a knife and a hand
// have none unless it was entered.
//
// Errors: an InputError where the bench has no such machine; name "" stands for
// the only one.
func (p *Project) PlanOn(b *Bench, name string) error {
	machine, err := b.Choose(name)
	if err != nil {
		return err
	}
	name = machine.Name
	p.takeFromShelf(b)
	bench := &Bench{Machines: []Machine{machine}}
	for i := range p.Stocks {
		s := &p.Stocks[i]
		use, entered := b.UseOf(name, s.ID)
		switch {
		case entered && use.Kerf != nil:
			s.Kerf = *use.Kerf
		case machine.Kind != LaserCutter:
			s.Kerf = 0
		case s.Kerf == 0 && s.Typical: // as a knife left it
			s.Kerf = typical[s.Kind].kerf
		}
		if shelf, ok := b.ShelfOf(s.ID); ok {
			bench.Shelf = append(bench.Shelf, shelf)
			if entered {
				bench.Uses = append(bench.Uses, use)
			}
		}
	}
	p.Bench = bench
	return nil
}

// Choose is the machine of that name; "" stands for the only one.
//
// Errors: an InputError where there is no such machine.
func (b *Bench) Choose(name string) (Machine, error) {
	if name == "" && len(b.Machines) == 1 {
		name = b.Machines[0].Name
	}
	machine, ok := b.MachineNamed(name)
	switch {
	case ok:
		return machine, nil
	case len(b.Machines) == 0:
		return machine, wrong("the bench has no machine: add one")
	case name == "":
		return machine, wrong("the bench has %d machines: say which one, as in --machine %s", len(b.Machines), quote(b.Machines[0].Name))
	}
	return machine, wrong("the bench has no machine %s: it has %s", quote(name), machineNames(b))
}

// Counted is how many sheets of a stock are on the shelf; ok is false where
// nobody says.
func (b *Bench) Counted(stock string) (n int, ok bool) {
	s, _ := b.ShelfOf(stock)
	for _, sh := range s.Sheets {
		n += sh.Count
	}
	return n, len(s.Sheets) > 0
}

// machineNames lists the bench's machines for a message.
func machineNames(b *Bench) string {
	text := ""
	for i, m := range b.Machines {
		if i == 5 {
			return text + " …"
		}
		if i > 0 {
			text += ", "
		}
		text += quote(m.Name)
	}
	return text
}

// takeFromShelf puts stocks of the shelf in the place of the project's.
func (p *Project) takeFromShelf(b *Bench) {
	for i := range p.Palette {
		k := &p.Palette[i]
		old := k.Stock
		shelf, ok := b.ShelfOf(old)
		if !ok && old == CardFor(k.RGB).ID {
			n := slices.IndexFunc(b.Shelf, func(s Shelf) bool { return s.Stock.Colour == k.RGB })
			if ok = n >= 0; ok {
				shelf = b.Shelf[n]
			}
		}
		if !ok {
			continue
		}
		k.Stock = shelf.Stock.ID
		n := slices.IndexFunc(p.Stocks, func(s Stock) bool { return s.ID == shelf.Stock.ID })
		if n >= 0 {
			p.Stocks[n] = shelf.Stock
			continue
		}
		n = slices.IndexFunc(p.Stocks, func(s Stock) bool { return s.ID == old })
		used := slices.ContainsFunc(p.Palette, func(c Colour) bool { return c.Stock == old }) || p.beside(old)
		if n < 0 || used {
			p.Stocks = append(p.Stocks, shelf.Stock)
		} else {
			p.Stocks[n] = shelf.Stock
		}
	}
	p.Stocks = slices.DeleteFunc(p.Stocks, func(s Stock) bool {
		return s.Typical && s.ID == CardFor(s.Colour).ID && !p.beside(s.ID) &&
			!slices.ContainsFunc(p.Palette, func(c Colour) bool { return c.Stock == s.ID })
	})
}

// beside says whether a stock is wanted though no colour is cut from it: for the
// backer, for spacers or for a jig.
func (p *Project) beside(id string) bool {
	return p.Settings.Backer == id || slices.ContainsFunc(p.Sprites, func(s Sprite) bool { return slices.Contains(s.Stack.Stocks(), id) })
}

// SheetSizes are what a stock is cut from: offcuts, then the shelf's sheets;
// where the shelf says nothing, as many as needed of the stock's own size or
// the settings'.
func (p *Project) SheetSizes(s Stock) (offcuts []Offcut, sheets []Sheets, more Sheets) {
	more = Sheets{W: p.Settings.SheetW, H: p.Settings.SheetH}
	if s.SheetW > 0 && s.SheetH > 0 {
		more.W, more.H = s.SheetW, s.SheetH
	}
	if p.Bench == nil {
		return nil, nil, more
	}
	shelf, ok := p.Bench.ShelfOf(s.ID)
	if !ok || len(shelf.Sheets) == 0 {
		return shelf.Offcuts, nil, more
	}
	area := func(s Sheets) shape.Um2 { return shape.Um2(s.W) * shape.Um2(s.H) }
	more = Sheets{W: shelf.Sheets[0].W, H: shelf.Sheets[0].H}
	for _, s := range shelf.Sheets {
		if s.Count > 0 {
			sheets = append(sheets, s)
		}
		if area(s) > area(more) {
			more = Sheets{W: s.W, H: s.H}
		}
	}
	return shelf.Offcuts, sheets, more
}
