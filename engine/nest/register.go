package nest

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// Register is a job where every layer stays at its true place, so that sheets
// laid on one another are in register: a sheet for each layer and copy.
type Register struct {
	Pieces []Piece // outlines where they truly lie; turns and Together count for nothing
	Layers [][]int // indices into Pieces; the pieces of a layer have equal copies
	Supply Supply  // each layer takes the first sheet left that holds it, offcuts first
	Low    []shape.Point
	// Low is, for each layer, the lower left corner of the bounds of the cut lines
	// of all layers of its sprite, of other stocks too: what comes to lie where the
	// margins meet.
}

// InRegister gives every layer its sheets. Where a layer fits none that is
// left, all its pieces are unplaced. The gap is not looked at: what lies in
// register can't give way.
//
// Errors: the first rule that is broken.
func InRegister(r Register) (Nesting, error) {
	if err := r.validate(); err != nil {
		return Nesting{}, err
	}
	p := &problem{job: Job{Pieces: r.Pieces, Supply: r.Supply}}
	var a Nesting
	taken := map[int]bool{}
	for l, layer := range r.Layers {
		var b shape.Rect
		for _, i := range layer {
			b = b.Union(r.Pieces[i].Outline.Bounds())
		}
		for c := range r.Pieces[layer[0]].Copies {
			n, why := p.sheetFor(b, r.Low[l], taken)
			taken[n] = n >= 0
			for _, i := range layer {
				if n < 0 {
					a.Unplaced = append(a.Unplaced, Unplaced{i, c, why})
					continue
				}
				at := r.Pieces[i].Outline.Bounds().Min.Sub(r.Low[l]).Add(p.corner())
				a.Placements = append(a.Placements, Placement{Piece: i, Copy: c, Sheet: n, At: at})
			}
		}
	}
	sortPlacements(a.Placements)
	sortUnplaced(a.Unplaced)
	a.Sheets = p.sheetsOf(a.Placements)
	return a, nil
}

// sheetFor is the first sheet left that holds b; -1 and why where there is none.
func (p *problem) sheetFor(b shape.Rect, low shape.Point, taken map[int]bool) (int, Reason) {
	why := TooLarge
	high := b.Max.Sub(low)
	for n := range maxSheets {
		s, ok := p.sheet(n)
		if !ok {
			break
		}
		if high.X > s.w || high.Y > s.h {
			if s.endless {
				break
			}
			continue
		}
		if !taken[n] {
			return n, 0
		}
		why = OutOfRoom
	}
	return -1, why
}

func (r Register) validate() error {
	if err := (Job{Pieces: r.Pieces, Supply: r.Supply}).Validate(); err != nil {
		return err
	}
	if len(r.Low) != len(r.Layers) {
		return fmt.Errorf("there are %d common corners for %d layers", len(r.Low), len(r.Layers))
	}
	seen := make([]bool, len(r.Pieces))
	for n, layer := range r.Layers {
		if len(layer) == 0 {
			return fmt.Errorf("layer %d has no pieces", n+1)
		}
		for _, i := range layer {
			switch {
			case i < 0 || i >= len(r.Pieces):
				return fmt.Errorf("layer %d names piece %d, which isn't there", n+1, i)
			case seen[i]:
				return fmt.Errorf("layer %d names piece %d (%q), which a layer has already", n+1, i, r.Pieces[i].ID)
			case r.Pieces[i].Copies != r.Pieces[layer[0]].Copies:
				return fmt.Errorf("layer %d has pieces with different numbers of copies", n+1)
			}
			if b := r.Pieces[i].Outline.Bounds(); b.Min.X < r.Low[n].X || b.Min.Y < r.Low[n].Y {
				return fmt.Errorf("layer %d: piece %d (%q) reaches below or left of the common corner", n+1, i, r.Pieces[i].ID)
			}
			seen[i] = true
		}
	}
	for i, s := range seen {
		if !s {
			return fmt.Errorf("piece %d (%q) is in no layer", i, r.Pieces[i].ID)
		}
	}
	return nil
}
