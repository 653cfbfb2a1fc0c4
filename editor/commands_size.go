package editor

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

type cellSizeArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Mm     float64 `json:"mm" about:"a cell's side, 0.5 to 50"`
}
type overallArgs struct {
	Sprite *string  `json:"sprite" about:"another sprite than the open one"`
	Width  *float64 `json:"width" about:"of the whole grid, in mm"`
	Height *float64 `json:"height" about:"of the whole grid, in mm; give one of both"`
}
type copiesArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Copies int     `json:"copies" about:"how many are cut"`
}
type resizeArgs struct {
	Width  int    `json:"width" about:"cells across, 1 to 256"`
	Height int    `json:"height" about:"cells down, 1 to 256"`
	Keep   string `json:"keep,omitempty" about:"where the drawing stays; the middle if nothing is said" oneOf:"|top-left|top|top-right|left|middle|right|bottom-left|bottom|bottom-right"`
}

func sizeCommands() []Command {
	return []Command{
		command("setCell", "Cell size", func(e *Editor, a cellSizeArgs) (any, error) {
			return nil, e.setCell("setCell", a.Sprite, a.Mm)
		}),
		command("setSize", "Overall size", runOverall),
		command("setCopies", "Copies", func(e *Editor, a copiesArgs) (any, error) {
			i, err := e.spriteIndex("setCopies", a.Sprite)
			if err != nil {
				return nil, err
			}
			if a.Copies < 1 || a.Copies > project.MaxCopies {
				return nil, fmt.Errorf("a sprite is cut 1 to %d times: %d can't be", project.MaxCopies, a.Copies)
			}
			return nil, e.face("Copies", i, func(s *project.Sprite) { s.Copies = a.Copies })
		}),
		command("resize", "More or fewer cells", runResize),
		command("crop", "Cut the grid to what is marked", func(e *Editor, _ none) (any, error) {
			s := e.Selection()
			if s == nil {
				return nil, errors.New("mark the cells to keep first")
			}
			g := e.doc.grid()
			return nil, e.cropTo("Crop", s.Box.Within(g.W, g.H))
		}),
		command("trim", "Cut off empty rows and columns", func(e *Editor, _ none) (any, error) {
			var b cells.Box
			for f := range e.doc.sprite().Frames { // what any frame needs stays
				b = union(b, e.doc.gridOf(e.doc.sprite(), f).Inked())
			}
			return nil, e.cropTo("Trim", b)
		}),
		command("shift", "Shift the whole drawing round", func(e *Editor, a byArgs) (any, error) {
			dx, dy := a.DX%e.doc.sprite().W, a.DY%e.doc.sprite().H
			if dx == 0 && dy == 0 {
				return nil, nil
			}
			return nil, e.do("Shift", func(c *change) error {
				e.putDown()
				c.make(&shiftEdit{e.doc.id(), e.doc.Frame, dx, dy})
				return nil
			})
		}, Key{"Ctrl+Shift+ArrowLeft", "Shift the whole drawing to the left", `{"dx":-1,"dy":0}`},
			Key{"Ctrl+Shift+ArrowRight", "Shift the whole drawing to the right", `{"dx":1,"dy":0}`},
			Key{"Ctrl+Shift+ArrowUp", "Shift the whole drawing up", `{"dx":0,"dy":-1}`},
			Key{"Ctrl+Shift+ArrowDown", "Shift the whole drawing down", `{"dx":0,"dy":1}`}),
	}
}

// face makes a step of a change to what a sprite is besides its size and frames.
func (e *Editor) face(title string, index int, f func(*project.Sprite)) error {
	return e.do(title, func(c *change) error {
		c.setSprite(e.doc.IDs[index], f)
		return nil
	})
}

func (e *Editor) setCell(command string, sprite *string, mm float64) error {
	i, err := e.spriteIndex(command, sprite)
	if err != nil {
		return err
	}
	cell, err := cellOf(mm)
	if err != nil {
		return err
	}
	return e.face("Cell size", i, func(s *project.Sprite) { s.Cell = cell })
}

// runOverall sets the cell size by the whole grid's: the cell follows, to the
// nearest µm.
func runOverall(e *Editor, a overallArgs) (any, error) {
	i, err := e.spriteIndex("setSize", a.Sprite)
	if err != nil {
		return nil, err
	}
	s := &e.doc.Project.Sprites[i]
	var cell float64
	switch {
	case a.Width != nil && a.Height == nil:
		cell = *a.Width / float64(s.W)
	case a.Height != nil && a.Width == nil:
		cell = *a.Height / float64(s.H)
	default:
		return nil, errors.New("setSize: give the width or the height; the other follows")
	}
	if u := um(cell); u < project.MinCell || u > project.MaxCell {
		least, most := mm(project.MinCell), mm(project.MaxCell)
		n := s.W
		if a.Height != nil {
			n = s.H
		}
		return nil, fmt.Errorf("with %d cells it can be %s to %s mm: cells are %g to %g mm", n,
			trimmed(least*float64(n)), trimmed(most*float64(n)), least, most)
	}
	return nil, e.setCell("setSize", a.Sprite, cell)
}

// trimmed is a number to 3 decimals, without zeros at its end.
func trimmed(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", math.Round(v*1000)/1000), "0"), ".")
}

func runResize(e *Editor, a resizeArgs) (any, error) {
	if err := checkSides(a.Width, a.Height); err != nil {
		return nil, err
	}
	s := e.doc.sprite()
	dx, dy := a.Width-s.W, a.Height-s.H
	b := cells.Box{X: -half(dx), Y: -half(dy), W: a.Width, H: a.Height}
	if strings.Contains(a.Keep, "left") {
		b.X = 0
	}
	if strings.Contains(a.Keep, "right") {
		b.X = -dx
	}
	if strings.Contains(a.Keep, "top") {
		b.Y = 0
	}
	if strings.Contains(a.Keep, "bottom") {
		b.Y = -dy
	}
	return nil, e.cropTo("Resize", b)
}

// half is v/2, rounded down.
func half(v int) int { return v >> 1 }

func union(a, b cells.Box) cells.Box {
	if a.Empty() {
		return b
	}
	if b.Empty() {
		return a
	}
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return cells.Box{X: x, Y: y, W: max(a.X+a.W, b.X+b.W) - x, H: max(a.Y+a.H, b.Y+b.H) - y}
}

// cropTo makes b, which may reach beyond it, the open sprite's grid.
func (e *Editor) cropTo(title string, b cells.Box) error {
	if b.Empty() {
		return errors.New("there is nothing drawn here yet")
	}
	if err := checkSides(b.W, b.H); err != nil {
		return err
	}
	return e.do(title, func(c *change) error {
		e.putDown()
		c.size(e.doc.id(), func(g cells.Grid) cells.Grid { return cells.Cut(g, b) })
		return nil
	})
}
