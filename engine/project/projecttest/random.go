package projecttest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Random makes a project within the rules of project.Validate, with every
// field set now and then, hostile names and unknown fields at every depth. The
// same seed gives the same project.
func Random(seed uint64) *project.Project {
	g := generator{rand.New(rand.NewPCG(seed, 0x5337))}
	p := &project.Project{Name: g.name(), Extra: g.extra()}
	for range 1 + g.IntN(6) {
		p.Stocks = append(p.Stocks, g.stock(len(p.Stocks)))
	}
	for range 1 + g.IntN(project.MaxPalette) {
		key, _ := project.NewKey(p.Palette)
		p.Palette = append(p.Palette, project.Colour{
			Key: key, Name: g.name(), RGB: g.rgb(), Stock: p.Stocks[g.IntN(len(p.Stocks))].ID, Extra: g.extra(),
		})
	}
	g.Shuffle(len(p.Palette), func(i, j int) { p.Palette[i], p.Palette[j] = p.Palette[j], p.Palette[i] })
	p.Settings = g.settings(p.Stocks)
	taken := map[string]bool{}
	for range 1 + g.IntN(5) {
		s := g.sprite(p.Palette)
		if !taken[s.Name] {
			taken[s.Name] = true
			p.Sprites = append(p.Sprites, s)
		}
	}
	g = generator{rand.New(rand.NewPCG(seed, 0x5338))}
	p.Lettered = g.IntN(3) * g.IntN(30)
	for i := range p.Sprites {
		if g.IntN(2) == 0 {
			p.Sprites[i].Numbers = g.numbers()
		}
	}
	return p
}

type generator struct{ *rand.Rand }

func (g generator) name() string { return hostile[g.IntN(len(hostile))] }

func (g generator) rgb() project.RGB {
	return project.RGB{R: uint8(g.IntN(256)), G: uint8(g.IntN(256)), B: uint8(g.IntN(256))}
}

// um is a length from low to high.
func (g generator) um(low, high shape.Um) shape.Um {
	return low + shape.Um(g.Int64N(int64(high-low+1)))
}

// extra is mostly nothing.
func (g generator) extra() project.Extra {
	if g.IntN(4) > 0 {
		return nil
	}
	values := []string{`null`, `1e999`, `-0.10`, `"\ud83d\ude00 <&"`, `[]`, `{"b":1,"a":[{},[[2]]]}`, `true`}
	extra := project.Extra{"later": json.RawMessage(values[g.IntN(len(values))])}
	if g.IntN(2) == 0 {
		extra[g.name()] = json.RawMessage(values[g.IntN(len(values))])
	}
	return extra
}

func (g generator) stock(i int) project.Stock {
	shelf := project.Starter()
	s := shelf[g.IntN(len(shelf))]
	s.ID += "-" + string(rune('a'+i))
	s.Name, s.Colour, s.Extra = g.name(), g.rgb(), g.extra()
	if g.IntN(2) == 0 {
		s.Thickness, s.Kerf, s.LeastStrip = g.um(10, 100*shape.Mm), g.um(0, 10*shape.Mm), g.um(0, 100*shape.Mm)
		s.SheetW, s.SheetH, s.Typical = g.um(10*shape.Mm, 1000*shape.Mm), g.um(10*shape.Mm, 1000*shape.Mm), false
		s.Laser = []project.Laser{project.LaserFine, project.LaserUnknown, project.LaserNever}[g.IntN(3)]
	}
	return s
}

