package cut

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Spacers are the pieces of layers of spacers, in their order. numbers are theirs,
// rules those of the layout's stocks. Nothing shows of a spacer, so that its tabs
// may be anywhere and its number may stand wherever there is room.
func Spacers(l *outline.Layout, layers []outline.Layer, numbers []string, rules []Rule) []Piece {
	var out []Piece
	for i := range layers {
		layer := &layers[i]
		r := rules[layer.Stock]
		for k := range layer.Parts {
			p, number := &layer.Parts[k], numbers[len(out)]
			if s := SplitSpacer(l, p, r); s != nil && len(s.Pieces) > 0 {
				out = append(out, inPieces(layer, p, number, s, r, func(c *Piece) { c.finishSpacer(r) }))
				continue
			}
			c := newPiece(layer, p, number, r)
			c.finishSpacer(r)
			out = append(out, c)
		}
	}
	return out
}

// SplitSpacer is how a spacer is cut in pieces; nil of one that fits a sheet, and
// where the rule leaves all whole. No seam of one shows.
func SplitSpacer(l *outline.Layout, p *outline.Part, r Rule) *Splitting {
	if w, h := p.Bounds.Size(); r.Large != project.LargeSplit || r.Holds(w, h) {
		return nil
	}
	if _, faults := Kerfed(p.Outline, r.Kerf); len(faults) > 0 {
		return nil
	}
	s := splitter{cell: l.Cell, grid: l.Grid, rule: r, covers: []shape.Region{shape.FromRects([]shape.Rect{p.Bounds})}}
	return s.split(p.Outline)
}

// finishSpacer gives a piece of a spacer its tabs and its number.
func (c *Piece) finishSpacer(r Rule) {
	if len(c.Faults) > 0 {
		return
	}
	if r.Tab > 0 {
		c.hold(r.Tab+r.Kerf, c.edges(), nil, false)
	}
	if !c.Unmarked {
		own := Upper{Outline: c.Part.Outline}.cover()
		if l, ok := fit(c.Number, own.Shrink(numberClear), r.Face == project.FaceDown); ok {
			c.Label = &l
		}
	}
}
