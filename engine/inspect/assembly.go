package inspect

import (
	"fmt"

	"sheetsprite/engine/outline"
)

// tooSmallToFloat reports the heights that were to float but can't.
func (a Measured) tooSmallToFloat() []Finding {
	var fs []Finding
	for _, h := range a.Plan.Refused {
		says := english.noPad
		if a.Source.Stack.SpacerStock(h) != "" {
			says = english.noSpacer
		}
		var places []Place
		for i := range a.Layout.Layers {
			l := &a.Layout.Layers[i]
			for k := range l.Parts {
				if p := &l.Parts[k]; l.Height == h && a.Plan.Parts[p.Index].Tight {
					places = append(places, a.place(l, p))
				}
			}
		}
		fs = append(fs, Finding{
			Code:   FloatTooSmall,
			Text:   bent(len(places), says, quoted(a.Source.Name), h, mm(a.Source.Stack.AsBuilt(nil, a.Stocks).Gap(h)), len(places)),
			Places: places, Remedies: []Remedy{a.glued(h)},
		})
	}
	return fs
}

// glued lays a height on tape.
func (a Measured) glued(height int) Remedy {
	if height == 1 {
		return Remedy{
			Command: SetFoam, Args: map[string]any{"sprite": a.Source.Name, "mm": 0},
			Text: english.tapeLowest, Sure: true,
		}
	}
	return Remedy{
		Command: SetFloat, Args: map[string]any{"sprite": a.Source.Name, "height": 0},
		Text: english.glue, Sure: true,
	}
}

// uneven reports the layers whose parts don't all lie level.
func (a Measured) uneven() []Finding {
	layers := a.Plan.Uneven(a.Layout)
	if len(layers) == 0 {
		return nil
	}
	f := Finding{Code: LayerUneven}
	var names []string
	for _, i := range layers {
		l := &a.Layout.Layers[i]
		names = append(names, fmt.Sprintf(english.unevenLayer, l.Number, a.Stocks[l.Stock].Name))
		f.Places = append(f.Places, a.place(l, a.highest(l)))
	}
	f.Text = bent(len(names), english.uneven, quoted(a.Source.Name), listed(names))
	return []Finding{f}
}

// highest is the part of a layer that lies highest, the first of equals.
func (a Measured) highest(l *outline.Layer) *outline.Part {
	best := &l.Parts[0]
	for k := range l.Parts {
		if p := &l.Parts[k]; a.Plan.Parts[p.Index].Under > a.Plan.Parts[best.Index].Under {
			best = p
		}
	}
	return best
}
