package editor

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"

	"sheetsprite/engine/project"
)

type addSpriteArgs struct {
	Name   string `json:"name,omitempty" about:"its name"`
	Width  int    `json:"width,omitempty" about:"cells across, 1 to 256"`
	Height int    `json:"height,omitempty" about:"cells down, 1 to 256"`
}
type copySpriteArgs struct {
	Name *string `json:"name" about:"the sprite to copy; the open one if nothing is said"`
	As   string  `json:"as,omitempty" about:"the copy's name"`
}
type renameArgs struct {
	Name *string `json:"name" about:"the sprite; the open one if nothing is said"`
	To   string  `json:"to" about:"its new name"`
}
type orderSpriteArgs struct {
	Name *string `json:"name" about:"the sprite; the open one if nothing is said"`
	To   int     `json:"to" about:"its new place, from 0"`
}
type removeSpriteArgs struct {
	Sprite *string `json:"sprite" about:"the sprite; the open one if nothing is said"`
}
type importArgs struct {
	Name    string `json:"name" about:"the file's name"`
	PNG     []byte `json:"png" about:"the picture, one pixel a cell"`
	Colours int    `json:"colours,omitempty" about:"reduce it to so many colours"`
}
type importFramesArgs struct {
	Name string   `json:"name" about:"the file's name"`
	PNGs [][]byte `json:"pngs" about:"pictures of one size, one pixel a cell: the frames in order"`
}
type importSpritesArgs struct {
	Name string   `json:"name" about:"the sheet's file name"`
	PNGs [][]byte `json:"pngs" about:"its sprites in reading order, one pixel a cell"`
}
type exportArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Scale  int     `json:"scale,omitempty" about:"pixels a cell, 1 to 32; 1 if nothing is said"`
}

func spriteCommands() []Command {
	return []Command{
		command("showSprite", "Put a sprite on the bench", func(e *Editor, a spriteNameArgs) (any, error) {
			i := e.doc.named(a.Name)
			if i < 0 {
				return nil, fmt.Errorf("there is no sprite called %s", quoted(a.Name))
			}
			e.openSprite(i)
			return nil, nil
		}),
		command("nextSprite", "The next sprite", func(e *Editor, a stepArgs) (any, error) {
			e.openSprite(around(e.doc.Open, a.By, len(e.doc.Project.Sprites)))
			return nil, nil
		}, Key{"}", "The next sprite", `{"by":1}`}, Key{"{", "The sprite before", `{"by":-1}`}),
		command("addSprite", "Add a sprite", runAddSprite, Key{Press: "Ctrl+Alt+A"}),
		command("copySprite", "Copy a sprite", runCopySprite, Key{Press: "Ctrl+Alt+C"}),
		command("renameSprite", "Rename a sprite", func(e *Editor, a renameArgs) (any, error) {
			i, err := e.spriteIndex("renameSprite", a.Name)
			if err != nil {
				return nil, err
			}
			return nil, e.face("Rename a sprite", i, func(s *project.Sprite) { s.Name = a.To })
		}),
		command("moveSprite", "Move a sprite in the list", runMoveSprite),
		command("removeSprite", "Remove a sprite", runRemoveSprite, Key{Press: "Ctrl+Alt+Delete"}),
		command("importSprite", "Make a sprite of a picture", func(e *Editor, a importArgs) (any, error) {
			return nil, e.ImportSprite(a.Name, a.PNG, a.Colours)
		}),
		command("importFrames", "Make a sprite of a moving picture", func(e *Editor, a importFramesArgs) (any, error) {
			return nil, e.ImportFrames(a.Name, a.PNGs)
		}),
		command("importSprites", "Make sprites of a sheet of them", func(e *Editor, a importSpritesArgs) (any, error) {
			return nil, e.ImportSprites(a.Name, a.PNGs)
		}),
		command("exportPicture", "Save the sprite as a picture", func(e *Editor, a exportArgs) (any, error) {
			i, err := e.spriteIndex("exportPicture", a.Sprite)
			if err != nil {
				return nil, err
			}
			if a.Scale < 0 || a.Scale > maxScale {
				return nil, fmt.Errorf("a cell of the picture is 1 to %d pixels a side", maxScale)
			}
			frame := 0
			if i == e.doc.Open {
				frame = e.doc.Frame
			}
			return e.doc.picture(i, frame, max(a.Scale, 1))
		}, Key{Press: "Ctrl+Shift+S"}),
	}
}

