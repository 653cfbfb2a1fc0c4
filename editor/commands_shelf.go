package editor

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

type newStockArgs struct {
	Name   string `json:"name" about:"what you call it"`
	Colour string `json:"colour" about:"as #rrggbb"`
}
type ownStockArgs struct {
	Stock     string   `json:"stock" about:"ID of a stock on your shelf"`
	Name      *string  `json:"name" about:"what you call it"`
	Colour    *string  `json:"colour" about:"as #rrggbb"`
	Kind      *string  `json:"kind" about:"what it is made of; its figures become typical ones" oneOf:"paper|card|mount-board|grey-board|craft-foam|felt|plywood|acrylic|other"`
	Weight    *int     `json:"weight" about:"in g/m²; 0: not known; the thickness follows unless it was measured"`
	Thickness *float64 `json:"thickness" about:"in mm; the weight follows unless it was entered"`
	Core      *string  `json:"core" about:"colour of the cut edge, as #rrggbb; nothing: as the colour"`
	Sides     *string  `json:"sides" about:"which sides have the colour; unknown: not known" oneOf:"one|both|unknown"`
	Grain     *string  `json:"grain" about:"the sheet's side along which it bends easily; unknown: not known" oneOf:"long|short|none|unknown"`
	Laser     *string  `json:"laser" about:"whether it may be cut with a laser, as its maker says" oneOf:"fine|unknown|never"`
}
type ownSheetsArgs struct {
	Stock string  `json:"stock" about:"ID of a stock on your shelf"`
	W     float64 `json:"w_mm" about:"the sheets' width"`
	H     float64 `json:"h_mm" about:"the sheets' height"`
	Count int     `json:"count" about:"how many of that size there are; under 0: none of that size any more"`
}
type ownOffcutArgs struct {
	Stock string  `json:"stock" about:"ID of a stock on your shelf"`
	W     float64 `json:"w_mm" about:"its width"`
	H     float64 `json:"h_mm" about:"its height"`
	Do    string  `json:"do" about:"whether it comes to the shelf or goes" oneOf:"add|remove"`
}
type ownArgs struct {
	Stock string `json:"stock" about:"ID of a stock on your shelf"`
}
type fillShelfArgs struct {
	Bench string `json:"bench" about:"a bench file's text, of which the shelf is taken"`
	How   string `json:"how" about:"beside what is there, or instead of it" oneOf:"add|instead"`
}
type useShelfArgs struct {
	Keys   string   `json:"keys" about:"keys of the colours, one after the other"`
	Stocks []string `json:"stocks" about:"IDs of stocks on your shelf, one for each key"`
}

func shelfCommands() []Command {
	return []Command{
		command("ownShelf", "See my shelf", func(e *Editor, _ none) (any, error) { return e.OwnShelf(), nil }),
		command("putOnShelf", "A new stock on my shelf", runPutOnShelf),
		command("changeOwnStock", "Change a stock on my shelf", func(e *Editor, a ownStockArgs) (any, error) {
			return nil, e.changeOwn(a.Stock, func(s *project.Shelf) error { return a.apply(&s.Stock) })
		}),
		command("setOwnSheets", "How many sheets of a stock I have", func(e *Editor, a ownSheetsArgs) (any, error) {
			return nil, e.changeOwn(a.Stock, func(s *project.Shelf) error {
				w, h := um(a.W), um(a.H)
				i := slices.IndexFunc(s.Sheets, func(o project.Sheets) bool { return o.W == w && o.H == h })
				switch {
				case a.Count < 0 && i < 0:
					return errors.New("there are no sheets of that size on the shelf")
				case a.Count < 0:
					s.Sheets = slices.Delete(s.Sheets, i, i+1)
				case i >= 0:
					s.Sheets[i].Count = a.Count
				case len(s.Sheets) >= project.MaxSizes:
					return fmt.Errorf("at most %d sizes of sheet are kept of a stock", project.MaxSizes)
				default:
					s.Sheets = append(s.Sheets, project.Sheets{W: w, H: h, Count: a.Count})
				}
				return nil
			})
		}),
		command("setOwnOffcut", "An offcut comes to my shelf or goes", func(e *Editor, a ownOffcutArgs) (any, error) {
			return nil, e.changeOwn(a.Stock, func(s *project.Shelf) error { return offcut(s, um(a.W), um(a.H), a.Do) })
		}),
		command("takeOffShelf", "A stock goes from my shelf", func(e *Editor, a ownArgs) (any, error) {
			i := e.onShelf(a.Stock)
			if i < 0 {
				return nil, fmt.Errorf("there is no stock %s on your shelf", quoted(a.Stock))
			}
			e.setShelf(slices.Delete(slices.Clone(e.shelf), i, i+1))
			return nil, nil
		}),
		command("fillShelf", "Put a list of stocks on my shelf", runFillShelf),
		command("useShelf", "Cut the drawing's colours from my shelf", runUseShelf),
	}
}

