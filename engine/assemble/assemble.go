// Package assemble says how the parts of a sprite are put together: what rests
// on what, how high each part lies to the µm, where foam or machine-cut spacers
// go under a height that floats, and in which order hands place the parts.
//
// It knows one copy of one sprite; coordinates are the layers'.
package assemble

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// Options are what Build needs to know beside the layout.
type Options struct {
	Thickness []shape.Um // of each stock, by Layer.Stock
	Lifts     []Lift     // by height less one; heights beyond it are taped
	Whole     []int      // indices into Layout.Layers: their parts are laid down at once
}

// Plan is how a sprite is put together.
type Plan struct {
	Parts   []Part   // by outline.Part.Index
	Steps   []Step   // in order; each part in exactly one
	Lifts   []Lift   // as built, by height less one
	Refused []int    // heights that were to float but are taped, because a part of theirs takes no pad
	Total   shape.Um // from the board to the highest face
	Seconds int      // to place all parts, see Seconds
}

// Part is one part in its place.
type Part struct {
	Index  int // outline.Part.Index
	On     int // Index of the part that it rests on, -1 for the board
	Height int // 1 is lowest
	Layer  int // index into Layout.Layers
	Stock  int // as Layer.Stock

	Under shape.Um // its underside, above the board
	Top   shape.Um // its face, above the board

	Pads    []shape.Rect    // foam beneath it; none where its height doesn't float on foam
	Spacers []shape.Outline // cut pieces beneath it; none where its height doesn't float on spacers
	Tight   bool            // it takes neither pad nor spacer
	Seconds int             // to place it
}

// Build plans the assembly of a layout. The same layout and options always give
// the same plan.
//
// A height floats as a whole or not at all: where one of its parts can't be
// held up by pads or spacers, the height is taped and stands in Refused.
func Build(l *outline.Layout, o Options) Plan {
	b := newBuilder(l, o)
	b.lift()
	b.raise()
	b.plan.Steps = b.steps()
	for _, p := range b.plan.Parts {
		b.plan.Seconds += p.Seconds
	}
	return b.plan
}

// Carries is how many parts lie on a part, one over the other.
func (p *Plan) Carries(index int) int {
	n := 0
	for i := range p.Parts {
		for on := p.Parts[i].On; on >= 0; on = p.Parts[on].On {
			if on == index {
				n++
				break
			}
		}
	}
	return n
}

// builder is a plan in the making.
type builder struct {
	layout  *outline.Layout
	options Options
	plan    Plan
	shapes  []*outline.Part // by Index
	regions []shape.Region  // by Index; made when first asked for
	made    []bool
}

func newBuilder(l *outline.Layout, o Options) *builder {
	n := 0
	for _, layer := range l.Layers {
		n += len(layer.Parts)
	}
	b := &builder{
		layout: l, options: o,
		shapes: make([]*outline.Part, n), regions: make([]shape.Region, n), made: make([]bool, n),
	}
	b.plan.Parts = make([]Part, n)
	for i := range l.Layers {
		layer := &l.Layers[i]
		for k := range layer.Parts {
			p := &layer.Parts[k]
			b.shapes[p.Index] = p
			b.plan.Parts[p.Index] = Part{
				Index: p.Index, On: p.On, Height: layer.Height, Layer: i, Stock: layer.Stock, Seconds: Seconds(p.Bounds),
			}
		}
	}
	return b
}

// region is a part's shape, for one with round or slanted edges a little less.
func (b *builder) region(index int) shape.Region {
	if !b.made[index] {
		b.regions[index], b.made[index] = Inscribed(b.shapes[index].Outline), true
	}
	return b.regions[index]
}
