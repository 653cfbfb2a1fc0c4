package readback

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"sheetsprite/engine/project"
)

// machineFiles holds a sheet's machine files, where it has any, against the lines
// of its drawing and against what the manifest says of their lengths. scrap says
// whether leads lie where nothing is spoilt.
func (c contents) machineFiles(s *manifestSheet, p *project.Project, stock project.Stock, lines []drawn, scrap func([]lead) error) error {
	if s.GCode == "" {
		if s.Bounds != "" {
			return errors.New("it has a machine file round its bounds but none to cut")
		}
		return nil
	}
	var use project.Use
	if p.Bench != nil {
		use, _ = p.Bench.UseOf(p.Machine().Name, stock.ID)
	}
	w, h := int64(s.Size[0]), int64(s.Size[1])
	t := toolOf(p.Machine(), use, w, h)
	if err := may(p.Machine(), stock, use); err != nil {
		return fmt.Errorf("%s: %w", s.GCode, err)
	}
	all := t.setAll(lines, func(l drawn) (percent, speed int) {
		if l.mark {
			return use.MarkPower, use.MarkSpeed
		}
		return use.Power, use.Speed
	})
	data, err := c.read(s.GCode)
	if err != nil {
		return err
	}
	f, leads, err := t.machineFile(data, lines)
	err = cmp.Or(err, scrap(leads))
	if err == nil {
		// Each length in the manifest is a sum of rounded ones.
		near := func(what string, v float64, says length) error {
			if math.Abs(v-float64(says)) > float64(f.moves+2) {
				return fmt.Errorf("%s are %s mm in the machine file and %s mm in the manifest", what, mm(int64(v)), mm(int64(says)))
			}
			return nil
		}
		err = cmp.Or(near("cuts", f.cut, s.Cut), near("lead-ins", f.lead, s.Lead), near("moves with the beam off", f.travel, s.Travel))
		if all && err == nil { // else the manifest counts what only the drawing has
			err = near("marks", f.mark, s.Mark)
		}
	}
	if err != nil {
		return fmt.Errorf("%s: %w", s.GCode, err)
	}
	if data, err = c.read(s.Bounds); err == nil {
		err = t.boundsFile(data, lines, leads)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", s.Bounds, err)
	}
	return nil
}

// setAll gives every line its power and feed, and says whether none is left out.
func (t tool) setAll(lines []drawn, setting func(drawn) (percent, speed int)) (all bool) {
	all = true
	for i := range lines {
		l := &lines[i]
		l.power, l.feed = t.set(setting(*l))
		all = all && l.power > 0 && l.feed > 0
	}
	return all
}

// may says whether there may be a machine file at all: only where the maker
// entered power and speed, for a stock that is known to be fit for the machine.
func may(m project.Machine, stock project.Stock, u project.Use) error {
	switch {
	case u.Power <= 0 || u.Speed <= 0:
		return errors.New("nobody entered power and speed")
	case m.Kind == project.Hand:
		return errors.New("hands get no machine file")
	case m.Kind == project.LaserCutter && stock.Laser != project.LaserFine:
		return errors.New("the stock isn't known to be safe on a laser")
	}
	return nil
}

// boundsFile reads the file that runs round the bounds of all that is drawn, with
// the beam off.
func (t tool) boundsFile(data []byte, lines []drawn, leads []lead) error {
	var run []vertex
	err := readGCode(data, func(m ncMove) error {
		if m.stroke > 0 {
			return fmt.Errorf("line %d: the beam is on", m.line)
		}
		p := t.onSheet(m.to)
		run = append(run, vertex{x: p.x, y: p.y})
		return t.reaches(m)
	})
	if err != nil {
		return err
	}
	var ends []vertex // of arcs: where they reach farthest
	for _, l := range lines {
		for i, v := range l.contour {
			ends = append(ends, vertex{x: v.x, y: v.y})
			if v.arc != 0 && !(l.open && i == len(l.contour)-1) {
				for _, c := range chords(v, l.contour[(i+1)%len(l.contour)]) {
					ends = append(ends, c[0])
				}
			}
		}
	}
	for _, d := range leads {
		ends = append(ends, d.from)
	}
	if len(run) != 6 || len(ends) == 0 {
		return errors.New("it doesn't run round a rectangle and back")
	}
	want := boxed(ends, false).box
	for i, corner := range []vertex{{x: want[0], y: want[1]}, {x: want[2], y: want[1]}, {x: want[2], y: want[3]}, {x: want[0], y: want[3]}} {
		at := run[i]
		if max(at.x-corner.x, corner.x-at.x, at.y-corner.y, corner.y-at.y) > oddSlack {
			return fmt.Errorf("it runs past (%s, %s) mm, but what is cut reaches (%s, %s) mm", mm(at.x), mm(at.y), mm(corner.x), mm(corner.y))
		}
	}
	if !sameSpot(run[4], run[0], 0) || slices.ContainsFunc(run, func(v vertex) bool { return v.x < 0 || v.y < 0 || v.x > t.w || v.y > t.h }) {
		return errors.New("it doesn't come back to where it began")
	}
	return nil
}
