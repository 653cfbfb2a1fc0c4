package editor

import (
	"errors"
	"fmt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

type setStockArgs struct {
	Keys  string  `json:"keys" about:"keys of the colours, one after the other"`
	Stock *string `json:"stock" about:"ID of the stock; card of the colour's own if nothing is said"`
}
type thicknessArgs struct {
	Stock string  `json:"stock" about:"ID of the stock"`
	Mm    float64 `json:"mm" about:"its thickness"`
}
type kindArgs struct {
	Stock string `json:"stock" about:"ID of the stock"`
	Kind  string `json:"kind" about:"what it is made of; its other figures become typical ones" oneOf:"paper|card|mount-board|grey-board|craft-foam|felt|plywood|acrylic|other"`
}
type laserArgs struct {
	Stock string `json:"stock" about:"ID of the stock"`
	Laser string `json:"laser" about:"whether it may be cut with a laser, as its maker says" oneOf:"fine|unknown|never"`
}
type stockSheetArgs struct {
	Stock string  `json:"stock" about:"ID of the stock"`
	W     float64 `json:"w_mm" about:"width of its sheet; 0: as for all"`
	H     float64 `json:"h_mm" about:"height of its sheet"`
}
type changeStockArgs struct {
	Stock  string   `json:"stock" about:"ID of the stock"`
	Name   *string  `json:"name" about:"its new name"`
	Colour *string  `json:"colour" about:"the sheet's own colour, as #rrggbb"`
	Kerf   *float64 `json:"kerf" about:"width that the cut removes, in mm"`
	Strip  *float64 `json:"leastStrip" about:"the narrowest strip that holds, in mm"`
}

func stockCommands() []Command {
	return []Command{
		command("shelf", "See what there is to cut from", func(e *Editor, _ none) (any, error) { return e.Shelf(), nil }),
		command("setStock", "What colours are cut from", runSetStock),
		command("setThickness", "Thickness of a card", func(e *Editor, a thicknessArgs) (any, error) {
			return nil, e.changeStock("Thickness", a.Stock, func(s *project.Stock) error {
				s.Thickness, s.Typical = um(a.Mm), false
				return between("a card's thickness", s.Thickness, 10, 100*shape.Mm)
			})
		}),
		command("setKind", "What a card is made of", func(e *Editor, a kindArgs) (any, error) {
			return nil, e.changeStock("What it is made of", a.Stock, func(s *project.Stock) error {
				s.Kind, s.Typical = project.Kind(a.Kind), false
				for _, t := range project.Starter() {
					if t.Kind == s.Kind {
						s.Thickness, s.Kerf, s.LeastStrip, s.Laser, s.Typical = t.Thickness, t.Kerf, t.LeastStrip, t.Laser, true
					}
				}
				return nil
			})
		}),
		command("setLaser", "Whether a card may be lasered", func(e *Editor, a laserArgs) (any, error) {
			return nil, e.changeStock("Laser", a.Stock, func(s *project.Stock) error {
				s.Laser = project.Laser(a.Laser)
				return nil
			})
		}),
		command("setStockSheet", "Sheet size of a card", func(e *Editor, a stockSheetArgs) (any, error) {
			return nil, e.changeStock("Sheet size", a.Stock, func(s *project.Stock) error {
				s.SheetW, s.SheetH = um(a.W), um(a.H)
				if s.SheetW == 0 && s.SheetH == 0 {
					return nil
				}
				return between("a sheet", min(s.SheetW, s.SheetH), 10*shape.Mm, 10000*shape.Mm)
			})
		}),
		command("changeStock", "Change a card", func(e *Editor, a changeStockArgs) (any, error) {
			return nil, e.changeStock("Change a card", a.Stock, a.apply)
		}),
	}
}

func (a changeStockArgs) apply(s *project.Stock) (err error) {
	if a.Name != nil {
		s.Name = *a.Name
	}
	if a.Colour != nil {
		if s.Colour, err = parseColour(*a.Colour); err != nil {
			return err
		}
	}
	if a.Kerf != nil {
		s.Kerf, s.Typical = um(*a.Kerf), false
		if err := between("the kerf", s.Kerf, 0, 10*shape.Mm); err != nil {
			return err
		}
	}
	if a.Strip != nil {
		s.LeastStrip, s.Typical = um(*a.Strip), false
		if err := between("the least strip", s.LeastStrip, 0, 100*shape.Mm); err != nil {
			return err
		}
	}
	return nil
}

// ShelfEntry is a stock that colours can be cut from.
type ShelfEntry struct {
	ID         string  `json:"id"`
	Name       string  `json:"name"`
	Kind       string  `json:"kind"`
	Colour     string  `json:"colour"`
	Thickness  float64 `json:"thickness"`
	Kerf       float64 `json:"kerf"`
	LeastStrip float64 `json:"leastStrip"`
	SheetW     float64 `json:"sheetWidth"`
	SheetH     float64 `json:"sheetHeight"`
	Laser      string  `json:"laser"`
	Typical    bool    `json:"typical"`
	Used       bool    `json:"used"` // the project has it
}

// Shelf lists the project's stocks, then the maker's own, then those that a
// maker starts with.
func (e *Editor) Shelf() []ShelfEntry {
	list := []ShelfEntry{}
	add := func(s project.Stock, used bool) {
		list = append(list, ShelfEntry{
			ID: s.ID, Name: s.Name, Kind: string(s.Kind), Colour: s.Colour.String(), Thickness: mm(s.Thickness),
			Kerf: mm(s.Kerf), LeastStrip: mm(s.LeastStrip), SheetW: mm(s.SheetW), SheetH: mm(s.SheetH),
			Laser: string(s.Laser), Typical: s.Typical, Used: used,
		})
	}
	for _, s := range e.doc.Project.Stocks {
		add(s, true)
	}
	for _, s := range e.shelf {
		if e.doc.stock(s.Stock.ID) < 0 {
			add(s.Stock, false)
		}
	}
	for _, s := range project.Starter() {
		if e.doc.stock(s.ID) < 0 && e.onShelf(s.ID) < 0 {
			add(s, false)
		}
	}
	return list
}

// findStock is the project's stock with this ID, or the maker's own, or one from
// the starting shelf.
func (e *Editor) findStock(id string) (project.Stock, error) {
	if s, ok := e.doc.Project.StockByID(id); ok {
		return s, nil
	}
	if i := e.onShelf(id); i >= 0 {
		return e.shelf[i].Stock, nil
	}
	for _, s := range project.Starter() {
		if s.ID == id {
			return s, nil
		}
	}
	return project.Stock{}, fmt.Errorf("there is no stock %s on the shelf", quoted(id))
}

func runSetStock(e *Editor, a setStockArgs) (any, error) {
	if a.Keys == "" {
		return nil, errors.New("setStock: say which colours")
	}
	for i := range len(a.Keys) {
		if _, err := e.paletteKey("setStock", a.Keys[i:i+1]); err != nil {
			return nil, err
		}
	}
	return nil, e.do("Choose a card", func(c *change) error {
		for i := range len(a.Keys) {
			at := e.doc.colour(a.Keys[i])
			col := e.doc.Project.Palette[at]
			st := project.CardFor(col.RGB)
			if a.Stock != nil {
				var err error
				if st, err = e.findStock(*a.Stock); err != nil {
					return err
				}
			}
			if st.ID == col.Stock {
				continue
			}
			if err := c.needStock(st); err != nil {
				return err
			}
			if own := e.onShelf(st.ID); own >= 0 {
				c.needShelf(e.shelf[own])
			}
			was := col.Stock
			col.Stock = st.ID
			replaceIn(c, common, palette, at, 1, colourBytes, col)
			c.dropStock(was)
		}
		return nil
	})
}

// changeStock makes a step of a change to one of the project's stocks.
func (e *Editor) changeStock(title, id string, f func(*project.Stock) error) error {
	i := e.doc.stock(id)
	if i < 0 {
		return fmt.Errorf("this project has no stock %s", quoted(id))
	}
	return e.do(title, func(c *change) error {
		s := e.doc.Project.Stocks[i]
		if err := f(&s); err != nil {
			return err
		}
		replaceIn(c, common, stocks, i, 1, stockBytes, s)
		return nil
	})
}
