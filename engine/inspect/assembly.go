package inspect

import (
	"fmt"
	"strconv"

	"sheetsprite/engine/outline"
)

// tooSmallToFloat reports the heights that were to float but can't.
func (a Measured) tooSmallToFloat() []Finding {
	var fs []Finding
	for _, h := range a.Plan.Refused {
		held := "pad"
		if a.Source.Stack.SpacerStock(h) != "" {
			held = "spacer"
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
			Code: FloatTooSmall,
			Text: fmt.Sprintf("%s: height %d was to float by %s, but %s %s too small for a %s that doesn't show, so the whole height is glued.",
				quoted(a.Source.Name), h, mm(a.Source.Stack.AsBuilt(nil, a.Stocks).Gap(h)), count(len(places), "part"), verb(len(places), "is", "are"), held),
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
			Text: "Hold the lowest parts with tape instead of foam.", Sure: true,
		}
	}
	return Remedy{
		Command: SetFloat, Args: map[string]any{"sprite": a.Source.Name, "height": 0},
		Text: "Glue this height.", Sure: true,
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
		names = append(names, strconv.Itoa(l.Number)+" ("+a.Stocks[l.Stock].Name+")")
		f.Places = append(f.Places, a.place(l, a.highest(l)))
	}
	f.Text = fmt.Sprintf("%s: parts of %s %s don't all lie level, because what is below them isn't equally thick.",
		quoted(a.Source.Name), verb(len(names), "layer", "layers"), listed(names))
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
