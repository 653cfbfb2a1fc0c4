package assemble

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Kind is what lies between a part and what it rests on.
type Kind uint8

// The kinds. The zero value is Tape.
const (
	Tape   Kind = iota // thin double-sided tape, or glue
	Foam               // pads of foam tape, cut by hand
	Spacer             // pieces cut by the machine, taped on both sides
)

// Lift is what lies under all parts of one height: the height floats on foam
// or spacers, or it is taped.
type Lift struct {
	Kind  Kind
	Thick shape.Um // of the tape, the foam or the spacer's stock
	Stock int      // of a spacer, as Layer.Stock
}

// TapeThick is the thickness of double-sided tape.
const TapeThick = project.Tape

// Rise is by how much the lift raises what lies on it.
func (l Lift) Rise() shape.Um {
	if l.Kind == Spacer {
		return l.Thick + 2*TapeThick
	}
	return l.Thick
}

// Floats says whether there is air under the parts.
func (l Lift) Floats() bool { return l.Kind != Tape && l.Thick > 0 }

// Lifts is what the maker set for each height of a sprite, by height less one:
// foam under the heights that float, or spacers of one of the stocks, tape
// elsewhere.
func Lifts(s project.Stack, heights int, stocks []project.Stock) []Lift {
	out := make([]Lift, heights)
	for i := range out {
		out[i] = Lift{Kind: Tape, Thick: s.Gap(i + 1)}
		if s.Floats(i + 1) {
			out[i].Kind = Foam
			for k, st := range stocks {
				if st.ID == s.SpacerStock(i+1) {
					out[i] = Lift{Kind: Spacer, Thick: st.Thickness, Stock: k}
				}
			}
		}
	}
	return out
}

// lift settles what lies under each height and cuts pads and spacers.
func (b *builder) lift() {
	for h := 1; h <= b.layout.Heights; h++ {
		lift := Lift{Kind: Tape, Thick: TapeThick}
		if h <= len(b.options.Lifts) {
			lift = b.options.Lifts[h-1]
		}
		if lift.Floats() && !b.holds(h, lift) {
			b.plan.Refused = append(b.plan.Refused, h)
			lift = Lift{Kind: Tape, Thick: TapeThick}
			for i := range b.plan.Parts {
				if p := &b.plan.Parts[i]; p.Height == h {
					p.Pads, p.Spacers = nil, nil
				}
			}
		}
		b.plan.Lifts = append(b.plan.Lifts, lift)
	}
}

// holds puts pads or spacers under all parts of a height and says whether all
// of them are held.
func (b *builder) holds(height int, lift Lift) bool {
	all := true
	for i := range b.plan.Parts {
		p := &b.plan.Parts[i]
		if p.Height != height {
			continue
		}
		if lift.Kind == Spacer {
			p.Spacers = b.spacers(i, lift)
		} else {
			p.Pads = b.pads(i, lift.Thick)
		}
		p.Tight = len(p.Pads) == 0 && len(p.Spacers) == 0
		all = all && !p.Tight
	}
	return all
}

// raise gives every part its underside and its face: the sum along the chain of
// what it rests on.
func (b *builder) raise() {
	for _, layer := range b.layout.Layers { // lowest first, so what is below is known
		for _, part := range layer.Parts {
			p := &b.plan.Parts[part.Index]
			if p.On >= 0 {
				p.Under = b.plan.Parts[p.On].Top
			}
			for _, o := range p.Spacers {
				p.Seconds += Seconds(o.Bounds())
			}
			p.Under += b.plan.Lifts[p.Height-1].Rise()
			p.Top = p.Under
			if p.Stock < len(b.options.Thickness) {
				p.Top += b.options.Thickness[p.Stock]
			}
			b.plan.Total = max(b.plan.Total, p.Top)
		}
	}
}

// Uneven is the indices of the layers whose parts' undersides differ: there the
// maker sees a step between parts of one card.
func (p *Plan) Uneven(l *outline.Layout) []int {
	var out []int
	for i, layer := range l.Layers {
		for _, part := range layer.Parts[1:] {
			if p.Parts[part.Index].Under != p.Parts[layer.Parts[0].Index].Under {
				out = append(out, i)
				break
			}
		}
	}
	return out
}
