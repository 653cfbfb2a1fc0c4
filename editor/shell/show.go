//go:build js

package shell

import (
	"encoding/json"
	"image"
	"strconv"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/editor/canvas"
	"sheetsprite/editor/cells"
	"sheetsprite/editor/viewport"
)

// layout is where the page lets the canvas draw, and in which colours.
type layout struct {
	Bench   box               `json:"bench"`
	Relief  box               `json:"relief"`
	Ratio   float64           `json:"ratio"`
	Colours map[string]string `json:"colours"` // "#rrggbb" by role
	Marks   []canvas.Mark     `json:"marks"`
	Motion  string            `json:"motion"` // "moving" or "still"
}

// box is a rectangle of the page, CSS pixels.
type box struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
	W float64 `json:"w"`
	H float64 `json:"h"`
}

func (b box) area() viewport.Area { return viewport.Area{X: b.X, Y: b.Y, W: b.W, H: b.H} }

func (b box) holds(x, y float64) bool {
	return x >= b.X && y >= b.Y && x < b.X+b.W && y < b.Y+b.H
}

// shown is what the canvas has of the model.
type shown struct {
	revision uint64
	cells    *byte // the first cell of the frame
	picture  *editor.Reference
	plan     any // *plan.Summary that the relief shows
	scene    int // ID of the sprite whose relief is shown, 0 for none
	camera   cameraKey
}

// arrange takes a layout as JSON.
func (s *Shell) arrange(args []js.Value) any {
	var l layout
	if err := json.Unmarshal([]byte(args[0].String()), &l); err != nil {
		panic("shell: the page's layout: " + err.Error())
	}
	s.layout = l
	g := s.glass
	if l.Ratio > 0 {
		g.Ratio = l.Ratio
	}
	role := func(name string) canvas.Paint { return hexPaint(l.Colours[name]) }
	g.Theme = canvas.Theme{
		Bench: role("bench"), Card: role("card"), Sheet: role("sheet"), Edge: role("edge"),
		Ink: role("ink"), Signal: role("signal"), Chosen: role("chosen"),
	}
	g.Grid.Marks = l.Marks
	g.Relief.Touch()
	if l.Bench.W > 0 && l.Bench.H > 0 {
		s.editor.SetArea(l.Bench.area())
	}
	s.changed()
	return nil
}

// hexPaint reads "#rrggbb"; anything else is grey.
func hexPaint(hex string) canvas.Paint {
	if len(hex) == 7 {
		if v, err := strconv.ParseUint(hex[1:], 16, 32); err == nil {
			return canvas.RGB(uint8(v>>16), uint8(v>>8), uint8(v))
		}
	}
	return canvas.RGB(128, 128, 128)
}

// show brings the canvas in step with the model and wakes a frame where there
// is something to see.
func (s *Shell) show() {
	e, g := s.editor, s.glass
	session := e.Session()
	g.View = e.View()
	if grid := e.Grid(); s.shown.revision != e.Revision() || s.shown.cells != &grid.Cells[0] {
		s.showCells(grid)
		s.shown.revision, s.shown.cells = e.Revision(), &grid.Cells[0]
	}
	g.Grid.Selection = image.Rectangle{}
	if sel := e.Selection(); sel != nil {
		b := sel.Box
		g.Grid.Selection = image.Rect(b.X, b.Y, b.X+b.W, b.Y+b.H)
	}
	g.Grid.Sides = canvas.Sides{
		LeftRight: session.Sides != cells.One && session.Sides != cells.TopBottom,
		TopBottom: session.Sides != cells.One && session.Sides != cells.LeftRight,
	}
	g.Grid.AtKeys = session.AtKeys
	g.Grid.Cursor = image.Pt(session.Cursor.X, session.Cursor.Y)
	s.showPicture(e.Picture())
	s.showRelief(session.Relief)
	if s.glass.Waiting() {
		s.wake()
	}
}

// showCells gives the canvas the open frame's colours.
func (s *Shell) showCells(grid cells.Grid) {
	var paint [256][4]byte
	for _, c := range s.editor.Project().Palette {
		paint[c.Key] = [4]byte{c.RGB.R, c.RGB.G, c.RGB.B, 255}
	}
	pixels := make([]byte, 4*len(grid.Cells))
	for i, key := range grid.Cells {
		copy(pixels[4*i:], paint[key][:])
	}
	s.glass.Grid.SetCells(grid.W, grid.H, pixels)
}
