package projecttest

import (
	"math/rand/v2"

	"sheetsprite/engine/project"
)

// Patches draws patches of some size, rather than noise, over a sprite's first
// frame, in the palette's colours; at least one cell has the palette's first.
func Patches(r *rand.Rand, s *project.Sprite, palette []project.Colour) {
	cells := s.Frames[0].Cells
	for i := range cells {
		switch {
		case i > 0 && r.IntN(2) == 0:
			cells[i] = cells[i-1]
		case i >= s.W && r.IntN(2) == 0:
			cells[i] = cells[i-s.W]
		case r.IntN(5) > 0:
			cells[i] = palette[r.IntN(len(palette))].Key
		}
	}
	cells[r.IntN(len(cells))] = palette[0].Key
}

// Cards is a project without sprites, of count colours, each with a card of its
// own; change sees every card before it is taken.
func Cards(count int, change func(*project.Stock)) *project.Project {
	p := &project.Project{Name: "quay", Settings: project.DefaultSettings()}
	for i := range count {
		stock := project.CardFor(project.RGB{R: uint8(40 * i)})
		change(&stock)
		p.Stocks = append(p.Stocks, stock)
		p.Palette = append(p.Palette, project.Colour{Key: 'a' + byte(i), Name: "colour", RGB: stock.Colour, Stock: stock.ID})
	}
	return p
}
