package outline

import (
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Undersides is how high over the board the lower face of each part lies, µm,
// by Part.Index. Each is the sum along the part's own chain: the thickness of
// every part below it and, under each of them and under itself, the foam or
// tape that s says. stocks is what Layer.Stock points into.
//
// Parts of one height lie equally high where what is below them is equally
// thick; else the sprite has a height that is not level.
func (l *Layout) Undersides(s project.Stack, stocks []project.Stock) []shape.Um {
	n := 0
	for _, layer := range l.Layers {
		n += len(layer.Parts)
	}
	under, tops := make([]shape.Um, n), make([]shape.Um, n)
	for _, layer := range l.Layers { // lowest first: what a part rests on is known
		gap, thick := s.Gap(layer.Height), stocks[layer.Stock].Thickness
		for _, p := range layer.Parts {
			below := shape.Um(0)
			if p.On >= 0 {
				below = tops[p.On]
			}
			under[p.Index] = below + gap
			tops[p.Index] = below + gap + thick
		}
	}
	return under
}

// Top is the height of the highest face over the board, µm; 0 without parts.
func (l *Layout) Top(s project.Stack, stocks []project.Stock) shape.Um {
	under := l.Undersides(s, stocks)
	top := shape.Um(0)
	for _, layer := range l.Layers {
		for _, p := range layer.Parts {
			top = max(top, under[p.Index]+stocks[layer.Stock].Thickness)
		}
	}
	return top
}
