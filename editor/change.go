package editor

import (
	"bytes"
	"slices"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

// change collects the edits of one step while they are made.
type change struct {
	doc   *Document
	edits []edit
}

// make does an edit and remembers it.
func (c *change) make(e edit) {
	e.do(c.doc)
	c.edits = append(c.edits, e)
}

// takeBack undoes all that was made.
func (c *change) takeBack() {
	for _, e := range slices.Backward(c.edits) {
		e.undo(c.doc)
	}
	c.edits = nil
}

// cells gives a frame other cells; same length.
func (c *change) cells(sprite, frame int, now []byte) {
	was := c.doc.byID(sprite).Frames[frame].Cells
	if d := difference(was, now); len(d) > 0 {
		c.make(&cellsEdit{sprite, frame, d})
	}
}

// draw changes a frame by drawing on a copy of it.
func (c *change) draw(sprite, frame int, draw func(cells.Grid)) {
	g := c.doc.gridOf(c.doc.byID(sprite), frame).Clone()
	draw(g)
	c.cells(sprite, frame, g.Cells)
}

// drawOpen changes the frame on the bench.
func (c *change) drawOpen(draw func(cells.Grid)) { c.draw(c.doc.id(), c.doc.Frame, draw) }

// size gives a sprite another size; frame makes each frame's new cells.
func (c *change) size(sprite int, frame func(cells.Grid) cells.Grid) {
	s := c.doc.byID(sprite)
	e := &sizeEdit{sprite: sprite, was: sizedOf(s)}
	for i := range s.Frames {
		g := frame(c.doc.gridOf(s, i))
		e.now.w, e.now.h = g.W, g.H
		e.now.frames = append(e.now.frames, pack(g.Cells))
	}
	if e.now.w == s.W && e.now.h == s.H && slices.EqualFunc(e.was.frames, e.now.frames, bytes.Equal) {
		return
	}
	c.make(e)
}

// set gives a field another value; bytes is what old and new take besides T itself.
func set[T any](c *change, of scope, at func(*Document) *T, now T, bytes int) {
	c.make(&setEdit[T]{at: at, was: *at(c.doc), now: now, of: of, bytes: bytes})
}

// replaceIn takes cut elements at index out of a list and puts others in.
func replaceIn[T any](c *change, of scope, list func(*Document) *[]T, index, cut int, bytesEach int, put ...T) {
	was := slices.Clone((*list(c.doc))[index : index+cut])
	c.make(&spliceEdit[T]{list: list, index: index, was: was, now: put, of: of, bytes: (cut + len(put)) * bytesEach})
}

// The lists of a document, and about what their elements take in memory.
const (
	colourBytes = 160
	stockBytes  = 240
	stackBytes  = 320
)

func palette(d *Document) *[]project.Colour  { return &d.Project.Palette }
func stocks(d *Document) *[]project.Stock    { return &d.Project.Stocks }
func settings(d *Document) *project.Settings { return &d.Project.Settings }

// setSprite changes what a sprite is besides its size and its frames; f must
// leave those alone.
func (c *change) setSprite(sprite int, f func(*project.Sprite)) {
	was := c.doc.byID(sprite)
	now := *was
	f(&now)
	e := &faceEdit{sprite: sprite, was: faceOf(was), now: faceOf(&now)}
	if !e.was.equal(e.now) {
		c.make(e)
	}
}

// addSprites puts sprites in before the one at index.
func (c *change) addSprites(index int, sprites ...project.Sprite) (ids []int) {
	for range sprites {
		ids = append(ids, c.doc.newID())
	}
	c.make(&spritesEdit{index: index, now: sprites, nowID: ids})
	return ids
}

// removeSprite takes out the one at index.
func (c *change) removeSprite(index int) {
	c.make(&spritesEdit{
		index: index,
		was:   slices.Clone(c.doc.Project.Sprites[index : index+1]),
		wasID: slices.Clone(c.doc.IDs[index : index+1]),
	})
}
