package nest

import "sheetsprite/engine/shape"

// Nesting is where everything went.
type Nesting struct {
	Placements []Placement // in order of piece, then copy
	Sheets     []Sheet     // those with a placement, in order of Number
	Unplaced   []Unplaced  // in order of piece, then copy
	Apart      []Apart     // pieces that were to share a sheet and couldn't, by name, then copy
	Released   []Released  // fixed placements that don't hold any more, in the job's order; nested anew
}

// Placement is where one copy of a piece lies.
type Placement struct {
	Piece int // index into Job.Pieces
	Copy  int // from 0
	// Sheet counts from 0 through the supply: offcuts, then sheets, each with
	// its number of them. So it stays what it is while others come and go.
	Sheet int
	At    shape.Point // lower left corner of the bounds of the turned outline, on the sheet
	Turn  Quarter
}

// Outline is the piece's outline where the placement puts it.
func (p Placement) Outline(piece Piece) shape.Outline {
	o := p.Turn.Outline(piece.Outline)
	return o.Moved(p.At.Sub(o.Bounds().Min))
}

// Sheet is one piece of stock on the machine's bed.
type Sheet struct {
	Number int // as in Placement
	Size   Size
	Origin Origin
	Index  int        // into Supply.Offcuts or Supply.Sheets
	Parts  int        // placements on it
	Used   shape.Rect // bounds of the cut lines on it
}

// Origin says where a sheet comes from.
type Origin uint8

// The origins of a sheet.
const (
	FromSheets Origin = iota
	FromOffcuts
)

// Unplaced is one copy of a piece that got no place.
type Unplaced struct {
	Piece, Copy int
	Why         Reason
}

// Reason says why a copy got no place.
type Reason uint8

// The reasons.
const (
	TooLarge  Reason = iota // for every sheet and offcut of the supply, whichever way it is turned
	OutOfRoom               // the supply is used up
)

// Apart names pieces that didn't fit onto one sheet together.
type Apart struct {
	Together string
	Copy     int
}

// Released is a fixed placement that couldn't be honoured.
type Released struct {
	Placement Placement
	Why       Clash
}

// Clash says what is wrong with a placement.
type Clash uint8

// The clashes. Fits is none.
const (
	Fits         Clash = iota
	NoSuchSheet        // the supply has fewer sheets
	OutsideSheet       // it reaches into the margin or beyond the sheet
	TooClose           // it overlaps another one or comes closer than the gap
	TurnedWrong        // the piece may not be turned this way
)
