package engine

import (
	"fmt"
	"slices"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/number"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// Sheets is what the machine runs: all parts of all copies, stock by stock.
type Sheets struct {
	Machine project.Machine
	List    []Sheet // by stock in the project's order, then number
	Parts   []Part  // all parts of all copies: by sprite, copy, then the part's index
}

// Sheet is one sheet on the bed, ready to cut. Coordinates are µm from its
// lower left corner.
type Sheet struct {
	Stock   project.Stock
	Number  int // of its stock, from 1
	Size    nest.Size
	Inner   shape.Rect // what its margins leave
	Offcut  bool
	Supply  int          // which it is of what there is: from 0 through offcuts, then sheets
	Face    project.Face // which one is up
	Kerf    shape.Um
	Use     project.Use // how the machine cuts it
	Placed  []int       // indices into Sheets.Parts
	Route   route.Route
	Loops   []LoopOf // what each of the route's loops is
	Marks   []MarkOf // what each of its marks is
	Seconds int
	lines   route.Sheet // until they are in order
}

// LoopOf says what a loop of a sheet's route is.
type LoopOf struct {
	Part  int // index into Sheets.Parts
	Inner Inner
}

// Inner says whether a loop is a hole's.
type Inner bool

// MarkOf says what a mark of a sheet's route is.
type MarkOf uint8

// What marks are.
const (
	PlaceMark  MarkOf = iota // where a part on top goes
	NumberMark               // a part's number
)

// Part is one copy of a part and where it is cut.
type Part struct {
	Sprite   int // index into Planned.Sprites
	Copy     int // from 1
	Piece    *cut.Piece
	Sheet    int           // index into Sheets.List, -1 where it has none
	Line     shape.Outline // the cut line, on the sheet
	Turn     nest.Quarter  // from the layers' coordinates to the sheet's: mirrored where the face is down, turned, moved
	Move     shape.Point
	Numbered Numbered
}

// Numbered says where a part's number stands.
type Numbered string

// The places of numbers.
const (
	OnPart  Numbered = "part"
	OnWaste Numbered = "waste" // on the sheet beside the part
	OnMap   Numbered = "map"   // only on the guide's map
)

// MostParts is how many parts, all copies counted, are laid on sheets at once:
// far more than anybody glues, few enough that nesting ends.
const MostParts = 5000

// PlanSheets lays all parts of a plan on sheets and adds what it finds to the
// plan's findings; where there are more than MostParts there are no sheets. The same project always gives the same sheets, whatever the
// options.
//
// Errors: a *project.InputError where a part is chosen that isn't there; else
// only of broken invariants: what is wrong with a project is a finding.
func PlanSheets(p *project.Project, plan *Planned, o Options) error {
	leave := o.enter(StageCut)
	s := &Sheets{Machine: p.Machine()}
	facts := inspect.Cutting{Machine: s.Machine}
	total := 0
	for _, sp := range plan.Sprites {
		total += sp.Parts() * p.CopiesOf(sp.Index)
	}
	if total > MostParts {
		leave()
		facts.TooMany(total, MostParts)
		plan.Sheets = nil
		plan.Findings = inspect.WithCutting(p, plan.Findings, facts)
		return nil
	}
	pieces := make([][]cut.Piece, len(plan.Sprites))
	for i, sp := range plan.Sprites {
		src := &p.Sprites[sp.Index]
		pieces[i] = cut.Parts(sp.Layout, number.Parts(sp.Index, sp.Layout), rulesOf(p, sp.Stocks), src.Stack)
		facts.Add(src, sp.Stocks, pieces[i])
		if p.Settings.Layout == project.InRegister {
			meetings(src, sp, pieces[i], &facts)
		}
		for c := range p.CopiesOf(sp.Index) {
			for k := range pieces[i] {
				if !p.Choice.Wants(pieces[i][k].Number) {
					continue
				}
				if c > 0 && len(p.Choice.Parts) > 0 {
					continue // one of each again
				}
				s.Parts = append(s.Parts, Part{Sprite: i, Copy: c + 1, Piece: &pieces[i][k], Sheet: -1, Numbered: OnMap})
			}
		}
	}
	leave()
	for _, n := range p.Choice.Parts {
		if !slices.ContainsFunc(s.Parts, func(q Part) bool { return q.Piece.Number == n }) {
			return &project.InputError{Where: "choice", What: fmt.Sprintf("there is no part %q to be cut again: numbers are as in A2-3, and stand in the guide and in job.json", n)}
		}
	}
	for _, stock := range stocksInOrder(p, plan) {
		if facts.Faulty(stock.ID) {
			continue
		}
		if err := s.cutStock(p, plan, stock, &facts, o); err != nil {
			return fmt.Errorf("stock %s: %w", stock.ID, err)
		}
	}
	if err := s.order(o); err != nil {
		return err
	}
	plan.Sheets = s
	plan.Findings = inspect.WithCutting(p, plan.Findings, facts)
	return nil
}

// meetings finds, for every layer that stays in register, the first place where
// the cuts of two of its parts would meet.
func meetings(src *project.Sprite, sp Sprite, pieces []cut.Piece, facts *inspect.Cutting) {
	for i := range sp.Layout.Layers {
		l := &sp.Layout.Layers[i]
		var taken shape.Region
		for k := range l.Parts {
			line := shape.FromPolygons(pieces[l.Parts[k].Index].Line.Polygon()).Grow(1) // beside one another is too near
			if both := line.Intersect(taken); !both.Empty() {
				facts.Meet(src, sp.Stocks[l.Stock], l.Number, both.Rects()[0].Min)
				break
			}
			taken = taken.Union(line)
		}
	}
}

// rulesOf says how each stock is cut.
func rulesOf(p *project.Project, stocks []project.Stock) []cut.Rule {
	m := p.Machine()
	rules := make([]cut.Rule, len(stocks))
	for i, st := range stocks {
		r := cut.Rule{Kerf: st.Kerf, Marks: m.Marks, Face: st.Face}
		if p.Settings.Kerf != nil {
			r.Kerf = *p.Settings.Kerf
		}
		if m.Kind == project.LaserCutter && p.Settings.Hold == project.Tabs {
			r.Tab = cut.TabWidth
		}
		rules[i] = r
	}
	return rules
}

// stocksInOrder are the stocks that have parts.
func stocksInOrder(p *project.Project, plan *Planned) []project.Stock {
	var out []project.Stock
	add := func(st project.Stock) {
		if !slices.ContainsFunc(out, func(o project.Stock) bool { return o.ID == st.ID }) {
			out = append(out, st)
		}
	}
	for _, st := range p.Stocks {
		for _, sp := range plan.Sprites {
			for _, l := range sp.Layout.Layers {
				if sp.Stocks[l.Stock].ID == st.ID {
					add(st)
				}
			}
		}
	}
	return out
}

// cutStock lays all parts of one stock on sheets.
func (s *Sheets) cutStock(p *project.Project, plan *Planned, stock project.Stock, facts *inspect.Cutting, o Options) error {
	leave := o.enter(StageNest)
	job, who := s.nestJob(p, plan, stock)
	if len(job.Pieces) == 0 {
		leave()
		return nil // none of its parts was chosen
	}
	n, err := s.nest(p, plan, job, who, o)
	leave()
	if err != nil {
		return err
	}
	facts.Supplied(p, stock, n)
	use := project.Use{Passes: 1, Order: project.ContourByContour}
	if p.Bench != nil {
		use, _ = p.Bench.UseOf(s.Machine.Name, stock.ID)
	}
	for i, sh := range n.Sheets {
		sheet := Sheet{
			Stock: stock, Number: i + 1, Size: sh.Size, Offcut: sh.Origin == nest.FromOffcuts, Supply: sh.Number,
			Face: project.FaceUp, Kerf: rulesOf(p, []project.Stock{stock})[0].Kerf, Use: use,
		}
		if stock.Face == project.FaceDown {
			sheet.Face = project.FaceDown
		}
		if len(p.Choice.Parts) > 0 && !sheet.Offcut {
			sheet.trim(sh.Used, job.Supply.Margins)
		}
		s.fill(&sheet, sh.Number, job, n.Placements, who)
		s.List = append(s.List, sheet)
	}
	return nil
}

// trim makes a new sheet for single parts as small as they allow, to whole mm.
func (sheet *Sheet) trim(used shape.Rect, m nest.Margins) {
	up := func(v shape.Um) shape.Um { return (v + shape.Mm - 1) / shape.Mm * shape.Mm }
	sheet.Size.Width = min(sheet.Size.Width, up(used.Max.X+m.Right))
	sheet.Size.Height = min(sheet.Size.Height, up(used.Max.Y+m.Top))
}

// nest finds the places, or takes the true ones in register.
func (s *Sheets) nest(p *project.Project, plan *Planned, job nest.Job, who [][]int, o Options) (nest.Nesting, error) {
	if p.Settings.Layout != project.InRegister {
		return nest.Nest(job, nest.Effort(p.Settings.Effort), max(1, o.Workers))
	}
	r := nest.Register{Pieces: job.Pieces, Supply: job.Supply}
	layers := map[*outline.Layer]int{} // only asked
	for i, copies := range who {
		part := &s.Parts[copies[0]]
		l, known := layers[part.Piece.Layer]
		if !known {
			l = len(r.Layers)
			layers[part.Piece.Layer] = l
			r.Layers = append(r.Layers, nil)
			r.Low = append(r.Low, corner(p, plan.Sprites[part.Sprite], plan.Sprites[part.Sprite].Stocks[part.Piece.Layer.Stock].Face))
		}
		r.Layers[l] = append(r.Layers[l], i)
	}
	return nest.InRegister(r)
}

// corner is the common corner of all layers of a sprite: half the largest kerf
// outside its bounds, which lie in a mirror where the face is down.
func corner(p *project.Project, sp Sprite, f project.Face) shape.Point {
	var most shape.Um
	for _, r := range rulesOf(p, sp.Stocks) {
		most = max(most, cut.HalfKerf(r.Kerf))
	}
	if f == project.FaceDown {
		return shape.Point{X: -sp.Layout.Size.X - most, Y: -most}
	}
	return shape.Point{X: -most, Y: -most}
}

// nestJob is what is nested of a stock; who[piece][copy] is the index into Parts.
func (s *Sheets) nestJob(p *project.Project, plan *Planned, stock project.Stock) (job nest.Job, who [][]int) {
	at := map[*cut.Piece]int{} // only asked
	places := map[placeKey]*project.Placement{}
	for i := range p.Places {
		if q := &p.Places[i]; q.Stock == stock.ID {
			places[placeKey{q.Sprite, q.Part, q.Copy}] = q
		}
	}
	turns := nest.QuarterTurns
	if stock.Grain == project.LongGrain || stock.Grain == project.ShortGrain {
		turns = nest.HalfTurns
	}
	for i, part := range s.Parts {
		sp := plan.Sprites[part.Sprite]
		if sp.Stocks[part.Piece.Layer.Stock].ID != stock.ID {
			continue
		}
		name := p.Sprites[sp.Index].Name
		n, known := at[part.Piece]
		if !known {
			n = len(who)
			at[part.Piece] = n
			who = append(who, nil)
			piece := nest.Piece{ID: part.Piece.Number, Outline: part.Piece.Line, Turns: turns}
			if stock.Face == project.FaceDown {
				piece.Outline = part.Piece.Mirrored().Line
			}
			if p.Settings.Group == project.BySprite {
				piece.Together = name
			}
			job.Pieces = append(job.Pieces, piece)
		}
		if q, ok := places[placeKey{name, part.Piece.Number, part.Copy}]; ok && len(p.Choice.Parts) == 0 {
			job.Fixed = append(job.Fixed, nest.Placement{
				Piece: n, Copy: len(who[n]), Sheet: q.Sheet - 1, At: shape.Point{X: q.X, Y: q.Y}, Turn: nest.Quarter(q.Turn),
			})
		}
		job.Pieces[n].Copies++
		who[n] = append(who[n], i)
	}
	job.Gap = p.Settings.Gap
	job.Supply = supplyOf(p, s.Machine, stock)
	return job, who
}

// placeKey is what a saved place is of.
type placeKey struct {
	sprite, part string
	copy         int
}

// Placements are the places of all parts as a project saves them: those that it
// had before stay moved or locked.
func (s *Sheets) Placements(p *project.Project, plan *Planned) []project.Placement {
	held := map[placeKey]project.Held{} // only asked
	for _, q := range p.Places {
		held[placeKey{q.Sprite, q.Part, q.Copy}] = q.Held
	}
	var out []project.Placement
	for _, part := range s.Parts {
		if part.Sheet < 0 {
			continue
		}
		sheet, b := &s.List[part.Sheet], part.Line.Bounds()
		q := project.Placement{
			Sprite: p.Sprites[plan.Sprites[part.Sprite].Index].Name, Copy: part.Copy, Part: part.Piece.Number,
			Stock: sheet.Stock.ID, Sheet: sheet.Supply + 1, X: b.Min.X, Y: b.Min.Y, Turn: int(part.Turn), Held: project.Found,
		}
		if h, ok := held[placeKey{q.Sprite, q.Part, q.Copy}]; ok {
			q.Held = h
		}
		out = append(out, q)
	}
	return out
}

// supplyOf is what there is of a stock, and what must stay free of it.
func supplyOf(p *project.Project, m project.Machine, stock project.Stock) nest.Supply {
	var out nest.Supply
	offcuts, sheets, more := p.SheetSizes(stock)
	for _, c := range offcuts {
		out.Offcuts = append(out.Offcuts, nest.Size{Width: c.W, Height: c.H})
	}
	for _, sh := range sheets {
		out.Sheets = append(out.Sheets, nest.Sheets{Size: nest.Size{Width: sh.W, Height: sh.H}, Count: sh.Count})
	}
	// When the shelf is empty more of the largest size are planned, and a
	// finding says so.
	out.Sheets = append(out.Sheets, nest.Sheets{Size: nest.Size{Width: more.W, Height: more.H}})
	margin := p.Settings.Margin
	out.Margins = nest.Margins{
		Left: max(margin, m.Left), Right: max(margin, m.Right), Bottom: max(margin, m.Bottom), Top: max(margin, m.Top),
	}
	return out
}
