package editor

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sheetsprite/editor/plan"
	"sheetsprite/editor/progress"
)

type copyArgs struct {
	Sprite string `json:"sprite" about:"the sprite's name"`
	Copy   int    `json:"copy" about:"which of its copies, from 1"`
}
type goOnArgs struct {
	Way     string `json:"way" about:"on, and what belongs to this step is stuck; or back" oneOf:"on|back"`
	Seconds int    `json:"seconds,omitempty" about:"how long the step took, to learn from"`
}
type toStepArgs struct {
	Step int `json:"step" about:"its number, from 1; one beyond the last: all is together"`
}
type markPartsArgs struct {
	Sprite string `json:"sprite" about:"the sprite's name"`
	Copy   int    `json:"copy" about:"which of its copies, from 1"`
	Parts  string `json:"parts" about:"their numbers, as in A2-3 A2-4; nothing: all that are still in their sheet"`
	Is     string `json:"is" about:"where they are; lost ones are cut again" oneOf:"in the sheet|out|stuck|lost"`
}
type paceArgs struct {
	Pace string `json:"pace" about:"what the time left is told from: typical times, or the maker's own steps" oneOf:"typical|mine"`
}
type awakeArgs struct {
	Awake string `json:"awake" about:"whether the glass stays lit while parts are put together" oneOf:"on|off"`
}

func assembleCommands() []Command {
	return []Command{
		command("putTogether", "Choose what is put together", func(e *Editor, a copyArgs) (any, error) {
			c, err := e.copyOf(a)
			if err != nil {
				return nil, err
			}
			e.session.Build = BuildLook{c.ID, c.Number}
			return nil, nil
		}),
		command("goOn", "Go on a step, or back", runGoOn),
		command("goToStep", "Go to a step", func(e *Editor, a toStepArgs) (any, error) {
			c, err := e.building()
			if err != nil {
				return nil, err
			}
			if last := len(c.Sprite.Steps) + 1; a.Step < 1 || a.Step > last {
				return nil, fmt.Errorf("%s has %d steps: there is no step %d", quoted(c.Sprite.Name), last-1, a.Step)
			}
			e.book = e.book.GoTo(c, a.Step-1)
			e.session.Sheets.pointAt(pointArgs{})
			return nil, nil
		}),
		command("markParts", "Say where parts are: out, stuck, lost", runMarkParts),
		command("buildAnew", "Begin a copy again from its first step", func(e *Editor, a copyArgs) (any, error) {
			c, err := e.copyOf(a)
			if err != nil {
				return nil, err
			}
			e.book = e.book.Anew(c)
			return nil, nil
		}),
		command("setPace", "What the time left is told from", func(e *Editor, a paceArgs) (any, error) {
			e.session.Pace = a.Pace
			return nil, nil
		}),
		command("keepAwake", "Keep the glass lit while building", func(e *Editor, a awakeArgs) (any, error) {
			e.session.Awake = a.Awake
			return nil, nil
		}),
	}
}

// AssemblyArrived takes in which order parts are put together.
func (e *Editor) AssemblyArrived(a *plan.Assembly) {
	e.assembly = a
	e.looks++
}

// copyOf finds a copy that can be put together.
func (e *Editor) copyOf(a copyArgs) (progress.Copy, error) {
	if e.assembly == nil {
		return progress.Copy{}, errors.New("the steps are still being worked out: wait a moment, then try again")
	}
	s, at := e.assembly.Named(a.Sprite), e.doc.named(a.Sprite)
	if s == nil || at < 0 {
		return progress.Copy{}, fmt.Errorf("there is nothing of %s to be put together", quoted(a.Sprite))
	}
	if a.Copy < 1 || a.Copy > s.Copies {
		return progress.Copy{}, fmt.Errorf("%s has %d copies now: there is no copy %d", quoted(a.Sprite), s.Copies, a.Copy)
	}
	return progress.Copy{ID: e.doc.IDs[at], Number: a.Copy, Sprite: s}, nil
}

