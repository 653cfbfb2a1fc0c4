package engine

import (
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// placeKey is what a saved place is of.
type placeKey struct {
	sprite, part string
	copy         int
}

// Placements are the places of all parts as a project saves them: those that it
// had before stay moved or locked.
func (s *Sheets) Placements(p *project.Project, plan *Planned) []project.Placement {
	held := map[placeKey]project.Held{} // only asked
	for _, q := range p.Places {
		held[placeKey{q.Sprite, q.Part, q.Copy}] = q.Held
	}
	var out []project.Placement
	for _, part := range s.Parts {
		if part.Sheet < 0 {
			continue
		}
		sheet, b := &s.List[part.Sheet], part.Line.Bounds()
		q := project.Placement{
			Sprite: p.Sprites[plan.Sprites[part.Sprite].Index].Name, Copy: part.Copy, Part: part.Piece.Number,
			Stock: sheet.Stock.ID, Sheet: sheet.Supply + 1, X: b.Min.X, Y: b.Min.Y, Turn: int(part.Turn), Held: project.Found,
		}
		if h, ok := held[placeKey{q.Sprite, q.Part, q.Copy}]; ok {
			q.Held = h
		}
		out = append(out, q)
	}
	return out
}

// Snap moves a part to the free place on its sheet that is nearest to where it
// is wanted, with its whole frame where it lies in one: within the margins, the gap from all others. ok is false where there
// is none, or the stock's grain forbids that turn. want names the part as saved
// places do; Sheet may be another sheet of its stock.
func (s *Sheets) Snap(p *project.Project, plan *Planned, want project.Placement) (got project.Placement, ok bool) {
	for i := range s.List {
		if s.List[i].Stock.ID != want.Stock {
			continue
		}
		face := s.List[i].Stock.Face
		job, who := nestJob(p, plan, s.Parts, s.List[i].Stock)
		job.Fixed = nil
		var others []nest.Placement
		moved := nest.Placement{Piece: -1}
		var off shape.Point // from what is moved to the part that is meant
		for piece, copies := range who {
			for c, k := range copies {
				part := &s.Parts[k]
				if meant := s.named(k, p, plan, want); meant != nil {
					turn := nest.Quarter(want.Turn & 3)
					off = meant.within(face, turn)
					moved = nest.Placement{
						Piece: piece, Copy: c, Sheet: want.Sheet - 1, At: shape.Point{X: want.X, Y: want.Y}.Sub(off), Turn: turn,
					}
				} else if part.Sheet >= 0 {
					others = append(others, nest.Placement{
						Piece: piece, Copy: c, Sheet: s.List[part.Sheet].Supply, At: part.Line.Bounds().Min.Sub(part.within(face, part.Turn)), Turn: part.Turn,
					})
				}
			}
		}
		if moved.Piece < 0 {
			return want, false
		}
		moved, ok = nest.Snap(job, others, moved)
		want.X, want.Y = moved.At.X+off.X, moved.At.Y+off.Y
		return want, ok
	}
	return want, false
}

// named is the part that a place names, if it is the one at that index or lies in
// its frame.
func (s *Sheets) named(index int, p *project.Project, plan *Planned, want project.Placement) *Part {
	members := []int{index}
	if f := s.Parts[index].Frame; f != nil {
		members = f.Members
	}
	for _, k := range members {
		part := &s.Parts[k]
		if p.Sprites[plan.Sprites[part.Sprite].Index].Name == want.Sprite && part.Copy == want.Copy && part.Piece.Number == want.Part {
			return part
		}
	}
	return nil
}
