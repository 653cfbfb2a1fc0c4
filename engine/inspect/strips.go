package inspect

import (
	"fmt"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// narrowFound is the narrow places that one finding tells of.
type narrowFound struct {
	places   []Place
	thinnest shape.Um2
}

func (f *narrowFound) add(m Measured, n narrow) {
	if len(f.places) == 0 || n.strip.Width2 < f.thinnest {
		f.thinnest = n.strip.Width2
	}
	f.places = append(f.places, Place{
		Sprite: m.Source.Name, Layer: n.layer.Number, Part: m.Numbers[n.part.Index], At: n.strip.At,
	})
}

// narrowPlaces reports a sprite's narrow places, stock by stock: those in a
// join and those in a backer apart from the others, because other remedies help.
func narrowPlaces(p *project.Project, m Measured) []Finding {
	strips, joins := make([]narrowFound, len(m.Stocks)), make([]narrowFound, len(m.Stocks))
	var backer narrowFound
	for _, n := range m.narrow {
		switch {
		case inJoin(m.Layout, n):
			joins[n.layer.Stock].add(m, n)
		case n.part.Tree < 0:
			backer.add(m, n)
		default:
			strips[n.layer.Stock].add(m, n)
		}
	}
	var fs []Finding
	for i, stock := range m.Stocks {
		if f := strips[i]; len(f.places) > 0 {
			fs = append(fs, stripFinding(m, f, stock, stock.Name, widerStrips(m, stock)))
		}
		if f := joins[i]; len(f.places) > 0 {
			fs = append(fs, joinFinding(m, f, stock))
		}
	}
	if len(backer.places) > 0 {
		stock := m.Stocks[m.Layout.Layers[0].Stock]
		fs = append(fs, stripFinding(m, backer, stock, english.backer, widerBacker(p, m, stock)))
	}
	return fs
}

func stripFinding(m Measured, f narrowFound, stock project.Stock, of string, remedies []Remedy) Finding {
	return Finding{
		Code: StripNarrow,
		Text: bent(len(f.places), english.stripNarrow,
			quoted(m.Source.Name), len(f.places), of, mm(stock.LeastStrip), mm(root(f.thinnest))),
		Places:   f.places,
		Remedies: remedies,
	}
}

func joinFinding(m Measured, f narrowFound, stock project.Stock) Finding {
	return Finding{
		Code: JoinWeak,
		Text: bent(len(f.places), english.joinWeak,
			quoted(m.Source.Name), len(f.places), stock.Name, mm(root(f.thinnest)), mm(stock.LeastStrip)),
		Places: f.places,
		Remedies: []Remedy{{
			Command: SetJoin, Args: map[string]any{"mm": 0.0},
			Text: english.ownJoin, Sure: true,
		}},
	}
}

// widerBacker widens the border to half the least strip, so that the border
// alone is wide enough all around. Without a border the backer is drawn back
// like any part.
func widerBacker(p *project.Project, m Measured, stock project.Stock) []Remedy {
	if p.Settings.Border == 0 {
		return widerStrips(m, stock)
	}
	border := ceilTo((stock.LeastStrip+1)/2, 100)
	return []Remedy{{
		Command: SetBorder, Args: map[string]any{"mm": number(border)},
		Text: fmt.Sprintf(english.border, mm(border)), Sure: true,
	}}
}

// widerStrips makes the cells so large that a place one cell wide keeps the
// stock's least strip even if the setback draws it back on both sides. (Inside
// one cell the setback stops at the least strip by itself; where inner corners
// of two cells stand against each other it may not.)
func widerStrips(m Measured, stock project.Stock) []Remedy {
	// The setback is at most mostDrawnBack and at most a quarter of the cell.
	least := max(min(stock.LeastStrip+2*mostDrawnBack, 2*stock.LeastStrip), project.MinCell)
	if m.Layout.Cell >= least || least > project.MaxCell {
		return nil
	}
	return []Remedy{largerCells(m.Source.Name, least)}
}

// inJoin says whether the narrow place lies in a join of its part, or in the
// squares about it that aren't drawn back.
func inJoin(lay *outline.Layout, n narrow) bool {
	for _, j := range lay.Joins {
		d := n.strip.At.Sub(j.At)
		if j.Part == n.part.Index && max(d.X, -d.X, d.Y, -d.Y) <= j.Side/2+mostDrawnBack {
			return true
		}
	}
	return false
}
