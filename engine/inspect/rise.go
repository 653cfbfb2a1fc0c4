package inspect

import (
	"fmt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// rise is how high a sprite stands.
type rise struct {
	top     shape.Um // of the highest face over the board
	over    shape.Um // the most that a part's face lies over the face of the lowest part in its own chain
	highest Place    // of the part that is over it by so much
	floats  bool     // some height inside floats
}

func (s Sprite) rise(how project.Stack) rise {
	r := rise{}
	under := s.Layout.Undersides(how, s.Stocks)
	first := make([]shape.Um, len(under)) // the upper face of the lowest part in the chain
	for i := range s.Layout.Layers {
		l := &s.Layout.Layers[i]
		r.floats = r.floats || l.Height > 1 && how.Floats(l.Height)
		for j := range l.Parts {
			p := &l.Parts[j]
			top := under[p.Index] + s.Stocks[l.Stock].Thickness
			first[p.Index] = top
			if p.On >= 0 {
				first[p.Index] = first[p.On]
			}
			r.top = max(r.top, top)
			if over := top - first[p.Index]; over > r.over {
				r.over, r.highest = over, s.place(l, p)
			}
		}
	}
	return r
}

// shifted is by how much something that far over the lowest part seems to move
// against it when one looks from 30° beside straight on: tan 30° = 0.57735,
// rounded up to a µm.
func shifted(over shape.Um) shape.Um { return (over*57735 + 99999) / 100000 }

// tooHigh reports a sprite that comes closer to the cover than the air that is
// to be left under it.
func tooHigh(p *project.Project, m Measured) []Finding {
	cover := p.Settings.Cover
	r := m.rise(m.Built)
	if cover == 0 || r.top+project.AirToCover <= cover {
		return nil
	}
	f := Finding{
		Code: TooHigh,
		Text: fmt.Sprintf(english.tooHigh,
			quoted(m.Source.Name), mm(r.top), mm(project.AirToCover), mm(cover)),
		Places: []Place{{Sprite: m.Source.Name}},
	}
	if r.floats {
		f.Remedies = append(f.Remedies, glueHeight(m, func(lower rise) bool { return lower.top+project.AirToCover <= cover }))
	}
	if how := m.Built; how.Foam > 0 {
		how.Foam, how.FoamStock = 0, ""
		f.Remedies = append(f.Remedies, Remedy{
			Command: SetFoam, Args: map[string]any{"sprite": m.Source.Name, "mm": 0},
			Text: english.tapeLowest,
			Sure: m.rise(how).top+project.AirToCover <= cover,
		})
	}
	need := ceilTo(r.top+project.AirToCover, shape.Mm)
	f.Remedies = append(f.Remedies, Remedy{
		Command: SetCover, Args: map[string]any{"mm": number(need)},
		Text: fmt.Sprintf(english.cover, mm(need)), Sure: true,
	})
	return []Finding{f}
}

// mostCells is by how many cells the top may shift, seen from 30°: beyond that
// the layers fall apart to the eye (common practice, no source).
const mostCells = 2

// topShifts reports a sprite so high that from the side its layers no longer
// make a picture.
func topShifts(m Measured) []Finding {
	r := m.rise(m.Built)
	cell := m.Layout.Cell
	shift := shifted(r.over)
	if shift <= mostCells*cell {
		return nil
	}
	f := Finding{
		Code: TopShifts,
		Text: fmt.Sprintf(english.shifts,
			quoted(m.Source.Name), mm(ceilTo(shift, 100))),
		Places: []Place{r.highest},
	}
	if r.floats {
		f.Remedies = append(f.Remedies, glueHeight(m, func(lower rise) bool { return shifted(lower.over) <= mostCells*cell }))
	}
	if need := (shift + mostCells - 1) / mostCells; need <= project.MaxCell {
		f.Remedies = append(f.Remedies, largerCells(m.Source.Name, need))
	}
	return []Finding{f}
}

// glueHeight lays the floating height on tape; clears says whether that is enough.
func glueHeight(m Measured, clears func(rise) bool) Remedy {
	how := m.Built
	how.Float = 0
	return Remedy{
		Command: SetFloat, Args: map[string]any{"sprite": m.Source.Name, "height": 0},
		Text: english.glue, Sure: clears(m.rise(how)),
	}
}
