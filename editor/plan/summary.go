package plan

import (
	"encoding/json"

	"sheetsprite/engine/shape"
)

// Typical seconds to glue a part on (common practice, no source).
const (
	PlaceSeconds  = 45
	FiddlySeconds = 90 // a part for tweezers
)

// Tweezers: a part whose longer side is under this is for tweezers (common
// practice, no source).
const Tweezers = 4 * shape.Mm

// Summary is what became of one sprite, one copy of it.
type Summary struct {
	Revision uint64 // of the request that it was made from
	Sprite   int    // ID
	Final    bool   // false: after the first step, a better one may follow
	Problem  string // one sentence why there is no plan; everything below is then zero

	Parts    int // backer included
	Patches  int // parts if each patch were cut by itself, never with a backer
	Heights  int
	Tweezers int // parts with a longer side under 4 mm
	Seconds  int // to glue them all, typically

	Colours  []Colour // highest place first
	Findings []Finding
	Geometry Geometry
}

// Colour is what became of a palette entry. Parts of one stock that several
// entries share count for each entry that shows on them.
type Colour struct {
	Key     byte   // 0 for the backer
	Stock   string // ID
	Heights []int  // where it lies, lowest first
	Parts   int
}

// Finding is something to know before cutting.
type Finding struct {
	Code   string
	Text   string
	Places []Place // on the grid; none where it concerns the whole
	Remedy *Remedy
}

// Place is a point in cell coordinates, x right and y down from the grid's
// upper left corner, and the part that the finding is about.
type Place struct {
	X, Y float64
	Part int // into Geometry, -1 for none
}

// Remedy is what can be done about a finding: an editor command that can be undone.
type Remedy struct {
	Title   string // what the button says
	Command string
	Args    json.RawMessage
}

// Geometry is all parts' shapes, in few large slices so that collecting
// garbage stays cheap. Lengths are µm in the layers' coordinates (y up); arcs
// are given as short lines: this is for looking at, not for cutting.
//
// Part p is rings Rings[p] to Rings[p+1]−1, its outer one first; ring r is
// points Starts[r] to Starts[r+1]−1; point i is Points[2i], Points[2i+1].
type Geometry struct {
	Cell       int32 // side of a cell
	Cols, Rows int32 // the grid
	GridX      int32 // the grid's lower left corner
	GridY      int32
	SizeX      int32 // upper right corner of all layers' bounds
	SizeY      int32

	Heights []int32 // each part's height, 1 is lowest
	On      []int32 // the part that each rests on, -1 for the board
	Colours []int32 // each part's place in Summary.Colours: the first that shows on it
	Layers  []int32 // each part's layer, 1 is lowest
	Bounds  []int32 // four for each part: left, bottom, right, top
	Rings   []int32 // len parts+1
	Starts  []int32 // len rings+1
	Points  []int32
}

// Len is the number of parts.
func (g *Geometry) Len() int { return len(g.Heights) }
