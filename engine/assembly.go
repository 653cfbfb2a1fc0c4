package engine

import (
	"fmt"
	"slices"

	"sheetsprite/engine/assemble"
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
	key := fmt.Sprint(how.Foam, how.Float, how.FloatBy, " ", how.FoamStock, " ", how.FloatStock)
	if s.builtLike != key {
		s.builtLike = key
		s.Stocks = slices.Clone(s.Stocks[:s.layered])
		for h := 1; h <= s.Layout.Heights; h++ {
			id := how.SpacerStock(h)
			if st, ok := p.StockByID(id); ok && !slices.ContainsFunc(s.Stocks, func(o project.Stock) bool { return o.ID == id }) {
				s.Stocks = append(s.Stocks, st)
			}
		}
		built := assemble.Build(s.Layout, assemble.Options{
			Thickness: thicknesses(s.Stocks), Lifts: assemble.Lifts(*how, s.Layout.Heights, s.Stocks),
		})
		s.assembly = &built
		s.Spacers, s.Lifted = built.SpacerLayers(s.Layout)
	}
	s.Built = how.AsBuilt(s.assembly.Refused, s.Stocks)
	m := &s.measured
	m.Source, m.Stocks, m.Built, m.Plan, m.Spacers = src, s.Stocks, s.Built, s.assembly, s.Spacers
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
