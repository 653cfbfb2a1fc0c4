package engine

import (
	"fmt"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// Jig is a jig with the sheets that its pieces are cut on, one for each.
type Jig struct {
	assemble.Jig
	Sprite int // index into Planned.Sprites
	Stock  project.Stock
	Clear  shape.Um // of its windows, on every side
	Pieces []JigPiece
}

// JigPiece is a jig's plate or its rim.
type JigPiece struct {
	Name  string // "plate" or "rim"
	Sheet Sheet
	Move  shape.Point // from the layers' coordinates to the sheet's
}

// JigFor is the jig for a height of a sprite, an index into Planned.Sprites; nil
// where there is none.
func (s *Sheets) JigFor(sprite, height int) *Jig {
	for i := range s.Jigs {
		if j := &s.Jigs[i]; j.Sprite == sprite && j.Height == height {
			return j
		}
	}
	return nil
}

// jigMargin is left about a jig's piece on its sheet, at least. Common practice, no
// source.
const jigMargin = 5 * shape.Mm

// jigs cuts the jigs that the maker wants; what can't be is told.
func (s *Sheets) jigs(p *project.Project, plan *Planned, facts *inspect.Cutting) error {
	if len(p.Choice.Parts) > 0 {
		return nil
	}
	for i := range plan.Sprites {
		sp := &plan.Sprites[i]
		src := &p.Sprites[sp.Index]
		for _, want := range src.Stack.Jigs {
			stock, ok := p.StockByID(want.Stock)
			if !ok || want.Height > sp.Layout.Heights {
				continue // there is no such height now
			}
			j := Jig{Sprite: i, Stock: stock, Clear: p.Settings.JigClear}
			if j.Jig, ok = sp.assembly.Jig(sp.Layout, want.Height, j.Clear, stock.LeastStrip, stock.Thickness); !ok {
				facts.NoJig(src, stock, want.Height, inspect.RoundEdges)
				continue
			}
			fits, err := s.cutJig(p, sp, &j)
			if err != nil {
				return fmt.Errorf("jig of height %d of %s: %w", want.Height, src.Name, err)
			}
			if !fits {
				facts.NoJig(src, stock, want.Height, inspect.JigLarge)
				continue
			}
			s.Jigs = append(s.Jigs, j)
		}
	}
	return nil
}

// cutJig lays a jig's pieces on sheets of their own; false where one doesn't fit.
func (s *Sheets) cutJig(p *project.Project, sp *Sprite, j *Jig) (fits bool, err error) {
	shapes := []shape.Outline{j.Plate}
	names := []string{"plate"}
	if j.Rim != nil {
		shapes, names = append(shapes, *j.Rim), append(names, "rim")
	}
	stock := j.Stock
	stock.Face = project.FaceUp
	rule := cut.Rules(p, []project.Stock{stock})[0]
	left, right, bottom, top := cut.Margins(p)
	left, right, bottom, top = max(left, jigMargin), max(right, jigMargin), max(bottom, jigMargin), max(top, jigMargin)
	for k, o := range shapes {
		piece := cut.Sample(o, "", nil, rule)
		if len(piece.Faults) > 0 {
			return false, nil
		}
		w, h := piece.Line.Bounds().Size()
		if !rule.Takes(w, h) {
			return false, nil
		}
		move := shape.Point{X: left, Y: bottom}.Sub(piece.Line.Bounds().Min)
		sheet := Sheet{
			Stock: stock, Number: k + 1, Face: project.FaceUp, Kerf: rule.Kerf, Use: project.Use{Passes: 1, Order: project.ContourByContour},
			Size:  nest.Size{Width: w + left + right, Height: h + bottom + top},
			Inner: shape.Rect{Min: shape.Point{X: left, Y: bottom}, Max: shape.Point{X: left + w, Y: bottom + h}},
		}
		if p.Bench != nil {
			sheet.Use, _ = p.Bench.UseOf(s.Machine.Name, stock.ID)
		}
		line := piece.Line.Moved(move)
		sheet.addLoops(line, piece.Tabs, -1, 0)
		if s.Machine.Marks != project.NoMarks {
			s.labelJig(&sheet, sp, j, line, k == 0)
		}
		s.drawn(&sheet)
		if err := s.finish(&sheet); err != nil {
			return false, err
		}
		j.Pieces = append(j.Pieces, JigPiece{Name: names[k], Sheet: sheet, Move: move})
	}
	return true, nil
}

// labelJig writes beside each window which part it is for, and what the piece is.
func (s *Sheets) labelJig(sheet *Sheet, sp *Sprite, j *Jig, line shape.Outline, plate bool) {
	b := line.Bounds()
	inside := shape.Rect{Min: b.Min.Add(shape.Point{X: shape.Mm, Y: shape.Mm}), Max: b.Max.Sub(shape.Point{X: shape.Mm, Y: shape.Mm})}
	var windows []shape.Outline
	for _, h := range line.Holes {
		windows = append(windows, shape.Outline{Outer: h.Reversed()})
	}
	w := cut.NewWaste(inside, windows)
	write := func(text string, at shape.Rect) {
		if l, ok := w.Beside(text, at); ok {
			for _, c := range l.Lines() {
				sheet.lines.Marks = append(sheet.lines.Marks, route.Mark{Path: c})
				sheet.Marks = append(sheet.Marks, NumberMark)
			}
		}
	}
	corner := shape.Rect{Min: inside.Min, Max: inside.Min.Add(shape.Point{X: shape.Mm, Y: shape.Mm})}
	write(fmt.Sprintf("%s%d", sp.Letters, j.Height), corner)
	if !plate {
		return
	}
	for i, parts := range j.Windows {
		for _, k := range parts {
			write(sp.Numbers[k], windows[i].Bounds())
		}
	}
}
