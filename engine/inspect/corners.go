package inspect

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// joinedCell is the least cell at which a stock's corners can be joined as cell
// and stock ask, to the µm.
func joinedCell(strip shape.Um) shape.Um {
	// A join takes at most half a cell, and with a cell so small it is as large
	// as the strip asks: a quarter of the cell is less.
	side, _ := outline.Joinable(1, strip, 0)
	return 2 * side
}

// apartCorners reports the corners that are to be joined but can't be.
func apartCorners(p *project.Project, m Measured) []Finding {
	if p.Settings.Corners != project.Join || len(m.Layout.Opened) == 0 {
		return nil
	}
	places := make([][]Place, len(m.Stocks))
	layers, parts := byIndex(m.Layout)
	for _, c := range m.Layout.Opened {
		l, part := layers[c.Parts[0]], parts[c.Parts[0]]
		if _, ok := outline.Joinable(m.Layout.Cell, m.Stocks[l.Stock].LeastStrip, p.Settings.Join); ok {
			continue // apart on purpose: another diagonal is joined there
		}
		places[l.Stock] = append(places[l.Stock], Place{
			Sprite: m.Source.Name, Layer: l.Number, Part: m.Numbers[part.Index], At: c.At,
		})
	}
	var fs []Finding
	for i, stock := range m.Stocks {
		if len(places[i]) > 0 {
			fs = append(fs, apartFinding(p, m, stock, places[i]))
		}
	}
	return fs
}

// byIndex lists each part with its layer by the part's Index.
func byIndex(lay *outline.Layout) ([]*outline.Layer, []*outline.Part) {
	n := 0
	for _, l := range lay.Layers {
		n += len(l.Parts)
	}
	layers, parts := make([]*outline.Layer, n), make([]*outline.Part, n)
	for i := range lay.Layers {
		l := &lay.Layers[i]
		for j := range l.Parts {
			part := &l.Parts[j]
			layers[part.Index], parts[part.Index] = l, part
		}
	}
	return layers, parts
}

func apartFinding(p *project.Project, m Measured, stock project.Stock, places []Place) Finding {
	side, _ := outline.Joinable(m.Layout.Cell, stock.LeastStrip, p.Settings.Join)
	f := Finding{
		Code: CornerApart,
		Text: bent(len(places), english.cornerApart,
			quoted(m.Source.Name), stock.Name, len(places), mm(side), mm(m.Layout.Cell)),
		Places: places,
	}
	if p.Settings.Join > 0 {
		f.Remedies = append(f.Remedies, Remedy{
			Command: SetJoin, Args: map[string]any{"mm": 0.0},
			Text: english.ownJoin, Sure: joinedCell(stock.LeastStrip) <= m.Layout.Cell,
		})
	}
	if least := ceilTo(2*side, 100); least <= project.MaxCell {
		f.Remedies = append(f.Remedies, largerCells(m.Source.Name, least))
	}
	f.Remedies = append(f.Remedies, Remedy{
		Command: SetCorners, Args: map[string]any{"corners": string(project.Apart)},
		Text: english.cutApart, Sure: true,
	})
	return f
}

// leastCells tells from which cell size on the stocks in use hold, those with
// the same figures together.
func leastCells(p *project.Project, sprites []Measured) []Finding {
	var strips []shape.Um
	names := map[shape.Um][]string{}
	for _, st := range used(p, sprites) {
		if len(names[st.LeastStrip]) == 0 {
			strips = append(strips, st.LeastStrip)
		}
		names[st.LeastStrip] = append(names[st.LeastStrip], st.Name)
	}
	slices.Sort(strips)
	var fs []Finding
	for _, strip := range strips {
		least := max(ceilTo(strip, 100), project.MinCell)
		joined := max(ceilTo(joinedCell(strip), 100), project.MinCell)
		n := len(names[strip])
		text := bent(n, english.holds, listed(names[strip]), mm(least))
		if p.Settings.Corners == project.Join {
			text = bent(n, english.holdsJoined, listed(names[strip]), mm(least), mm(joined))
		}
		fs = append(fs, Finding{Code: LeastCell, Text: text, Count: n})
	}
	return fs
}
