package engine

import (
	"fmt"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// A job's worst places fit this much card.
const (
	worstW    = 60 * shape.Mm
	worstH    = 40 * shape.Mm
	worstSide = 16 * shape.Mm // of what is cut out of a part about a place
)

// sample is a piece of the job.
type sample struct {
	says    string
	outline shape.Outline
	number  string
	joins   []shape.Rect
}

// worst is a stock's narrowest strip, smallest part, a join, a tab and a number,
// as this job has them, on at most 60 × 40 mm.
func worst(p *project.Project, plan *Planned, m project.Machine, stock project.Stock, use project.Use) (TestPiece, error) {
	rule := cut.Rules(p, []project.Stock{stock})[0]
	rule.Face = project.FaceUp
	job := nest.Job{Gap: shape.Mm, Supply: nest.Supply{
		Sheets: []nest.Sheets{{Size: nest.Size{Width: worstW, Height: worstH}, Count: 1}}, Margins: nest.Even(max(500, cut.Reach(m))),
	}}
	t := TestPiece{Kind: Worst}
	var pieces []cut.Piece
	for _, s := range worstPlaces(p, plan, stock) {
		piece := cut.Sample(s.outline, s.number, s.joins, rule)
		if len(piece.Faults) > 0 {
			continue
		}
		pieces = append(pieces, piece)
		t.Samples = append(t.Samples, s.says)
		job.Pieces = append(job.Pieces, nest.Piece{ID: s.says, Outline: piece.Line, Copies: 1})
	}
	n, err := nest.Nest(job, 1, 1)
	if err != nil {
		return t, err
	}
	tester := newTester(m, stock, use, worstW, worstH)
	sheet := &tester.sheet
	sheet.Kerf = rule.Kerf
	r := &sheet.lines
	for _, pl := range n.Placements {
		piece := pieces[pl.Piece]
		line := pl.Outline(job.Pieces[pl.Piece])
		move := pl.At.Sub(pl.Turn.Outline(piece.Line).Bounds().Min)
		sheet.addLoops(line, piece.Tabs, -1, 0)
		for _, c := range piece.Strokes(false) {
			r.Marks = append(r.Marks, route.Mark{Path: pl.Turn.Contour(c).Moved(move)})
			sheet.Marks = append(sheet.Marks, NumberMark)
		}
	}
	r.Start, r.End, r.Passes = m.Corner(worstW, worstH), route.AtStart, use.Passes
	if err := (&Sheets{Machine: m}).finish(sheet); err != nil {
		return t, err
	}
	t.Sheet = *sheet
	return t, nil
}

// worstPlaces are the samples of a stock.
func worstPlaces(p *project.Project, plan *Planned, stock project.Stock) []sample {
	var strip, small, join sample
	var thinnest, least shape.Um2
	var joinSide shape.Um
	first := ""
	for _, sp := range plan.Sprites {
		numbers := sp.Numbers
		joins := make([][]shape.Rect, len(numbers))
		for _, j := range sp.Layout.Joins {
			joins[j.Part] = append(joins[j.Part], j.Square())
		}
		for i := range sp.Layout.Layers {
			l := &sp.Layout.Layers[i]
			if sp.Stocks[l.Stock].ID != stock.ID {
				continue
			}
			for k := range l.Parts {
				part := &l.Parts[k]
				name := numbers[part.Index]
				if first == "" {
					first = name
				}
				about := func(at shape.Point, says string) sample {
					return sample{says: fmt.Sprintf("%s of %s", says, name), outline: clipped(part.Outline, at), joins: joins[part.Index]}
				}
				b := part.Bounds
				w, h := b.Size()
				if a := shape.Um2(max(w, h)); least == 0 || a < least {
					least = a
					small = about(shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}, "the smallest part, or a piece")
				}
				if s, ok := inspect.Narrowest(part.Outline, max(3*shape.Mm, 2*stock.LeastStrip)); ok && (thinnest == 0 || s.Width2 < thinnest) {
					thinnest = s.Width2
					strip = about(s.At, "the narrowest strip")
				}
				for _, j := range sp.Layout.Joins {
					if j.Part == part.Index && (joinSide == 0 || j.Side < joinSide) {
						joinSide = j.Side
						join = about(j.At, "a join")
					}
				}
			}
		}
	}
	plate := sample{
		says: "a plate with tabs and the number " + first, number: first,
		outline: shape.Outline{Outer: rectangle(0, 0, 12*shape.Mm, 6*shape.Mm)},
	}
	var out []sample
	for _, s := range []sample{strip, small, join, plate} {
		if len(s.outline.Outer) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// clipped is what hangs together with the place of a part within a square about
// it; nothing where that is empty.
func clipped(o shape.Outline, at shape.Point) shape.Outline {
	for _, c := range append([]shape.Contour{o.Outer}, o.Holes...) {
		for i, v := range c {
			if d := c[(i+1)%len(c)].Sub(v.Point); v.Arc != nil || d.X != 0 && d.Y != 0 {
				return shape.Outline{} // a border goes round there: no place of a drawing
			}
		}
	}
	half := shape.Point{X: worstSide / 2, Y: worstSide / 2}
	window := shape.FromRects([]shape.Rect{{Min: at.Sub(half), Max: at.Add(half)}})
	var best shape.Polygon
	var far shape.Um = -1
	for _, q := range shape.FromPolygons(o.Polygon()).Intersect(window).Polygons(shape.BySides) {
		b := q.Bounds()
		d := max(b.Min.X-at.X, at.X-b.Max.X, b.Min.Y-at.Y, at.Y-b.Max.Y, 0)
		if far < 0 || d < far || d == far && q.Area() > best.Area() {
			best, far = q, d
		}
	}
	return best.Outline()
}

// TestPieces are the gauge, the ladder and the worst places of every stock that
// a plan uses.
//
// Errors: only of broken invariants.
func TestPieces(p *project.Project, plan *Planned, power, speed Range) ([]TestPiece, error) {
	var out []TestPiece
	m := p.Machine()
	for _, stock := range stocksInOrder(p, plan) {
		use := project.Use{Passes: 1, Order: project.ContourByContour}
		if p.Bench != nil {
			use, _ = p.Bench.UseOf(m.Name, stock.ID)
		}
		out = append(out, kerfGauge(m, stock, use))
		if m.Kind == project.LaserCutter {
			out = append(out, ladder(m, stock, use, power, speed))
		}
		w, err := worst(p, plan, m, stock, use)
		if err != nil {
			return nil, fmt.Errorf("stock %s: %w", stock.ID, err)
		}
		out = append(out, w)
	}
	return out, nil
}
