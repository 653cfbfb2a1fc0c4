package project

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"sheetsprite/engine/shape"
)

// Validate names the first rule of the format that the project breaks, in the
// order settings, palette, stocks, sprites; nil where it breaks none. What it
// returns is an InputError. Empty sprites are within the rules (a drawing has
// to start somewhere): see CanCut.
func (p *Project) Validate() error {
	if err := first(checkName(p.Name), between("letters_given", p.Lettered, 0, MaxLettered), checkExtra(p.Extra, names(projectFields))); err != nil {
		return err
	}
	stocks := map[string]bool{}
	for _, s := range p.Stocks {
		stocks[s.ID] = true
	}
	if err := p.Settings.validate(stocks); err != nil {
		return in("settings", err)
	}
	keys, err := validatePalette(p.Palette, stocks)
	if err != nil {
		return err
	}
	if err := validateStocks(p.Stocks); err != nil {
		return err
	}
	if p.Bench != nil {
		if err := p.Bench.Validate(); err != nil {
			return in("bench", err)
		}
	}
	switch {
	case len(p.Sprites) == 0:
		return wrong("the project has no sprite: add one")
	case len(p.Sprites) > MaxSprites:
		return wrong("the project has %d sprites, but may have %d: split it into several", len(p.Sprites), MaxSprites)
	}
	byName := map[string]int{}
	for i := range p.Sprites {
		s := &p.Sprites[i]
		where := label("sprite", i, s.Name)
		if other, twice := byName[s.Name]; twice {
			return in(where, wrong("sprite %d has the same name: give each its own", other+1))
		}
		byName[s.Name] = i
		if err := s.validate(keys); err != nil {
			return in(where, err)
		}
		for _, id := range []string{s.Stack.FoamStock, s.Stack.FloatStock} {
			if id != "" && !stocks[id] {
				return in(where, wrong("spacers are cut from %s, which isn't among the stocks: add that stock or choose another", quote(id)))
			}
		}
		for _, j := range s.Stack.Jigs {
			if !stocks[j.Stock] {
				return in(where, wrong("a jig is cut from %s, which isn't among the stocks: add that stock or choose another", quote(j.Stock)))
			}
		}
	}
	if err := p.Choice.validate(byName); err != nil {
		return in("choice", err)
	}
	if len(p.Places) > MaxPlacements {
		return wrong("the project saves %d placements, but may save %d", len(p.Places), MaxPlacements)
	}
	for i := range p.Places {
		if err := p.Places[i].validate(byName, stocks); err != nil {
			return in(label("placement", i, p.Places[i].Part), err)
		}
	}
	return nil
}

// CanCut says why there is nothing to cut: no sprite shows any colour in its
// first frame. Empty sprites among others are no error; they are passed over.
func (p *Project) CanCut() error {
	for i := range p.Sprites {
		if !p.Sprites[i].IsEmpty() && p.CopiesOf(i) > 0 {
			return nil
		}
	}
	if len(p.Choice.Sprites) > 0 {
		return wrong("nothing is drawn in the sprites that are chosen to be cut: choose others, or all")
	}
	return wrong("nothing is drawn in this project: colour at least one cell of a sprite")
}

// keySet says which keys the palette has.
type keySet [256]bool

func validatePalette(palette []Colour, stocks map[string]bool) (keys keySet, err error) {
	if len(palette) == 0 {
		return keys, wrong("the palette is empty: it has 1 to %d colours", MaxPalette)
	}
	if len(palette) > MaxPalette {
		return keys, wrong("the palette has %d colours, but may have %d", len(palette), MaxPalette)
	}
	for i, k := range palette {
		where := label("palette, colour", i, k.Name)
		switch {
		case !GoodKey(k.Key):
			return keys, in(where, wrong("has the key %q, but a key is one printable ASCII character other than '.', '\"', '\\' and space", rune(k.Key)))
		case keys[k.Key]:
			return keys, in(where, wrong("has the key %q, as a colour before it has: give each its own", rune(k.Key)))
		case !stocks[k.Stock]:
			return keys, in(where, wrong("is cut from %s, which isn't among the stocks: add that stock or choose another", quote(k.Stock)))
		}
		if err := first(checkName(k.Name), checkExtra(k.Extra, names(colourFields))); err != nil {
			return keys, in(where, err)
		}
		keys[k.Key] = true
	}
	return keys, nil
}

func validateStocks(stocks []Stock) error {
	if len(stocks) > MaxStocks {
		return wrong("there are %d stocks, but there may be %d", len(stocks), MaxStocks)
	}
	seen := map[string]bool{}
	for i, s := range stocks {
		where := label("stock", i, s.ID)
		if seen[s.ID] {
			return in(where, wrong("has the same id as a stock before it: give each its own"))
		}
		seen[s.ID] = true
		if err := s.validate(); err != nil {
			return in(where, err)
		}
	}
	return nil
}

