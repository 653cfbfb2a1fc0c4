package engine

import (
	"slices"

	"sheetsprite/engine/number"
	"sheetsprite/engine/project"
)

// name gives all parts of the plan their numbers.
func (plan *Planned) name(p *project.Project) {
	letters, given := number.Sprites(p)
	plan.given, plan.letters = given, letters
	for i := range plan.Sprites {
		s := &plan.Sprites[i]
		s.Letters = letters[s.Index]
		numbers, now := number.Parts(p.Sprites[s.Index].Numbers, s.Forest, s.Layout, s.Spacers, s.Stocks)
		s.remembers = now
		s.Numbers = make([]string, len(numbers))
		for _, l := range slices.Concat(s.Layout.Layers, s.Spacers) {
			for _, part := range l.Parts {
				s.Numbers[part.Index] = number.Name(s.Letters, l.Height, numbers[part.Index])
			}
		}
	}
}

// Remembered is the project with the numbers that the plan's parts have, now
// that somebody sees them: planned again it gives the same. It shares all else
// with p.
func (plan *Planned) Remembered(p *project.Project) *project.Project {
	parts := 0
	for _, s := range plan.Sprites {
		parts += len(s.Numbers)
	}
	if parts > MostParts {
		return p // nobody sees numbers: there are no sheets
	}
	out := *p
	out.Lettered = plan.given
	out.Sprites = slices.Clone(p.Sprites)
	for i := range min(len(plan.letters), len(out.Sprites)) {
		out.Sprites[i].Numbers.Letters = plan.letters[i]
	}
	for _, s := range plan.Sprites {
		n := &out.Sprites[s.Index].Numbers
		n.Parts = s.remembers.Parts
	}
	return &out
}
