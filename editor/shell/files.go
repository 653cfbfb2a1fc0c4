//go:build js

package shell

import (
	"bytes"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/engine/project"
)

func readProject(file []byte) (*project.Project, error) {
	return project.Read(bytes.NewReader(file))
}

// open takes up what the browser kept: a project file and what was in hand.
// Where the file can't be read the demo stays, and the error is returned as
// {"error": "…"}.
func (s *Shell) open(args []js.Value) any {
	file, session := bytesFromJS(args[0]), bytesFromJS(args[1])
	if file == nil {
		return "{}"
	}
	p, err := readProject(file)
	if err == nil {
		var e *editor.Editor
		if e, err = editor.New(p); err == nil {
			e.SetArea(s.layout.Bench.area())
			e.RestoreSession(session)
			e.MarkSaved(e.Kept())
			s.editor, s.shown = e, shown{}
		}
	}
	s.changed()
	if err != nil {
		return text(map[string]string{"error": err.Error()})
	}
	return "{}"
}

// projectFile is the project as it is now, as a file.
func (s *Shell) projectFile([]js.Value) any {
	file, err := s.editor.ProjectText()
	if err != nil {
		panic("shell: the open project can't be written: " + err.Error())
	}
	return bytesToJS(file)
}

// thumbnail is a sprite's first frame: {width, height, pixels}, RGBA.
func (s *Shell) thumbnail(args []js.Value) any {
	p := s.editor.Project()
	i := args[0].Int()
	if i < 0 || i >= len(p.Sprites) {
		return nil
	}
	img := p.Sprites[i].Image(p.Palette)
	pixels := js.Global().Get("Uint8ClampedArray").New(len(img.Pix))
	js.CopyBytesToJS(pixels, img.Pix)
	return map[string]any{"width": p.Sprites[i].W, "height": p.Sprites[i].H, "pixels": pixels}
}
