package sheets

import (
	"fmt"
	"hash/fnv"

	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// Build is the model of a plan's sheets; files are the paths of each sheet's
// files. The plan's sheets may be nil, where too many parts were asked for.
func Build(p *project.Project, planned *engine.Planned, files [][]string) Model {
	machine := p.Machine()
	m := Model{
		Machine: Machine{Name: machine.Name, Kind: string(machine.Kind), Unit: string(machine.Unit)},
		Sheets:  []Sheet{}, Parts: []Part{}, Stocks: []Stock{}, Findings: findings(planned.Findings),
	}
	s := planned.Sheets
	if s == nil {
		return m
	}
	of := map[string]int{} // only asked
	for i := range s.List {
		of[s.List[i].Stock.ID]++
	}
	for i := range s.List {
		m.Sheets = append(m.Sheets, newSheet(&s.List[i], of[s.List[i].Stock.ID], files[i]))
	}
	numbers := numbersOf(planned, s)
	held := heldOf(p)
	orders := ordersOf(planned)
	for i := range s.Parts {
		part := &s.Parts[i]
		to := newPart(p, planned, part, numbers, held)
		to.Order = orders[part.Sprite][part.Piece.Part.Index]
		m.Parts = append(m.Parts, to)
	}
	m.Stocks = stocksOf(p, s)
	return m
}

func newSheet(sh *engine.Sheet, of int, files []string) Sheet {
	f := Frame{sh.Size.Height}
	in := sh.Inner
	out := Sheet{
		Stock: sh.Stock.ID, Name: sh.Stock.Name, Colour: sh.Stock.Colour.String(), Thick: mm(sh.Stock.Thickness),
		Number: sh.Number, Of: of, Supply: sh.Supply + 1, Width: mm(sh.Size.Width), Height: mm(sh.Size.Height),
		Inner: [4]float64{mm(in.Min.X), mm(sh.Size.Height - in.Max.Y), mm(in.Max.X - in.Min.X), mm(in.Max.Y - in.Min.Y)},
		Face:  string(sh.Face), Kerf: mm(sh.Kerf), Power: sh.Use.Power, Speed: sh.Use.Speed, Passes: max(1, sh.Use.Passes),
		Cut: mm(sh.Route.Cut + sh.Route.Leads), Travel: mm(sh.Route.Travel), Seconds: sh.Seconds,
		Parts: len(sh.Placed), Files: files, Strokes: []Stroke{},
	}
	if sh.Offcut {
		out.Offcut = "offcut"
	}
	print := fnv.New64a()
	fmt.Fprint(print, sh.Stock.ID, sh.Number, sh.Size, sh.Face)
	for _, st := range sh.Route.Strokes {
		to := Stroke{Path: f.path(st.Path, bool(st.Closed)), Part: -1, From: f.point(st.Begin()), To: f.point(st.Finish()), Pass: st.Pass}
		switch {
		case st.Kind == route.Marking && sh.Marks[st.Source] == engine.NumberMark:
			to.Kind = "number"
		case st.Kind == route.Marking:
			to.Kind = "place"
		default:
			to.Kind, to.Part = "cut", sh.Loops[st.Source].Part
			if sh.Loops[st.Source].Inner {
				to.Kind = "inner"
			}
		}
		fmt.Fprint(print, to.Kind, to.Path, to.Pass)
		out.Strokes = append(out.Strokes, to)
	}
	out.Print = fmt.Sprintf("%016x", print.Sum64())
	return out
}

// ordersOf are the places of all parts of each sprite, layer by layer, by their
// Index: the relief's parts are in that order. It shows no spacers: they have the
// place of the part that they lift.
func ordersOf(planned *engine.Planned) [][]int {
	out := make([][]int, len(planned.Sprites))
	for i := range planned.Sprites {
		out[i] = make([]int, planned.Sprites[i].Parts())
		n := 0
		for _, layer := range planned.Sprites[i].Layout.Layers {
			for k := range layer.Parts {
				out[i][layer.Parts[k].Index] = n
				n++
			}
		}
		for _, above := range planned.Sprites[i].Lifted {
			out[i] = append(out[i], out[i][above])
		}
	}
	return out
}

// numbersOf are the numbers of all parts of each sprite by their Index.
func numbersOf(planned *engine.Planned, s *engine.Sheets) [][]string {
	out := make([][]string, len(planned.Sprites))
	for i := range s.Pieces {
		for k := range s.Pieces[i] {
			out[i] = append(out[i], s.Pieces[i][k].Number)
		}
	}
	return out
}

// spot names one copy of a part.
type spot struct {
	sprite, part string
	copy         int
}

func heldOf(p *project.Project) map[spot]project.Held {
	held := map[spot]project.Held{} // only asked
	if len(p.Choice.Parts) > 0 {
		return held // places don't count then
	}
	for i := range p.Places {
		q := &p.Places[i]
		held[spot{q.Sprite, q.Part, q.Copy}] = q.Held
	}
	return held
}

func newPart(p *project.Project, planned *engine.Planned, part *engine.Part, numbers [][]string, held map[spot]project.Held) Part {
	sp, c := planned.Sprites[part.Sprite], part.Piece
	src := &p.Sprites[sp.Index]
	w, h := c.Part.Bounds.Size()
	out := Part{
		Sprite: src.Name, Index: sp.Index, Copy: part.Copy, Number: c.Number, Of: c.Called(), Stock: sp.Stocks[c.Layer.Stock].ID,
		Sheet: part.Sheet, Size: [2]float64{mm(w), mm(h)}, Turn: int(part.Turn),
		Layer: c.Layer.Number, Level: c.Layer.Height, Numbered: string(part.Numbered),
		Held: string(held[spot{src.Name, c.Number, part.Copy}]),
	}
	if c.Part.On >= 0 && c.Part.On < len(numbers[part.Sprite]) {
		out.On = numbers[part.Sprite][c.Part.On]
	}
	for _, col := range p.Palette {
		if col.Stock == out.Stock && len(out.Key) == 0 {
			out.Key = string(col.Key)
		}
	}
	low := c.Part.Outline.Outer[0].Point
	for _, v := range c.Part.Outline.Outer {
		if v.Y < low.Y || v.Y == low.Y && v.X < low.X {
			low = v.Point
		}
	}
	half := sp.Layout.Cell / 2
	at := plan.PlaceOf(*sp.Layout, low.Add(shape.Point{X: half, Y: half}))
	out.Cell = [2]float64{at.X, at.Y}
	if part.Sheet >= 0 {
		f := Frame{planned.Sheets.List[part.Sheet].Size.Height}
		b := part.Line.Bounds()
		out.Path = f.Outline(part.Line)
		out.X, out.Y = mm(b.Min.X), mm(f.Height-b.Max.Y)
		x, y, wide := labelRun(part.Line)
		out.Label = [3]float64{mm(x), mm(f.Height - y), mm(wide)}
		out.Width, out.Height = mm(b.Max.X-b.Min.X), mm(b.Max.Y-b.Min.Y)
	}
	return out
}

func stocksOf(p *project.Project, s *engine.Sheets) []Stock {
	out := []Stock{}
	for _, f := range s.Figures() {
		st := Stock{ID: f.Stock, Shelf: -1, Waste: f.Waste(), Grams: float64(f.Mass/100) / 10, Seconds: f.Seconds}
		for i := range s.List {
			switch sh := &s.List[i]; {
			case sh.Stock.ID != f.Stock:
				continue
			case sh.Offcut:
				st.Offcuts++
			default:
				st.Needed++
			}
			st.Name, st.Colour = s.List[i].Stock.Name, s.List[i].Stock.Colour.String()
		}
		if p.Bench != nil {
			if n, ok := p.Bench.Counted(f.Stock); ok {
				st.Shelf = n
			}
		}
		out = append(out, st)
	}
	return out
}

// findings are those that concern sheets and machine, and those that refuse
// anything.
func findings(all []inspect.Finding) []Finding {
	out := []Finding{}
	for _, f := range all {
		if !inspect.OfSheets(f.Code) && f.Severity != inspect.Refuse && f.Code != inspect.StockUnknown && f.Code != inspect.StockNeverLaser {
			continue
		}
		g := Finding{Code: string(f.Code), Severity: string(f.Severity), Text: f.Text, Parts: append([]string{}, f.Parts()...), Remedies: []Remedy{}}
		for _, r := range f.Remedies {
			if len(r.Asks) == 0 {
				g.Remedies = append(g.Remedies, Remedy{r.Text, string(r.Command), r.Args})
			}
		}
		out = append(out, g)
	}
	return out
}
