package editor

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sheetsprite/editor/plan"
	"sheetsprite/engine/project"
)

type partArgs struct {
	Sprite string `json:"sprite" about:"the sprite's name"`
	Copy   int    `json:"copy" about:"which of its copies, from 1"`
	Part   string `json:"part" about:"the part's number, as in A2-3"`
}
type movePartArgs struct {
	Sprite string  `json:"sprite" about:"the sprite's name"`
	Copy   int     `json:"copy" about:"which of its copies, from 1"`
	Part   string  `json:"part" about:"the part's number, as in A2-3"`
	Sheet  int     `json:"sheet" about:"which of its stock's sheets, from 1 through offcuts, then sheets"`
	X      float64 `json:"x_mm" about:"left edge of its cut line on the sheet"`
	Y      float64 `json:"y_mm" about:"lower edge of its cut line, from the sheet's lower edge"`
	Turn   int     `json:"turn" about:"quarter turns anticlockwise, 0 to 3"`
}
type lockArgs struct {
	Sprite string `json:"sprite" about:"the sprite's name"`
	Copy   int    `json:"copy" about:"which of its copies, from 1"`
	Part   string `json:"part" about:"the part's number, as in A2-3"`
	Held   string `json:"held" about:"whether it stays whatever is laid anew" oneOf:"locked|free"`
}
type tonightArgs struct {
	Copies []float64 `json:"copies" about:"copies of each sprite, in their order; 0: not tonight; nothing: all, as often as they say"`
}
type largeArgs struct {
	Large string `json:"large" about:"what becomes of parts that fit no sheet" oneOf:"whole|split"`
}
type againArgs struct {
	Parts string `json:"parts" about:"numbers of single parts, as in A2-3 B1-1; nothing: everything"`
}
type cutDoneArgs struct {
	Sheet string `json:"sheet" about:"the sheet's print, as the page's state has it"`
	Done  string `json:"done" about:"whether it is cut" oneOf:"cut|to cut"`
}
type lookArgs struct {
	X    float64 `json:"x" about:"what is in the middle, in mm of the bench"`
	Y    float64 `json:"y" about:"the same, downwards"`
	Zoom float64 `json:"zoom" about:"1: all of them in view"`
}
type pointArgs struct {
	Sprite string `json:"sprite,omitempty" about:"the sprite's name"`
	Copy   int    `json:"copy,omitempty" about:"which of its copies, from 1"`
	Part   string `json:"part,omitempty" about:"the part's number; nothing: point at none"`
}

func (l *SheetLook) pointAt(a pointArgs) { l.Sprite, l.Copy, l.Part = a.Sprite, a.Copy, a.Part }

type showSheetArgs struct {
	Sheet string  `json:"sheet" about:"the sheet's print; nothing: none"`
	At    float64 `json:"at,omitempty" about:"how many of its lines are cut, the last one in part; 0: show it whole"`
}
type layoutArgs struct {
	Layout string `json:"layout" about:"as few sheets as possible, or every layer at its true place" oneOf:"nested|register"`
}
type groupArgs struct {
	Group string `json:"group" about:"whether a sprite's parts keep together on a sheet" oneOf:"free|sprite"`
}

