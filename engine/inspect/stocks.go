package inspect

import (
	"fmt"
	"slices"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Thresholds about how stocks look.
const (
	// Alike is the CIEDE2000 difference below which two cards are hard to tell
	// apart across a table. Common practice, no source.
	Alike = 5.0
	// Card this thin is typically under 250 g/m² and lets dark stock show
	// through. Common practice, no source.
	thinCard = shape.Um(300)
	// CIE lightness from which a card counts as light, and up to which stock
	// counts as dark. From memory.
	lightFrom, darkTo = 70.0, 40.0
)

// used are the stocks of the drawings' colours, without backers, by ID in the
// project's order.
func used(p *project.Project, sprites []Measured) []project.Stock {
	ids := map[string]bool{}
	for _, s := range sprites {
		for id := range s.drawnStocks() {
			ids[id] = true
		}
	}
	var list []project.Stock
	for _, st := range p.Stocks {
		if ids[st.ID] {
			list = append(list, st)
		}
	}
	return list
}

// drawnStocks are the IDs of the stocks that the sprite's colours are cut from.
func (s Sprite) drawnStocks() map[string]bool {
	ids := map[string]bool{}
	for _, l := range s.Layout.Layers {
		if len(l.Parts) > 0 && l.Parts[0].Tree >= 0 {
			ids[s.Stocks[l.Stock].ID] = true
		}
	}
	return ids
}

// stocksAlike reports pairs of stocks that are hard to tell apart.
func stocksAlike(p *project.Project, sprites []Measured) []Finding {
	var fs []Finding
	stocks := used(p, sprites)
	drawn := make([]map[string]bool, len(sprites))
	for i, s := range sprites {
		drawn[i] = s.drawnStocks()
	}
	for i, a := range stocks {
		for _, b := range stocks[i+1:] {
			d := colour.Difference(a.Colour, b.Colour)
			if d >= Alike {
				continue
			}
			f := Finding{
				Code: StocksAlike,
				Text: fmt.Sprintf(english.alike, a.Name, b.Name, d),
			}
			for j, s := range sprites {
				if drawn[j][a.ID] && drawn[j][b.ID] {
					f.Places = append(f.Places, Place{Sprite: s.Source.Name})
				}
			}
			if keys := keysOf(p, b.ID); keys != "" {
				f.Remedies = []Remedy{{
					Command: SetStock, Args: map[string]any{"keys": keys, "stock": a.ID},
					Text: fmt.Sprintf(english.cutBoth, a.Name), Sure: true,
				}}
			}
			fs = append(fs, f)
		}
	}
	return fs
}

// keysOf lists the palette keys that are cut from a stock.
func keysOf(p *project.Project, stock string) string {
	var keys []byte
	for _, c := range p.Palette {
		if c.Stock == stock {
			keys = append(keys, c.Key)
		}
	}
	return string(keys)
}

// lightOverDark reports thin light card that lies on something dark.
func lightOverDark(sprites []Measured) []Finding {
	type found struct {
		stock  project.Stock
		places []Place
	}
	var all []found
	for _, s := range sprites {
		stockOf := map[int]project.Stock{}
		for _, l := range s.Layout.Layers {
			for _, part := range l.Parts {
				stockOf[part.Index] = s.Stocks[l.Stock]
			}
		}
		for i := range s.Layout.Layers {
			l := &s.Layout.Layers[i]
			upper := s.Stocks[l.Stock]
			if !thin(upper) || lightness(upper) < lightFrom {
				continue
			}
			for j := range l.Parts {
				part := &l.Parts[j]
				lower, ok := stockOf[part.On]
				if !ok || lightness(lower) > darkTo {
					continue
				}
				k := slices.IndexFunc(all, func(f found) bool { return f.stock.ID == upper.ID })
				if k < 0 {
					k = len(all)
					all = append(all, found{stock: upper})
				}
				all[k].places = append(all[k].places, s.place(l, part))
			}
		}
	}
	var fs []Finding
	for _, f := range all {
		n := len(f.places)
		double := 2 * f.stock.Thickness
		fs = append(fs, Finding{
			Code:   LightOverDark,
			Text:   bent(n, english.onDark, n, f.stock.Name, mm(f.stock.Thickness)),
			Places: f.places,
			Remedies: []Remedy{{
				Command: SetThickness,
				Args:    map[string]any{"stock": f.stock.ID, "mm": number(max(double, thinCard+100))},
				Text:    fmt.Sprintf(english.doubled, mm(max(double, thinCard+100))),
				Sure:    true,
			}},
		})
	}
	return fs
}

func thin(s project.Stock) bool {
	return (s.Kind == project.Card || s.Kind == project.Paper) && s.Thickness <= thinCard
}

func lightness(s project.Stock) float64 { return colour.Lightness(s.Colour) }

// allUsed are the stocks of all layers, backers included, in the project's order.
func allUsed(p *project.Project, sprites []Measured) []project.Stock {
	var list []project.Stock
	for _, st := range p.Stocks {
		if len(spritesWith(sprites, st.ID)) > 0 {
			list = append(list, st)
		}
	}
	return list
}

// spritesWith are the sprites that a stock is cut for.
func spritesWith(sprites []Measured, stock string) []Place {
	var places []Place
	for _, s := range sprites {
		has := func(l outline.Layer) bool { return s.Stocks[l.Stock].ID == stock }
		if slices.ContainsFunc(s.Layout.Layers, has) || slices.ContainsFunc(s.Spacers, has) {
			places = append(places, Place{Sprite: s.Source.Name})
		}
	}
	return places
}
