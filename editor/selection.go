package editor

import (
	"sheetsprite/editor/cells"
)

// Selection is the cells that the maker has marked to be moved, copied or
// turned. Once moved they float: they are drawn where they are, but what lies
// under them comes back when they move on. Invariant: a Selection is never
// written to, so that undo may keep it; while it floats, the frame's cells are
// under with Ink laid over at Box.
type Selection struct {
	Box    cells.Box
	Ink    cells.Grid // what floats; no cells where nothing does
	sprite int        // ID
	frame  int
	under  []byte // the frame's cells without what floats
}

func (s *Selection) lifted() bool { return s != nil && s.under != nil }

// Selection is what is marked on the frame on the bench; nil where nothing is.
func (e *Editor) Selection() *Selection {
	s := e.sel
	if s == nil || s.sprite != e.doc.id() || s.frame != e.doc.Frame {
		return nil
	}
	return s
}

// selectBox marks the cells of b that are in the grid; none takes the mark away.
func (e *Editor) selectBox(b cells.Box) {
	g := e.doc.grid()
	if b = b.Within(g.W, g.H); b.Empty() {
		e.sel = nil
		return
	}
	e.sel = &Selection{Box: b, sprite: e.doc.id(), frame: e.doc.Frame}
}

// lift is the selection afloat: what it marks, taken off the frame. Without a
// selection it is everything drawn; nil where nothing is.
func (e *Editor) lift() *Selection {
	s, g := e.Selection(), e.doc.grid()
	if s.lifted() {
		return s
	}
	b := g.Inked()
	if s != nil {
		b = s.Box
	}
	if b.Empty() {
		return nil
	}
	under := g.Clone()
	ink := cells.Cut(g, b)
	cells.Paste(under, cells.New(b.W, b.H), cells.Cell{X: b.X, Y: b.Y}, cells.Opaque)
	return &Selection{Box: b, Ink: ink, sprite: e.doc.id(), frame: e.doc.Frame, under: under.Cells}
}

// float lays ink at b over what lies under s, as one step's edit, and selects it.
func (e *Editor) float(c *change, s *Selection, b cells.Box, ink cells.Grid) {
	now := cells.Grid{W: e.doc.sprite().W, H: e.doc.sprite().H, Cells: s.under}.Clone()
	cells.Paste(now, ink, cells.Cell{X: b.X, Y: b.Y}, cells.Ink)
	c.cells(s.sprite, s.frame, now.Cells)
	e.sel = &Selection{Box: b, Ink: ink, sprite: s.sprite, frame: s.frame, under: s.under}
}

// putDown lets what floats lie where it is; the mark goes.
func (e *Editor) putDown() { e.sel = nil }

// moveBy moves the selection, or everything drawn, by whole cells.
func (e *Editor) moveBy(c *change, s *Selection, dx, dy int) {
	b := s.Box
	// It may leave the grid, but not further than just out of sight.
	b.X = max(-b.W, min(b.X+dx, e.doc.sprite().W))
	b.Y = max(-b.H, min(b.Y+dy, e.doc.sprite().H))
	e.float(c, s, b, s.Ink)
}
