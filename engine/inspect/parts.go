package inspect

import (
	"fmt"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// A part's size is the longer side of its bounding box. Common practice, no
// source: parts under Tweezers are set down with tweezers, parts under Tiny
// blow away or fall through the machine's bed.
const (
	Tweezers = 4 * shape.Mm
	Tiny     = shape.Um(2500)
)

// smallParts reports the parts of a sprite that are for tweezers or too small.
func smallParts(m Measured) []Finding {
	var tweezers, tiny small
	for i := range m.Layout.Layers {
		l := &m.Layout.Layers[i]
		for j := range l.Parts {
			part := &l.Parts[j]
			w, h := part.Bounds.Size()
			switch longer := max(w, h); {
			case longer < Tiny:
				tiny.add(m, l, part, longer)
			case longer < Tweezers:
				tweezers.add(m, l, part, longer)
			}
		}
	}
	var fs []Finding
	if n := len(tiny.places); n > 0 {
		fs = append(fs, Finding{
			Code:     PartTiny,
			Text:     bent(n, english.tiny, quoted(m.Source.Name), n, mm(tiny.least)),
			Places:   tiny.places,
			Remedies: tiny.remedies(m, Tiny),
		})
	}
	if n := len(tweezers.places); n > 0 {
		fs = append(fs, Finding{
			Code:     PartTweezers,
			Text:     bent(n, english.tweezers, quoted(m.Source.Name), n, mm(tweezers.least)),
			Places:   tweezers.places,
			Remedies: tweezers.remedies(m, Tweezers),
		})
	}
	return fs
}

// small is the parts of a sprite that one finding tells of.
type small struct {
	places []Place
	parts  []*outline.Part
	least  shape.Um
}

func (s *small) add(m Measured, l *outline.Layer, part *outline.Part, size shape.Um) {
	if len(s.places) == 0 || size < s.least {
		s.least = size
	}
	s.places = append(s.places, m.place(l, part))
	s.parts = append(s.parts, part)
}

// remedies: every part of the forest shows at least one whole cell, which isn't
// drawn back, so cells of the wanted size leave no smaller part, however the
// stack comes out then. A backer shows nothing and is drawn back all around.
func (s small) remedies(m Measured, wanted shape.Um) []Remedy {
	if slices.ContainsFunc(m.Layout.Layers[0].Parts, func(part outline.Part) bool {
		w, h := part.Bounds.Size()
		return part.Tree < 0 && max(w, h) < wanted
	}) {
		wanted += 2 * mostDrawnBack
	}
	rs := []Remedy{largerCells(m.Source.Name, wanted)}
	if r, ok := mergeCells(m, s.parts); ok {
		rs = append(rs, r)
	}
	if m.Source.Stack.Style != project.Fewest {
		rs = append(rs, Remedy{
			Command: SetStyle,
			Args:    map[string]any{"sprite": m.Source.Name, "style": string(project.Fewest)},
			Text:    english.fewest,
		})
	}
	return rs
}

// largeParts reports the parts that don't fit their sheet.
func largeParts(p *project.Project, m Measured) []Finding {
	var fs []Finding
	for i, stock := range m.Stocks {
		free := sheetOf(p, stock)
		var places []Place
		var most shape.Rect
		for k := range m.Layout.Layers {
			l := &m.Layout.Layers[k]
			if l.Stock != i {
				continue
			}
			for j := range l.Parts {
				part := &l.Parts[j]
				if w, h := part.Bounds.Size(); !free.holds(w, h) {
					places = append(places, m.place(l, part))
					if bw, bh := most.Size(); w+h > bw+bh {
						most = part.Bounds
					}
				}
			}
		}
		if len(places) == 0 {
			continue
		}
		w, h := most.Size()
		fs = append(fs, Finding{
			Code: PartTooLarge,
			Text: bent(len(places), english.tooLarge,
				quoted(m.Source.Name), len(places), stock.Name, size(free.w, free.h), mm(free.margin), size(w, h)),
			Places:   places,
			Remedies: fitRemedies(p, m, stock, free, w, h),
		})
	}
	return fs
}

// sheet is the sheet that a stock is cut from and what is taken off it.
type sheet struct{ w, h, margin, kerf shape.Um }

func sheetOf(p *project.Project, stock project.Stock) sheet {
	s, m := p.Settings, p.Machine()
	_, _, size := p.SheetSizes(stock) // the largest there is
	margin := max(s.Margin, m.Left, m.Right, m.Bottom, m.Top)
	free := sheet{size.W, size.H, margin, stock.Kerf}
	if s.Kerf != nil {
		free.kerf = *s.Kerf
	}
	return free
}

// holds says whether a finished part of w × h fits, turned or not: the cut runs
// half a kerf outside it and stays within the margin.
func (s sheet) holds(w, h shape.Um) bool {
	aw, ah := s.w-2*s.margin-s.kerf, s.h-2*s.margin-s.kerf
	return (w <= aw && h <= ah) || (h <= aw && w <= ah)
}

// isoA are the larger A sizes of ISO 216, in mm.
var isoA = [][2]shape.Um{{148, 210}, {210, 297}, {297, 420}, {420, 594}, {594, 841}, {841, 1189}}

func fitRemedies(p *project.Project, m Measured, stock project.Stock, free sheet, w, h shape.Um) []Remedy {
	var rs []Remedy
	if c := cellThatFits(p, m, free); c >= project.MinCell && c < m.Layout.Cell {
		rs = append(rs, Remedy{
			Command: SetCell,
			Args:    map[string]any{"sprite": m.Source.Name, "mm": number(c)},
			Text:    fmt.Sprintf(english.largerCells, mm(c)),
			Sure:    true,
		})
	}
	for _, a := range isoA {
		larger := free
		larger.w, larger.h = a[0]*shape.Mm, a[1]*shape.Mm
		if !larger.holds(w, h) {
			continue
		}
		r := Remedy{
			Command: SetSheet,
			Args:    map[string]any{"w_mm": number(larger.w), "h_mm": number(larger.h)},
			Text:    fmt.Sprintf(english.sheets, size(larger.w, larger.h)),
			Sure:    true,
		}
		if stock.SheetW > 0 && stock.SheetH > 0 {
			r.Command = SetStockSheet
			r.Args["stock"] = stock.ID
		}
		return append(rs, r)
	}
	return rs
}

// cellThatFits is the largest cell, to 0.1 mm, with which the whole drawing and
// its border fit the sheet, so that every part of it does; below MinCell where
// there is none.
func cellThatFits(p *project.Project, m Measured, free sheet) shape.Um {
	cols, rows := drawnCells(m.Source)
	if cols == 0 {
		return 0
	}
	around := 2*p.Settings.Border + 2*free.margin + free.kerf
	aw, ah := free.w-around, free.h-around
	c := max(min(aw/cols, ah/rows), min(ah/cols, aw/rows))
	return c / 100 * 100
}

// drawnCells is the size of the box about a sprite's coloured cells.
func drawnCells(s *project.Sprite) (cols, rows shape.Um) {
	x0, y0, x1, y1 := s.W, s.H, 0, 0
	for i, k := range s.Frames[0].Cells {
		if k != project.Empty {
			x, y := i%s.W, i/s.W
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x+1), max(y1, y+1)
		}
	}
	return shape.Um(max(0, x1-x0)), shape.Um(max(0, y1-y0))
}
