package engine

import (
	"sheetsprite/engine/cut"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// inRegister leaves every layer at its true place.
func inRegister(p *project.Project, plan *Planned, parts []Part, job nest.Job, who [][]int) (nest.Nesting, error) {
	r := nest.Register{Pieces: job.Pieces, Supply: job.Supply}
	layers := map[*outline.Layer]int{} // only asked
	for i, copies := range who {
		part := &parts[copies[0]]
		l, known := layers[part.Piece.Layer]
		if !known {
			l = len(r.Layers)
			layers[part.Piece.Layer] = l
			r.Layers = append(r.Layers, nil)
			r.Low = append(r.Low, corner(p, plan.Sprites[part.Sprite], plan.Sprites[part.Sprite].Stocks[part.Piece.Layer.Stock].Face))
		}
		r.Layers[l] = append(r.Layers[l], i)
	}
	return nest.InRegister(r)
}

// corner is the common corner of all layers of a sprite: half the largest kerf
// outside its bounds, which lie in a mirror where the face is down.
func corner(p *project.Project, sp Sprite, f project.Face) shape.Point {
	var most shape.Um
	for _, r := range cut.Rules(p, sp.Stocks) {
		most = max(most, cut.HalfKerf(r.Kerf))
	}
	if f == project.FaceDown {
		return shape.Point{X: -sp.Layout.Size.X - most, Y: -most}
	}
	return shape.Point{X: -most, Y: -most}
}

// turnsOf is how pieces of a stock may be turned: with a grain never by a quarter.
func turnsOf(stock project.Stock) nest.Turns {
	if stock.HasGrain() {
		return nest.HalfTurns
	}
	return nest.QuarterTurns
}

// leads says whether a part stands for all in its frame, or for itself.
func (p *Part) leads(index int) bool { return p.Frame == nil || p.Frame.Members[0] == index }

// nested is what is nested for a part: its cut line, or its frame's; in a mirror where
// the face is down.
func (p *Part) nested(face project.Face) shape.Outline {
	piece := p.Piece
	if p.Frame != nil {
		piece = p.Frame.Piece
	}
	if face == project.FaceDown {
		return piece.Mirrored().Line
	}
	return piece.Line
}

// within is from the lower left corner of what is nested for a part, turned, to that
// of its own cut line.
func (p *Part) within(face project.Face, turn nest.Quarter) shape.Point {
	if p.Frame == nil {
		return shape.Point{}
	}
	own := p.Piece.Line
	if face == project.FaceDown {
		own = p.Piece.Mirrored().Line
	}
	return turn.Outline(own).Bounds().Min.Sub(turn.Outline(p.nested(face)).Bounds().Min)
}

// nestJob is what is nested of a stock; who[piece][copy] is the index into parts.
func nestJob(p *project.Project, plan *Planned, parts []Part, stock project.Stock) (job nest.Job, who [][]int) {
	at := map[*cut.Piece]int{} // only asked
	places := map[placeKey]*project.Placement{}
	for i := range p.Places {
		if q := &p.Places[i]; q.Stock == stock.ID {
			places[placeKey{q.Sprite, q.Part, q.Copy}] = q
		}
	}
	turns := turnsOf(stock)
	for i, part := range parts {
		sp := plan.Sprites[part.Sprite]
		if sp.Stocks[part.Piece.Layer.Stock].ID != stock.ID || !part.leads(i) {
			continue
		}
		name := p.Sprites[sp.Index].Name
		n, known := at[part.Piece]
		if !known {
			n = len(who)
			at[part.Piece] = n
			who = append(who, nil)
			piece := nest.Piece{ID: part.Piece.Number, Outline: part.nested(stock.Face), Turns: turns}
			if p.Settings.Group == project.BySprite {
				piece.Together = name
			}
			job.Pieces = append(job.Pieces, piece)
		}
		if q, ok := places[placeKey{name, part.Piece.Number, part.Copy}]; ok && len(p.Choice.Parts) == 0 {
			turn := nest.Quarter(q.Turn)
			job.Fixed = append(job.Fixed, nest.Placement{
				Piece: n, Copy: len(who[n]), Sheet: q.Sheet - 1, At: shape.Point{X: q.X, Y: q.Y}.Sub(part.within(stock.Face, turn)), Turn: turn,
			})
		}
		job.Pieces[n].Copies++
		who[n] = append(who[n], i)
	}
	job.Gap = p.Settings.Gap
	job.Supply = supplyOf(p, stock)
	return job, who
}

// supplyOf is what there is of a stock, and what must stay free of it.
func supplyOf(p *project.Project, stock project.Stock) nest.Supply {
	var out nest.Supply
	offcuts, sheets, more := p.SheetSizes(stock)
	for _, c := range offcuts {
		out.Offcuts = append(out.Offcuts, nest.Size{Width: c.W, Height: c.H})
	}
	for _, sh := range sheets {
		out.Sheets = append(out.Sheets, nest.Sheets{Size: nest.Size{Width: sh.W, Height: sh.H}, Count: sh.Count})
	}
	// When the shelf is empty more of the largest size are planned, and a
	// finding says so.
	out.Sheets = append(out.Sheets, nest.Sheets{Size: nest.Size{Width: more.W, Height: more.H}})
	out.Margins.Left, out.Margins.Right, out.Margins.Bottom, out.Margins.Top = cut.Margins(p)
	return out
}
