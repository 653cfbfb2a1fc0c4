package cut

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
)

// Spacers are the pieces of layers of spacers, in their order. numbers are theirs,
// rules those of the layout's stocks. Nothing shows of a spacer, so that its tabs
// may be anywhere and its number may stand wherever there is room.
func Spacers(layers []outline.Layer, numbers []string, rules []Rule) []Piece {
	var out []Piece
	for i := range layers {
		layer := &layers[i]
		r := rules[layer.Stock]
		for k := range layer.Parts {
			p := &layer.Parts[k]
			c := Piece{Number: numbers[len(out)], Layer: layer, Part: p, Unmarked: r.Marks == project.NoMarks}
			c.Line, c.Faults = Kerfed(p.Outline, r.Kerf)
			if len(c.Faults) == 0 && r.Tab > 0 {
				c.hold(r.Tab+r.Kerf, nil, nil, false)
			}
			if len(c.Faults) == 0 && !c.Unmarked {
				own := Upper{Outline: p.Outline}.cover()
				if l, ok := fit(c.Number, own.Shrink(numberClear), r.Face == project.FaceDown); ok {
					c.Label = &l
				}
			}
			out = append(out, c)
		}
	}
	return out
}
