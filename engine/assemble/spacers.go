package assemble

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// spacers are the pieces that the machine cuts to lie under a part: its shape
// drawn back by what the spacer lifts it, its own thickness and tape, at least a
// millimetre, where it rests on what is below: then none shows from 45° beside
// straight on. None where nothing narrower than a strip of foam is
// left or the part would tip.
func (b *builder) spacers(index int, lift Lift) []shape.Outline {
	// What is narrower than a strip of foam is no use: taken out by shrinking
	// and growing again, which stays within the region.
	half := padSizes[len(padSizes)-1]/2 - 1
	r := b.beneath(index, Back(lift.Rise()))
	r = r.Shrink(half).Grow(half)
	var out []shape.Outline
	for _, p := range r.Polygons(shape.BySides) {
		out = append(out, p.Outline())
	}
	if len(out) == 0 || !within(centre(b.region(index)), hull(r.Rects())) {
		return nil
	}
	return out
}

// SpacerLayers are the plan's spacers as layers of pieces to cut, one for each
// height that stands on spacers, numbered on from the layout's. A piece's Index
// goes on from the parts', its On is what it lies on and Tree is NoTree; lifted
// is the Index of the part above each, by the piece's Index less the parts'.
func (p *Plan) SpacerLayers(l *outline.Layout) (layers []outline.Layer, lifted []int) {
	for h, lift := range p.Lifts {
		if lift.Kind != Spacer {
			continue
		}
		layer := outline.Layer{Number: len(l.Layers) + len(layers) + 1, Height: h + 1, Stock: lift.Stock}
		for i := range p.Parts {
			q := &p.Parts[i]
			if q.Height != h+1 {
				continue
			}
			for _, o := range q.Spacers {
				layer.Parts = append(layer.Parts, outline.Part{
					Index: len(p.Parts) + len(lifted), On: q.On, Tree: NoTree, Outline: o, Bounds: o.Bounds(),
				})
				lifted = append(lifted, i)
			}
		}
		layers = append(layers, layer)
	}
	return layers, lifted
}

// NoTree is a spacer's Tree.
const NoTree = -2
