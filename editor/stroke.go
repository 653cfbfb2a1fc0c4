package editor

import (
	"errors"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

// stroke is what a finger, a pen or the keyboard is drawing just now. The
// frame's cells show it as it is; it becomes a step of undo when it ends.
type stroke struct {
	tool        Tool
	key         byte
	sprite      int // ID
	frame       int
	before      []byte // the frame's cells when it began
	selBefore   *Selection
	start, last cells.Cell
	moved       *Selection // what is moved, as it was; nil while marking
}

// titles are what a stroke of each tool is called.
var titles = map[Tool]string{
	Pencil: "Pencil", RubOut: "Rub out", FillTool: "Fill", LineTool: "Line",
	BoxTool: "Box", OvalTool: "Oval", MoveTool: "Move", PickTool: "Pick a colour",
}

// Begin starts a stroke with the tool in hand at the first of the points,
// which are x, y, x, y … in cell coordinates (the cell in column c covers
// c ≤ x < c+1), and draws through the others. It fails, with nothing drawn,
// where the sprite can't take the colour. Filling and picking are done at once.
func (e *Editor) Begin(points []float64) error { return e.BeginWith(e.session.Tool, points) }

// BeginWith is Begin with another tool than the one in hand, such as the
// pen's other end.
func (e *Editor) BeginWith(tool Tool, points []float64) error {
	e.End()
	c, rest, ok := firstCell(points)
	if !ok {
		return nil
	}
	e.looks++
	switch tool {
	case PickTool:
		return e.pick(c)
	case FillTool:
		return e.fill(c, e.session.Reach, e.key())
	case MoveTool:
		e.beginMove(c)
	default:
		key := e.key()
		if tool == RubOut {
			key = project.Empty
		} else if err := room(e.doc.sprite(), key); err != nil {
			return err
		}
		sel := e.sel
		e.putDown()
		e.begin(tool, key, c)
		e.stroke.selBefore = sel
		e.drawTo(c)
	}
	e.Extend(rest)
	return nil
}

func (e *Editor) begin(tool Tool, key byte, c cells.Cell) {
	g := e.doc.grid()
	e.stroke = &stroke{
		tool: tool, key: key, sprite: e.doc.id(), frame: e.doc.Frame,
		before: g.Clone().Cells, selBefore: e.sel, start: c, last: c,
	}
}

func (e *Editor) beginMove(c cells.Cell) {
	s := e.Selection()
	e.begin(MoveTool, project.Empty, c)
	if s != nil && s.Box.Has(c) {
		e.stroke.moved = e.lift()
		return
	}
	e.selectBox(cells.Between(c, c))
}

// Extend draws on through more points; nothing where no stroke is under way.
func (e *Editor) Extend(points []float64) {
	for e.stroke != nil {
		c, rest, ok := firstCell(points)
		if !ok {
			return
		}
		points = rest
		if c != e.stroke.last {
			if e.stroke.freehand() || len(rest) < 2 { // of a figure only where it ends is drawn
				e.drawTo(c)
			}
		}
	}
}

// freehand says whether a stroke leaves its mark wherever it goes.
func (s *stroke) freehand() bool { return s.tool == Pencil || s.tool == RubOut }

// End makes a step of undo of the stroke under way.
func (e *Editor) End() {
	s := e.stroke
	if s == nil {
		return
	}
	e.stroke = nil
	e.looks++
	d := difference(s.before, e.doc.grid().Cells)
	if len(d) == 0 {
		return
	}
	e.record(step{
		title: titles[s.tool], edits: []edit{&cellsEdit{s.sprite, s.frame, d}},
		benchWas: bench{s.sprite, s.frame}, benchNow: bench{s.sprite, s.frame},
		selected: s.selBefore != e.sel, was: s.selBefore, now: e.sel,
	})
}

// Cancel takes back the stroke under way, as if it had never begun.
func (e *Editor) Cancel() {
	s := e.stroke
	if s == nil {
		return
	}
	e.stroke = nil
	copy(e.doc.grid().Cells, s.before)
	e.sel = s.selBefore
	e.drawn()
}

// Drawing says whether a stroke is under way.
func (e *Editor) Drawing() bool { return e.stroke != nil }

// drawTo goes on to the cell c.
func (e *Editor) drawTo(c cells.Cell) {
	s, g := e.stroke, e.doc.grid()
	from := s.last
	s.last = c
	switch s.tool {
	case Pencil, RubOut:
		cells.Line(from, c, e.ink(g, s.key))
	case LineTool:
		copy(g.Cells, s.before)
		cells.Line(s.start, c, e.ink(g, s.key))
	case BoxTool:
		copy(g.Cells, s.before)
		cells.Rectangle(cells.Between(near(s.start), near(c)), e.session.Body, e.inkRuns(g, s.key))
	case OvalTool:
		copy(g.Cells, s.before)
		cells.Oval(cells.Between(near(s.start), near(c)), e.session.Body, e.inkRuns(g, s.key))
	case MoveTool:
		if s.moved == nil {
			e.selectBox(cells.Between(near(s.start), near(c)))
			e.looks++
			return
		}
		b := s.moved.Box
		b.X = max(-b.W, min(b.X+c.X-s.start.X, g.W))
		b.Y = max(-b.H, min(b.Y+c.Y-s.start.Y, g.H))
		copy(g.Cells, s.moved.under)
		cells.Paste(g, s.moved.Ink, cells.Cell{X: b.X, Y: b.Y}, cells.Ink)
		e.sel = &Selection{Box: b, Ink: s.moved.Ink, sprite: s.sprite, frame: s.frame, under: s.moved.under}
	}
	e.drawn()
}

// drawn says that cells changed without a step of undo yet.
func (e *Editor) drawn() {
	e.revision++
	e.looks++
	e.plans.touch(scope(e.doc.id()), e.revision)
}

// ink puts a key into a cell and into its mirror images.
func (e *Editor) ink(g cells.Grid, key byte) func(cells.Cell) {
	sides := e.session.Sides
	if sides == cells.One {
		return func(c cells.Cell) { g.Put(c, key) }
	}
	put := func(c cells.Cell) { g.Put(c, key) }
	return func(c cells.Cell) { cells.Mirrored(sides, g.W, g.H, c, put) }
}

// inkRuns is ink for runs of cells.
func (e *Editor) inkRuns(g cells.Grid, key byte) func(cells.Run) {
	put := func(r cells.Run) { g.PutRun(r, key) }
	return func(r cells.Run) { cells.MirroredRun(e.session.Sides, g.W, g.H, r, put) }
}

// near brings a figure's corner so near to the grid that even a filled figure
// costs little.
func near(c cells.Cell) cells.Cell {
	limit := func(v int) int { return max(-project.MaxSide, min(v, 2*project.MaxSide)) }
	return cells.Cell{X: limit(c.X), Y: limit(c.Y)}
}

// firstCell is the cell of the first point that is one, and the points after it.
func firstCell(points []float64) (c cells.Cell, rest []float64, ok bool) {
	for len(points) >= 2 {
		c, ok := cells.CellAt(points[0], points[1])
		points = points[2:]
		if ok {
			return c, points, true
		}
	}
	return cells.Cell{}, nil, false
}

// pick takes the colour of a cell in hand and the pencil with it.
func (e *Editor) pick(c cells.Cell) error {
	k := e.doc.grid().At(c)
	if k == project.Empty {
		return errors.New("that cell is empty: there is no colour to pick")
	}
	e.session.Key = string(k)
	e.session.Tool = Pencil
	return nil
}

// fill fills from a cell, and from its mirror images where several sides are
// drawn together.
func (e *Editor) fill(c cells.Cell, reach cells.Reach, key byte) error {
	if !e.doc.grid().Has(c) {
		return nil
	}
	if err := room(e.doc.sprite(), key); err != nil {
		return err
	}
	return e.do("Fill", func(ch *change) error {
		e.putDown()
		ch.drawOpen(func(g cells.Grid) {
			cells.Mirrored(e.session.Sides, g.W, g.H, c, func(c cells.Cell) { cells.Fill(g, c, reach, key) })
		})
		return nil
	})
}