func sheetCommands() []Command {
	return []Command{
		command("movePart", "Move or turn a part on its sheet", runMovePart),
		command("lockPart", "Lock a part where it lies", runLockPart),
		command("keepLayout", "Keep this layout", func(e *Editor, _ none) (any, error) {
			if err := e.laidNow(); err != nil {
				return nil, err
			}
			return nil, e.do("Keep this layout", func(c *change) error {
				c.setPlaces(e.laid.Places)
				return nil
			})
		}),
		command("layAnew", "Lay parts anew, but for locked ones", func(e *Editor, _ none) (any, error) {
			return nil, e.do("Lay parts anew", func(c *change) error {
				c.setPlaces(slices.DeleteFunc(slices.Clone(e.doc.Project.Places), func(q project.Placement) bool { return q.Held != project.Locked }))
				return nil
			})
		}),
		command("cutTonight", "Choose what is cut tonight", runCutTonight),
		command("cutAgain", "Cut single parts again", runCutAgain),
		command("markCut", "Tick a sheet off", func(e *Editor, a cutDoneArgs) (any, error) {
			if a.Sheet == "" || len(a.Sheet) > 40 {
				return nil, errors.New("markCut: give the sheet's print, as the page's state has it")
			}
			e.session.Cut = slices.DeleteFunc(slices.Clone(e.session.Cut), func(s string) bool { return s == a.Sheet })
			if a.Done == "cut" {
				e.session.Cut = append(e.session.Cut, a.Sheet)
				e.session.Cut = e.session.Cut[max(0, len(e.session.Cut)-maxTicks):]
			}
			return nil, nil
		}),
		command("lookAtSheets", "Move about the sheets", func(e *Editor, a lookArgs) (any, error) {
			l := &e.session.Sheets
			l.X, l.Y, l.Zoom = max(-1e5, min(a.X, 1e5)), max(-1e5, min(a.Y, 1e5)), max(1, min(a.Zoom, MaxSheetZoom))
			return nil, nil
		}),
		command("pointAt", "Point at a part on a sheet", func(e *Editor, a pointArgs) (any, error) {
			e.session.Sheets.pointAt(a)
			return nil, nil
		}),
		command("showSheet", "Choose a sheet and play its cuts", func(e *Editor, a showSheetArgs) (any, error) {
			e.session.Sheets.Sheet, e.session.Sheets.At = a.Sheet, max(0, min(a.At, maxLines))
			return nil, nil
		}),
		command("setLayout", "How parts come onto sheets", func(e *Editor, a layoutArgs) (any, error) {
			return nil, e.set("Layout", func(s *project.Settings) error {
				s.Layout = project.Layout(a.Layout)
				return nil
			})
		}),
		command("setGroup", "Whether a sprite keeps together", func(e *Editor, a groupArgs) (any, error) {
			return nil, e.set("Layout", func(s *project.Settings) error {
				s.Group = project.Grouping(a.Group)
				return nil
			})
		}),
		command("setLarge", "What becomes of parts that fit no sheet", func(e *Editor, a largeArgs) (any, error) {
			return nil, e.set("Parts that fit no sheet", func(s *project.Settings) error {
				s.Large = project.Large(a.Large)
				return nil
			})
		}),
	}
}

// maxLines bounds how many lines of a sheet are told of as cut.
const maxLines = 1e6

// maxTicks is how many sheets are remembered as cut.
const maxTicks = 1000

// LaidArrived takes where all parts lie. Answers that come too late are kept
// too: the page shows them until the next, but no place is taken from them.
func (e *Editor) LaidArrived(l *plan.Laid) {
	e.laid = l
	e.looks++
}

// laidNow says so where the sheets of the project as it is now aren't known.
func (e *Editor) laidNow() error {
	if e.laid == nil || e.laid.Revision != e.revision {
		return errors.New("the sheets are still being laid: wait a moment, then try again")
	}
	return nil
}

func places(d *Document) *[]project.Placement { return &d.Project.Places }
func choice(d *Document) *project.Choice      { return &d.Project.Choice }

const placeBytes = 120

// setPlaces gives the project other places; nothing of it has to be planned
// again but the sheets.
func (c *change) setPlaces(now []project.Placement) {
	was := c.doc.Project.Places
	if slices.EqualFunc(was, now, samePlace) {
		return
	}
	set(c, order, places, now, (len(was)+len(now))*placeBytes)
}

func samePlace(a, b project.Placement) bool {
	a.Extra, b.Extra = nil, nil
	return a.Sprite == b.Sprite && a.Copy == b.Copy && a.Part == b.Part && a.Stock == b.Stock && a.Sheet == b.Sheet &&
		a.X == b.X && a.Y == b.Y && a.Turn == b.Turn && a.Held == b.Held
}

func (a partArgs) is(q project.Placement) bool {
	return q.Sprite == a.Sprite && q.Copy == a.Copy && q.Part == a.Part
}

// hold gives a part another place or another hold, and keeps all other parts of
// its stock where they lie, so that nothing else moves.
func (e *Editor) hold(title string, a partArgs, f func(*project.Placement)) error {
	if len(e.doc.Project.Choice.Parts) > 0 {
		return errors.New("single parts are being cut again, wherever there is room: go back to all parts to move one")
	}
	if err := e.laidNow(); err != nil {
		return err
	}
	at := slices.IndexFunc(e.laid.Places, a.is)
	if at < 0 {
		return fmt.Errorf("there is no part %s of %s, copy %d, on any sheet", quoted(a.Part), quoted(a.Sprite), a.Copy)
	}
	stock := e.laid.Places[at].Stock
	return e.do(title, func(c *change) error {
		var now []project.Placement
		for _, q := range e.doc.Project.Places {
			if q.Stock != stock {
				now = append(now, q)
			}
		}
		for _, q := range e.laid.Places {
			if q.Stock != stock {
				continue
			}
			if a.is(q) {
				f(&q)
			}
			now = append(now, q)
		}
		c.setPlaces(now)
		return nil
	})
}

