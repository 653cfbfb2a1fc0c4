package project

import (
	"strings"

	"sheetsprite/engine/shape"
)

// StarterShelf is a shelf of card to begin with.
type StarterShelf struct {
	Name  string
	About string
	Shelf []Shelf
}

// starterCards are our own colours: no maker's range, no maker's names.
var starterCards = []struct {
	name   string
	colour RGB
}{
	{"Chalk white", RGB{R: 0xf6, G: 0xf4, B: 0xee}},
	{"Sail cream", RGB{R: 0xec, G: 0xdd, B: 0xbb}},
	{"Pebble grey", RGB{R: 0xb4, G: 0xb3, B: 0xae}},
	{"Slate grey", RGB{R: 0x6a, G: 0x70, B: 0x78}},
	{"Tar black", RGB{R: 0x22, G: 0x21, B: 0x24}},
	{"Buoy red", RGB{R: 0xc8, G: 0x2d, B: 0x2b}},
	{"Brick red", RGB{R: 0x8e, G: 0x3a, B: 0x32}},
	{"Lamp yellow", RGB{R: 0xf3, G: 0xc6, B: 0x2e}},
	{"Rope tan", RGB{R: 0xc6, G: 0x9a, B: 0x62}},
	{"Hull brown", RGB{R: 0x6b, G: 0x47, B: 0x2c}},
	{"Sunset orange", RGB{R: 0xe8, G: 0x7a, B: 0x2a}},
	{"Shell pink", RGB{R: 0xee, G: 0xb3, B: 0xb0}},
	{"Heather", RGB{R: 0x8a, G: 0x6b, B: 0xa3}},
	{"Night blue", RGB{R: 0x20, G: 0x2f, B: 0x57}},
	{"Sea blue", RGB{R: 0x28, G: 0x66, B: 0xa8}},
	{"Sky blue", RGB{R: 0x8f, G: 0xc2, B: 0xe3}},
	{"Lagoon teal", RGB{R: 0x1f, G: 0x83, B: 0x83}},
	{"Kelp green", RGB{R: 0x2f, G: 0x5d, B: 0x3a}},
	{"Grass green", RGB{R: 0x5f, G: 0xa0, B: 0x44}},
	{"Reed green", RGB{R: 0xb7, G: 0xc2, B: 0x72}},
}

// basicCards are the names of those that a first order has.
var basicCards = []string{"Chalk white", "Pebble grey", "Tar black", "Buoy red", "Lamp yellow", "Sea blue", "Grass green", "Hull brown"}

// StarterShelves are shelves to begin with: card of 240 g/m² in A4, typical
// figures, no sheets counted. Each call returns new lists.
func StarterShelves() []StarterShelf {
	all := StarterShelf{Name: "Twenty cards", About: "A full box of coloured card"}
	few := StarterShelf{Name: "Eight cards", About: "What a first order might have"}
	for _, c := range starterCards {
		s := Shelf{Stock: NewCard(c.name, c.colour)}
		all.Shelf = append(all.Shelf, s)
		for _, name := range basicCards {
			if name == c.name {
				few.Shelf = append(few.Shelf, s)
			}
		}
	}
	plain := StarterShelf{Name: "Sheet goods", About: "One of each kind of stock"}
	for _, s := range Starter() {
		plain.Shelf = append(plain.Shelf, Shelf{Stock: s})
	}
	return []StarterShelf{few, all, plain}
}

// NewCard is card of 240 g/m² in A4 with typical figures, its ID made of its
// name.
func NewCard(name string, c RGB) Stock {
	const weight = 240
	s := withTypical(Stock{ID: idOf(name), Name: name, Kind: Card, Colour: c, Weight: weight, Sides: BothSides})
	s.Thickness = TypicalThickness(Card, weight)
	s.SheetW, s.SheetH = 210*shape.Mm, 297*shape.Mm
	return s
}

// StarterNamed is the starter shelf of that name, however it is spelt: "Eight
// cards" is also eight-cards.
func StarterNamed(name string) (StarterShelf, bool) {
	for _, s := range StarterShelves() {
		if idOf(s.Name) == idOf(name) {
			return s, true
		}
	}
	return StarterShelf{}, false
}

// idOf makes an ID of a name: a-z, 0-9 and '-'; "stock" where nothing is left.
func idOf(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 48 {
			break
		}
	}
	if id := strings.Trim(b.String(), "-"); id != "" {
		return id
	}
	return "stock"
}
