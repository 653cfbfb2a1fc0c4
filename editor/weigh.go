package editor

import (
	"bytes"
	"encoding/json"
	"slices"

	"sheetsprite/editor/plan"
	"sheetsprite/engine/project"
)

// Weighing is what the worker has to plan to tell what a command on the open
// sprite's stack would cost. Nothing changes: the command is carried out on a
// copy.
//
// Errors: as the command itself gives them.
func (e *Editor) Weighing(name string, args json.RawMessage) (*plan.Request, error) {
	p := e.doc.Project
	p.Places, p.Choice = nil, project.Choice{} // they name other sprites, too
	p.Palette, p.Stocks = slices.Clone(p.Palette), slices.Clone(p.Stocks)
	s := *e.doc.sprite()
	s.Frames = []project.Frame{{Cells: bytes.Clone(s.Frames[0].Cells)}}
	s.Stack.Under = slices.Clone(s.Stack.Under)
	p.Sprites = []project.Sprite{s}
	copied, err := New(&p)
	if err != nil {
		return nil, err
	}
	if _, err := copied.Run(name, args); err != nil {
		return nil, err
	}
	return copied.PlanRequest(), nil
}
