package cut

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// Sample is a piece by itself, on which nothing lies: cut as r says, with its
// number in the open where there is room for it. joins are where no tab may be.
func Sample(o shape.Outline, number string, joins []shape.Rect, r Rule) Piece {
	p := &outline.Part{Outline: o, Bounds: o.Bounds(), On: -1}
	c := newPiece(&outline.Layer{Number: 1, Height: 1, Parts: []outline.Part{*p}}, p, number, r)
	c.finish(r, joins, nil)
	if len(c.Faults) == 0 && !c.Unmarked && number != "" {
		if l, ok := fit(number, shape.FromPolygons(o.Polygon()).Shrink(numberClear), false); ok {
			c.Label = &l
		}
	}
	return c
}

// Text is a line of letters and digits that our font has, its lower left corner
// at a place, its letters high (above 0) µm high.
func Text(text string, at shape.Point, high shape.Um) []shape.Contour {
	l := Label{Text: text, Unit: high / glyphHeight}
	w, h := l.size()
	l.At = at.Add(shape.Point{X: w / 2, Y: h/2 - glyphGap*l.Unit})
	lines := l.Lines()
	return lines[:len(lines)-1] // the bar tells numbers' heads from feet, which no text needs
}
