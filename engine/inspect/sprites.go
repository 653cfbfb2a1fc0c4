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
			Text:   fmt.Sprintf(english.empty, quoted(s.Name)),
			Places: []Place{{Sprite: s.Name}},
			Remedies: []Remedy{{
				Command: RemoveSprite, Args: map[string]any{"sprite": s.Name},
				Text: english.remove, Sure: true,
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
		Code:   SearchBounded,
		Text:   fmt.Sprintf(english.bounded, quoted(m.Source.Name)),
		Places: []Place{{Sprite: m.Source.Name}},
		Remedies: []Remedy{{
			Command: ReduceColours, Args: map[string]any{}, Asks: []string{"colours"},
			Text: english.fewerColours,
		}},
	}}
}
