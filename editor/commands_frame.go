package editor

import (
	"bytes"
	"errors"
	"fmt"

	"sheetsprite/engine/project"
)

type frameArgs struct {
	Frame int `json:"frame" about:"which one, from 1"`
}

func frameCommands() []Command {
	return []Command{
		command("showFrame", "Show a frame", func(e *Editor, a frameArgs) (any, error) {
			if n := len(e.doc.sprite().Frames); a.Frame < 1 || a.Frame > n {
				return nil, fmt.Errorf("this sprite has %d frames: there is no frame %d", n, a.Frame)
			}
			e.showFrame(a.Frame - 1)
			return nil, nil
		}),
		command("nextFrame", "The next frame", func(e *Editor, a stepArgs) (any, error) {
			e.showFrame(around(e.doc.Frame, a.By, len(e.doc.sprite().Frames)))
			return nil, nil
		}, Key{".", "The next frame", `{"by":1}`}, Key{",", "The frame before", `{"by":-1}`}),
		command("addFrame", "Add an empty frame", func(e *Editor, _ none) (any, error) {
			g := e.doc.grid()
			return nil, e.addFrame("Add a frame", bytes.Repeat([]byte{project.Empty}, g.W*g.H))
		}),
		command("copyFrame", "Copy this frame", func(e *Editor, _ none) (any, error) {
			return nil, e.addFrame("Copy a frame", bytes.Clone(e.doc.grid().Cells))
		}),
		command("removeFrame", "Remove this frame", func(e *Editor, _ none) (any, error) {
			if len(e.doc.sprite().Frames) == 1 {
				return nil, errors.New("this is the sprite's only frame")
			}
			return nil, e.do("Remove a frame", func(c *change) error {
				e.sel = nil
				id := e.doc.id()
				replaceIn(c, scope(id), framesOf(id), e.doc.Frame, 1, len(e.doc.grid().Cells))
				e.doc.keep()
				return nil
			})
		}),
	}
}

// framesOf finds a sprite's frames.
func framesOf(id int) func(*Document) *[]project.Frame {
	return func(d *Document) *[]project.Frame { return &d.byID(id).Frames }
}

func (e *Editor) showFrame(frame int) {
	if frame != e.doc.Frame {
		e.doc.Frame = frame
		e.sel = nil
	}
}

// addFrame adds a frame behind the one on the bench and shows it.
func (e *Editor) addFrame(title string, cells []byte) error {
	if len(e.doc.sprite().Frames) >= project.MaxFrames {
		return fmt.Errorf("a sprite has at most %d frames", project.MaxFrames)
	}
	return e.do(title, func(c *change) error {
		e.sel = nil
		id := e.doc.id()
		replaceIn(c, scope(id), framesOf(id), e.doc.Frame+1, 0, len(cells), project.Frame{Cells: cells})
		e.doc.Frame++
		return nil
	})
}