func (s *Stock) validate() error {
	if len(s.ID) == 0 || len(s.ID) > 64 || strings.Trim(s.ID, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		return wrong("the id must be 1 to 64 of a-z, 0-9 and '-'")
	}
	sheet := within("sheet_mm", min(s.SheetW, s.SheetH), 10*shape.Mm, 10000*shape.Mm)
	if s.SheetW == 0 && s.SheetH == 0 {
		sheet = nil
	}
	return first(
		checkName(s.Name),
		oneOf("kind", s.Kind, Paper, Card, MountBoard, GreyBoard, CraftFoam, Felt, Plywood, Acrylic, Other),
		oneOf("laser", s.Laser, LaserFine, LaserUnknown, LaserNever, ""),
		oneOf("face", s.Face, FaceUp, FaceDown, ""),
		within("thickness_mm", s.Thickness, 10, 100*shape.Mm),
		within("kerf_mm", s.Kerf, 0, 10*shape.Mm),
		within("least_strip_mm", s.LeastStrip, 0, 100*shape.Mm),
		between("weight_g_m2", s.Weight, 0, MaxWeight),
		oneOf("sides", s.Sides, OneSide, BothSides, ""),
		oneOf("grain", s.Grain, LongGrain, ShortGrain, NoGrain, ""),
		sheet,
		within("sheet_mm", max(s.SheetW, s.SheetH), 0, 10000*shape.Mm),
		checkExtra(s.Extra, names(stockFields)),
	)
}

func (s *Settings) validate(stocks map[string]bool) error {
	var kerf error
	if s.Kerf != nil {
		kerf = within("kerf_mm", *s.Kerf, 0, 10*shape.Mm)
	}
	err := first(
		oneOf("corners", s.Corners, Join, Apart),
		within("join_mm", s.Join, 0, MaxCell/2),
		within("border_mm", s.Border, 0, 100*shape.Mm),
		oneOf("edge", s.Edge, Square, Chamfered, Round),
		within("sheet_mm", min(s.SheetW, s.SheetH), 10*shape.Mm, 10000*shape.Mm),
		within("sheet_mm", max(s.SheetW, s.SheetH), 10*shape.Mm, 10000*shape.Mm),
		within("margin_mm", s.Margin, 0, 1000*shape.Mm),
		within("gap_mm", s.Gap, 0, 100*shape.Mm),
		kerf,
		oneOf("hold", s.Hold, Tabs, Light),
		within("tab_mm", s.Tab, LeastTab, MostTab),
		oneOf("layout", s.Layout, Nested, InRegister, ""),
		oneOf("guide_paper", s.Paper, PaperA4, PaperLetter, ""),
		oneOf("guide_units", s.Units, OnlyMm, MmAndInch, ""),
		oneOf("group", s.Group, Ungrouped, BySprite, ""),
		oneOf("large_parts", s.Large, LargeWhole, LargeSplit, ""),
		between("effort", s.Effort, 0, 9),
		within("cover_mm", s.Cover, 0, 1000*shape.Mm),
		pinsWithin(s.Pins),
		within("jig_clear_mm", s.JigClear, 0, MostClear),
		checkExtra(s.Extra, names(settingsFields)),
	)
	switch {
	case err != nil:
		return err
	case 2*s.Margin >= min(s.SheetW, s.SheetH):
		return wrong("the margin of %s mm leaves nothing of the sheet of %s × %s mm: make it smaller",
			FormatMm(s.Margin), FormatMm(s.SheetW), FormatMm(s.SheetH))
	case s.Backer != "" && !stocks[s.Backer]:
		return wrong("the backer is cut from %s, which isn't among the stocks: add that stock or choose another", quote(s.Backer))
	}
	return nil
}

// first is the first error that there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// checkName checks a name: any text of up to MaxName characters.
func checkName(name string) error {
	switch {
	case !utf8.ValidString(name):
		return wrong("the name isn't UTF-8 text: type it anew")
	case utf8.RuneCountInString(name) > MaxName:
		return wrong("the name has %d characters, but may have %d", utf8.RuneCountInString(name), MaxName)
	}
	return nil
}

// oneOf checks that a value is one of a closed set.
func oneOf[S ~string](name string, value S, set ...S) error {
	list := make([]string, 0, len(set))
	for _, s := range set {
		if value == s {
			return nil
		}
		if s != "" {
			list = append(list, string(s))
		}
	}
	return wrong("%s is %s, but must be one of %s", name, quote(string(value)), strings.Join(list, ", "))
}

// within checks a length.
func within(name string, value, low, high shape.Um) error {
	if value < low || value > high {
		return wrong("%s is %s, but must be %s to %s mm", name, FormatMm(value), FormatMm(low), FormatMm(high))
	}
	return nil
}

// between checks a whole number.
func between(name string, value, low, high int) error {
	if value < low || value > high {
		return wrong("%s is %d, but must be %d to %d", name, value, low, high)
	}
	return nil
}

// place is a cell as a message names it.
func place(frame, x, y int) string {
	return fmt.Sprintf("frame %d, row %d, column %d", frame+1, y+1, x+1)
}
