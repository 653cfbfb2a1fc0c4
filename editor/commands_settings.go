package editor

import (
	"fmt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

type mmArgs struct {
	Mm float64 `json:"mm" about:"how much, in mm"`
}
type joinArgs struct {
	Mm float64 `json:"mm" about:"side of a join; 0: as cell and card ask"`
}
type kerfArgs struct {
	Mm *float64 `json:"mm" about:"width that the cut removes; nothing: what machine and card say"`
}
type cornersArgs struct {
	Corners string `json:"corners" about:"cells that touch at a corner" oneOf:"join|apart"`
}
type pinHoleArgs struct {
	Mm float64 `json:"mm" about:"side of the two holes through each sprite; 0: none"`
}
type edgeArgs struct {
	Edge string `json:"edge" about:"the border's outer corners" oneOf:"square|chamfered|round"`
}
type insideArgs struct {
	Inside string `json:"inside" about:"enclosed empty cells of the backer" oneOf:"open|filled"`
}
type guideArgs struct {
	Paper *string `json:"paper" about:"what the guide is printed on: a4, letter or nothing, as the sheets are; not given: as before"`
	Units *string `json:"units" about:"what it gives lengths in: mm, mm-in or nothing, as the paper is; not given: as before"`
}
type backerArgs struct {
	Stock string `json:"stock" about:"ID of what the backer is cut from; nothing: whatever suits"`
}
type sheetArgs struct {
	W float64 `json:"w_mm" about:"width of the sheets"`
	H float64 `json:"h_mm" about:"height of the sheets"`
}
type holdArgs struct {
	Hold string `json:"hold" about:"how parts stay in their sheet" oneOf:"tabs|light"`
}
type effortArgs struct {
	Effort int `json:"effort" about:"how long to search for a tight layout, 0 to 9"`
}

func settingsCommands() []Command {
	length := func(name, title, what string, least, most shape.Um, field func(*project.Settings) *shape.Um) Command {
		return command(name, title, func(e *Editor, a mmArgs) (any, error) {
			v := um(a.Mm)
			if err := between(what, v, least, most); err != nil {
				return nil, err
			}
			return nil, e.set(title, func(s *project.Settings) error {
				*field(s) = v
				return nil
			})
		})
	}
	return []Command{
		command("setCorners", "Corners joined or apart", func(e *Editor, a cornersArgs) (any, error) {
			return nil, e.set("Corners", func(s *project.Settings) error {
				s.Corners = project.Corners(a.Corners)
				return nil
			})
		}),
		command("setJoin", "Size of the joins", func(e *Editor, a joinArgs) (any, error) {
			return nil, e.set("Size of the joins", func(s *project.Settings) error {
				s.Join = um(a.Mm)
				return between("a join", s.Join, 0, project.MaxCell/2)
			})
		}),
		length("setBorder", "Border", "the border", 0, 100*shape.Mm, func(s *project.Settings) *shape.Um { return &s.Border }),
		command("setEdge", "Corners of the border", func(e *Editor, a edgeArgs) (any, error) {
			return nil, e.set("Corners of the border", func(s *project.Settings) error {
				s.Edge = project.Edge(a.Edge)
				return nil
			})
		}),
		command("setGuide", "Paper and units of the guide", func(e *Editor, a guideArgs) (any, error) {
			return nil, e.set("Guide", func(s *project.Settings) error {
				if a.Paper != nil {
					s.Paper = project.GuidePaper(*a.Paper)
				}
				if a.Units != nil {
					s.Units = project.Units(*a.Units)
				}
				return nil
			})
		}),
		command("setInside", "Enclosed gaps of the backer", func(e *Editor, a insideArgs) (any, error) {
			return nil, e.set("Backer", func(s *project.Settings) error {
				s.FillIn = a.Inside == "filled"
				return nil
			})
		}),
		command("setBacker", "What the backer is cut from", func(e *Editor, a backerArgs) (any, error) {
			return nil, e.do("Backer", func(c *change) error {
				was := e.doc.Project.Settings
				now := was
				now.Backer = a.Stock
				if a.Stock != "" {
					st, err := e.findStock(a.Stock)
					if err != nil {
						return err
					}
					if err := c.needStock(st); err != nil {
						return err
					}
				}
				if now.Backer == was.Backer {
					return nil
				}
				set(c, common, settings, now, len(was.Backer)+len(now.Backer))
				c.dropStock(was.Backer)
				return nil
			})
		}),
		command("setSheet", "Sheet size", func(e *Editor, a sheetArgs) (any, error) {
			return nil, e.set("Sheet size", func(s *project.Settings) error {
				s.SheetW, s.SheetH = um(a.W), um(a.H)
				return between("a sheet", min(s.SheetW, s.SheetH), 10*shape.Mm, 10000*shape.Mm)
			})
		}),
		length("setCover", "Height of the cover", "the cover", 0, 1000*shape.Mm, func(s *project.Settings) *shape.Um { return &s.Cover }),
		command("setPins", "Holes for pins", func(e *Editor, a pinHoleArgs) (any, error) {
			return nil, e.set("Holes for pins", func(s *project.Settings) error {
				if s.Pins = um(a.Mm); s.Pins == 0 {
					return nil
				}
				return between("a pin", s.Pins, project.LeastPin, project.MostPin)
			})
		}),
		length("setJigClear", "How much wider a jig's windows are", "a jig's clearance", 0, project.MostClear, func(s *project.Settings) *shape.Um { return &s.JigClear }),
		length("setMargin", "Margin of the sheets", "the margin", 0, 1000*shape.Mm, func(s *project.Settings) *shape.Um { return &s.Margin }),
		length("setGap", "Gap between parts", "the gap", 0, 100*shape.Mm, func(s *project.Settings) *shape.Um { return &s.Gap }),
		command("setKerf", "Kerf", func(e *Editor, a kerfArgs) (any, error) {
			return nil, e.set("Kerf", func(s *project.Settings) error {
				s.Kerf = nil
				if a.Mm != nil {
					k := um(*a.Mm)
					s.Kerf = &k
					return between("the kerf", k, 0, 10*shape.Mm)
				}
				return nil
			})
		}),
		command("setHold", "How parts stay in their sheet", func(e *Editor, a holdArgs) (any, error) {
			return nil, e.set("Hold", func(s *project.Settings) error {
				s.Hold = project.Hold(a.Hold)
				return nil
			})
		}),
		length("setTab", "Width of the tabs", "a tab", project.LeastTab, project.MostTab, func(s *project.Settings) *shape.Um { return &s.Tab }),
		command("setEffort", "How long to search for a tight layout", func(e *Editor, a effortArgs) (any, error) {
			if a.Effort < 0 || a.Effort > 9 {
				return nil, fmt.Errorf("the search for a tight layout is 0 to 9 long")
			}
			return nil, e.set("Layout", func(s *project.Settings) error {
				s.Effort = a.Effort
				return nil
			})
		}),
	}
}

// set makes a step of a change to the settings.
func (e *Editor) set(title string, f func(*project.Settings) error) error {
	now := e.doc.Project.Settings
	if err := f(&now); err != nil {
		return err
	}
	if sameSettings(now, e.doc.Project.Settings) {
		return nil
	}
	return e.do(title, func(c *change) error {
		set(c, common, settings, now, 16)
		return nil
	})
}

func sameSettings(a, b project.Settings) bool {
	return cutting(a).equal(cutting(b))
}

func (c Cutting) equal(d Cutting) bool {
	if (c.Kerf == nil) != (d.Kerf == nil) || c.Kerf != nil && *c.Kerf != *d.Kerf {
		return false
	}
	c.Kerf, d.Kerf = nil, nil
	return c == d
}

// between says so where a length is out of its range.
func between(what string, v, least, most shape.Um) error {
	if v < least || v > most {
		return fmt.Errorf("%s is %s to %s mm: %s mm can't be", what, project.FormatMm(least), project.FormatMm(most), project.FormatMm(v))
	}
	return nil
}
