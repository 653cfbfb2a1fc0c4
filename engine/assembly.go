package engine

import (
	"fmt"
	"slices"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// PlanAssembly says how one copy of each sprite is put together; Plan has found
// what there is to say about it. The same project always gives the same steps.
func PlanAssembly(_ *project.Project, plan *Planned, o Options) {
	defer o.enter(StageAssemble)()
	plan.Assembly = make([]assemble.Plan, len(plan.Sprites))
	for i := range plan.Sprites {
		plan.Assembly[i] = *plan.Sprites[i].assembly
	}
}

// build settles what truly floats and cuts the spacers, unless that is done.
func (s *Sprite) build(p *project.Project) {
	src := &p.Sprites[s.Index]
	how := &src.Stack
	key := fmt.Sprint(how.Foam, how.Float, how.FloatBy, " ", how.FoamStock, " ", how.FloatStock, " ", p.Settings.Pins, " ", how.Whole)
	if s.builtLike != key {
		s.builtLike = key
		s.Stocks = slices.Clone(s.Stocks[:s.layered])
		for h := 1; h <= s.Layout.Heights; h++ {
			id := how.SpacerStock(h)
			if st, ok := p.StockByID(id); ok && !slices.ContainsFunc(s.Stocks, func(o project.Stock) bool { return o.ID == id }) {
				s.Stocks = append(s.Stocks, st)
			}
		}
		s.pin(p)
		built := assemble.Build(s.Layout, assemble.Options{
			Thickness: thicknesses(s.Stocks), Lifts: assemble.Lifts(*how, s.Layout.Heights, s.Stocks), Whole: s.leftWhole(*how),
		})
		s.assembly = &built
		s.Spacers, s.Lifted = built.SpacerLayers(s.Layout)
	}
	s.Built = how.AsBuilt(s.assembly.Refused, s.Stocks)
	m := &s.measured
	m.Source, m.Stocks, m.Built, m.Plan, m.Spacers, m.Pins = src, s.Stocks, s.Built, s.assembly, s.Spacers, s.Pins
}

// leftWhole are the indices of the layers whose parts the maker wants to lay down at
// once: those of one part do so anyway.
func (s *Sprite) leftWhole(how project.Stack) []int {
	var out []int
	for i, l := range s.Layout.Layers {
		if len(l.Parts) > 1 && how.LeftWhole(l.Height, s.Stocks[l.Stock].ID) {
			out = append(out, i)
		}
	}
	return out
}

// pin finds places for pins and gives the parts their holes.
func (s *Sprite) pin(p *project.Project) {
	s.Pins = nil
	if p.Settings.Pins > 0 {
		o := assemble.PinOptions{Side: p.Settings.Pins, Lifts: assemble.Lifts(p.Sprites[s.Index].Stack, s.bare.Heights, s.Stocks)}
		for i, r := range cut.Rules(p, s.Stocks) {
			o.Strip, o.Kerf = append(o.Strip, s.Stocks[i].LeastStrip), append(o.Kerf, r.Kerf)
		}
		s.Pins = assemble.Pins(s.bare, o)
	}
	s.Layout = assemble.Pinned(s.bare, s.Pins)
}

func thicknesses(stocks []project.Stock) []shape.Um {
	out := make([]shape.Um, len(stocks))
	for i, s := range stocks {
		out[i] = s.Thickness
	}
	return out
}

// Refused are the heights that were to float but are taped; nil where nobody
// looked.
func (s Sprite) Refused() []int {
	if s.assembly == nil {
		return nil
	}
	return s.assembly.Refused
}
