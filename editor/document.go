// Package editor is what stands behind the page: the project that is open, the
// commands that change it, undo and redo, and the view model that the page
// shows. It knows neither browser nor canvas.
//
// Everything a control does is a command with a name and JSON arguments
// (Editor.Run; Commands lists them all). A command that fails leaves everything
// as it was. All methods belong to one goroutine.
package editor

import (
	"slices"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

// Document is the open project and which of its sprites is on the bench.
//
// Invariants: the project is valid and has at least one sprite; IDs has one
// number for each sprite, never used again for another one; Open and Frame are
// within the project. Slices and maps inside the project, cells excepted, are
// replaced and never written to, so that undo may keep them.
type Document struct {
	Project project.Project
	IDs     []int // beside Project.Sprites
	Open    int   // index of the sprite on the bench
	Frame   int   // index of its frame on the bench
	nextID  int
}

// newDocument takes over p, which is valid.
func newDocument(p project.Project, firstID int) Document {
	d := Document{Project: p, nextID: firstID}
	if len(p.Sprites) == 0 {
		d.Project.Sprites = []project.Sprite{project.NewSprite("Sprite 1", newSide, newSide)}
	}
	for range d.Project.Sprites {
		d.IDs = append(d.IDs, d.newID())
	}
	return d
}

func (d *Document) newID() int {
	d.nextID++
	return d.nextID
}

// id is the open sprite's number.
func (d *Document) id() int { return d.IDs[d.Open] }

// sprite is the open sprite.
func (d *Document) sprite() *project.Sprite { return &d.Project.Sprites[d.Open] }

// byID is the sprite with this number; nil where it's gone.
func (d *Document) byID(id int) *project.Sprite {
	if i := slices.Index(d.IDs, id); i >= 0 {
		return &d.Project.Sprites[i]
	}
	return nil
}

// named is the index of the sprite with this name, -1 for none.
func (d *Document) named(name string) int {
	return slices.IndexFunc(d.Project.Sprites, func(s project.Sprite) bool { return s.Name == name })
}

// grid is the frame on the bench. Its cells are the document's own.
func (d *Document) grid() cells.Grid { return d.gridOf(d.sprite(), d.Frame) }

func (d *Document) gridOf(s *project.Sprite, frame int) cells.Grid {
	return cells.Grid{W: s.W, H: s.H, Cells: s.Frames[frame].Cells}
}

// colour is the index of the palette entry with this key, -1 for none.
func (d *Document) colour(key byte) int {
	return slices.IndexFunc(d.Project.Palette, func(c project.Colour) bool { return c.Key == key })
}

// stock is the index of the stock with this ID, -1 for none.
func (d *Document) stock(id string) int {
	return slices.IndexFunc(d.Project.Stocks, func(s project.Stock) bool { return s.ID == id })
}

// keep brings Open and Frame back within the project.
func (d *Document) keep() {
	d.Open = max(0, min(d.Open, len(d.Project.Sprites)-1))
	d.Frame = max(0, min(d.Frame, len(d.sprite().Frames)-1))
}

// usedKeys says which keys a sprite uses in any of its frames.
func usedKeys(s *project.Sprite) (used [256]bool) {
	for _, f := range s.Frames {
		for _, k := range f.Cells {
			used[k] = true
		}
	}
	used[project.Empty] = false
	return used
}
