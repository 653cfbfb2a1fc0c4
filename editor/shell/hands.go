//go:build js

package shell

import (
	"encoding/binary"
	"math"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/editor/gesture"
	"sheetsprite/editor/viewport"
)

// sampleFields is how many numbers of a batch make a sample: kind, device, id,
// buttons, key held, x, y, time, pressure (web/js/glass.js).
const sampleFields = 9

// input takes a batch of pointer samples, a Float64Array.
func (s *Shell) input(args []js.Value) any {
	array := args[0]
	raw := make([]byte, array.Get("byteLength").Int())
	js.CopyBytesToGo(raw, js.Global().Get("Uint8Array").New(array.Get("buffer"), array.Get("byteOffset"), len(raw)))
	at := func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(raw[8*i:])) }
	told := false
	for i := 0; (i+sampleFields)*8 <= len(raw); i += sampleFields {
		told = s.sample(gesture.Sample{
			Kind: gesture.Kind(at(i)), Device: gesture.Device(at(i + 1)), ID: int32(at(i + 2)),
			Buttons: uint8(at(i + 3)), Held: gesture.Held(at(i + 4)), X: at(i + 5), Y: at(i + 6), Time: at(i + 7),
		}) || told
	}
	s.flushStroke()
	if told {
		s.changed()
	} else {
		s.show() // only a cell was pointed at, which the canvas shows
	}
	return nil
}

// sample gives a sample to the relief where it began there, else to the hands.
// It says whether more than the pointer's place may have changed.
func (s *Shell) sample(p gesture.Sample) bool {
	if s.turn(p) {
		return p.Kind != gesture.Hover
	}
	s.actions = s.hands.Feed(p, s.actions[:0])
	more := false
	for _, a := range s.actions {
		s.act(a)
		more = more || a.Verb != gesture.Show && a.Verb != gesture.Hide
	}
	return more
}

func (s *Shell) act(a gesture.Action) {
	v := s.editor.View()
	x, y := v.ToCells(viewport.Point{X: a.X, Y: a.Y})
	grid := &s.glass.Grid
	if a.Verb != gesture.Extend {
		s.flushStroke()
	}
	switch a.Verb {
	case gesture.Begin:
		tool := s.editor.Session().Tool
		if a.Rub {
			tool = editor.RubOut
		}
		s.refused(s.editor.BeginWith(tool, []float64{x, y}))
		s.hover(x, y)
	case gesture.Extend:
		s.points = append(s.points, x, y)
		s.hover(x, y)
	case gesture.End:
		s.editor.End()
	case gesture.Abandon:
		s.editor.Cancel()
	case gesture.Pinch:
		s.editor.Pinch(viewport.Point{X: a.FromX, Y: a.FromY}, viewport.Point{X: a.X, Y: a.Y}, a.Factor)
		grid.Hovering = false
	case gesture.Show:
		s.hover(x, y)
	case gesture.Hide:
		grid.Hovering = false
	case gesture.Pick:
		s.refused(s.editor.BeginWith(editor.PickTool, []float64{x, y}))
	}
}

// flushStroke gives the gathered points of the stroke to the editor.
func (s *Shell) flushStroke() {
	if len(s.points) > 0 {
		s.editor.Extend(s.points)
		s.points = s.points[:0]
	}
}

// refused shows why something could not be done.
func (s *Shell) refused(err error) {
	if err != nil {
		s.say(err.Error())
	}
}

// hover brings out the cell at a place.
func (s *Shell) hover(x, y float64) {
	grid := &s.glass.Grid
	grid.Hover.X, grid.Hover.Y = int(math.Floor(x)), int(math.Floor(y))
	grid.Hovering = true
}

// wheel moves the view, or zooms: x, y, dx, dy, zoom (1) or not (0).
func (s *Shell) wheel(args []js.Value) any {
	at := viewport.Point{X: args[0].Float(), Y: args[1].Float()}
	dx, dy := args[2].Float(), args[3].Float()
	if s.layout.Relief.holds(at.X, at.Y) {
		return nil
	}
	if args[4].Float() != 0 {
		s.editor.Pinch(at, at, math.Pow(2, -max(-200, min(dy, 200))/200))
	} else {
		s.editor.Pinch(at, viewport.Point{X: at.X - dx, Y: at.Y - dy}, 1)
	}
	s.changed()
	return nil
}
