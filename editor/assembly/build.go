package assembly

import (
	"fmt"
	"slices"

	"sheetsprite/editor/plan"
	"sheetsprite/editor/sheets"
	"sheetsprite/engine"
	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/number"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Build is the model of a plan with its assembly, and what the editor needs to
// know of it; where the plan has no sheets yet, parts lie on none. A part's index in both is its place among the parts of
// its sprite in order of height.
func Build(p *project.Project, planned *engine.Planned) (Model, plan.Assembly) {
	m := Model{Sprites: []Sprite{}, Sheets: []Sheet{}}
	var told plan.Assembly
	lying := make([][][]Place, len(planned.Sprites)) // by sprite, part's Index, copy
	for i := range planned.Sprites {
		lying[i] = make([][]Place, len(planned.Sprites[i].Numbers))
	}
	if planned.Sheets != nil {
		m.Laid = "laid"
		m.Sheets = sheetsOf(planned.Sheets, lying)
	}
	for i := range planned.Assembly {
		b := builder{
			source: &p.Sprites[planned.Sprites[i].Index], copies: p.CopiesOf(planned.Sprites[i].Index),
			plan: &planned.Sprites[i], built: &planned.Assembly[i], lying: lying[i],
			numbers: planned.Sprites[i].Numbers, which: i, sheets: planned.Sheets,
		}
		if planned.Sheets != nil {
			b.pieces = planned.Sheets.Pieces[i]
		}
		sprite, brief := b.sprite()
		m.Sprites = append(m.Sprites, sprite)
		told.Sprites = append(told.Sprites, brief)
	}
	return m, told
}

// sheetsOf are the sheets; where parts lie on them comes into lying.
func sheetsOf(s *engine.Sheets, lying [][][]Place) []Sheet {
	of := map[string]int{} // only asked
	for i := range s.List {
		of[s.List[i].Stock.ID]++
	}
	list := []Sheet{}
	for i := range s.List {
		sh := &s.List[i]
		out := Sheet{
			Name: sh.Stock.Name, Colour: sh.Stock.Colour.String(), Number: sh.Number, Of: of[sh.Stock.ID],
			Width: mm(sh.Size.Width), Height: mm(sh.Size.Height), Face: string(sh.Face),
		}
		if sh.Offcut {
			out.Offcut = "offcut"
		}
		list = append(list, out)
	}
	for i := range s.Parts {
		part := &s.Parts[i]
		at := Place{Sheet: part.Sheet, More: []Spot{}}
		if part.Sheet >= 0 {
			at.Path = sheets.Frame{Height: s.List[part.Sheet].Size.Height}.Outline(part.Line)
		}
		to := &lying[part.Sprite][part.Piece.Part.Index]
		if !part.First() {
			first := &(*to)[len(*to)-1]
			first.More = append(first.More, Spot{at.Sheet, at.Path})
			continue
		}
		*to = append(*to, at)
	}
	return list
}

// builder makes what is shown of one sprite.
type builder struct {
	source  *project.Sprite
	copies  int
	plan    *engine.Sprite
	built   *assemble.Plan
	lying   [][]Place      // by Index, copy
	numbers []string       // by Index
	which   int            // index of the sprite in the plan
	sheets  *engine.Sheets // nil where there are none yet
	pieces  []cut.Piece    // by Index; nil where there are no sheets yet

	index []int // of each part in the model, by Index
}

func (b *builder) sprite() (Sprite, plan.AssemblySprite) {
	l := b.plan.Layout
	out := Sprite{
		Name: b.source.Name, Letters: b.plan.Letters, Index: b.plan.Index, Copies: b.copies,
		Width: mm(l.Size.X), Height: mm(l.Size.Y), Top: mm(b.built.Total), Heights: l.Heights,
	}
	brief := plan.AssemblySprite{Name: out.Name, Copies: out.Copies}
	for i := range b.plan.Stocks {
		st := &b.plan.Stocks[i]
		face := project.FaceUp
		if st.Face == project.FaceDown {
			face = project.FaceDown
		}
		out.Stocks = append(out.Stocks, Stock{st.ID, st.Name, st.Colour.String(), string(face)})
	}
	var parts []*outline.Part // in the model's order
	b.index = make([]int, len(b.lying))
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			q := &l.Layers[i].Parts[k]
			b.index[q.Index] = len(parts)
			parts = append(parts, q)
		}
	}
	prints := number.Prints(b.plan.Forest, l, b.plan.Stocks)
	for _, q := range parts {
		out.Parts = append(out.Parts, b.part(q))
		brief.Parts = append(brief.Parts, plan.AssemblyPart{
			Number: b.numbers[q.Index], Print: fmt.Sprintf("%s %d", prints[q.Index], l.Cell), Seconds: b.built.Parts[q.Index].Seconds,
		})
	}
	apart := b.built.Apart()
	for _, step := range b.built.Steps {
		st := b.step(step, apart)
		out.Steps = append(out.Steps, st)
		brief.Steps = append(brief.Steps, st.Parts)
	}
	return out, brief
}

