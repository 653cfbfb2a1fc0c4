package inspect

import (
	"fmt"

	"sheetsprite/engine/project"
)

// emptySprites reports sprites without a coloured cell.
func emptySprites(p *project.Project) []Finding {
	var fs []Finding
	for i := range p.Sprites {
		s := &p.Sprites[i]
		if !s.IsEmpty() {
			continue
		}
		fs = append(fs, Finding{
			Code:   SpriteEmpty,
			Text:   fmt.Sprintf("%s has no coloured cell and is skipped.", quoted(s.Name)),
			Places: []Place{{Sprite: s.Name}},
			Remedies: []Remedy{{
				Command: RemoveSprite, Args: map[string]any{"sprite": s.Name},
				Text: "Remove it from the project.", Sure: true,
			}},
		})
	}
	return fs
}

// boundedSearch says where the stack may not be the best of its rule.
func boundedSearch(m Measured) []Finding {
	if !m.Forest.Bounded {
		return nil
	}
	return []Finding{{
		Code: SearchBounded,
		Text: fmt.Sprintf("%s has so many small patches that the search for few parts was cut short; a stack with fewer may exist.",
			quoted(m.Source.Name)),
		Places: []Place{{Sprite: m.Source.Name}},
		Remedies: []Remedy{{
			Command: ReduceColours, Args: map[string]any{}, Asks: []string{"colours"},
			Text: "Reduce the drawing to fewer colours.",
		}},
	}}
}
