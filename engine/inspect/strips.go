package inspect

import (
	"fmt"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// narrowPlaces reports a sprite's narrow places, stock by stock: those in a
// join apart from the others, because another remedy helps.
func narrowPlaces(_ *project.Project, m Measured) []Finding {
	type found struct {
		places   []Place
		thinnest shape.Um2
	}
	strips := make([]found, len(m.Stocks))
	joins := make([]found, len(m.Stocks))
	for _, n := range m.narrow {
		f := &strips[n.layer.Stock]
		if inJoin(m.Layout, n) {
			f = &joins[n.layer.Stock]
		}
		if len(f.places) == 0 || n.strip.Width2 < f.thinnest {
			f.thinnest = n.strip.Width2
		}
		f.places = append(f.places, Place{
			Sprite: m.Source.Name, Layer: n.layer.Number, Part: partName(n.part), At: n.strip.At,
		})
	}
	var fs []Finding
	for i, stock := range m.Stocks {
		if f := strips[i]; len(f.places) > 0 {
			fs = append(fs, Finding{
				Code: StripNarrow,
				Text: fmt.Sprintf("%s: %s of %s %s narrower than the %s that it holds; the narrowest is %s.",
					quoted(m.Source.Name), count(len(f.places), "place"), stock.Name,
					verb(len(f.places), "is", "are"), mm(stock.LeastStrip), mm(root(f.thinnest))),
				Places:   f.places,
				Remedies: widerStrips(m, stock),
			})
		}
		if f := joins[i]; len(f.places) > 0 {
			fs = append(fs, Finding{
				Code: JoinWeak,
				Text: fmt.Sprintf("%s: %s of %s %s only %s wide at the narrowest, less than the %s that it holds.",
					quoted(m.Source.Name), count(len(f.places), "join"), stock.Name,
					verb(len(f.places), "is", "are"), mm(root(f.thinnest)), mm(stock.LeastStrip)),
				Places: f.places,
				Remedies: []Remedy{{
					Command: SetJoin, Args: map[string]any{"mm": 0.0},
					Text: "Let cell and stock say how large a join is.", Sure: true,
				}},
			})
		}
	}
	return fs
}

// widerStrips makes the cells as large as the stock's least strip: no place of
// a part is narrower than a cell, and the setback stops at the least strip.
func widerStrips(m Measured, stock project.Stock) []Remedy {
	if m.Layout.Cell >= stock.LeastStrip {
		return nil
	}
	return []Remedy{largerCells(m.Source.Name, stock.LeastStrip)}
}

// inJoin says whether the narrow place lies in a join of its part.
func inJoin(lay *outline.Layout, n narrow) bool {
	for _, j := range lay.Joins {
		d := n.strip.At.Sub(j.At)
		if j.Part == n.part.Index && 2*max(d.X, -d.X) <= j.Side && 2*max(d.Y, -d.Y) <= j.Side {
			return true
		}
	}
	return false
}
