package editor

import (
	"fmt"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

type brokeArgs struct {
	Stock string `json:"stock" about:"ID of the stock whose test piece didn't hold"`
	What  string `json:"what" about:"what broke" oneOf:"strip|join|tab"`
}

// heldCommands take over what the test pieces told.
func heldCommands() []Command {
	return []Command{command("itBroke", "What broke on a test piece", runItBroke)}
}

// stronger is a width a quarter larger, up to the next tenth of a millimetre, by
// which it grows at the least (common practice, no source).
func stronger(v shape.Um) shape.Um { return max((v*5/4+99)/100*100, v/100*100+100) }

// runItBroke makes wider what broke, one step at a time, and says how wide it is
// now: the stock's least strip, with which its joins grow too; the joins of all
// sprites; or what stands at tabs.
func runItBroke(e *Editor, a brokeArgs) (any, error) {
	st, ok := e.doc.Project.StockByID(a.Stock)
	if !ok {
		return nil, fmt.Errorf("this project has no stock %s", quoted(a.Stock))
	}
	switch a.What {
	case "join":
		return e.wideJoins(st)
	case "tab":
		now := stronger(e.doc.Project.Settings.Tab)
		if now > project.MostTab {
			return nil, fmt.Errorf("tabs are %s mm already: cut with less power instead", project.FormatMm(e.doc.Project.Settings.Tab))
		}
		return fmt.Sprintf("Tabs now stand %s mm wide.", project.FormatMm(now)), e.set("Wider tabs", func(s *project.Settings) error {
			s.Tab = now
			return nil
		})
	}
	now := stronger(st.LeastStrip)
	words := fmt.Sprintf("The least strip of %s is now %s mm: what is narrower stands under “Before you cut”.", st.Name, project.FormatMm(now))
	return words, e.changeStock("A wider least strip", a.Stock, func(s *project.Stock) error {
		s.LeastStrip, s.Typical = now, false
		return between("the least strip", now, 0, 100*shape.Mm)
	})
}

// wideJoins widens all joins beyond the widest that the stock asks for, as far as
// every sprite's cells have room.
func (e *Editor) wideJoins(st project.Stock) (any, error) {
	p := &e.doc.Project
	var was shape.Um
	room := project.MaxCell
	for i := range p.Sprites {
		side, _ := outline.Joinable(p.Sprites[i].Cell, st.LeastStrip, p.Settings.Join)
		was, room = max(was, side), min(room, p.Sprites[i].Cell)
	}
	now := stronger(was)
	if 2*now > room {
		return nil, fmt.Errorf("a join of %s mm has no room in cells of %s mm: make the cells larger, or leave corners apart", project.FormatMm(now), project.FormatMm(room))
	}
	return fmt.Sprintf("Joins are now %s mm wide.", project.FormatMm(now)), e.set("Wider joins", func(s *project.Settings) error {
		s.Join = now
		return nil
	})
}
