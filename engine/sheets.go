package engine

import (
	"sheetsprite/engine/cut"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// Sheets is what the machine runs: all parts of all copies, stock by stock.
type Sheets struct {
	Machine project.Machine
	List    []Sheet       // by stock in the project's order, then number
	Parts   []Part        // all parts of all copies: by sprite, copy, then the part's index; one that is cut in pieces stands there piece by piece
	Jigs    []Jig         // what the maker wants to place parts with
	Pieces  [][]cut.Piece // of each of Planned.Sprites, by the parts' Index, then its spacers, whether they are cut now or not
}

// Sheet is one sheet on the bed, ready to cut. Coordinates are µm from its
// lower left corner.
type Sheet struct {
	Stock   project.Stock
	Number  int // of its stock, from 1
	Size    nest.Size
	Inner   shape.Rect // what its margins leave
	Offcut  bool
	Supply  int          // which it is of what there is: from 0 through offcuts, then sheets
	Face    project.Face // which one is up
	Kerf    shape.Um
	Use     project.Use // how the machine cuts it
	Placed  []int       // indices into Sheets.Parts
	Frames  []FrameOn   // round layers that are left whole
	Route   route.Route
	Loops   []LoopOf // what each of the route's loops is
	Marks   []MarkOf // what each of its marks is
	Seconds int
	lines   route.Sheet // until they are in order
}

// LoopOf says what a loop of a sheet's route is.
type LoopOf struct {
	Part  int // index into Sheets.Parts; -1 for a frame's
	Inner Inner
}

// Inner says whether a loop is a hole's.
type Inner bool

// MarkOf says what a mark of a sheet's route is.
type MarkOf uint8

// What marks are.
const (
	PlaceMark  MarkOf = iota // where a part on top goes
	NumberMark               // a part's number
)

// Part is one copy of a part and where it is cut.
type Part struct {
	Sprite   int // index into Planned.Sprites
	Copy     int // from 1
	Piece    *cut.Piece
	Sheet    int           // index into Sheets.List, -1 where it has none
	Line     shape.Outline // the cut line, on the sheet
	Turn     nest.Quarter  // from the layers' coordinates to the sheet's: mirrored where the face is down, turned, moved
	Move     shape.Point
	Numbered Numbered
	Frame    *Frame // that it stays in; nil where it is cut by itself
}

// First says whether it is a whole part, or the first piece of one that is cut in
// pieces.
func (p *Part) First() bool { return p.Piece.Of == "" || p.Piece.Number == p.Piece.Of+"/1" }

// Numbered says where a part's number stands.
type Numbered string

// The places of numbers.
const (
	OnPart  Numbered = "part"
	OnWaste Numbered = "waste" // on the sheet beside the part
	OnMap   Numbered = "map"   // only on the guide's map
)

// MostParts is how many parts, all copies counted, are laid on sheets at once:
// far more than anybody glues, few enough that nesting ends.
const MostParts = 5000
