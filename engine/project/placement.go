package project

import "sheetsprite/engine/shape"

// Placement is where a copy of a part lies on its sheet, found or moved by hand.
type Placement struct {
	Sprite string // its name
	Copy   int    // from 1
	Part   string // its number, as A2-3
	Stock  string // ID
	Sheet  int    // from 1 through what there is of the stock: offcuts, then sheets
	X, Y   shape.Um
	// X, Y is the lower left corner of the bounds of its cut line on the sheet,
	// Turn the quarter turns anticlockwise.
	Turn  int
	Held  Held
	Extra Extra
}

// Held says why a part lies where it lies.
type Held string

// The ways in which a part came to its place. All are honoured; a search may
// only change those that were found.
const (
	Found  Held = "found"
	Moved  Held = "moved"  // by hand
	Locked Held = "locked" // by hand, and not to be moved any more
)

// MaxPlacements is how many places a project saves.
const MaxPlacements = 20000

func (q *Placement) validate(sprites map[string]int, stocks map[string]bool) error {
	switch {
	case q.Part == "":
		return wrong("names no part: give its number, as in A2-3")
	case len(q.Part) > 40:
		return wrong("part is longer than a number: give one as in A2-3")
	}
	if _, ok := sprites[q.Sprite]; !ok {
		return wrong("is of the sprite %s, which isn't in the project: take the placement out", quote(q.Sprite))
	}
	if !stocks[q.Stock] {
		return wrong("is on the stock %s, which isn't among the stocks: take the placement out", quote(q.Stock))
	}
	return first(
		between("copy", q.Copy, 1, MaxCopies),
		between("sheet", q.Sheet, 1, MaxSheets),
		within("at_mm", min(q.X, q.Y), 0, 10000*shape.Mm),
		within("at_mm", max(q.X, q.Y), 0, 10000*shape.Mm),
		between("turn", q.Turn, 0, 3),
		oneOf("held", q.Held, Found, Moved, Locked),
		checkExtra(q.Extra, names(placementFields)),
	)
}
