package main

import (
	"bytes"
	"errors"

	"github.com/spf13/pflag"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// settings are the options that shape what is cut. One that is set changes the
// project, one that isn't leaves it as it is.
type settings struct {
	cell, stack, extraHeights, corners, join, border     option
	sheet, margin, gap, kerf, hold, tab, effort, colours option
	pins, jig, clearance                                 option
	bench, machine, match, touching                      option
	layout, group, large, only, again                    option
}

func (s *settings) add(f *pflag.FlagSet) {
	s.cell.add(f, "cell", "MM", "cell side (default 3)")
	s.stack.add(f, "stack", "STYLE", "fewest: few parts, each a whole region that runs on beneath others;\nside-by-side: each patch as it shows, on a backer (default fewest)")
	s.extraHeights.add(f, "extra-heights", "N", "heights allowed beyond the number of colours (default 3)")
	s.corners.add(f, "corners", "HOW", "join or apart: cells that touch only at a corner (default join)")
	s.join.add(f, "join", "MM", "side of a join (default: as cell and stock ask)")
	s.border.add(f, "border", "MM", "how far the backer stands out (default 0)")
	s.sheet.add(f, "sheet", "WxH", "sheet size in mm (default 210x297)")
	s.margin.add(f, "margin", "MM", "of the sheet, kept free (default 5)")
	s.gap.add(f, "gap", "MM", "least distance between neighbours' cut lines;\nonly with 0 may edges be shared (default 1)")
	s.kerf.add(f, "kerf", "MM", "width the cut removes (default: what machine and stock say)")
	s.hold.add(f, "hold", "HOW", "tabs or light: how parts stay in the sheet (default tabs)")
	s.tab.add(f, "tab", "MM", "what is left standing at a tab (default 0.4)")
	s.pins.add(f, "pins", "MM", "two holes for pins so wide through each sprite's parts, where a part on top\nhides them; 0: none (default 0)")
	s.jig.add(f, "jig", "NAME=HEIGHT:STOCK,...", "jigs: a plate with a window for each part of a sprite's height,\ncut from a stock of the project or of the bench's shelf")
	s.clearance.add(f, "jig-clearance", "MM", "by which a jig's windows are wider than their parts, on every side (default 0.2)")
	s.layout.add(f, "layout", "HOW", "nested: on few sheets; register: every layer at its true place,\na sheet for each (default nested)")
	s.group.add(f, "group", "HOW", "free, or sprite: a sprite's parts of one stock share a sheet (default free)")
	s.large.add(f, "large", "HOW", "whole or split: parts that fit no sheet stay whole and get none,\nor are cut in pieces along the cells' lines, to be glued edge to edge (default whole)")
	s.only.add(f, "only", "NAME[=N],...", "cut only these sprites now, N copies of each (default: all)")
	s.again.add(f, "again", "NUMBER,...", "cut only these parts again, on offcuts or small sheets, as in A2-3")
	s.bench.add(f, "bench", "FILE", "your machines and shelf of stocks (default: a generic laser, typical card)")
	s.machine.add(f, "machine", "NAME", "the machine of that bench")
	s.match.add(f, "match", "N", "cut every colour from the nearest stocks of that bench's shelf, at most N different ones\n(0: any number); without it only stocks of exactly a colour are taken")
	s.touching.add(f, "touching", "HOW", "differ or merge: whether colours that touch may get the same stock\nwith --match (default differ)")
	s.colours.add(f, "colours", "N", "reduce all sprites together to one palette of N colours")
	s.effort.add(f, "effort", "0..9", "how long nesting searches (default 3)")
}

// reduceTo is the number of colours asked for, 0 where none is.
func (s *settings) reduceTo() (int, error) {
	if !s.colours.set {
		return 0, nil
	}
	return s.colours.count(1, project.MaxPalette)
}

// apply changes p where an option is set, and checks the whole.
func (s *settings) apply(p *project.Project) error {
	set := &p.Settings
	for _, step := range []struct {
		option *option
		take   func() error
	}{
		{&s.cell, func() error {
			cell, err := s.cell.length(project.MinCell, project.MaxCell)
			for i := range p.Sprites {
				p.Sprites[i].Cell = cell
			}
			return err
		}},
		{&s.stack, func() error {
			style, err := s.stack.choice(string(project.Fewest), string(project.SideBySide))
			for i := range p.Sprites {
				p.Sprites[i].Stack.Style = project.Style(style)
			}
			return err
		}},
		{&s.extraHeights, func() error {
			n, err := s.extraHeights.count(0, project.MaxExtraHeights)
			for i := range p.Sprites {
				p.Sprites[i].Stack.ExtraHeights = n
			}
			return err
		}},
		{&s.corners, func() error {
			how, err := s.corners.choice(string(project.Join), string(project.Apart))
			set.Corners = project.Corners(how)
			return err
		}},
		{&s.join, func() (err error) { set.Join, err = s.join.length(0, project.MaxCell/2); return }},
		{&s.border, func() (err error) { set.Border, err = s.border.length(0, 100*shape.Mm); return }},
		{&s.sheet, func() (err error) {
			set.SheetW, set.SheetH, err = s.sheet.size(10*shape.Mm, 10000*shape.Mm)
			return
		}},
		{&s.margin, func() (err error) { set.Margin, err = s.margin.length(0, 1000*shape.Mm); return }},
		{&s.gap, func() (err error) { set.Gap, err = s.gap.length(0, 100*shape.Mm); return }},
		{&s.kerf, func() error {
			kerf, err := s.kerf.length(0, 10*shape.Mm)
			set.Kerf = &kerf
			return err
		}},
		{&s.hold, func() error {
			how, err := s.hold.choice(string(project.Tabs), string(project.Light))
			set.Hold = project.Hold(how)
			return err
		}},
		{&s.tab, func() (err error) { set.Tab, err = s.tab.length(project.LeastTab, project.MostTab); return }},
		{&s.pins, func() (err error) {
			if set.Pins, err = s.pins.length(0, project.MostPin); err == nil && set.Pins > 0 {
				set.Pins, err = s.pins.length(project.LeastPin, project.MostPin)
			}
			return
		}},
		{&s.jig, func() error { return s.jigs(p) }},
		{&s.clearance, func() (err error) { set.JigClear, err = s.clearance.length(0, project.MostClear); return }},
		{&s.layout, func() error {
			how, err := s.layout.choice(string(project.Nested), string(project.InRegister))
			set.Layout = project.Layout(how)
			return err
		}},
		{&s.group, func() error {
			how, err := s.group.choice(string(project.Ungrouped), string(project.BySprite))
			set.Group = project.Grouping(how)
			return err
		}},
		{&s.large, func() error {
			how, err := s.large.choice(string(project.LargeWhole), string(project.LargeSplit))
			set.Large = project.Large(how)
			return err
		}},
		{&s.only, func() (err error) { p.Choice.Sprites, err = s.chosen(p); return }},
		{&s.again, func() (err error) { p.Choice.Parts, err = s.parts(); return }},
		{&s.effort, func() (err error) { set.Effort, err = s.effort.count(0, 9); return }},
	} {
		if !step.option.set {
			continue
		}
		if err := step.take(); err != nil {
			return err
		}
	}
	return p.Validate()
}

// readBench reads the bench file; nil where none is named.
func (s *settings) readBench() (*project.Bench, error) {
	if !s.bench.set {
		return nil, nil
	}
	data, err := readFile(s.bench.text)
	if err != nil {
		return nil, err
	}
	b, err := project.ReadBench(bytes.NewReader(data))
	if err == nil { // before the pictures are read
		_, err = b.Choose(s.machine.text)
	}
	if err != nil {
		return nil, inFile(s.bench.text, err)
	}
	return b, nil
}

// check refuses what needs no project to be seen as wrong, before anything is read.
func (s *settings) check() error {
	if s.machine.set && !s.bench.set {
		return badUsage("--machine %s: say on which bench it stands, as in --bench bench.json --machine %s", quote(s.machine.text), quote(s.machine.text))
	}
	if _, err := s.reduceTo(); err != nil {
		return err
	}
	if _, err := s.matchRules(); err != nil {
		return err
	}
	blank := &project.Project{Settings: project.DefaultSettings()}
	var usage *usageError
	if err := s.apply(blank); errors.As(err, &usage) {
		return err
	}
	return nil
}