func (b *builder) part(q *outline.Part) Part {
	f := sheets.Frame{Height: b.plan.Layout.Size.Y}
	built := &b.built.Parts[q.Index]
	w, h := q.Bounds.Size()
	out := Part{
		Number: b.numbers[q.Index], Stock: built.Stock, Level: built.Height, On: -1, Path: f.Outline(q.Outline),
		Size: [2]float64{mm(w), mm(h)}, Places: b.lying[q.Index], Lifts: []string{},
	}
	for k, above := range b.plan.Lifted {
		if above == q.Index {
			out.Lifts = append(out.Lifts, b.numbers[b.plan.Parts()+k])
		}
	}
	if q.On >= 0 {
		out.On = b.index[q.On]
	}
	for _, pad := range built.Pads {
		out.Pads += f.Outline(shape.Outline{Outer: boxed(pad)})
	}
	for _, sp := range built.Spacers {
		out.Pads += f.Outline(sp)
	}
	out.Pieces = []string{}
	if q.Index < len(b.pieces) {
		c := &b.pieces[q.Index]
		for i := range c.Pieces {
			out.Pieces = append(out.Pieces, c.Pieces[i].Number)
		}
		for _, seam := range c.Seams {
			out.Seams += f.Line(seam.From, seam.To)
		}
	}
	region := assemble.Inscribed(q.Outline)
	at, high := room(region, len(out.Number))
	out.Label = [3]float64{mm(at.X), mm(f.Height - at.Y), mm(high)}
	heart := shape.Roomiest(region.Rects())
	out.Middle = [2]float64{mm(heart.X), mm(f.Height - heart.Y)}
	if out.Places == nil {
		out.Places = []Place{}
	}
	return out
}

func (b *builder) step(step assemble.Step, apart []int) Step {
	lift := b.built.Lifts[step.Height-1]
	out := Step{Stock: step.Stock, Level: step.Height, Thick: mm(lift.Thick), Parts: []int{}, Apart: []Apart{}, Ends: []int{}}
	switch lift.Kind {
	case assemble.Foam:
		out.Lift, out.Back = "foam", mm(assemble.Back(lift.Thick))
	case assemble.Spacer:
		out.Lift = "spacer"
	default:
		out.Lift = "tape"
	}
	for _, i := range step.Parts {
		out.Parts = append(out.Parts, b.index[i])
		if slices.ContainsFunc(b.plan.Pins, func(p assemble.Pin) bool { return p.Under == i }) {
			out.Ends = append(out.Ends, b.index[i])
		}
		out.Pads += len(b.built.Parts[i].Pads) + len(b.built.Parts[i].Spacers)
		if slices.Contains(apart, i) {
			out.Apart = append(out.Apart, Apart{b.index[i], b.built.Carries(i)})
		}
	}
	out.Pins = b.pins(step)
	out.Frame, out.Jig = b.frame(step.Layer), b.jig(step.Height)
	return out
}

// pins are the sprite's, in the step that lays the lowest part that they go through.
func (b *builder) pins(step assemble.Step) *Pins {
	pins := b.plan.Pins
	if len(pins) != 2 || !slices.Contains(step.Parts, pins[0].Parts[0]) {
		return nil
	}
	w, _ := pins[0].Hole.Size()
	out := &Pins{Thick: mm(w)}
	for k, pin := range pins {
		for _, i := range pin.Parts {
			out.Through[k] = append(out.Through[k], b.index[i])
		}
	}
	return out
}

// frame is what the parts of a layer that is left whole stay in; nil for others.
func (b *builder) frame(layer int) *Frame {
	if b.sheets == nil {
		return nil
	}
	on := b.sheets.FrameSheets(b.which, b.plan.Layout.Layers[layer].Number)
	if len(on) == 0 {
		return nil
	}
	return &Frame{Sheets: on}
}

// jig is a height's jig.
func (b *builder) jig(height int) *Jig {
	if b.sheets == nil {
		return nil
	}
	j := b.sheets.JigFor(b.which, height)
	if j == nil {
		return nil
	}
	return &Jig{Name: j.Stock.Name, Pack: mm(j.Pack)}
}

func boxed(r shape.Rect) shape.Contour {
	return shape.Ring{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}.Contour()
}

// mm is a length in millimetres.
func mm(u shape.Um) float64 { return float64(u) / 1000 }
