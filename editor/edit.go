package editor

import (
	"reflect"
	"slices"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// edit is one small change of a document that can be taken back. Its set of
// kinds is closed: they are all in this file.
type edit interface {
	do(*Document)
	undo(*Document)
	size() int    // bytes that it keeps from being freed, about
	scope() scope // what has to be planned again
}

// scope is what an edit touches: a sprite's ID, or one of these.
type scope int

const (
	common scope = -1 // palette, stocks, settings: every sprite
	order  scope = -2 // which sprites there are; none of them changes
)

// base is what an edit costs in memory besides what it points to.
const base = 96

// cellsEdit changes cells of one frame.
type cellsEdit struct {
	sprite, frame int
	delta         delta
}

func (e *cellsEdit) do(d *Document)   { e.delta.apply(d.byID(e.sprite).Frames[e.frame].Cells) }
func (e *cellsEdit) undo(d *Document) { e.do(d) }
func (e *cellsEdit) size() int        { return base + len(e.delta) }
func (e *cellsEdit) scope() scope     { return scope(e.sprite) }

// shiftEdit shifts a frame with wrap.
type shiftEdit struct{ sprite, frame, dx, dy int }

func (e *shiftEdit) do(d *Document)   { e.by(d, e.dx, e.dy) }
func (e *shiftEdit) undo(d *Document) { e.by(d, -e.dx, -e.dy) }
func (e *shiftEdit) size() int        { return base }
func (e *shiftEdit) scope() scope     { return scope(e.sprite) }
func (e *shiftEdit) by(d *Document, dx, dy int) {
	s := d.byID(e.sprite)
	s.Frames[e.frame].Cells = cells.Shifted(d.gridOf(s, e.frame), dx, dy).Cells
}

// flipEdit flips a frame.
type flipEdit struct {
	sprite, frame int
	over          cells.Over
}

func (e *flipEdit) do(d *Document)   { cells.Flip(d.gridOf(d.byID(e.sprite), e.frame), e.over) }
func (e *flipEdit) undo(d *Document) { e.do(d) }
func (e *flipEdit) size() int        { return base }
func (e *flipEdit) scope() scope     { return scope(e.sprite) }

// turnEdit turns all frames of a sprite by a quarter.
type turnEdit struct {
	sprite int
	way    cells.Way
}

func (e *turnEdit) do(d *Document) { e.turn(d, e.way) }
func (e *turnEdit) undo(d *Document) {
	if e.way == cells.ToLeft {
		e.turn(d, cells.ToRight)
	} else {
		e.turn(d, cells.ToLeft)
	}
}
func (e *turnEdit) size() int    { return base }
func (e *turnEdit) scope() scope { return scope(e.sprite) }
func (e *turnEdit) turn(d *Document, way cells.Way) {
	s := d.byID(e.sprite)
	for i := range s.Frames {
		s.Frames[i].Cells = cells.Turned(d.gridOf(s, i), way).Cells
	}
	s.W, s.H = s.H, s.W
}

// sizeEdit gives a sprite another size and all its frames other cells.
type sizeEdit struct {
	sprite   int
	was, now sized
}

// sized is the size of a sprite and its frames' cells, packed.
type sized struct {
	w, h   int
	frames [][]byte
}

func (e *sizeEdit) do(d *Document)   { e.now.put(d.byID(e.sprite)) }
func (e *sizeEdit) undo(d *Document) { e.was.put(d.byID(e.sprite)) }
func (e *sizeEdit) size() int        { return base + e.was.size() + e.now.size() }
func (e *sizeEdit) scope() scope     { return scope(e.sprite) }

func sizedOf(s *project.Sprite) sized {
	z := sized{w: s.W, h: s.H}
	for _, f := range s.Frames {
		z.frames = append(z.frames, pack(f.Cells))
	}
	return z
}

func (z sized) put(s *project.Sprite) {
	s.W, s.H = z.w, z.h
	for i, p := range z.frames {
		s.Frames[i].Cells = unpack(p, z.w*z.h)
	}
}

func (z sized) size() int {
	n := 0
	for _, p := range z.frames {
		n += 24 + len(p)
	}
	return n
}

// faceEdit changes what a sprite is besides its size and its frames.
type faceEdit struct {
	sprite   int
	was, now face
}

type face struct {
	name   string
	copies int
	cell   shape.Um
	stack  project.Stack
}

func faceOf(s *project.Sprite) face { return face{s.Name, s.Copies, s.Cell, s.Stack} }

func (f face) equal(g face) bool { return reflect.DeepEqual(f, g) }

func (f face) put(s *project.Sprite) {
	s.Name, s.Copies, s.Cell, s.Stack = f.name, f.copies, f.cell, f.stack
}

func (f face) size() int {
	return len(f.name) + len(f.stack.Order) + len(f.stack.Lowest) + len(f.stack.Highest) + 24*len(f.stack.Under) + 160
}

func (e *faceEdit) do(d *Document)   { e.now.put(d.byID(e.sprite)) }
func (e *faceEdit) undo(d *Document) { e.was.put(d.byID(e.sprite)) }
func (e *faceEdit) size() int        { return base + e.was.size() + e.now.size() }
func (e *faceEdit) scope() scope     { return scope(e.sprite) }

// setEdit gives a field another value.
type setEdit[T any] struct {
	at       func(*Document) *T
	was, now T
	of       scope
	bytes    int
}

func (e *setEdit[T]) do(d *Document)   { *e.at(d) = e.now }
func (e *setEdit[T]) undo(d *Document) { *e.at(d) = e.was }
func (e *setEdit[T]) size() int        { return base + e.bytes }
func (e *setEdit[T]) scope() scope     { return e.of }

// spliceEdit takes len(was) elements out of a list and puts now in their place.
// What it takes out it keeps as it is then: frames may have other cells by now.
type spliceEdit[T any] struct {
	list     func(*Document) *[]T
	index    int
	was, now []T
	of       scope
	bytes    int
}

func (e *spliceEdit[T]) do(d *Document)   { e.was = splice(e.list(d), e.index, len(e.was), e.now) }
func (e *spliceEdit[T]) undo(d *Document) { e.now = splice(e.list(d), e.index, len(e.now), e.was) }
func (e *spliceEdit[T]) size() int        { return base + e.bytes }
func (e *spliceEdit[T]) scope() scope     { return e.of }

// splice makes a new list, so that whoever keeps the old one keeps it as it
// was, and returns what it took out.
func splice[T any](list *[]T, at, cut int, put []T) (out []T) {
	out = slices.Clone((*list)[at : at+cut])
	*list = slices.Concat((*list)[:at], put, (*list)[at+cut:])
	return out
}

// spritesEdit takes sprites out of the project and puts others in, each with its ID.
type spritesEdit struct {
	index        int
	was, now     []project.Sprite
	wasID, nowID []int
}

func (e *spritesEdit) do(d *Document)   { e.was = e.swap(d, len(e.was), e.now, e.nowID) }
func (e *spritesEdit) undo(d *Document) { e.now = e.swap(d, len(e.now), e.was, e.wasID) }
func (e *spritesEdit) size() int {
	n := base
	for _, s := range slices.Concat(e.was, e.now) {
		n += 300
		for _, f := range s.Frames {
			n += 32 + len(f.Cells)
		}
	}
	return n
}
func (e *spritesEdit) scope() scope { return order }
func (e *spritesEdit) swap(d *Document, cut int, put []project.Sprite, ids []int) (out []project.Sprite) {
	out = splice(&d.Project.Sprites, e.index, cut, put)
	splice(&d.IDs, e.index, cut, ids)
	d.keep()
	return out
}

// moveEdit moves a sprite to another place.
type moveEdit struct{ from, to int }

func (e *moveEdit) do(d *Document)   { d.move(e.from, e.to) }
func (e *moveEdit) undo(d *Document) { d.move(e.to, e.from) }
func (e *moveEdit) size() int        { return base }
func (e *moveEdit) scope() scope     { return order }

func (d *Document) move(from, to int) {
	s := splice(&d.Project.Sprites, from, 1, nil)
	id := splice(&d.IDs, from, 1, nil)
	splice(&d.Project.Sprites, to, 0, s)
	splice(&d.IDs, to, 0, id)
}
