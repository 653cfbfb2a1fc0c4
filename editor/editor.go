package editor

import (
	"encoding/json"
	"fmt"

	"sheetsprite/editor/cells"
	"sheetsprite/editor/plan"
	"sheetsprite/editor/progress"
	"sheetsprite/editor/viewport"
	"sheetsprite/engine/project"
)

// Editor is the model behind the page. Make one with New.
type Editor struct {
	doc      Document
	past     history
	session  Session
	view     viewport.View
	sel      *Selection
	clip     cells.Grid // what was copied; no cells where nothing was
	stroke   *stroke    // the one being drawn, nil for none
	revision uint64     // grows with each change of the project
	numbered uint64     // grows whenever parts got numbers
	saved    uint64     // Kept, as far as that is known to be kept
	looks    uint64     // grows with whatever may change what is seen
	plans    plans
	former   *project.Project // the one that was open before
	pictures map[int]*Reference
	preview  Preview
	own      *project.Bench  // the maker's machines (ownbench.go); never written to, nil where there are none yet
	shelf    []project.Shelf // the maker's own (shelf.go); stocks are never written to

	shelfEdition uint64         // grows with each change of the shelf
	laid         *plan.Laid     // where all parts lie on sheets; nil while nobody asked
	assembly     *plan.Assembly // in which order parts are put together; nil while nobody asked
	book         progress.Book  // how far that is; never written to
	others       []shelved      // the same of other projects; never written to
}

// New is an editor with p open; p must be valid and is taken over.
func New(p *project.Project) (*Editor, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	e := &Editor{session: newSession(), pictures: map[int]*Reference{}}
	e.take(p)
	return e, nil
}

// NewDemo is New for a first visit: the introduction at its first step.
func NewDemo(p *project.Project) (*Editor, error) {
	e, err := New(p)
	if err == nil {
		e.session.Intro = 1
	}
	return e, err
}

// take opens p: its first sprite on the bench, wholly in view, pencil and a
// colour in hand, nothing to undo.
func (e *Editor) take(p *project.Project) {
	e.doc = newDocument(*p, e.doc.nextID)
	e.past = history{}
	e.sel, e.stroke = nil, nil
	e.plans = plans{}
	e.laid, e.assembly = nil, nil
	e.book, e.session.Build = progress.Book{}, BuildLook{}
	e.pictures = map[int]*Reference{}
	e.session.Tool, e.session.Sides, e.session.View = Pencil, cells.One, ViewDraw
	e.session.Key = ""
	e.holdColour()
	e.revision++
	e.plans.touch(common, e.revision)
	e.showWhole()
}

// holdColour sees to it that a colour of the palette is in hand: the one that
// was, else one that the open sprite uses, else the first.
func (e *Editor) holdColour() {
	if len(e.session.Key) == 1 && e.doc.colour(e.session.Key[0]) >= 0 {
		return
	}
	used := usedKeys(e.doc.sprite())
	e.session.Key = string(e.doc.Project.Palette[0].Key)
	for _, c := range e.doc.Project.Palette {
		if used[c.Key] {
			e.session.Key = string(c.Key)
			return
		}
	}
}

// key is the key in hand.
func (e *Editor) key() byte { return e.session.Key[0] }

// showWhole fits the open sprite into the view.
func (e *Editor) showWhole() {
	e.view.Fitted = true
	e.view.W, e.view.H = e.doc.sprite().W, e.doc.sprite().H
	e.view.Fit()
}

// Run carries out a command. It returns what the command has to say, often
// nil, or an error whose text the page shows; then everything is as it was. A
// stroke under way is ended first, except by the commands that go on with it.
func (e *Editor) Run(name string, args json.RawMessage) (result any, err error) {
	c := named(name)
	if c == nil {
		return nil, fmt.Errorf("there is nothing called %.40q to do: the list of keys has all there is", name)
	}
	if e.stroke != nil && !c.inStroke {
		e.End()
	}
	restore := e.remember()
	defer func() {
		if fault := recover(); fault != nil {
			result, err = nil, &Fault{Command: name, Value: fault}
		}
		if err != nil {
			restore()
		}
		e.looks++
	}()
	return c.run(e, args)
}

// Fault is an error of the program itself: a command that should not have
// failed did. The document is as it was.
type Fault struct {
	Command string
	Value   any
}

func (f *Fault) Error() string {
	return fmt.Sprintf("%q went wrong inside the program (%v); nothing was changed", f.Command, f.Value)
}

