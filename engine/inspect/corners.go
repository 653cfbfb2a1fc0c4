package inspect

import (
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// holdingJoin is the side of the smallest join that a stock holds: its
// narrowest place is side/√2, so the least even side with side² ≥ 2·strip².
func holdingJoin(strip shape.Um) shape.Um {
	side := root(shape.Um2(2*strip*strip)) / 2 * 2
	for side*side < 2*strip*strip {
		side += 2
	}
	return side
}

// joinedCell is the least cell at which a stock's corners can be joined: a join
// may take up to half a cell.
func joinedCell(strip shape.Um) shape.Um { return 2 * holdingJoin(strip) }

// apartCorners reports the corners that are to be joined but can't be.
func apartCorners(p *project.Project, m Measured) []Finding {
	if p.Settings.Corners != project.Join || len(m.Layout.Opened) == 0 {
		return nil
	}
	lay := m.Layout
	at := cellsByHeight(m.Forest)
	places := make([][]Place, len(m.Stocks))
	stockOf := map[stack.Colour]int{}
	for i := range lay.Layers {
		for _, part := range lay.Layers[i].Parts {
			if part.Tree >= 0 {
				stockOf[m.Forest.Parts[part.Tree].Colour] = lay.Layers[i].Stock
			}
		}
	}
	layerOf := map[int]int{} // forest part to layer
	nameOf := map[int]string{}
	for i := range lay.Layers {
		for j := range lay.Layers[i].Parts {
			part := &lay.Layers[i].Parts[j]
			layerOf[part.Tree] = lay.Layers[i].Number
			nameOf[part.Tree] = partName(part)
		}
	}
	for _, c := range lay.Opened {
		if slices.ContainsFunc(m.Forest.Apart, func(d stack.Diagonal) bool {
			return int(d.Col) == c.Col && int(d.Row) == c.Row
		}) {
			continue // apart on purpose: another diagonal is joined there
		}
		part, ok := at.touching(m.Forest, c.Col, c.Row)
		if !ok {
			continue
		}
		stock := stockOf[m.Forest.Parts[part].Colour]
		places[stock] = append(places[stock], Place{
			Sprite: m.Source.Name, Layer: layerOf[part], Part: nameOf[part], At: c.At,
		})
	}
	var fs []Finding
	for i, stock := range m.Stocks {
		n := len(places[i])
		if n == 0 {
			continue
		}
		fs = append(fs, apartFinding(p, m, stock, places[i]))
	}
	return fs
}

func apartFinding(p *project.Project, m Measured, stock project.Stock, places []Place) Finding {
	side := holdingJoin(stock.LeastStrip)
	apart := Remedy{
		Command: SetCorners, Args: map[string]any{"corners": string(project.Apart)},
		Text: "Cut all corners apart on purpose.", Sure: true,
	}
	f := Finding{Code: CornerApart, Places: places}
	if asked := p.Settings.Join; asked > side {
		side = asked
		f.Remedies = append(f.Remedies, Remedy{
			Command: SetJoin, Args: map[string]any{"mm": 0.0},
			Text: "Let cell and stock say how large a join is.", Sure: joinedCell(stock.LeastStrip) <= m.Layout.Cell,
		})
	}
	f.Text = fmt.Sprintf("%s: cells of %s are cut apart at %s, because a join of %s is more than half a cell of %s.",
		quoted(m.Source.Name), stock.Name, count(len(places), "corner"), mm(side), mm(m.Layout.Cell))
	if c := ceilTo(2*side, 100); c <= project.MaxCell {
		f.Remedies = append(f.Remedies, largerCells(m.Source.Name, c))
	}
	f.Remedies = append(f.Remedies, apart)
	return f
}

// heightCells tells which part of the forest a cell belongs to at a height.
type heightCells struct {
	w, h  int
	parts [][]int32 // by height-1, then cell; -1 for none
}

func cellsByHeight(f *stack.Forest) heightCells {
	c := heightCells{f.W, f.H, make([][]int32, f.Heights)}
	for i := range c.parts {
		c.parts[i] = slices.Repeat([]int32{-1}, f.W*f.H)
	}
	for i, p := range f.Parts {
		for _, r := range p.Cells {
			for x := r.X0; x < r.X1; x++ {
				c.parts[p.Height-1][int(r.Y)*f.W+int(x)] = int32(i)
			}
		}
	}
	return c
}

// touching finds the lowest part of which, or of two of whose colour, two cells
// touch only at the grid corner above and left of cell (col, row).
func (c heightCells) touching(f *stack.Forest, col, row int) (part int, ok bool) {
	if col < 1 || row < 1 || col >= c.w || row >= c.h {
		return 0, false
	}
	for _, cells := range c.parts {
		ul, ur := cells[(row-1)*c.w+col-1], cells[(row-1)*c.w+col]
		ll, lr := cells[row*c.w+col-1], cells[row*c.w+col]
		colour := func(i int32) stack.Colour {
			if i < 0 {
				return 0
			}
			return f.Parts[i].Colour
		}
		for _, d := range [2][4]int32{{ul, lr, ur, ll}, {ur, ll, ul, lr}} {
			k := colour(d[0])
			if k != 0 && k == colour(d[1]) && k != colour(d[2]) && k != colour(d[3]) {
				return int(d[0]), true
			}
		}
	}
	return 0, false
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
		var b strings.Builder
		fmt.Fprintf(&b, "%s %s cells of %s or more", listed(names[strip]), verb(len(names[strip]), "holds", "hold"), mm(least))
		if p.Settings.Corners == project.Join {
			fmt.Fprintf(&b, "; corners can be joined from %s on", mm(joined))
		}
		b.WriteByte('.')
		fs = append(fs, Finding{Code: LeastCell, Text: b.String(), Count: len(names[strip])})
	}
	return fs
}