func (g generator) settings(stocks []project.Stock) project.Settings {
	s := project.DefaultSettings()
	s.Extra = g.extra()
	if g.IntN(2) == 0 {
		return s
	}
	kerf := g.um(0, 10*shape.Mm)
	s.Corners, s.Edge, s.Hold, s.Kerf = project.Apart, project.Round, project.Light, &kerf
	s.Join, s.Border, s.FillIn = g.um(0, 25*shape.Mm), g.um(0, 100*shape.Mm), g.IntN(2) == 0
	s.SheetW, s.SheetH = g.um(100*shape.Mm, 1000*shape.Mm), g.um(100*shape.Mm, 1000*shape.Mm)
	s.Tab = g.um(project.LeastTab, project.MostTab)
	s.Margin, s.Gap, s.Effort = g.um(0, 49*shape.Mm), g.um(0, 100*shape.Mm), g.IntN(10)
	s.Large = []project.Large{"", project.LargeWhole, project.LargeSplit}[g.IntN(3)]
	s.JigClear = g.um(0, project.MostClear)
	s.Pins = []shape.Um{0, project.LeastPin, project.UsualPin, project.MostPin}[g.IntN(4)]
	s.Cover = g.um(0, 1000*shape.Mm)
	s.Paper, s.Units = project.PaperLetter, project.OnlyMm
	s.Backer = stocks[g.IntN(len(stocks))].ID
	return s
}

func (g generator) sprite(palette []project.Colour) project.Sprite {
	s := project.NewSprite(g.name(), 1+g.IntN(20), 1+g.IntN(20))
	if g.IntN(20) == 0 {
		s = project.NewSprite(s.Name, project.MaxSide, project.MaxSide)
	}
	s.Copies, s.Cell, s.Extra = 1+g.IntN(project.MaxCopies), g.um(project.MinCell, project.MaxCell), g.extra()
	mine := palette[:min(len(palette), 1+g.IntN(project.MaxSpriteColours))]
	s.Frames = nil
	for range 1 + g.IntN(3) {
		f := project.NewSprite("", s.W, s.H).Frames[0]
		for i := range f.Cells {
			if g.IntN(3) > 0 {
				f.Cells[i] = mine[g.IntN(len(mine))].Key
			}
		}
		f.Extra = g.extra()
		s.Frames = append(s.Frames, f)
	}
	s.Stack = g.stack(mine)
	for range g.IntN(3) {
		s.Stack.Whole = append(s.Stack.Whole, project.Whole{Height: 1 + g.IntN(9), Stock: "card", Extra: g.extra()})
	}
	return s
}

func (g generator) numbers() project.Numbers {
	n := project.Numbers{Letters: []string{"", "A", "ZZ"}[g.IntN(3)], Extra: g.extra()}
	for height := range 1 + g.IntN(3) {
		number := 0
		for range g.IntN(4) {
			number += 1 + g.IntN(9)
			n.Parts = append(n.Parts, project.Numbered{
				Height: 1 + height, Number: number, Print: fmt.Sprintf("%016x", g.Uint64()),
				Col: g.IntN(project.MaxSide), Row: g.IntN(project.MaxSide), Extra: g.extra(),
			})
		}
	}
	return n
}

func (g generator) stack(mine []project.Colour) project.Stack {
	t := project.DefaultStack()
	t.Extra = g.extra()
	if len(mine) < 3 || g.IntN(2) == 0 {
		return t
	}
	t.Style = []project.Style{project.Fewest, project.SideBySide, project.ByHand}[g.IntN(3)]
	t.ExtraHeights = g.IntN(project.MaxExtraHeights + 1)
	for _, c := range mine {
		t.Order += string(rune(c.Key))
	}
	a, b := mine[0].Key, mine[1].Key
	t.Lowest, t.Highest = string(rune(a)), string(rune(b))
	t.Foam, t.Float, t.FloatBy = []shape.Um{0, g.um(project.LeastFloat, project.MostFloat)}[g.IntN(2)], 0, g.um(project.LeastFloat, project.MostFloat)
	if g.IntN(2) == 0 {
		t.Float = project.LowestFloat + g.IntN(6)
	}
	t.OutlineOnTop, t.Spare = t.Highest, t.Order[1:]
	t.Under = []project.Under{{Under: a, Over: b}, {Under: b, Over: mine[2].Key, Extra: g.extra()}}
	return t
}