// remember returns a function that brings back all but the document, whose
// changes a failing step takes back itself.
func (e *Editor) remember() (restore func()) {
	session, view, sel, clip, book, own := e.session, e.view, e.sel, e.clip, e.book, e.own
	on := e.bench()
	return func() {
		e.session, e.view, e.sel, e.clip, e.book, e.own = session, view, sel, clip, book, own
		e.doc.lay(on)
	}
}

// do makes one step of undo of all that f changes. Where f fails, or what it
// made breaks a rule of the project, everything is taken back. A step that
// changes nothing is none.
func (e *Editor) do(title string, f func(c *change) error) (err error) {
	c := &change{doc: &e.doc}
	sel, was := e.sel, e.bench()
	done := false
	defer func() {
		if !done {
			c.takeBack()
		}
	}()
	if err := f(c); err != nil {
		return err
	}
	c.followNames()
	if err := e.doc.check(c.edits); err != nil {
		return err
	}
	done = true
	if len(c.edits) == 0 {
		return nil
	}
	e.record(step{title: title, edits: c.edits, benchWas: was, benchNow: e.bench(), selected: sel != e.sel, was: sel, now: e.sel})
	return nil
}

// record puts a step that is already made into the history.
func (e *Editor) record(s step) {
	e.past.add(s)
	e.changed(s.edits)
}

// changed says that edits were made or taken back.
func (e *Editor) changed(edits []edit) {
	e.revision++
	e.looks++
	for _, d := range edits {
		e.plans.touch(d.scope(), e.revision)
		if s, ok := d.(*spritesEdit); ok { // the worker doesn't know those that came
			for _, id := range append(s.nowID, s.wasID...) {
				e.plans.touch(scope(id), e.revision)
			}
		}
	}
	e.holdColour()
	s := e.doc.sprite()
	e.view.SetGrid(s.W, s.H)
	e.session.Cursor.X = max(0, min(e.session.Cursor.X, s.W-1))
	e.session.Cursor.Y = max(0, min(e.session.Cursor.Y, s.H-1))
}

// Undo takes back the last step and shows where; it fails where there is none.
func (e *Editor) Undo() error {
	e.End()
	if e.past.done == 0 {
		return fmt.Errorf("there is nothing to undo")
	}
	e.past.done--
	s := &e.past.steps[e.past.done]
	for i := len(s.edits) - 1; i >= 0; i-- {
		s.edits[i].undo(&e.doc)
	}
	e.cameBack(s, s.benchWas, s.was)
	return nil
}

// Redo makes the step again that was taken back last; it fails where there is none.
func (e *Editor) Redo() error {
	e.End()
	if e.past.done == len(e.past.steps) {
		return fmt.Errorf("there is nothing to redo")
	}
	s := &e.past.steps[e.past.done]
	e.past.done++
	for _, d := range s.edits {
		d.do(&e.doc)
	}
	e.cameBack(s, s.benchNow, s.now)
	return nil
}

// bench is which sprite and frame lie on the bench.
type bench struct{ sprite, frame int } // ID and index

func (e *Editor) bench() bench { return bench{e.doc.id(), e.doc.Frame} }

// lay puts back what lay on the bench, where it is still there.
func (d *Document) lay(b bench) {
	for i, id := range d.IDs {
		if id == b.sprite {
			d.Open, d.Frame = i, b.frame
		}
	}
	d.keep()
}

// cameBack shows what a step was about.
func (e *Editor) cameBack(s *step, on bench, sel *Selection) {
	e.doc.keep()
	was := e.doc.id()
	e.doc.lay(on)
	if s.selected {
		e.sel = sel
	} else if e.sel.lifted() {
		e.sel = nil
	}
	if e.doc.id() != was {
		e.showWhole()
	}
	e.changed(s.edits)
}

// Revision counts the changes of the project; undo and redo count too.
func (e *Editor) Revision() uint64 { return e.revision }

// Looks counts whatever may have changed what the page shows.
func (e *Editor) Looks() uint64 { return e.looks }

// MarkSaved says that the project as it was at this count of Kept is kept.
func (e *Editor) MarkSaved(kept uint64) {
	e.saved = max(e.saved, min(kept, e.Kept()))
	e.looks++
}

// Project is the open project; it must not be written to, and is only good
// until the next command.
func (e *Editor) Project() *project.Project { return &e.doc.Project }

// SpriteID is the number of the open sprite, as in plan.Request.
func (e *Editor) SpriteID() int { return e.doc.id() }

// Grid is the frame on the bench; it must not be written to, and is only good
// until the next command.
func (e *Editor) Grid() cells.Grid { return e.doc.grid() }

// Session is what the maker has in hand.
func (e *Editor) Session() Session { return e.session }
