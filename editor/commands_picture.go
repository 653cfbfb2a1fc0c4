package editor

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
)

// Reference is a picture that lies under the grid to be drawn after: a photo,
// a sketch. It belongs to a sprite but not to the drawing: it is neither cut
// nor undone nor in the project file. The page keeps it beside the project.
type Reference struct {
	PNG       []byte
	Placement Placement
}

// Placement is how a picture lies under the grid.
type Placement struct {
	Name    string  `json:"name"`
	Width   int     `json:"width"` // pixels
	Height  int     `json:"height"`
	X       float64 `json:"x"` // its upper left corner, in cells of the grid
	Y       float64 `json:"y"`
	Scale   float64 `json:"scale"`   // cells that a pixel of it covers
	Opacity float64 `json:"opacity"` // 0 to 1
}

// Bounds of a reference picture.
const (
	maxPictureBytes = 32 << 20
	maxPictureSide  = 8192 // pixels
)

type underPictureArgs struct {
	Name string `json:"name" about:"the file's name"`
	PNG  []byte `json:"png" about:"the picture"`
}
type placeArgs struct {
	X       *float64 `json:"x" about:"its left side, in cells"`
	Y       *float64 `json:"y" about:"its upper side, in cells"`
	Scale   *float64 `json:"scale" about:"cells that a pixel covers"`
	Opacity *float64 `json:"opacity" about:"0 to 1"`
}

func pictureCommands() []Command {
	return []Command{
		command("layPicture", "Lay a picture under the grid", func(e *Editor, a underPictureArgs) (any, error) {
			return nil, e.LayPicture(a.Name, a.PNG)
		}),
		command("placePicture", "Move, scale or fade the picture", runPlace),
		command("takePicture", "Take the picture away", func(e *Editor, _ none) (any, error) {
			if e.pictures[e.doc.id()] == nil {
				return nil, errors.New("no picture lies under this sprite")
			}
			delete(e.pictures, e.doc.id())
			return nil, nil
		}),
	}
}

// LayPicture lays a PNG under the open sprite's grid: as large as fits into
// it, in its middle, half faded.
func (e *Editor) LayPicture(name string, data []byte) error {
	if len(data) > maxPictureBytes {
		return fmt.Errorf("%s is too large: a picture under the grid may have %d MiB", quoted(name), maxPictureBytes>>20)
	}
	c, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("%s isn't a PNG picture, or it is damaged", quoted(name))
	}
	if c.Width < 1 || c.Height < 1 || c.Width > maxPictureSide || c.Height > maxPictureSide {
		return fmt.Errorf("%s is %d × %d pixels: a picture under the grid may have %d a side", quoted(name), c.Width, c.Height, maxPictureSide)
	}
	for id := range e.pictures { // those of sprites that are gone would pile up
		if e.doc.byID(id) == nil {
			delete(e.pictures, id)
		}
	}
	s := e.doc.sprite()
	scale := min(float64(s.W)/float64(c.Width), float64(s.H)/float64(c.Height))
	e.pictures[e.doc.id()] = &Reference{PNG: data, Placement: Placement{
		Name: name, Width: c.Width, Height: c.Height, Scale: scale, Opacity: 0.5,
		X: (float64(s.W) - scale*float64(c.Width)) / 2, Y: (float64(s.H) - scale*float64(c.Height)) / 2,
	}}
	e.looks++
	return nil
}

func runPlace(e *Editor, a placeArgs) (any, error) {
	p := e.pictures[e.doc.id()]
	if p == nil {
		return nil, errors.New("no picture lies under this sprite")
	}
	now := p.Placement
	for _, f := range []struct {
		name        string
		to          *float64
		field       *float64
		least, most float64
	}{
		{"x", a.X, &now.X, -10000, 10000}, {"y", a.Y, &now.Y, -10000, 10000},
		{"scale", a.Scale, &now.Scale, 1e-4, 1000}, {"opacity", a.Opacity, &now.Opacity, 0, 1},
	} {
		if f.to == nil {
			continue
		}
		if *f.to < f.least || *f.to > f.most {
			return nil, fmt.Errorf("placePicture: %s is %g to %g", f.name, f.least, f.most)
		}
		*f.field = *f.to
	}
	e.pictures[e.doc.id()] = &Reference{PNG: p.PNG, Placement: now}
	return nil, nil
}

// Picture is what lies under the open sprite's grid; nil for nothing.
func (e *Editor) Picture() *Reference { return e.pictures[e.doc.id()] }

// KeptPicture is a picture under a grid as the page keeps it beside the project.
type KeptPicture struct {
	Sprite    string // its name
	Placement Placement
	PNG       []byte
}

// Pictures are all pictures under grids, in the sprites' order.
func (e *Editor) Pictures() []KeptPicture {
	var list []KeptPicture
	for i, id := range e.doc.IDs {
		if p := e.pictures[id]; p != nil {
			list = append(list, KeptPicture{e.doc.Project.Sprites[i].Name, p.Placement, p.PNG})
		}
	}
	return list
}

// RestorePictures lays back what Pictures gave, under the sprites that are there.
func (e *Editor) RestorePictures(list []KeptPicture) {
	for _, k := range list {
		if i := e.doc.named(k.Sprite); i >= 0 {
			e.pictures[e.doc.IDs[i]] = &Reference{PNG: k.PNG, Placement: k.Placement}
		}
	}
	e.looks++
}
