// Command golden prints the SHA-256 of the bundles that a project file makes,
// with its own settings and with others: one line for each, the sum and what
// was set. Then it does so for grids found in pictures. Check builds it natively and for WebAssembly and compares.
package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"strconv"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
	"sheetsprite/export"
)

// variant is a way to make the project different.
type variant struct {
	name string
	set  func(*project.Project)
}

// variants go through the steps that could differ between machines: all
// styles, arcs, slanted edges, opened corners, cells of an odd size.
var variants = []variant{
	{"as it is", func(p *project.Project) {}},
	{"round border", func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 2345, project.Round }},
	{"side by side, chamfered border, in pieces", func(p *project.Project) {
		p.Settings.Border, p.Settings.Edge = 3*shape.Mm, project.Chamfered
		each(p, func(s *project.Sprite) { s.Stack.Style = project.SideBySide })
		p.Settings.Large, p.Settings.SheetW, p.Settings.SheetH = project.LargeSplit, 60*shape.Mm, 70*shape.Mm
	}},
	{"corners apart, odd cells", func(p *project.Project) {
		p.Settings.Corners = project.Apart
		each(p, func(s *project.Sprite) { s.Cell = 3333 })
	}},
	{"a height floats; pins, jigs, layers left whole", func(p *project.Project) {
		p.Settings.Pins = project.UsualPin
		each(p, func(s *project.Sprite) {
			s.Stack.Foam, s.Stack.Float = 0, 2
			s.Stack.Jigs = []project.Jig{{Height: 2, Stock: p.Stocks[0].ID}}
			for _, st := range p.Stocks {
				s.Stack.Whole = append(s.Stack.Whole, project.Whole{Height: 3, Stock: st.ID})
			}
		})
	}},
	{"by hand", func(p *project.Project) {
		order := ""
		for _, c := range p.Palette {
			order += string(rune(c.Key))
		}
		each(p, func(s *project.Sprite) { s.Stack.Style, s.Stack.Order = project.ByHand, order })
	}},
	{"drawings that are hard to search", func(p *project.Project) {
		first := p.Sprites[0]
		p.Sprites = nil
		for i, d := range []stack.Drawing{stacktest.Sprite32(1, 8), stacktest.Sprite32(2, 6), stacktest.Noise(20, 20, 8, 3)} {
			p.Sprites = append(p.Sprites, redrawn(first, d, p.Palette, fmt.Sprint("hard ", i)))
		}
	}},
}

func each(p *project.Project, set func(*project.Sprite)) {
	for i := range p.Sprites {
		set(&p.Sprites[i])
	}
}

// redrawn is a sprite with another drawing, in the palette's first colours.
func redrawn(s project.Sprite, d stack.Drawing, palette []project.Colour, name string) project.Sprite {
	cells := make([]byte, len(d.Cells))
	for i, c := range d.Cells {
		cells[i] = project.Empty
		if c > 0 {
			cells[i] = palette[c-1].Key
		}
	}
	s.Name, s.W, s.H, s.Frames = name, d.W, d.H, []project.Frame{{Cells: cells}}
	return s
}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: golden PROJECT WORKERS")
		os.Exit(2)
	}
	workers, err := strconv.Atoi(os.Args[2])
	if err == nil {
		err = sums(os.Args[1], workers)
	}
	if err == nil {
		err = grids()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// sums prints the lines; workers sprites are planned at once.
func sums(path string, workers int) error {
	for _, v := range variants {
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		p, err := project.Read(f)
		f.Close()
		if err != nil {
			return err
		}
		v.set(p)
		plan, err := engine.Plan(p, engine.Options{Workers: workers})
		if err != nil {
			return fmt.Errorf("%s: %w", v.name, err)
		}
		if err := engine.PlanSheets(p, plan, engine.Options{Workers: workers}); err != nil {
			return fmt.Errorf("%s: %w", v.name, err)
		}
		engine.PlanAssembly(p, plan, engine.Options{Workers: workers})
		bundle, err := export.Build(export.Job{Project: p, Plan: plan})
		if err != nil {
			return fmt.Errorf("%s: %w", v.name, err)
		}
		fmt.Printf("%x  %d bytes, %s\n", sha256.Sum256(bundle), len(bundle), v.name)
	}
	return nil
}
