package engine

import (
	"fmt"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// fill puts a nesting's parts of one sheet onto it, with their marks.
func (s *Sheets) fill(sheet *Sheet, number int, job nest.Job, placements []nest.Placement, who [][]int) {
	r := &sheet.lines
	var lines []shape.Outline
	m := job.Supply.Margins
	sheet.Inner = shape.Rect{
		Min: shape.Point{X: m.Left, Y: m.Bottom},
		Max: shape.Point{X: sheet.Size.Width - m.Right, Y: sheet.Size.Height - m.Top},
	}
	mirror := cut.Mirror(sheet.Face == project.FaceDown)
	for _, pl := range placements {
		if pl.Sheet != number {
			continue
		}
		nested := job.Pieces[pl.Piece].Outline
		move := pl.At.Sub(pl.Turn.Outline(nested).Bounds().Min)
		i := who[pl.Piece][pl.Copy]
		f := s.Parts[i].Frame
		if f == nil {
			lines = append(lines, s.put(sheet, i, pl.Turn, move, mirror))
			continue
		}
		for _, k := range f.Members {
			lines = append(lines, s.put(sheet, k, pl.Turn, move, mirror))
		}
		line := pl.Outline(job.Pieces[pl.Piece])
		lines = append(lines, s.putFrame(sheet, f, line, mirror)...)
	}
	if !mirror && s.Machine.Marks != project.NoMarks {
		s.numberOnWaste(sheet, r, lines)
	}
	s.drawn(sheet)
}

// drawn says how what lies on a sheet is cut.
func (s *Sheets) drawn(sheet *Sheet) {
	r := &sheet.lines
	r.Start, r.End = s.Machine.Corner(sheet.Size.Width, sheet.Size.Height), route.AtStart
	r.Passes = sheet.Use.Passes
	if sheet.Use.Order == project.WholeSheet {
		r.Repeat = route.WholeSheet
	}
}

// put lays a part on the sheet, turned and moved, and says where its cut line runs.
func (s *Sheets) put(sheet *Sheet, i int, turn nest.Quarter, move shape.Point, mirror cut.Mirror) shape.Outline {
	part := &s.Parts[i]
	part.Sheet = len(s.List)
	piece := *part.Piece
	if mirror {
		piece = piece.Mirrored()
	}
	part.Line, part.Turn, part.Move = turn.Outline(piece.Line).Moved(move), turn, move
	sheet.Placed = append(sheet.Placed, i)
	sheet.addLoops(part.Line, piece.Tabs, i, s.rank(part))
	sheet.addMarks(&sheet.lines, piece, func(c shape.Contour) shape.Contour { return turn.Contour(c).Moved(move) }, mirror)
	if piece.Label != nil {
		part.Numbered = OnPart
	}
	return part.Line
}

// putFrame lays a frame on the sheet after the parts in it, and says where no number
// may stand because of it.
func (s *Sheets) putFrame(sheet *Sheet, f *Frame, line shape.Outline, mirror cut.Mirror) []shape.Outline {
	piece := *f.Piece
	if mirror {
		piece = piece.Mirrored()
	}
	sheet.Frames = append(sheet.Frames, FrameOn{f, line})
	rank := 0
	for _, i := range f.Members {
		rank = max(rank, s.rank(&s.Parts[i]))
	}
	sheet.addLoops(line, piece.Tabs, -1, rank)
	b := line.Bounds()
	var out []shape.Outline
	for _, r := range []shape.Rect{ // thin as they are, no number crosses them
		{Min: b.Min, Max: shape.Point{X: b.Max.X, Y: b.Min.Y + 1}}, {Min: shape.Point{X: b.Min.X, Y: b.Max.Y - 1}, Max: b.Max},
		{Min: b.Min, Max: shape.Point{X: b.Min.X + 1, Y: b.Max.Y}}, {Min: shape.Point{X: b.Max.X - 1, Y: b.Min.Y}, Max: b.Max},
	} {
		out = append(out, boxOutline(r))
	}
	return out
}

// addLoops adds the cuts of a part, or of a frame, which is none.
func (sheet *Sheet) addLoops(line shape.Outline, tabs []cut.Tab, part, rank int) {
	for c, loop := range append([]shape.Contour{line.Outer}, line.Holes...) {
		l := route.Loop{Contour: loop, Rank: rank}
		for _, t := range tabs {
			if t.Contour == c {
				l.Tabs = append(l.Tabs, route.Tab{Edge: t.Edge, From: t.From, To: t.To})
			}
		}
		sheet.lines.Loops = append(sheet.lines.Loops, l)
		sheet.Loops = append(sheet.Loops, LoopOf{part, c > 0})
	}
}

// lay puts a nesting of one stock onto its sheets.
func (s *Sheets) lay(p *project.Project, stock project.Stock, job nest.Job, who [][]int, n nest.Nesting) {
	use := project.Use{Passes: 1, Order: project.ContourByContour}
	if p.Bench != nil {
		use, _ = p.Bench.UseOf(s.Machine.Name, stock.ID)
	}
	for i, sh := range n.Sheets {
		sheet := Sheet{
			Stock: stock, Number: i + 1, Size: sh.Size, Offcut: sh.Origin == nest.FromOffcuts, Supply: sh.Number,
			Face: project.FaceUp, Kerf: cut.Rules(p, []project.Stock{stock})[0].Kerf, Use: use,
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
}

// trim makes a new sheet for single parts as small as they allow, to whole mm.
func (sheet *Sheet) trim(used shape.Rect, m nest.Margins) {
	up := func(v shape.Um) shape.Um { return (v + shape.Mm - 1) / shape.Mm * shape.Mm }
	sheet.Size.Width = min(sheet.Size.Width, up(used.Max.X+m.Right))
	sheet.Size.Height = min(sheet.Size.Height, up(used.Max.Y+m.Top))
}

// order finds the order of all sheets' cuts, several sheets at a time.
func (s *Sheets) order(o Options) error {
	defer o.enter(StageRoute)()
	errs := make([]error, len(s.List))
	share := max(1, len(s.List)/sheetsAtLeisure)
	o.each(len(s.List), func(i int) {
		sheet := &s.List[i]
		sheet.lines.Share = share
		of := routeOf{sheet.lines, s.Machine, sheet.Use, sheet.Stock, sheet.Kerf, sheet.Inner, sheet.Size}
		if k := o.Cache.routed(&of); k != nil {
			sheet.Route, sheet.Seconds, sheet.lines = k.route, k.seconds, route.Sheet{}
			return
		}
		if errs[i] = s.finish(sheet); errs[i] == nil {
			o.Cache.keepRoute(keptRoute{of, sheet.Route, sheet.Seconds})
		}
	})
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("sheet %d of %s: %w", s.List[i].Number, s.List[i].Stock.ID, err)
		}
	}
	return nil
}

// finish finds the order of a sheet's cuts and how long they take.
func (s *Sheets) finish(sheet *Sheet) (err error) {
	if sheet.Route, err = route.Plan(sheet.lines); err != nil {
		return err
	}
	s.begin(sheet)
	sheet.Seconds = seconds(s.Machine, sheet.Use, sheet.lines.Start, sheet.Route)
	sheet.lines = route.Sheet{}
	return nil
}

// sheetsAtLeisure is how many sheets get a cutting order that is sought for as
// long as helps; more share that time.
const sheetsAtLeisure = 16

// leadIn is how long lead-ins are (common practice, no source).
const leadIn = shape.Um(500)

// begin lets closed cuts begin on straight runs, in a laser's machine file with
// a lead-in.
func (s *Sheets) begin(sheet *Sheet) {
	start := sheet.lines.Start
	sheet.Route.BeginOnRuns(start, route.AtStart)
	if s.Machine.Kind == project.LaserCutter && s.MachineFile(sheet) {
		sheet.Route.LeadIns(start, route.AtStart, leadIn, sheet.Kerf, sheet.Inner, sheet.lines.Loops)
	}
	s.drive(sheet, start)
}

// drive fits the route to what the machine file will hold: the blade's way, and no
// marks where nobody entered how to draw them.
func (s *Sheets) drive(sheet *Sheet, start shape.Point) {
	if !s.MachineFile(sheet) {
		return
	}
	if sheet.Use.MarkPower == 0 || sheet.Use.MarkSpeed == 0 {
		sheet.Route.SkipMarks(start, route.AtStart)
	}
	if m := s.Machine; m.Kind == project.Knife && (m.BladeOffset > 0 || m.Overcut > 0) {
		route.Blade{Offset: m.BladeOffset, Overcut: m.Overcut}.Cut(&sheet.Route, start, route.AtStart)
	}
}

// Sizes of parts that a knife cuts one after the other, by their longer side:
// small ones first, while the sheet around them still holds. Common practice,
// no source.
var knifeSizes = []shape.Um{10 * shape.Mm, 40 * shape.Mm}

// rank is the order in which a machine takes parts by their size.
func (s *Sheets) rank(part *Part) int {
	if s.Machine.Kind == project.LaserCutter {
		return 0
	}
	w, h := part.Piece.Part.Bounds.Size()
	for i, size := range knifeSizes {
		if max(w, h) < size {
			return i
		}
	}
	return len(knifeSizes)
}

// MachineFile says whether a sheet gets a machine file: only where the maker entered
// power (a knife's pressure) and speed for this machine and this stock, never for a
// laser and a stock that mustn't go on one or of which nobody knows, and never for a
// sheet larger than the bed.
func (s *Sheets) MachineFile(sheet *Sheet) bool {
	fit := s.Machine.Kind == project.Knife || s.Machine.Kind == project.LaserCutter && inspect.LaserSafe(sheet.Stock)
	return fit && s.Machine.Takes(sheet.Size.Width, sheet.Size.Height) && sheet.Use.Power > 0 && sheet.Use.Speed > 0
}

func (sheet *Sheet) addMarks(r *route.Sheet, piece cut.Piece, move func(shape.Contour) shape.Contour, mirror cut.Mirror) {
	for _, c := range piece.Places {
		r.Marks = append(r.Marks, route.Mark{Path: move(c), Closed: true})
		sheet.Marks = append(sheet.Marks, PlaceMark)
	}
	for _, c := range piece.Ticks {
		r.Marks = append(r.Marks, route.Mark{Path: move(c)})
		sheet.Marks = append(sheet.Marks, PlaceMark)
	}
	for _, c := range piece.Strokes(mirror) {
		r.Marks = append(r.Marks, route.Mark{Path: move(c)})
		sheet.Marks = append(sheet.Marks, NumberMark)
	}
}

// numberOnWaste writes the numbers that nothing on their part would hide
// beside them, where there is room.
func (s *Sheets) numberOnWaste(sheet *Sheet, r *route.Sheet, lines []shape.Outline) {
	w := cut.NewWaste(sheet.Inner, lines)
	for _, i := range sheet.Placed {
		part := &s.Parts[i]
		if part.Numbered != OnMap {
			continue
		}
		l, ok := w.Beside(part.Piece.Number, part.Line.Bounds())
		if !ok {
			continue
		}
		part.Numbered = OnWaste
		for _, c := range l.Lines() {
			r.Marks = append(r.Marks, route.Mark{Path: c})
			sheet.Marks = append(sheet.Marks, NumberMark)
		}
	}
}
