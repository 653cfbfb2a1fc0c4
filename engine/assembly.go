package engine

import (
	"sheetsprite/engine/assemble"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// PlanAssembly says how one copy of each sprite is put together and adds what it
// finds to the plan's findings. The same project always gives the same steps.
func PlanAssembly(p *project.Project, plan *Planned, o Options) {
	defer o.enter(StageAssemble)()
	plan.Assembly = make([]assemble.Plan, len(plan.Sprites))
	var facts []inspect.Assembled
	for i, s := range plan.Sprites {
		plan.Assembly[i] = assemble.Build(s.Layout, assemble.Options{
			Thickness: thicknesses(s.Stocks), Lifts: assemble.Lifts(p.Sprites[s.Index].Stack, s.Layout.Heights),
		})
		facts = append(facts, inspect.Assembled{
			Sprite: inspect.Sprite{Source: &p.Sprites[s.Index], Forest: s.Forest, Layout: s.Layout, Stocks: s.Stocks},
			Plan:   &plan.Assembly[i],
		})
	}
	plan.Findings = inspect.WithAssembly(plan.Findings, facts)
}

func thicknesses(stocks []project.Stock) []shape.Um {
	out := make([]shape.Um, len(stocks))
	for i, s := range stocks {
		out[i] = s.Thickness
	}
	return out
}
