// Package progress keeps how far the maker is with putting parts together: what
// is out of its sheet, what is stuck, what is lost, and at which step each copy
// of a sprite is.
//
// It is the maker's, not the drawing's: nothing of it is undone or in the
// project file. A part is told by what piece of card it is, so that an edit
// that moves parts in the order, or numbers them anew, takes nothing away from
// parts that are the same; one that another shape was given to has to be cut
// again and begins anew.
package progress

import (
	"slices"

	"sheetsprite/editor/plan"
)

// Is says where a part is.
type Is string

// Where a part may be.
const (
	InSheet Is = "" // still in its sheet
	Out     Is = "out"
	Stuck   Is = "stuck"
	Lost    Is = "lost" // or burnt, or torn
)

// By says how a part came to be stuck.
type By string

// The ways. What going on from a step said is taken back by going back; what
// the maker said of a part stays.
const (
	ByHand By = ""
	ByStep By = "step"
)

// Mark is what is known of one copy of a part.
type Mark struct {
	Sprite string `json:"sprite"` // its name, where it is kept outside the page
	ID     int    `json:"-"`      // the sprite's number in the page
	Copy   int    `json:"copy"`   // from 1
	Part   string `json:"part"`   // the part's number when it was marked
	Print  string `json:"print"`  // of the part
	Is     Is     `json:"is"`
	By     By     `json:"by,omitempty"`
	Was    Is     `json:"was,omitempty"` // before it was stuck by going on
}

// Place is the step that a copy is at.
type Place struct {
	Sprite string `json:"sprite"`
	ID     int    `json:"-"`
	Copy   int    `json:"copy"`
	Step   int    `json:"step"`  // from 0; as many as there are steps: all together
	Print  string `json:"print"` // of the first part of that step; "" behind the last
}

// Book is all that is known of one project. It is never written to: what
// changes it gives another one. The zero value is an empty book.
type Book struct {
	Marks  []Mark  `json:"marks,omitempty"`
	Places []Place `json:"places,omitempty"`
}

// Copy is one copy of a sprite with its steps.
type Copy struct {
	ID     int // the sprite's number in the page
	Number int // from 1
	Sprite *plan.AssemblySprite
}

// limits of what is kept of one project: as many marks as a project has places.
const (
	maxMarks  = 20_000
	maxPlaces = 5_000
)

// States is where each part of a copy is, by the part's index.
//
// A mark belongs to the part of the same print and, of several, to the one of
// the same number; marks that are left over then go to those of the same print
// that are left, in order: they are pieces of the same shape, any of which fits.
func (b Book) States(c Copy) []Mark {
	out := make([]Mark, len(c.Sprite.Parts))
	taken := make([]bool, len(b.Marks))
	match := func(fits func(Mark, plan.AssemblyPart) bool) {
		at := map[string][]int{} // marks by print, in order; only asked
		for i, m := range b.Marks {
			if !taken[i] && m.ID == c.ID && m.Copy == c.Number {
				at[m.Print] = append(at[m.Print], i)
			}
		}
		for k, p := range c.Sprite.Parts {
			if out[k].Print != "" {
				continue
			}
			for _, i := range at[p.Print] {
				if !taken[i] && fits(b.Marks[i], p) {
					out[k], taken[i] = b.Marks[i], true
					break
				}
			}
		}
	}
	match(func(m Mark, p plan.AssemblyPart) bool { return m.Part == p.Number })
	match(func(Mark, plan.AssemblyPart) bool { return true })
	return out
}

// mark says where parts of a copy are; by is how it came to that.
func (b Book) mark(c Copy, parts []int, is Is, by By) Book {
	states := b.States(c)
	gone := map[Mark]bool{} // only asked
	var now []Mark
	for _, k := range parts {
		p := c.Sprite.Parts[k]
		if states[k].Print != "" {
			gone[states[k]] = true
		}
		if is != InSheet {
			m := Mark{ID: c.ID, Copy: c.Number, Part: p.Number, Print: p.Print, Is: is, By: by}
			if by == ByStep {
				m.Was = states[k].Is
			}
			now = append(now, m)
		}
	}
	marks := slices.DeleteFunc(slices.Clone(b.Marks), func(m Mark) bool { return gone[m] })
	for _, m := range now { // a part of this number that the drawing no longer has may come back
		marks = slices.DeleteFunc(marks, func(o Mark) bool {
			return o.ID == m.ID && o.Copy == m.Copy && o.Part == m.Part && o.Print == m.Print
		})
	}
	marks = append(marks, now...)
	b.Marks = marks[max(0, len(marks)-maxMarks):]
	return b
}

// Mark says where parts of a copy are, by their indices.
func (b Book) Mark(c Copy, parts []int, is Is) Book { return b.mark(c, parts, is, ByHand) }

// Anew forgets all that is known of a copy.
func (b Book) Anew(c Copy) Book {
	b.Marks = slices.DeleteFunc(slices.Clone(b.Marks), func(m Mark) bool { return m.ID == c.ID && m.Copy == c.Number })
	b.Places = slices.DeleteFunc(slices.Clone(b.Places), func(p Place) bool { return p.ID == c.ID && p.Copy == c.Number })
	return b
}

// Named is b to be kept outside the page: with the names of sprites by their
// numbers. What belongs to no sprite is left out.
func (b Book) Named(name func(id int) (string, bool)) Book {
	var out Book
	for _, m := range b.Marks {
		if s, ok := name(m.ID); ok {
			m.Sprite, m.ID = s, 0
			out.Marks = append(out.Marks, m)
		}
	}
	for _, p := range b.Places {
		if s, ok := name(p.ID); ok {
			p.Sprite, p.ID = s, 0
			out.Places = append(out.Places, p)
		}
	}
	return out
}

// Numbered takes up what Named gave, perhaps from another build or damaged:
// what belongs to no sprite, or makes no sense, is left out.
func (b Book) Numbered(id func(name string) (int, bool)) Book {
	var out Book
	for _, m := range b.Marks[:min(len(b.Marks), maxMarks)] {
		n, ok := id(m.Sprite)
		if ok && m.Copy > 0 && m.Print != "" && (m.Is == Out || m.Is == Stuck || m.Is == Lost) && (m.By == ByHand || m.By == ByStep) && (m.Was == InSheet || m.Was == Out) {
			m.ID, m.Sprite = n, ""
			out.Marks = append(out.Marks, m)
		}
	}
	for _, p := range b.Places[:min(len(b.Places), maxPlaces)] {
		if n, ok := id(p.Sprite); ok && p.Copy > 0 && p.Step >= 0 {
			p.ID, p.Sprite = n, ""
			out.Places = append(out.Places, p)
		}
	}
	return out
}

// Empty says whether nothing is known.
func (b Book) Empty() bool { return len(b.Marks)+len(b.Places) == 0 }
