package assemble

import "sheetsprite/engine/shape"

// spacers are the pieces that the machine cuts to lie under a part: its shape
// drawn back by the spacer's own thickness, at least a millimetre, where it
// rests on what is below. None where nothing narrower than a strip of foam is
// left or the part would tip.
func (b *builder) spacers(index int, thick shape.Um) []shape.Outline {
	// What is narrower than a strip of foam is no use: taken out by shrinking
	// and growing again, which stays within the region.
	half := padSizes[len(padSizes)-1]/2 - 1
	r := b.beneath(index, Back(thick))
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
