// Package nest lays all parts of one stock onto few sheets: true shapes,
// quarter turns, small parts inside the holes of large ones, offcuts first.
//
// Lengths are whole micrometres, x runs right and y up from a sheet's lower
// left corner. Axis-parallel outlines are handled exactly; an outline with
// arcs is covered by narrow rows that never lie inside it, so that it keeps
// its distance too.
//
// The gap is kept along an axis: two neighbours are apart by at least the gap
// in x or in y (Chebyshev distance). So they are at least the gap apart in any
// direction, and corner to corner a little more.
//
// Effort is counted in rounds of a fixed amount of work, never in time: the
// same job gives the same answer on every machine with any number of workers.
package nest

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// Job is what is to be nested: the pieces of one stock and what they may be
// cut from.
type Job struct {
	Pieces []Piece
	Supply Supply
	Gap    shape.Um    // least distance between the cut lines of neighbours; 0: they may share edges
	Fixed  []Placement // honoured as they are: locked, moved by hand, or found earlier
	// Beside is how many copies are nested at the same time in other jobs, of
	// other stocks. Many in all make each first answer a quick one.
	Beside int
}

// Piece is a part as it is cut, in one or several copies.
type Piece struct {
	ID       string        // for messages
	Outline  shape.Outline // the line that is cut (kerf counted), outer contour and holes, wherever it lies
	Copies   int           // at least 1
	Turns    Turns
	Together string // all pieces with this name share a sheet, copy by copy; "" shares with anybody
}

// Turns says how a piece may be turned; it is never flipped.
type Turns uint8

// The ways a piece may be turned.
const (
	QuarterTurns Turns = iota // any way round
	HalfTurns                 // upside down at most: stock with grain
	AsDrawn                   // not at all
)

// Supply is what there is to cut from.
type Supply struct {
	Offcuts []Size   // used first, in this order, one each
	Sheets  []Sheets // used next, in this order
	Margins Margins  // of every sheet and offcut
}

// Size is a sheet's extent.
type Size struct{ Width, Height shape.Um }

// Sheets is a number of equal sheets.
type Sheets struct {
	Size
	Count int // 0: as many as needed
}

// Margins are what must stay free of cut lines along a sheet's edges.
type Margins struct{ Left, Right, Bottom, Top shape.Um }

// Even is the same margin on all sides.
func Even(m shape.Um) Margins { return Margins{m, m, m, m} }

// Largest lengths that are taken, so that areas and sums stay far inside 64
// bits: a sheet of 100 m.
const largest = 100_000 * shape.Mm

// maxSheets is how many sheets are counted, offcuts included.
const maxSheets = 4096

// Validate names the first rule that j breaks. A piece that is too large for
// every sheet is no mistake here: it comes back in Nesting.Unplaced.
func (j Job) Validate() error {
	if j.Gap < 0 || j.Gap > largest {
		return fmt.Errorf("gap is %d µm, but must be 0 to %d", j.Gap, largest)
	}
	m := j.Supply.Margins
	for _, d := range []shape.Um{m.Left, m.Right, m.Bottom, m.Top} {
		if d < 0 || d > largest {
			return fmt.Errorf("a margin is %d µm, but must be 0 to %d", d, largest)
		}
	}
	if len(j.Supply.Offcuts)+len(j.Supply.Sheets) == 0 {
		return fmt.Errorf("there is no sheet to nest on: give at least one size")
	}
	for i, s := range j.Supply.Offcuts {
		if err := s.validate(); err != nil {
			return fmt.Errorf("offcut %d: %w", i+1, err)
		}
	}
	for i, s := range j.Supply.Sheets {
		if err := s.validate(); err != nil {
			return fmt.Errorf("sheet size %d: %w", i+1, err)
		}
		if s.Count < 0 {
			return fmt.Errorf("sheet size %d: there are %d of it, but must be 0 (as many as needed) or more", i+1, s.Count)
		}
	}
	for i, p := range j.Pieces {
		if err := p.validate(); err != nil {
			return fmt.Errorf("piece %d (%q): %w", i+1, p.ID, err)
		}
	}
	return j.validateFixed()
}

func (s Size) validate() error {
	if s.Width <= 0 || s.Height <= 0 || s.Width > largest || s.Height > largest {
		return fmt.Errorf("size is %d × %d µm, but both must be 1 to %d", s.Width, s.Height, largest)
	}
	return nil
}

func (p Piece) validate() error {
	if p.Copies < 1 {
		return fmt.Errorf("copies are %d, but must be at least 1", p.Copies)
	}
	if p.Turns > AsDrawn {
		return fmt.Errorf("there is no way of turning %d", p.Turns)
	}
	w, h := p.Outline.Bounds().Size()
	if w <= 0 || h <= 0 || p.Outline.Area() <= 0 {
		return fmt.Errorf("its outline encloses nothing")
	}
	if w > largest || h > largest {
		return fmt.Errorf("it is %d × %d µm, but at most %d is taken", w, h, largest)
	}
	return nil
}

func (j Job) validateFixed() error {
	seen := map[[2]int]bool{}
	for i, f := range j.Fixed {
		switch {
		case f.Piece < 0 || f.Piece >= len(j.Pieces) || f.Copy < 0 || f.Copy >= j.Pieces[f.Piece].Copies:
			return fmt.Errorf("fixed placement %d is of piece %d, copy %d, which isn't there", i+1, f.Piece, f.Copy)
		case seen[[2]int{f.Piece, f.Copy}]:
			return fmt.Errorf("fixed placement %d is of piece %d, copy %d, which has one already", i+1, f.Piece, f.Copy)
		case f.Sheet < 0 || f.Sheet >= maxSheets || f.Turn > 3:
			return fmt.Errorf("fixed placement %d has sheet %d and turn %d, but sheets are 0 to %d and turns 0 to 3", i+1, f.Sheet, f.Turn, maxSheets-1)
		}
		seen[[2]int{f.Piece, f.Copy}] = true
	}
	return nil
}
