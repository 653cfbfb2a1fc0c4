package inspect

import (
	"fmt"
	"slices"

	"sheetsprite/engine/cut"
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

// largeParts reports the parts that don't fit their sheet, and those that are cut
// in pieces because of that.
func largeParts(p *project.Project, m Measured) []Finding {
	rules := cut.Rules(p, m.Stocks)
	large := make([]bool, len(m.Stocks))
	for i := range m.Layout.Layers {
		l := &m.Layout.Layers[i]
		for k := range l.Parts {
			w, h := l.Parts[k].Bounds.Size()
			large[l.Stock] = large[l.Stock] || !rules[l.Stock].Holds(w, h)
		}
	}
	if !slices.Contains(large, true) {
		return nil
	}
	for i := range rules {
		rules[i].Large = project.LargeSplit // to see whether it can be done
	}
	split := cut.Splittings(m.Layout, rules, m.Built)
	var fs []Finding
	for i, stock := range m.Stocks {
		if large[i] {
			fs = append(fs, m.largeOf(p, i, stock, rules[i], split)...)
		}
	}
	return fs
}

// largeOf are the findings of one stock's large parts.
func (m Measured) largeOf(p *project.Project, i int, stock project.Stock, rule cut.Rule, split []*cut.Splitting) []Finding {
	splitting := p.Settings.Large == project.LargeSplit && cut.CanSplit(p)
	able := cut.CanSplit(p)
	var whole, hidden, shown kindOfLarge
	for k := range m.Layout.Layers {
		l := &m.Layout.Layers[k]
		if l.Stock != i {
			continue
		}
		for j := range l.Parts {
			part := &l.Parts[j]
			if w, h := part.Bounds.Size(); rule.Holds(w, h) {
				continue
			}
			s := split[part.Index]
			can := s != nil && len(s.Pieces) > 0
			able = able && can
			to := &whole
			if splitting && can {
				to = &hidden
				for _, seam := range s.Seams {
					if seam.Shows > 0 {
						to = &shown
					}
				}
			}
			to.add(m.place(l, part), part.Bounds, s)
		}
	}
	free := sheetOf(p, stock)
	var fs []Finding
	if n := len(whole.places); n > 0 {
		w, h := whole.most.Size()
		f := Finding{
			Code: PartTooLarge,
			Text: bent(n, english.tooLarge,
				quoted(m.Source.Name), n, stock.Name, size(free.w, free.h), mm(free.margin), size(w, h)),
			Places:   whole.places,
			Remedies: fitRemedies(p, m, stock, rule, w, h),
		}
		if able && !splitting {
			f.Remedies = append(f.Remedies, Remedy{
				Command: SetLarge, Args: map[string]any{"large": string(project.LargeSplit)}, Text: english.split, Sure: true,
			})
		}
		fs = append(fs, f)
	}
	if n := len(hidden.places); n > 0 {
		fs = append(fs, Finding{
			Code: PartSplit, Places: hidden.places,
			Text: bent(n, english.splitHidden, quoted(m.Source.Name), n, stock.Name, hidden.pieces),
		})
	}
	if n := len(shown.places); n > 0 {
		w, h := shown.most.Size()
		fs = append(fs, Finding{
			Code: SeamShows, Places: shown.places,
			Text:     bent(n, english.splitShown, quoted(m.Source.Name), n, stock.Name, shown.pieces, mm(shown.shows)),
			Remedies: fitRemedies(p, m, stock, rule, w, h),
		})
	}
	return fs
}

// kindOfLarge are large parts of which the same is to be said.
type kindOfLarge struct {
	places []Place
	most   shape.Rect // of the largest
	pieces int        // that they are cut in
	shows  shape.Um   // of their seams
}

func (k *kindOfLarge) add(at Place, b shape.Rect, s *cut.Splitting) {
	k.places = append(k.places, at)
	w, h := b.Size()
	if bw, bh := k.most.Size(); w+h > bw+bh {
		k.most = b
	}
	if s == nil {
		return
	}
	k.pieces += len(s.Pieces)
	for _, seam := range s.Seams {
		k.shows += seam.Shows
	}
}

// sheet is the sheet that a stock is cut from and what is taken off it.
type sheet struct{ w, h, margin shape.Um }

func sheetOf(p *project.Project, stock project.Stock) sheet {
	_, _, size := p.SheetSizes(stock) // the largest there is
	left, right, bottom, top := cut.Margins(p)
	return sheet{size.W, size.H, max(left, right, bottom, top)}
}

// isoA are the larger A sizes of ISO 216, in mm.
var isoA = [][2]shape.Um{{148, 210}, {210, 297}, {297, 420}, {420, 594}, {594, 841}, {841, 1189}}

// fitRemedies are what makes parts of a stock fit, of which the largest is w × h.
func fitRemedies(p *project.Project, m Measured, stock project.Stock, rule cut.Rule, w, h shape.Um) []Remedy {
	var rs []Remedy
	if c := cellThatFits(p, m, rule); c >= project.MinCell && c < m.Layout.Cell {
		rs = append(rs, Remedy{
			Command: SetCell,
			Args:    map[string]any{"sprite": m.Source.Name, "mm": number(c)},
			Text:    fmt.Sprintf(english.largerCells, mm(c)),
			Sure:    true,
		})
	}
	for _, a := range isoA {
		r := Remedy{
			Command: SetSheet,
			Args:    map[string]any{"w_mm": number(a[0] * shape.Mm), "h_mm": number(a[1] * shape.Mm)},
			Text:    fmt.Sprintf(english.sheets, size(a[0]*shape.Mm, a[1]*shape.Mm)),
			Sure:    true,
		}
		q, st := *p, stock
		if stock.SheetW > 0 && stock.SheetH > 0 {
			r.Command = SetStockSheet
			r.Args["stock"] = stock.ID
			st.SheetW, st.SheetH = a[0]*shape.Mm, a[1]*shape.Mm
		} else {
			q.Settings.SheetW, q.Settings.SheetH = a[0]*shape.Mm, a[1]*shape.Mm
		}
		if cut.Rules(&q, []project.Stock{st})[0].Holds(w, h) {
			return append(rs, r)
		}
	}
	return rs
}

// cellThatFits is the largest cell, to 0.1 mm, with which the whole drawing and
// its border fit a sheet, so that every part of it does; below MinCell where
// there is none.
func cellThatFits(p *project.Project, m Measured, rule cut.Rule) shape.Um {
	cols, rows := drawnCells(m.Source)
	if cols == 0 {
		return 0
	}
	around := 2*p.Settings.Border + 2*cut.HalfKerf(rule.Kerf)
	var c shape.Um
	for _, r := range rule.Rooms {
		w, h := r.W-around, r.H-around
		c = max(c, min(w/cols, h/rows))
		if !r.Grain {
			c = max(c, min(h/cols, w/rows))
		}
	}
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
