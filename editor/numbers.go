package editor

import (
	"reflect"

	"sheetsprite/editor/plan"
)

// NumbersArrived keeps what parts are called in sheets or files that were made:
// from then on somebody may hold a part with that number. It is no step of undo
// and nothing has to be planned again; undo brings parts back under the numbers
// that they had, since a number is never forgotten. What was made of an older
// project and names a part otherwise is left out: it will be made again.
func (e *Editor) NumbersArrived(n *plan.Named) {
	p := &e.doc.Project
	changed := n.Given > p.Lettered
	p.Lettered = max(p.Lettered, n.Given)
	for _, s := range n.Sprites {
		i := e.doc.named(s.Name)
		if i < 0 {
			continue
		}
		had := &p.Sprites[i].Numbers
		s.Numbers.Extra = had.Extra
		if !s.Numbers.Follows(had) || reflect.DeepEqual(*had, s.Numbers) {
			continue
		}
		was := *had
		*had = s.Numbers
		if p.Validate() != nil {
			*had = was
			continue
		}
		changed = true
	}
	if changed {
		e.numbered++
		e.looks++
	}
}

// Kept counts the changes of what is kept: those of the project and of its
// numbers.
func (e *Editor) Kept() uint64 { return e.revision + e.numbered }
