package inspect

import (
	"fmt"

	"sheetsprite/engine/project"
)

// pinsNowhere says where pins are wanted and a sprite of several heights has no
// place for them.
func pinsNowhere(p *project.Project, m Measured) []Finding {
	if p.Settings.Pins == 0 || len(m.Pins) > 0 || m.Layout.Heights < 2 {
		return nil
	}
	f := Finding{
		Code:   PinsNowhere,
		Text:   fmt.Sprintf(english.noPins, quoted(m.Source.Name), mm(p.Settings.Pins)),
		Places: []Place{{Sprite: m.Source.Name}},
	}
	if p.Settings.Pins > project.LeastPin {
		f.Remedies = append(f.Remedies, Remedy{
			Command: SetPins, Args: map[string]any{"mm": number(project.LeastPin)}, Text: fmt.Sprintf(english.thinPins, mm(project.LeastPin)),
		})
	}
	f.Remedies = append(f.Remedies, Remedy{
		Command: SetPins, Args: map[string]any{"mm": 0}, Text: english.withoutPins, Sure: true,
	})
	return []Finding{f}
}
