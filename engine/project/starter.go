package project

import (
	"strings"

	"sheetsprite/engine/shape"
)

// Starter is the shelf that a maker starts with. All figures are typical ones
// (common practice, no source) and marked so; the maker changes what differs.
// Each call returns a new list.
func Starter() []Stock {
	shelf := []Stock{
		{ID: "card", Name: "Card, 220–300 g/m²", Kind: Card, Colour: RGB{R: 0xf2, G: 0xee, B: 0xe4}},
		{ID: "paper", Name: "Paper, 120 g/m²", Kind: Paper, Colour: RGB{R: 0xfa, G: 0xf9, B: 0xf5}},
		{ID: "mount-board", Name: "Mount board", Kind: MountBoard, Colour: RGB{R: 0xee, G: 0xe9, B: 0xdc}},
		{ID: "grey-board", Name: "Grey board", Kind: GreyBoard, Colour: RGB{R: 0xa3, G: 0x9e, B: 0x93}},
		{ID: "craft-foam", Name: "Craft foam (EVA sold as laser-safe)", Kind: CraftFoam, Colour: RGB{R: 0xe8, G: 0xb8, B: 0x4a}},
		{ID: "felt", Name: "Felt (wool)", Kind: Felt, Colour: RGB{R: 0x8c, G: 0x3f, B: 0x46}},
		{ID: "plywood", Name: "Plywood", Kind: Plywood, Colour: RGB{R: 0xd2, G: 0xb4, B: 0x8a}},
		{ID: "acrylic", Name: "Cast acrylic, clear", Kind: Acrylic, Colour: RGB{R: 0xdf, G: 0xec, B: 0xf0}},
	}
	for i := range shelf {
		shelf[i] = withTypical(shelf[i])
	}
	return shelf
}

// figures of a kind of stock.
type figures struct {
	thickness, kerf, strip shape.Um
	laser                  Laser
}

// typical figures: common practice, no source. Where practice gives a range,
// its middle. Craft foam is lasered only if the maker knows what it is.
var typical = map[Kind]figures{
	Paper:      {150, 80, 400, LaserFine},
	Card:       {300, 100, 600, LaserFine},
	MountBoard: {1400, 150, 1500, LaserFine},
	GreyBoard:  {2000, 180, 2000, LaserFine},
	CraftFoam:  {2000, 750, 3000, LaserUnknown},
	Felt:       {1500, 200, 2000, LaserFine},
	Plywood:    {3000, 200, 2000, LaserFine},
	Acrylic:    {3000, 165, 2000, LaserFine},
	Other:      {1000, 200, 2000, LaserUnknown},
}

// withTypical is s with the typical figures of its kind.
func withTypical(s Stock) Stock {
	f := typical[s.Kind]
	s.Thickness, s.Kerf, s.LeastStrip, s.Laser, s.Typical = f.thickness, f.kerf, f.strip, f.laser, true
	return s
}

// CardFor is card of this colour with typical figures, named and numbered
// after it: "card-1a2b3c".
func CardFor(c RGB) Stock {
	hex := c.String()
	return withTypical(Stock{
		ID:     "card-" + strings.TrimPrefix(hex, "#"),
		Name:   "Card " + hex,
		Kind:   Card,
		Colour: c,
	})
}
