package editor

import (
	"slices"

	"sheetsprite/editor/progress"
)

// AssemblyState is how far the maker is with putting parts together.
type AssemblyState struct {
	Sprite string      `json:"sprite"` // that is being put together; "" where nothing is known yet
	Copy   int         `json:"copy"`
	Step   int         `json:"step"` // from 1; one beyond the last: all is together
	Steps  int         `json:"steps"`
	Parts  []string    `json:"parts"`  // of each of its parts: "", "out", "stuck" or "lost"
	Left   int         `json:"left"`   // seconds that it still takes
	All    int         `json:"all"`    // that all copies of all sprites still take
	Learnt string      `json:"learnt"` // "learnt" where the maker's own pace is known, else ""
	Mine   int         `json:"mine"`   // seconds that a usual part takes at the maker's own pace
	Copies []CopyState `json:"copies"` // of all that can be put together
}

// CopyState is one copy of a sprite.
type CopyState struct {
	Sprite string `json:"sprite"`
	Copy   int    `json:"copy"`
	Of     int    `json:"of"` // how many copies there are
	Parts  int    `json:"parts"`
	Stuck  int    `json:"stuck"`
	Lost   int    `json:"lost"`
}

// usualPart is how long a part typically takes, s (common practice, no source).
const usualPart = 45

func (e *Editor) assemblyState() AssemblyState {
	s := AssemblyState{Parts: []string{}, Copies: []CopyState{}}
	pace := e.session.Learnt
	if pace.Known() {
		s.Learnt, s.Mine = "learnt", pace.Of(usualPart)
	}
	time := func(seconds int) int {
		if e.session.Pace == PaceMine {
			return pace.Of(seconds)
		}
		return seconds
	}
	for _, c := range e.copies() {
		left, stuck, lost := e.book.Left(c)
		s.All += left
		s.Copies = append(s.Copies, CopyState{c.Sprite.Name, c.Number, c.Sprite.Copies, len(c.Sprite.Parts), stuck, lost})
	}
	s.All = time(s.All)
	c, err := e.building()
	if err != nil {
		return s
	}
	s.Sprite, s.Copy, s.Steps = c.Sprite.Name, c.Number, len(c.Sprite.Steps)
	s.Step = e.book.At(c) + 1
	for _, m := range e.book.States(c) {
		s.Parts = append(s.Parts, string(m.Is))
	}
	left, _, _ := e.book.Left(c)
	s.Left = time(left)
	return s
}

// shelved is what is known of a project that isn't open.
type shelved struct {
	Project string        `json:"project"`
	Book    progress.Book `json:"book"`
}

// maxShelved is of how many other projects it is remembered how far they are.
const maxShelved = 20

// kept is what SessionText writes.
type kept struct {
	Session
	Building struct { // BuildLook, by name
		Sprite string `json:"sprite"`
		Copy   int    `json:"copy"`
	} `json:"building"`
	Progress progress.Book `json:"progress"`
	Others   []shelved     `json:"others,omitempty"`
}

// namedBook is the book to be kept outside the page.
func (e *Editor) namedBook() progress.Book {
	return e.book.Named(func(id int) (string, bool) {
		s := e.doc.byID(id)
		if s == nil {
			return "", false
		}
		return s.Name, true
	})
}

// takeBook takes up a book that was kept.
func (e *Editor) takeBook(b progress.Book) {
	e.book = b.Numbered(func(name string) (int, bool) {
		at := e.doc.named(name)
		if at < 0 {
			return 0, false
		}
		return e.doc.IDs[at], true
	})
}

// shelve keeps how far the open project is, for when it is opened again.
func (e *Editor) shelve() {
	b, name := e.namedBook(), e.doc.Project.Name
	if b.Empty() {
		return
	}
	others := slices.DeleteFunc(slices.Clone(e.others), func(s shelved) bool { return s.Project == name })
	others = append(others, shelved{name, b})
	e.others = others[max(0, len(others)-maxShelved):]
}

// unshelve takes up how far the project is that has just been opened.
func (e *Editor) unshelve() {
	for _, s := range e.others {
		if s.Project == e.doc.Project.Name {
			e.takeBook(s.Book)
		}
	}
}