// freeName is base, or base with the first number that makes it a new name.
func (d *Document) freeName(base string) string {
	if base == "" {
		base = "Sprite"
	}
	name := base
	for n := 2; d.named(name) >= 0; n++ {
		name = base + " " + strconv.Itoa(n)
	}
	return name
}

// roomForSprites says why no more sprites can be added.
func (d *Document) roomForSprites(n int) error {
	if len(d.Project.Sprites)+n > project.MaxSprites {
		return fmt.Errorf("a project has at most %d sprites: start another one", project.MaxSprites)
	}
	return nil
}

// addBehind adds a sprite behind the one at index and puts it on the bench.
func (e *Editor) addBehind(c *change, index int, s project.Sprite) error {
	if err := e.doc.roomForSprites(1); err != nil {
		return err
	}
	c.addSprites(index+1, s)
	e.openSprite(index + 1)
	return nil
}

func runAddSprite(e *Editor, a addSpriteArgs) (any, error) {
	w, h := a.Width, a.Height
	if w == 0 {
		w = newSide
	}
	if h == 0 {
		h = newSide
	}
	if err := checkSides(w, h); err != nil {
		return nil, err
	}
	name := a.Name
	if name == "" {
		name = e.doc.freeName("Sprite " + strconv.Itoa(len(e.doc.Project.Sprites)+1))
	}
	return nil, e.do("Add a sprite", func(c *change) error {
		return e.addBehind(c, e.doc.Open, project.NewSprite(name, w, h))
	})
}

func runCopySprite(e *Editor, a copySpriteArgs) (any, error) {
	i, err := e.spriteIndex("copySprite", a.Name)
	if err != nil {
		return nil, err
	}
	s := e.doc.Project.Sprites[i]
	frames := make([]project.Frame, len(s.Frames))
	for f := range frames {
		frames[f] = s.Frames[f]
		frames[f].Cells = bytes.Clone(s.Frames[f].Cells)
	}
	s.Frames, s.Numbers = frames, project.Numbers{}
	if s.Name = a.As; s.Name == "" {
		s.Name = e.doc.freeName(e.doc.Project.Sprites[i].Name)
	}
	return nil, e.do("Copy a sprite", func(c *change) error { return e.addBehind(c, i, s) })
}

func runMoveSprite(e *Editor, a orderSpriteArgs) (any, error) {
	i, err := e.spriteIndex("moveSprite", a.Name)
	if err != nil {
		return nil, err
	}
	to := max(0, min(a.To, len(e.doc.Project.Sprites)-1))
	if to == i {
		return nil, nil
	}
	return nil, e.do("Move a sprite", func(c *change) error {
		open, frame := e.doc.id(), e.doc.Frame
		c.make(&moveEdit{i, to})
		e.openID(open)
		e.doc.Frame = frame
		return nil
	})
}

func runRemoveSprite(e *Editor, a removeSpriteArgs) (any, error) {
	i, err := e.spriteIndex("removeSprite", a.Sprite)
	if err != nil {
		return nil, err
	}
	if len(e.doc.Project.Sprites) == 1 {
		return nil, errors.New("this is the only sprite: add another one before you remove it")
	}
	return nil, e.do("Remove a sprite", func(c *change) error {
		open, frame := e.doc.id(), e.doc.Frame
		gone := e.doc.IDs[i]
		c.removeSprite(i)
		if gone != open {
			e.openID(open)
			e.doc.Frame = frame
			return nil
		}
		e.sel = nil
		e.doc.Open = min(i, len(e.doc.IDs)-1)
		e.doc.Frame = 0
		e.showWhole()
		return nil
	})
}
