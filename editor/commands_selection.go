package editor

import (
	"errors"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

type boxArgs struct {
	X      int `json:"x" about:"first column"`
	Y      int `json:"y" about:"first row"`
	Width  int `json:"width" about:"columns"`
	Height int `json:"height" about:"rows"`
}
type byArgs struct {
	DX int `json:"dx" about:"cells to the right"`
	DY int `json:"dy" about:"cells down"`
}
type pasteArgs struct {
	X *int `json:"x" about:"column of its upper left cell"`
	Y *int `json:"y" about:"its row"`
}
type turnArgs struct {
	Way string `json:"way" about:"clockwise is right" oneOf:"right|left"`
}
type flipArgs struct {
	Over string `json:"over" about:"which ends change places" oneOf:"sideways|upside-down"`
}

func selectionCommands() []Command {
	return []Command{
		command("mark", "Mark cells", func(e *Editor, a boxArgs) (any, error) {
			if a.Width < 1 || a.Height < 1 {
				return nil, errors.New("mark: at least one column and one row must be marked")
			}
			limit := func(v int) int { return max(-1<<20, min(v, 1<<20)) }
			e.selectBox(cells.Box{X: limit(a.X), Y: limit(a.Y), W: limit(a.Width), H: limit(a.Height)})
			return nil, nil
		}),
		command("markAll", "Mark everything", func(e *Editor, _ none) (any, error) {
			g := e.doc.grid()
			e.selectBox(cells.Box{W: g.W, H: g.H})
			e.session.Tool = MoveTool
			return nil, nil
		}, Key{Press: "Ctrl+A"}),
		command("move", "Move what is marked, or everything", func(e *Editor, a byArgs) (any, error) {
			return nil, e.afloat("Move", func(c *change, s *Selection) {
				limit := func(v int) int { return max(-1<<20, min(v, 1<<20)) }
				e.moveBy(c, s, limit(a.DX), limit(a.DY))
			})
		}, Key{"Ctrl+ArrowLeft", "Move to the left", `{"dx":-1,"dy":0}`}, Key{"Ctrl+ArrowRight", "Move to the right", `{"dx":1,"dy":0}`},
			Key{"Ctrl+ArrowUp", "Move up", `{"dx":0,"dy":-1}`}, Key{"Ctrl+ArrowDown", "Move down", `{"dx":0,"dy":1}`}),
		command("copy", "Copy what is marked, or everything", func(e *Editor, _ none) (any, error) { return nil, e.copy() }, Key{Press: "Ctrl+C"}),
		command("cut", "Cut what is marked out of the drawing", func(e *Editor, _ none) (any, error) {
			if err := e.copy(); err != nil {
				return nil, err
			}
			return nil, e.rubMarked("Cut out")
		}, Key{Press: "Ctrl+X"}),
		command("paste", "Paste what was copied", runPaste, Key{Press: "Ctrl+V"}),
		command("rubMarked", "Rub out what is marked", func(e *Editor, _ none) (any, error) {
			return nil, e.rubMarked("Rub out")
		}, Key{Press: "Delete"}, Key{Press: "Backspace"}),
		command("turn", "Turn what is marked, or the drawing", runTurn,
			Key{"T", "Turn to the right", `{"way":"right"}`}, Key{"Shift+T", "Turn to the left", `{"way":"left"}`}),
		command("flip", "Flip what is marked, or the drawing", runFlip,
			Key{"H", "Flip sideways", `{"over":"sideways"}`}, Key{"V", "Flip upside down", `{"over":"upside-down"}`}),
	}
}

// afloat makes a step of what f does with the selection lifted off the frame.
func (e *Editor) afloat(title string, f func(c *change, s *Selection)) error {
	return e.do(title, func(c *change) error {
		s := e.lift()
		if s == nil {
			return errors.New("there is nothing drawn here yet")
		}
		f(c, s)
		return nil
	})
}

// copy keeps the marked cells, or everything drawn, for pasting.
func (e *Editor) copy() error {
	g, s := e.doc.grid(), e.Selection()
	switch {
	case s.lifted():
		e.clip = s.Ink
		return nil
	case s != nil:
		e.clip = cells.Cut(g, s.Box)
		return nil
	}
	b := g.Inked()
	if b.Empty() {
		return errors.New("there is nothing drawn here yet to copy")
	}
	e.clip = cells.Cut(g, b)
	return nil
}

func (e *Editor) rubMarked(title string) error {
	if e.Selection() == nil && e.doc.grid().Inked().Empty() {
		return errors.New("there is nothing drawn here yet")
	}
	return e.afloat(title, func(c *change, s *Selection) {
		c.cells(s.sprite, s.frame, s.under)
		e.sel = nil
	})
}

// runPaste lays a copy afloat over the drawing, in its middle or where it is told.
func runPaste(e *Editor, a pasteArgs) (any, error) {
	if e.clip.Cells == nil {
		return nil, errors.New("nothing was copied yet")
	}
	ink := e.clip.Clone()
	for i, k := range ink.Cells { // colours may have gone since
		if k != project.Empty && e.doc.colour(k) < 0 {
			ink.Cells[i] = project.Empty
		}
	}
	var keys []byte
	for k, used := range ink.Used() {
		if used {
			keys = append(keys, byte(k))
		}
	}
	if err := room(e.doc.sprite(), keys...); err != nil {
		return nil, err
	}
	g := e.doc.grid()
	at := cells.Cell{X: (g.W - ink.W) / 2, Y: (g.H - ink.H) / 2}
	if s := e.Selection(); s != nil {
		at = cells.Cell{X: s.Box.X, Y: s.Box.Y}
	}
	if a.X != nil {
		at.X = max(-ink.W, min(*a.X, g.W))
	}
	if a.Y != nil {
		at.Y = max(-ink.H, min(*a.Y, g.H))
	}
	e.session.Tool = MoveTool
	return nil, e.do("Paste", func(c *change) error {
		under := &Selection{sprite: e.doc.id(), frame: e.doc.Frame, under: g.Clone().Cells}
		e.float(c, under, cells.Box{X: at.X, Y: at.Y, W: ink.W, H: ink.H}, ink)
		return nil
	})
}

func runTurn(e *Editor, a turnArgs) (any, error) {
	way := cells.Way(a.Way)
	if e.Selection() == nil {
		return nil, e.do("Turn", func(c *change) error {
			c.make(&turnEdit{e.doc.id(), way})
			return nil
		})
	}
	return nil, e.afloat("Turn", func(c *change, s *Selection) {
		ink := cells.Turned(s.Ink, way)
		// About its middle; odd differences go to the upper left.
		b := cells.Box{X: s.Box.X + (s.Box.W-ink.W)/2, Y: s.Box.Y + (s.Box.H-ink.H)/2, W: ink.W, H: ink.H}
		e.float(c, s, b, ink)
	})
}

func runFlip(e *Editor, a flipArgs) (any, error) {
	over := cells.Over(a.Over)
	if e.Selection() == nil {
		return nil, e.do("Flip", func(c *change) error {
			c.make(&flipEdit{e.doc.id(), e.doc.Frame, over})
			return nil
		})
	}
	return nil, e.afloat("Flip", func(c *change, s *Selection) {
		ink := s.Ink.Clone()
		cells.Flip(ink, over)
		e.float(c, s, s.Box, ink)
	})
}
