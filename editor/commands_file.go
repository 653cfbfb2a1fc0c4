package editor

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image/png"
	"strings"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// newSide is how many cells a side a new sprite has.
const newSide = 32

// File is something to be kept as a file.
type File struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

type newArgs struct {
	Name   string  `json:"name,omitempty" about:"the project's name"`
	Width  int     `json:"width,omitempty" about:"cells across, 1 to 256"`
	Height int     `json:"height,omitempty" about:"cells down, 1 to 256"`
	Cell   float64 `json:"cell,omitempty" about:"a cell's side in mm"`
}

type openArgs struct {
	Project json.RawMessage `json:"project" about:"the project file's text, or what is in it"`
}

type nameArgs struct {
	Name string `json:"name" about:"the new name"`
}

func fileCommands() []Command {
	return []Command{
		command("undo", "Undo", func(e *Editor, _ none) (any, error) { return nil, e.Undo() }, Key{Press: "Ctrl+Z"}),
		command("redo", "Redo", func(e *Editor, _ none) (any, error) { return nil, e.Redo() }, Key{Press: "Ctrl+Shift+Z"}, Key{Press: "Ctrl+Y"}),
		command("new", "Start a new project", runNew, Key{Press: "Ctrl+Alt+N"}),
		command("open", "Open a project file", func(e *Editor, a openArgs) (any, error) { return nil, e.Open(a.Project) }),
		command("reopen", "Back to the project that was open before", runReopen),
		command("save", "Save the project as a file", func(e *Editor, _ none) (any, error) {
			text, err := e.ProjectText()
			return File{fileName(e.doc.Project.Name) + ".json", string(text)}, err
		}, Key{Press: "Ctrl+S"}),
		command("renameProject", "Rename the project", func(e *Editor, a nameArgs) (any, error) {
			return nil, e.do("Rename the project", func(c *change) error {
				set(c, order, func(d *Document) *string { return &d.Project.Name }, a.Name, len(a.Name)+len(e.doc.Project.Name))
				return nil
			})
		}),
		command("keys", "Show all keys", func(*Editor, none) (any, error) { return KeyList(), nil }, Key{Press: "?"}),
		command("letterKeys", "Keys without Ctrl on or off", func(e *Editor, a lettersArgs) (any, error) {
			e.session.Letters = a.Use
			return nil, nil
		}, Key{Press: "Ctrl+Alt+L", Title: "Keys without Ctrl off", Args: `{"use":"off"}`},
			Key{Press: "Ctrl+Alt+K", Title: "Keys without Ctrl on", Args: `{"use":"on"}`}),
	}
}

type lettersArgs struct {
	Use string `json:"use" about:"whether keys without Ctrl do something" oneOf:"on|off"`
}

func runNew(e *Editor, a newArgs) (any, error) {
	p := StarterProject()
	s := &p.Sprites[0]
	if a.Name != "" {
		p.Name = a.Name
	}
	w, h := s.W, s.H
	if a.Width != 0 {
		w = a.Width
	}
	if a.Height != 0 {
		h = a.Height
	}
	if err := checkSides(w, h); err != nil {
		return nil, err
	}
	*s = project.NewSprite(s.Name, w, h)
	if a.Cell != 0 {
		cell, err := cellOf(a.Cell)
		if err != nil {
			return nil, err
		}
		s.Cell = cell
	}
	if err := e.planNew(p); err != nil {
		return nil, err
	}
	if err := p.Validate(); err != nil {
		return nil, err
	}
	e.leave()
	e.take(p)
	return nil, nil
}

// Open opens a project file: its text, as JSON itself or as a JSON string. The
// one that was open can be had back with "reopen".
func (e *Editor) Open(text []byte) error {
	var s string
	if json.Unmarshal(text, &s) == nil {
		text = []byte(s)
	}
	p, err := project.Read(bytes.NewReader(text))
	if err != nil {
		return fmt.Errorf("this project can't be opened: %w", err)
	}
	e.leave()
	e.take(p)
	e.unshelve()
	return nil
}

// leave keeps the open project for "reopen", and how far it is put together.
func (e *Editor) leave() {
	e.shelve()
	p := e.doc.Project
	e.former = &p
}

func runReopen(e *Editor, _ none) (any, error) {
	if e.former == nil {
		return nil, errors.New("no other project was open before this one")
	}
	p := e.former
	e.leave()
	e.take(p)
	e.unshelve()
	return nil, nil
}

// ProjectText is the project as a file.
func (e *Editor) ProjectText() ([]byte, error) {
	var b bytes.Buffer
	if err := e.doc.Project.Write(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// StarterProject is what a new project starts with: an empty sprite and cards
// of colours that go well together.
func StarterProject() *project.Project {
	p := &project.Project{Name: "My sprites", Settings: project.DefaultSettings()}
	for _, c := range []struct {
		name    string
		r, g, b uint8
	}{
		{"Black card", 0x20, 0x26, 0x2b}, {"White card", 0xf7, 0xf3, 0xe8}, {"Red card", 0xc8, 0x37, 0x2d},
		{"Yellow card", 0xf2, 0xbd, 0x3c}, {"Blue card", 0x3d, 0x7e, 0xa6}, {"Green card", 0x3f, 0x7d, 0x58},
		{"Grey card", 0x7f, 0x8b, 0x80}, {"Brown card", 0x8a, 0x5a, 0x3b},
	} {
		rgb := project.RGB{R: c.r, G: c.g, B: c.b}
		key, _ := project.NewKey(p.Palette)
		st := project.CardFor(rgb)
		st.Name = c.name
		p.Palette = append(p.Palette, project.Colour{Key: key, Name: c.name, RGB: rgb, Stock: st.ID})
		p.Stocks = append(p.Stocks, st)
	}
	p.Sprites = []project.Sprite{project.NewSprite("Sprite 1", newSide, newSide)}
	return p
}

// fileName makes a name fit for a download; the browser does the rest.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "project"
}

// PictureFile is a PNG to be kept as a file.
type PictureFile struct {
	Name string `json:"name"`
	PNG  []byte `json:"png"`
}

// maxScale bounds how many pixels a side a cell has in an exported picture.
const maxScale = 32

// picture is a frame of a sprite as a PNG, scale pixels a cell, empty cells
// transparent.
func (d *Document) picture(index, frame, scale int) (PictureFile, error) {
	s := &d.Project.Sprites[index]
	small := s.FrameImage(s.Frames[frame], d.Project.Palette)
	img := enlarge(small, scale)
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return PictureFile{}, err
	}
	return PictureFile{fileName(s.Name) + ".png", b.Bytes()}, nil
}

// checkSides says why a sprite can't be w × h cells.
func checkSides(w, h int) error {
	if w < 1 || h < 1 || w > project.MaxSide || h > project.MaxSide {
		return fmt.Errorf("a sprite is 1 to %d cells a side: %d × %d can't be", project.MaxSide, w, h)
	}
	return nil
}

// cellOf is a cell's side of so many mm.
func cellOf(v float64) (shape.Um, error) {
	u := um(v)
	if u < project.MinCell || u > project.MaxCell {
		return 0, fmt.Errorf("a cell is %s to %s mm a side: %s mm can't be", project.FormatMm(project.MinCell), project.FormatMm(project.MaxCell), project.FormatMm(u))
	}
	return u, nil
}
