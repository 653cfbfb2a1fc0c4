package project

// Style is how a drawing becomes parts.
type Style string

// The styles.
const (
	Fewest     Style = "fewest"       // a forest of few parts
	SideBySide Style = "side-by-side" // each patch as it shows, on a backer
	ByHand     Style = "by-hand"      // one order of colours for all
)

// Corners says what happens where cells touch only at a corner.
type Corners string

// What can happen at a corner.
const (
	Join  Corners = "join"
	Apart Corners = "apart"
)

// Edge is the look of the border's convex corners.
type Edge string

// The looks of a border.
const (
	Square    Edge = "square"
	Chamfered Edge = "chamfered"
	Round     Edge = "round"
)

// Hold is how parts stay in their sheet until they are broken out.
type Hold string

// The ways to hold parts.
const (
	Tabs  Hold = "tabs"
	Light Hold = "light" // power so low that a thread is left
)

// Kind is the family a stock belongs to; it gives the typical figures.
type Kind string

// The kinds of stock.
const (
	Paper      Kind = "paper"
	Card       Kind = "card"
	MountBoard Kind = "mount-board"
	GreyBoard  Kind = "grey-board"
	CraftFoam  Kind = "craft-foam"
	Felt       Kind = "felt"
	Plywood    Kind = "plywood"
	Acrylic    Kind = "acrylic"
	Other      Kind = "other"
)

// Laser says whether a stock may be cut with a laser.
type Laser string

// What is known about a stock under a laser. The zero value counts as Unknown.
const (
	LaserFine    Laser = "fine"
	LaserUnknown Laser = "unknown" // of unknown make: not before the maker knows what it is
	LaserNever   Laser = "never"   // PVC, vinyl, polycarbonate, ABS, anything with chlorine or fluorine
)

// Face is a side of a stock.
type Face string

// The face that is up while a stock is cut. The zero value counts as FaceUp.
const (
	FaceUp   Face = "up"   // the good face
	FaceDown Face = "down" // the good face lies on the bed: smoke stains the other, and the sheet is mirrored
)

// Sides says which faces of a stock have its colour.
type Sides string

// The faces. The zero value is not known.
const (
	OneSide   Sides = "one"
	BothSides Sides = "both"
)

// Grain is the side of a sheet along which its fibres lie: there it bends more
// easily and curls.
type Grain string

// The ways of the grain. The zero value is not known.
const (
	LongGrain  Grain = "long"  // along the sheet's longer side
	ShortGrain Grain = "short" // along the shorter one
	NoGrain    Grain = "none"  // felt, foam, acrylic
)

// HasGrain says whether the stock has a grain, so that its parts may not be turned by
// a quarter.
func (s Stock) HasGrain() bool { return s.Grain == LongGrain || s.Grain == ShortGrain }

// Layout is how parts come onto sheets.
type Layout string

// The layouts. The zero value counts as Nested.
const (
	Nested     Layout = "nested"   // all parts of a stock on as few sheets as may be
	InRegister Layout = "register" // every layer at its true place, a sheet for each
)

// Large says what becomes of parts that fit no sheet.
type Large string

// What becomes of them. The zero value counts as LargeWhole.
const (
	LargeWhole Large = "whole" // they stay whole and get no sheet
	LargeSplit Large = "split" // they are cut in pieces along the cells' lines
)

// Grouping says which parts are kept together.
type Grouping string

// The groupings. The zero value counts as Ungrouped.
const (
	Ungrouped Grouping = "free"   // a stock's parts share sheets as they fit
	BySprite  Grouping = "sprite" // a sprite's parts of one stock, copy by copy, share a sheet
)

// GuidePaper is what the guide is printed on.
type GuidePaper string

// The papers. The zero value goes by the sheets: Letter with sheets in inches,
// else A4.
const (
	PaperA4     GuidePaper = "a4"     // ISO 216
	PaperLetter GuidePaper = "letter" // 8.5 × 11 in
)

// Units are what the guide gives lengths in.
type Units string

// The units. The zero value goes by the paper: inches beside millimetres on
// Letter.
const (
	OnlyMm    Units = "mm"
	MmAndInch Units = "mm-in"
)
