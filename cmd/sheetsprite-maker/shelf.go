//go:build js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"syscall/js"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
)

// starters names the shelves that one can begin with.
func starters() (map[string]any, error) {
	type starter struct {
		Name   string `json:"name"`
		About  string `json:"about"`
		Stocks int    `json:"stocks"`
	}
	var list []starter
	for _, s := range project.StarterShelves() {
		list = append(list, starter{s.Name, s.About, len(s.Shelf)})
	}
	text, err := json.Marshal(list)
	return map[string]any{"data": string(text)}, err
}

// stockList is a bench file with the stocks of a starter shelf, or of a list
// (CSV) where no starter is named.
func stockList(starter, list js.Value) (map[string]any, error) {
	var b project.Bench
	if starter.Truthy() {
		s, ok := project.StarterNamed(starter.String())
		if !ok {
			return nil, fmt.Errorf("there is no shelf %q to begin with", starter.String())
		}
		b.Shelf = s.Shelf
	} else {
		data := make([]byte, list.Get("length").Int())
		js.CopyBytesToGo(data, list)
		var err error
		if b.Shelf, err = project.ReadShelfCSV(data); err != nil {
			return nil, err
		}
	}
	var text bytes.Buffer
	if err := b.Write(&text); err != nil {
		return nil, err
	}
	return map[string]any{"data": text.String(), "stocks": len(b.Shelf)}, nil
}

// matchRules are what the maker allows.
type matchRules struct {
	Stocks   int    `json:"stocks"`   // 0: any number
	Sharing  string `json:"sharing"`  // "share", "one each"
	Touching string `json:"touching"` // "differ", "may merge"
}

// matchAnswer is a project matched to a shelf, as the page shows it.
type matchAnswer struct {
	Colours []matchedColour `json:"colours"`
	Stocks  int             `json:"stocks"`
	Mean    float64         `json:"mean"` // ΔE of a cell
	Proven  bool            `json:"proven"`
	Sprites []spriteRows    `json:"sprites"`
}

type matchedColour struct {
	Key        string  `json:"key"`
	Name       string  `json:"name"`
	Drawn      string  `json:"drawn"` // its colour
	To         string  `json:"to"`    // the stock's ID
	ToName     string  `json:"toName"`
	ToColour   string  `json:"toColour"`
	Difference float64 `json:"difference"` // ΔE
	Cells      int64   `json:"cells"`
}

type spriteRows struct {
	Name string   `json:"name"`
	W    int      `json:"width"`
	H    int      `json:"height"`
	Rows []string `json:"rows"` // of the first frame, which is cut
}

// match finds what each colour of a project is best cut from.
func match(file, shelf []byte, text string) (map[string]any, error) {
	p, err := project.Read(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	b, err := project.ReadBench(bytes.NewReader(shelf))
	if err != nil {
		return nil, err
	}
	var asked matchRules
	if err := json.Unmarshal([]byte(text), &asked); err != nil {
		return nil, err
	}
	rules := project.MatchRules{Stocks: asked.Stocks}
	if asked.Sharing == "one each" {
		rules.Sharing = colour.OneEach
	}
	if asked.Touching == "may merge" {
		rules.Touching = project.TouchingMayMerge
	}
	m, err := p.MatchToShelf(b.Shelf, rules)
	if err != nil {
		return nil, err
	}
	if len(m.Colours) == 0 {
		return nil, errors.New("nothing is drawn yet, so there is nothing to match: draw first")
	}
	a := matchAnswer{Stocks: m.Stocks, Mean: m.Mean, Proven: m.Proven, Sprites: []spriteRows{}}
	for _, c := range m.Colours {
		row := matchedColour{Key: string(c.Key), To: c.To, Difference: c.Difference, Cells: c.Cells}
		for _, k := range p.Palette {
			if k.Key == c.Key {
				row.Name, row.Drawn = k.Name, k.RGB.String()
			}
		}
		s, _ := b.ShelfOf(c.To)
		row.ToName, row.ToColour = s.Stock.Name, s.Stock.Colour.String()
		a.Colours = append(a.Colours, row)
	}
	for i := range p.Sprites {
		s := &p.Sprites[i]
		rows := make([]string, s.H)
		for y := range rows {
			rows[y] = string(s.Frames[0].Cells[y*s.W : (y+1)*s.W])
		}
		a.Sprites = append(a.Sprites, spriteRows{s.Name, s.W, s.H, rows})
	}
	data, err := json.Marshal(a)
	return map[string]any{"data": string(data)}, err
}

// cardColour is the colour of a card in a photo beside a white sheet: pixels of
// both, each of red, green, blue and alpha.
func cardColour(card, white []byte) (map[string]any, error) {
	c, err := colour.BesideWhite(pixelsOf(card), pixelsOf(white))
	if err != nil {
		return nil, err
	}
	return map[string]any{"colour": c.String()}, nil
}

func pixelsOf(data []byte) []colour.RGB {
	list := make([]colour.RGB, 0, len(data)/4)
	for i := 0; i+3 < len(data); i += 4 {
		list = append(list, colour.RGB{R: data[i], G: data[i+1], B: data[i+2]})
	}
	return list
}