func runMovePart(e *Editor, a movePartArgs) (any, error) {
	return nil, e.hold("Move a part", partArgs{a.Sprite, a.Copy, a.Part}, func(q *project.Placement) {
		q.Sheet, q.X, q.Y, q.Turn = a.Sheet, um(a.X), um(a.Y), a.Turn
		if q.Held != project.Locked {
			q.Held = project.Moved
		}
	})
}

func runLockPart(e *Editor, a lockArgs) (any, error) {
	title := "Lock a part"
	if a.Held == "free" {
		title = "Free a part"
	}
	return nil, e.hold(title, partArgs{a.Sprite, a.Copy, a.Part}, func(q *project.Placement) {
		q.Held = project.Moved
		if a.Held == "locked" {
			q.Held = project.Locked
		}
	})
}

func runCutTonight(e *Editor, a tonightArgs) (any, error) {
	sprites := e.doc.Project.Sprites
	now := project.Choice{Parts: e.doc.Project.Choice.Parts, Extra: e.doc.Project.Choice.Extra}
	if len(a.Copies) > 0 {
		if len(a.Copies) != len(sprites) {
			return nil, fmt.Errorf("cutTonight: give the copies of all %d sprites, 0 for those that aren't cut", len(sprites))
		}
		same := true
		for i, n := range a.Copies {
			if n != float64(int(n)) || n < 0 || n > project.MaxCopies {
				return nil, fmt.Errorf("%s is cut 0 to %d times: %g can't be", quoted(sprites[i].Name), project.MaxCopies, n)
			}
			same = same && int(n) == max(1, sprites[i].Copies)
			if n > 0 {
				now.Sprites = append(now.Sprites, project.Chosen{Sprite: sprites[i].Name, Copies: int(n)})
			}
		}
		if len(now.Sprites) == 0 {
			return nil, errors.New("choose at least one sprite to cut")
		}
		if same {
			now.Sprites = nil
		}
	}
	return nil, e.choose("Cut tonight", now)
}

func runCutAgain(e *Editor, a againArgs) (any, error) {
	now := e.doc.Project.Choice
	now.Parts = nil
	for _, number := range strings.Fields(a.Parts) {
		number, _, _ = strings.Cut(number, "/") // a piece is cut with the others of its part
		if !slices.Contains(now.Parts, number) {
			now.Parts = append(now.Parts, number)
		}
	}
	return nil, e.choose("Cut again", now)
}

// choose makes a step of another choice.
func (e *Editor) choose(title string, now project.Choice) error {
	was := e.doc.Project.Choice
	same := func(a, b project.Chosen) bool { return a.Sprite == b.Sprite && a.Copies == b.Copies }
	if slices.Equal(was.Parts, now.Parts) && slices.EqualFunc(was.Sprites, now.Sprites, same) {
		return nil
	}
	return e.do(title, func(c *change) error {
		set(c, order, choice, now, (len(was.Sprites)+len(now.Sprites)+len(was.Parts)+len(now.Parts))*64)
		return nil
	})
}

// followNames keeps places and choice with their sprites and stocks: renamed
// ones take theirs along, those of what is gone go.
func (c *change) followNames() {
	p := &c.doc.Project
	if len(p.Places) == 0 && len(p.Choice.Sprites) == 0 {
		return
	}
	renamed := map[string]string{} // only asked
	for _, d := range c.edits {
		if f, ok := d.(*faceEdit); ok && f.was.name != f.now.name {
			renamed[f.was.name] = f.now.name
		}
	}
	sprites, stocked := map[string]bool{}, map[string]bool{} // only asked
	for i := range p.Sprites {
		sprites[p.Sprites[i].Name] = true
	}
	for i := range p.Stocks {
		stocked[p.Stocks[i].ID] = true
	}
	name := func(s string) string {
		if to, ok := renamed[s]; ok {
			return to
		}
		return s
	}
	var kept []project.Placement
	for _, q := range p.Places {
		if q.Sprite = name(q.Sprite); sprites[q.Sprite] && stocked[q.Stock] {
			kept = append(kept, q)
		}
	}
	c.setPlaces(kept)
	now, moved := p.Choice, false
	now.Sprites = nil
	for _, s := range p.Choice.Sprites {
		was := s.Sprite
		if s.Sprite = name(s.Sprite); sprites[s.Sprite] {
			now.Sprites = append(now.Sprites, s)
		}
		moved = moved || was != s.Sprite || !sprites[s.Sprite]
	}
	if moved {
		set(c, order, choice, now, (len(p.Choice.Sprites)+len(now.Sprites))*64)
	}
}
