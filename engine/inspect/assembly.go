package inspect

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/outline"
)

// Assembled is a sprite and how it is put together.
type Assembled struct {
	Sprite
	Plan *assemble.Plan
}

// WithAssembly adds what there is to say about putting sprites together to the
// findings, in place of what was said before, gravest first.
func WithAssembly(fs []Finding, sprites []Assembled) []Finding {
	fs = slices.DeleteFunc(slices.Clone(fs), func(f Finding) bool { return f.Code == FloatTooSmall || f.Code == LayerUneven })
	for _, a := range sprites {
		fs = append(fs, a.tooSmallToFloat()...)
		fs = append(fs, a.uneven()...)
	}
	for i := range fs {
		fs[i].complete()
	}
	slices.SortStableFunc(fs, func(a, b Finding) int { return cmp.Compare(rank(a.Code), rank(b.Code)) })
	return fs
}

// tooSmallToFloat reports the heights that were to float but can't.
func (a Assembled) tooSmallToFloat() []Finding {
	var fs []Finding
	for _, h := range a.Plan.Refused {
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
			Text: fmt.Sprintf("%s: height %d was to float by %s, but %s %s too small for a pad that doesn't show, so the whole height is glued.",
				quoted(a.Source.Name), h, mm(a.Source.Stack.Gap(h)), count(len(places), "part"), verb(len(places), "is", "are")),
			Places: places, Remedies: []Remedy{a.glued(h)},
		})
	}
	return fs
}

// glued lays a height on tape.
func (a Assembled) glued(height int) Remedy {
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
func (a Assembled) uneven() []Finding {
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
func (a Assembled) highest(l *outline.Layer) *outline.Part {
	best := &l.Parts[0]
	for k := range l.Parts {
		if p := &l.Parts[k]; a.Plan.Parts[p.Index].Under > a.Plan.Parts[best.Index].Under {
			best = p
		}
	}
	return best
}