func runPutOnShelf(e *Editor, a newStockArgs) (any, error) {
	rgb, err := parseColour(a.Colour)
	if err != nil {
		return nil, err
	}
	if a.Name == "" {
		return nil, errors.New("a stock on the shelf needs a name")
	}
	if slices.ContainsFunc(e.shelf, func(s project.Shelf) bool { return s.Stock.Name == a.Name }) {
		return nil, fmt.Errorf("there is a stock %s on your shelf: give this one another name", quoted(a.Name))
	}
	put := project.Shelf{Stock: project.NewCard(a.Name, rgb)}
	if err := (&project.Bench{Shelf: []project.Shelf{put}}).Validate(); err != nil {
		return nil, err
	}
	if err := e.takeShelf([]project.Shelf{put}); err != nil {
		return nil, err
	}
	return map[string]string{"stock": e.shelf[len(e.shelf)-1].Stock.ID}, nil
}

func (a ownStockArgs) apply(s *project.Stock) (err error) {
	if a.Name != nil {
		if *a.Name == "" {
			return errors.New("a stock on the shelf needs a name")
		}
		s.Name = *a.Name
	}
	if a.Colour != nil {
		if s.Colour, err = parseColour(*a.Colour); err != nil {
			return err
		}
	}
	if a.Kind != nil && project.Kind(*a.Kind) != s.Kind {
		*s = s.OfKind(project.Kind(*a.Kind))
	}
	if a.Thickness != nil {
		thick := um(*a.Thickness)
		if err := between("a card's thickness", thick, 10, 100*shape.Mm); err != nil {
			return err
		}
		*s = s.WithThickness(thick)
	}
	if a.Weight != nil {
		if *a.Weight < 0 || *a.Weight > project.MaxWeight {
			return fmt.Errorf("a stock weighs 1 to %d g/m²; leave it empty where it isn't known", project.MaxWeight)
		}
		*s = s.WithWeight(*a.Weight)
	}
	if a.Core != nil {
		s.Core = nil
		if *a.Core != "" {
			core, err := parseColour(*a.Core)
			if err != nil {
				return err
			}
			s.Core = &core
		}
	}
	if a.Sides != nil {
		if s.Sides = project.Sides(*a.Sides); *a.Sides == "unknown" {
			s.Sides = ""
		}
	}
	if a.Grain != nil {
		if s.Grain = project.Grain(*a.Grain); *a.Grain == "unknown" {
			s.Grain = ""
		}
	}
	if a.Laser != nil {
		s.Laser = project.Laser(*a.Laser)
	}
	return nil
}

// offcut adds an offcut to a stock, or takes one away.
func offcut(s *project.Shelf, w, h shape.Um, do string) error {
	if do == "add" {
		if len(s.Offcuts) >= project.MaxOffcuts {
			return fmt.Errorf("at most %d offcuts are kept of a stock", project.MaxOffcuts)
		}
		s.Offcuts = append(s.Offcuts, project.Offcut{W: w, H: h})
		return nil
	}
	i := slices.IndexFunc(s.Offcuts, func(k project.Offcut) bool { return k.W == w && k.H == h })
	if i < 0 {
		return errors.New("there is no such offcut on the shelf")
	}
	s.Offcuts = slices.Delete(s.Offcuts, i, i+1)
	return nil
}

func runFillShelf(e *Editor, a fillShelfArgs) (any, error) {
	b, err := project.ReadBench(bytes.NewReader([]byte(a.Bench)))
	if err != nil {
		return nil, fmt.Errorf("this shelf can't be opened: %w", err)
	}
	if a.How == "instead" {
		e.setShelf(b.Shelf)
		return nil, nil
	}
	return nil, e.takeShelf(b.Shelf)
}

// runUseShelf cuts colours from stocks of the shelf: one step, however many.
func runUseShelf(e *Editor, a useShelfArgs) (any, error) {
	if a.Keys == "" || len(a.Keys) != len(a.Stocks) {
		return nil, errors.New("useShelf: say which colours, and a stock for each")
	}
	var m project.ShelfMatch
	for i, id := range a.Stocks {
		if _, err := e.paletteKey("useShelf", a.Keys[i:i+1]); err != nil {
			return nil, err
		}
		if e.onShelf(id) < 0 {
			return nil, fmt.Errorf("there is no stock %s on your shelf", quoted(id))
		}
		m.Colours = append(m.Colours, project.Matched{Key: a.Keys[i], To: id})
	}
	p := e.doc.Project
	p.Palette, p.Stocks = slices.Clone(p.Palette), slices.Clone(p.Stocks)
	p.UseMatch(m, e.shelf)
	b := e.benchNow()
	for _, s := range e.shelf {
		if slices.Contains(a.Stocks, s.Stock.ID) {
			b.Shelf = withStock(b.Shelf, s)
		}
	}
	return nil, e.planAs("Cut from my shelf", p, b, b.Machines[0].Name)
}