// building is the copy that is being put together: the one that was chosen,
// else the first that isn't done.
func (e *Editor) building() (progress.Copy, error) {
	if e.assembly == nil {
		return progress.Copy{}, errors.New("the steps are still being worked out: wait a moment, then try again")
	}
	b := e.session.Build
	if at := slices.Index(e.doc.IDs, b.ID); at >= 0 {
		if c, err := e.copyOf(copyArgs{e.doc.Project.Sprites[at].Name, b.Copy}); err == nil {
			return c, nil
		}
	}
	all := e.copies()
	for _, c := range all {
		if e.book.At(c) < len(c.Sprite.Steps) {
			return c, nil
		}
	}
	if len(all) == 0 {
		return progress.Copy{}, errors.New("there is nothing to be put together")
	}
	return all[0], nil
}

// copies are all copies of all sprites that are put together, in order.
func (e *Editor) copies() []progress.Copy {
	if e.assembly == nil {
		return nil
	}
	var list []progress.Copy
	for i := range e.assembly.Sprites {
		s := &e.assembly.Sprites[i]
		at := e.doc.named(s.Name)
		for n := range s.Copies {
			if at >= 0 {
				list = append(list, progress.Copy{ID: e.doc.IDs[at], Number: n + 1, Sprite: s})
			}
		}
	}
	return list
}

func runGoOn(e *Editor, a goOnArgs) (any, error) {
	c, err := e.building()
	if err != nil {
		return nil, err
	}
	e.session.Build = BuildLook{c.ID, c.Number}
	e.session.Sheets.pointAt(pointArgs{}) // the new step's own part is lit
	if a.Way == "back" {
		e.book = e.book.Back(c)
		return nil, nil
	}
	book, typical := e.book.Next(c)
	e.book = book
	e.session.Learnt = e.session.Learnt.Learn(typical, a.Seconds)
	return nil, nil
}

func runMarkParts(e *Editor, a markPartsArgs) (any, error) {
	c, err := e.copyOf(copyArgs{a.Sprite, a.Copy})
	if err != nil {
		return nil, err
	}
	is := progress.Is(a.Is)
	if a.Is == "in the sheet" {
		is = progress.InSheet
	}
	states := e.book.States(c)
	var at []int
	numbers := strings.Fields(a.Parts)
	for _, n := range numbers {
		i := slices.IndexFunc(c.Sprite.Parts, func(p plan.AssemblyPart) bool { return p.Number == n })
		if i < 0 {
			return nil, fmt.Errorf("%s has no part %s", quoted(a.Sprite), quoted(n))
		}
		at = append(at, i)
	}
	if len(numbers) == 0 {
		for i := range states {
			if states[i].Is == progress.InSheet {
				at = append(at, i)
			}
		}
	}
	return nil, e.markParts(c, at, states, is)
}

// markParts says where parts of a copy are. What is lost is cut again; what was
// lost and is there again need not be, unless another copy lacks it too.
func (e *Editor) markParts(c progress.Copy, at []int, states []progress.Mark, is progress.Is) error {
	e.book = e.book.Mark(c, at, is)
	now := e.doc.Project.Choice
	now.Parts = slices.Clone(now.Parts)
	for _, i := range at {
		n := c.Sprite.Parts[i].Number
		switch {
		case is == progress.Lost && !slices.Contains(now.Parts, n):
			now.Parts = append(now.Parts, n)
		case is != progress.Lost && states[i].Is == progress.Lost && !e.lacking(n):
			now.Parts = slices.DeleteFunc(now.Parts, func(o string) bool { return o == n })
		}
	}
	return e.choose("Cut again", now)
}

// lacking says whether any copy lacks the part of this number.
func (e *Editor) lacking(number string) bool {
	for _, c := range e.copies() {
		for i, m := range e.book.States(c) {
			if m.Is == progress.Lost && c.Sprite.Parts[i].Number == number {
				return true
			}
		}
	}
	return false
}
