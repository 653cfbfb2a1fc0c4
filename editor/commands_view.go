package editor

import (
	"errors"
	"fmt"
	"strings"

	"sheetsprite/editor/cells"
	"sheetsprite/editor/viewport"
)

type viewArgs struct {
	View string `json:"view" about:"Draw, Sheets or Assemble"`
}
type spriteNameArgs struct {
	Name string `json:"name" about:"the sprite's name"`
}
type stepArgs struct {
	By int `json:"by" about:"how many further; negative: back"`
}
type zoomArgs struct {
	Factor float64  `json:"factor" about:"over 1: closer"`
	X      *float64 `json:"x" about:"what stays where it is, in CSS pixels of the page"`
	Y      *float64 `json:"y" about:"the same"`
}
type panArgs struct {
	DX float64 `json:"dx" about:"to the right, in CSS pixels"`
	DY float64 `json:"dy" about:"down, in CSS pixels"`
}
type unitsArgs struct {
	Units string `json:"units" about:"what lengths are shown in" oneOf:"mm|in"`
}
type calibrateArgs struct {
	PxPerMm float64 `json:"pxPerMm" about:"CSS pixels in a millimetre of this glass; 0: not known"`
}
type introArgs struct {
	Step int `json:"step" about:"1 to 3; 0: leave"`
}

func viewCommands() []Command {
	return []Command{
		command("showView", "Show a view", runShowView,
			Key{"1", "Draw", `{"view":"Draw"}`}, Key{"2", "Sheets", `{"view":"Sheets"}`},
			Key{"3", "Assemble", `{"view":"Assemble"}`}),
		command("fit", "The whole drawing in view", func(e *Editor, _ none) (any, error) {
			e.showWhole()
			return nil, nil
		}, Key{Press: "0"}),
		command("zoom", "Closer or further away", func(e *Editor, a zoomArgs) (any, error) {
			if a.Factor <= 0 {
				return nil, errors.New("zoom: factor must be over 0")
			}
			p := e.view.Middle()
			if a.X != nil && a.Y != nil {
				p = viewport.Point{X: *a.X, Y: *a.Y}
			}
			e.view.Zoom(p, a.Factor)
			return nil, nil
		}, Key{"+", "Closer", `{"factor":1.25}`}, Key{"-", "Further away", `{"factor":0.8}`}),
		command("pan", "Move the view", func(e *Editor, a panArgs) (any, error) {
			e.view.Pan(a.DX, a.DY)
			return nil, nil
		}, Key{"Home", "See more on the left", `{"dx":80,"dy":0}`}, Key{"End", "See more on the right", `{"dx":-80,"dy":0}`},
			Key{"PageUp", "See more above", `{"dx":0,"dy":80}`}, Key{"PageDown", "See more below", `{"dx":0,"dy":-80}`}),
		command("units", "Millimetres or inches", func(e *Editor, a unitsArgs) (any, error) {
			e.session.Units = Units(a.Units)
			return nil, nil
		}, Key{"Ctrl+Alt+M", "Millimetres", `{"units":"mm"}`}, Key{"Ctrl+Alt+I", "Inches", `{"units":"in"}`}),
		command("calibrate", "Fit sizes to this glass", func(e *Editor, a calibrateArgs) (any, error) {
			if a.PxPerMm != 0 && (a.PxPerMm < 0.5 || a.PxPerMm > 100) {
				return nil, fmt.Errorf("a millimetre of glass is 0.5 to 100 pixels: %g can't be, so measure again", a.PxPerMm)
			}
			e.session.PxPerMm = a.PxPerMm
			return nil, nil
		}),
		command("showStep", "Show a step of the introduction", func(e *Editor, a introArgs) (any, error) {
			if a.Step < 0 || a.Step > IntroSteps {
				return nil, fmt.Errorf("the introduction has %d steps", IntroSteps)
			}
			e.session.Intro = a.Step
			return nil, nil
		}, Key{"F1", "Show the introduction", `{"step":1}`}),
	}
}

func runShowView(e *Editor, a viewArgs) (any, error) {
	for _, v := range []View{ViewDraw, ViewSheets, ViewAssemble} {
		if strings.EqualFold(a.View, string(v)) {
			e.session.View = v
			return nil, nil
		}
	}
	return nil, fmt.Errorf("there is no view %s: there are Draw, Sheets and Assemble", quoted(a.View))
}

// openSprite puts a sprite on the bench; its first frame.
func (e *Editor) openSprite(index int) {
	if index == e.doc.Open {
		return
	}
	e.doc.Open, e.doc.Frame = index, 0
	e.sel = nil
	e.session.Cursor = cells.Cell{}
	e.holdColour()
	e.showWhole()
}

// openID is openSprite by number, after sprites have moved.
func (e *Editor) openID(id int) {
	for i, other := range e.doc.IDs {
		if other == id {
			if e.doc.Open != i {
				e.doc.Open = i
			}
			e.doc.keep()
			return
		}
	}
}

// View is where the grid lies on the page.
func (e *Editor) View() viewport.View { return e.view }

// SetArea tells which part of the page the drawing may be seen in.
func (e *Editor) SetArea(a viewport.Area) {
	if e.view.Area != a {
		e.view.SetArea(a)
		e.looks++
	}
}

// Pinch moves and zooms the view as two fingers do: see viewport.View.Pinch.
func (e *Editor) Pinch(from, to viewport.Point, factor float64) {
	e.view.Pinch(from, to, factor)
	e.looks++
}
