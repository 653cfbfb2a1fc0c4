package editor

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

type machineArgs struct {
	Name         *string  `json:"name" about:"what you call it"`
	Kind         *string  `json:"kind" about:"how it cuts; its figures become typical ones" oneOf:"laser|knife|hand"`
	BedW         *float64 `json:"bedWidth" about:"in mm; 0: any sheet fits"`
	BedH         *float64 `json:"bedHeight" about:"in mm"`
	Left         *float64 `json:"left" about:"margin that it can't reach, in mm"`
	Right        *float64 `json:"right" about:"the same"`
	Bottom       *float64 `json:"bottom" about:"the same"`
	Top          *float64 `json:"top" about:"the same"`
	Origin       *string  `json:"origin" about:"the corner where its coordinates begin" oneOf:"lower-left|lower-right|upper-left|upper-right"`
	Thickest     *float64 `json:"thickest" about:"stock that it cuts, in mm; 0: not known"`
	Unit         *string  `json:"unit" about:"of its speeds" oneOf:"mm/s|mm/min"`
	FullPower    *int     `json:"fullPower" about:"S value of full power in its files"`
	Acceleration *int     `json:"acceleration" about:"in mm/s²"`
	TravelSpeed  *int     `json:"travelSpeed" about:"beam off, in mm/s"`
	Beam         *string  `json:"beam" about:"the word that turns the beam on: M3 steady, M4 following the speed" oneOf:"M3|M4"`
	Marks        *string  `json:"marks" about:"whether it draws marks" oneOf:"draw|none"`
	BladeOffset  *float64 `json:"bladeOffset" about:"of a knife, in mm: the machine files hold it; 0: left to the machine's own program"`
	Overcut      *float64 `json:"overcut" about:"of a knife, in mm past the beginning of a closed cut; likewise"`
}
type useArgs struct {
	Stock     string   `json:"stock" about:"ID of the stock"`
	Power     *int     `json:"power" about:"percent of full power; 0: not entered"`
	Speed     *int     `json:"speed" about:"in the machine's unit; 0: not entered"`
	MarkPower *int     `json:"markPower" about:"percent, for marks; 0: none in machine files"`
	MarkSpeed *int     `json:"markSpeed" about:"for marks"`
	Passes    *int     `json:"passes" about:"over every cut"`
	Order     *string  `json:"order" about:"all passes of a contour at once, or the whole sheet again" oneOf:"contour|sheet"`
	Kerf      *float64 `json:"kerf" about:"width that the cut removes, in mm; under 0: as the stock says"`
}
type readingArgs struct {
	Stock string  `json:"stock" about:"ID of the stock"`
	Mm    float64 `json:"mm" about:"what the gauge reads: the width of its twenty cuts"`
}
type onShelfArgs struct {
	Stock string  `json:"stock" about:"ID of the stock"`
	Count int     `json:"count" about:"how many sheets there are; under 0: nobody counted"`
	W     float64 `json:"w_mm" about:"their width; 0: as the sheets of all"`
	H     float64 `json:"h_mm" about:"their height"`
}
type offcutArgs struct {
	Stock string  `json:"stock" about:"ID of the stock"`
	W     float64 `json:"w_mm" about:"its width"`
	H     float64 `json:"h_mm" about:"its height"`
	Do    string  `json:"do" about:"whether it comes to the shelf or goes" oneOf:"add|remove"`
}
type openBenchArgs struct {
	Bench string `json:"bench" about:"a bench file's text"`
	Name  string `json:"name,omitempty" about:"the machine; nothing: the first one"`
}

func benchCommands() []Command {
	return []Command{
		command("bench", "See my bench", func(e *Editor, _ none) (any, error) { return e.Bench(), nil }),
		command("setMachine", "Change my machine", func(e *Editor, a machineArgs) (any, error) {
			return nil, e.changeBench("Change my machine", a.apply)
		}),
		command("setUse", "How a card is cut on my machine", func(e *Editor, a useArgs) (any, error) {
			return nil, e.changeUse("How a card is cut", a.Stock, a.apply)
		}),
		command("kerfReading", "Enter what the kerf gauge reads", func(e *Editor, a readingArgs) (any, error) {
			if err := between("the gauge's reading", um(a.Mm), 1, 16*shape.Mm); err != nil {
				return nil, err
			}
			kerf := mm((um(a.Mm) + gaugeCuts/2) / gaugeCuts)
			return nil, e.changeUse("Kerf", a.Stock, useArgs{Kerf: &kerf}.apply)
		}),
		command("setOnShelf", "How many sheets are on the shelf", runSetOnShelf),
		command("setOffcut", "An offcut comes or goes", runSetOffcut),
		command("saveBench", "Save my bench as a file", func(e *Editor, _ none) (any, error) {
			e.keepMachines(e.benchNow())
			b := *e.own // with all machines, and what of the shelf they have figures for
			b.Shelf = slices.Clone(b.Shelf)
			for _, s := range e.benchNow().Shelf {
				put(&b.Shelf, s, func(o project.Shelf) bool { return o.Stock.ID == s.Stock.ID })
			}
			for _, s := range e.shelf {
				if _, ok := b.ShelfOf(s.Stock.ID); !ok {
					b.Shelf = append(b.Shelf, s)
				}
			}
			var text bytes.Buffer
			if err := b.Write(&text); err != nil {
				return nil, err
			}
			return map[string]string{"name": "bench.json", "text": text.String()}, nil
		}),
		command("openBench", "Take up a bench from a file", func(e *Editor, a openBenchArgs) (any, error) {
			b, err := project.ReadBench(bytes.NewReader([]byte(a.Bench)))
			if err != nil {
				return nil, fmt.Errorf("this bench can't be opened: %w", err)
			}
			if a.Name == "" && len(b.Machines) > 0 {
				a.Name = b.Machines[0].Name
			}
			if err := e.planOn("Take up a bench", b, a.Name); err != nil {
				return nil, err
			}
			e.keepMachines(b)
			return nil, e.takeShelf(b.Shelf)
		}),
	}
}

// gaugeCuts is how many cuts the kerf gauge adds up (engine.KerfOfReading, which
// this program does without: the maker's has the engine's sheets).
const gaugeCuts = 20

// benchNow is a copy of the project's bench to be changed, with its stocks as
// the project has them; a laser of a general kind where there was none.
func (e *Editor) benchNow() *project.Bench {
	p := &e.doc.Project
	b := &project.Bench{}
	if p.Bench != nil {
		*b = *p.Bench
	}
	b.Machines, b.Shelf, b.Uses = slices.Clone(b.Machines), slices.Clone(b.Shelf), slices.Clone(b.Uses)
	if len(b.Machines) == 0 {
		b.Machines = []project.Machine{p.Machine()}
	}
	for i := range b.Shelf {
		if s, ok := p.StockByID(b.Shelf[i].Stock.ID); ok {
			b.Shelf[i].Stock = s
		}
	}
	for _, s := range p.Stocks {
		if _, ok := b.ShelfOf(s.ID); !ok {
			b.Shelf = append(b.Shelf, project.Shelf{Stock: s})
		}
	}
	return b
}

// changeBench makes a step of a change to the project's bench.
func (e *Editor) changeBench(title string, f func(*project.Bench) error) error {
	b := e.benchNow()
	was := b.Machines[0].Name
	if err := f(b); err != nil {
		return err
	}
	name := b.Machines[0].Name
	if name != was && e.hasMachine(name) {
		return fmt.Errorf("another machine on your bench is called %s: choose that one, or another name", quoted(name))
	}
	if err := e.planOn(title, b, name); err != nil {
		return err
	}
	if name != was {
		e.dropMachine(was)
	}
	e.keepMachines(b)
	return nil
}

func benchOf(d *Document) **project.Bench { return &d.Project.Bench }

// planOn has the project cut on a machine of a bench.
func (e *Editor) planOn(title string, b *project.Bench, machine string) error {
	if err := b.Validate(); err != nil {
		return err
	}
	p := e.doc.Project
	p.Palette, p.Stocks = slices.Clone(p.Palette), slices.Clone(p.Stocks)
	return e.planAs(title, p, b, machine)
}

// planAs makes a step of what became of a copy of the project, cut on a machine
// of a bench: only palette, stocks and bench may differ.
func (e *Editor) planAs(title string, p project.Project, b *project.Bench, machine string) error {
	if err := p.PlanOn(b, machine); err != nil {
		return err
	}
	e.session.Machine = machine
	was := e.doc.Project
	if sameJSON(was.Bench, p.Bench) && sameJSON(was.Palette, p.Palette) && sameJSON(was.Stocks, p.Stocks) {
		return nil
	}
	return e.do(title, func(c *change) error {
		if !sameJSON(was.Palette, p.Palette) {
			replaceIn(c, common, palette, 0, len(was.Palette), colourBytes, p.Palette...)
		}
		if !sameJSON(was.Stocks, p.Stocks) {
			replaceIn(c, common, stocks, 0, len(was.Stocks), stockBytes, p.Stocks...)
		}
		// Findings speak of the machine, so the plans are made anew; their shapes are kept.
		set(c, common, benchOf, p.Bench, 512+len(p.Bench.Shelf)*stockBytes)
		return nil
	})
}

func sameJSON(a, b any) bool {
	x, err := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

func (a machineArgs) apply(b *project.Bench) error {
	m := &b.Machines[0]
	was := m.Name
	if a.Kind != nil && project.MachineKind(*a.Kind) != m.Kind {
		kept := *m
		*m = project.NewMachine(m.Name, project.MachineKind(*a.Kind))
		m.BedW, m.BedH, m.Left, m.Right, m.Bottom, m.Top, m.Extra = kept.BedW, kept.BedH, kept.Left, kept.Right, kept.Bottom, kept.Top, kept.Extra
		for _, k := range project.StarterBench().Machines {
			if k.Name == was { // a name that only said the kind
				m.Name = ""
			}
		}
		for _, k := range project.StarterBench().Machines {
			if m.Name == "" && k.Kind == m.Kind {
				m.Name = k.Name
			}
		}
		for i := range b.Uses { // what was measured holds for the kind that it was measured on
			b.Uses[i].Kerf = nil
		}
	}
	length := func(to *shape.Um, v *float64) {
		if v != nil {
			*to = um(*v)
		}
	}
	whole := func(to, v *int) {
		if v != nil {
			*to = *v
		}
	}
	length(&m.BedW, a.BedW)
	length(&m.BedH, a.BedH)
	length(&m.Left, a.Left)
	length(&m.Right, a.Right)
	length(&m.Bottom, a.Bottom)
	length(&m.Top, a.Top)
	length(&m.Thickest, a.Thickest)
	length(&m.BladeOffset, a.BladeOffset)
	length(&m.Overcut, a.Overcut)
	whole(&m.FullPower, a.FullPower)
	whole(&m.Acceleration, a.Acceleration)
	whole(&m.TravelSpeed, a.TravelSpeed)
	if a.Name != nil {
		m.Name = *a.Name
	}
	if a.Origin != nil {
		m.Origin = project.BedCorner(*a.Origin)
	}
	if a.Unit != nil && project.SpeedUnit(*a.Unit) != m.Unit {
		m.Unit = project.SpeedUnit(*a.Unit)
		for i := range b.Uses { // the same speeds in other words
			convert(&b.Uses[i].Speed, m.Unit)
			convert(&b.Uses[i].MarkSpeed, m.Unit)
		}
	}
	if a.Beam != nil {
		m.Beam = project.Beam(*a.Beam)
	}
	if a.Marks != nil {
		m.Marks = project.Marks(*a.Marks)
	}
	for i := range b.Uses {
		if b.Uses[i].Machine == was {
			b.Uses[i].Machine = m.Name
		}
	}
	return nil
}

// convert tells a speed in another unit.
func convert(speed *int, to project.SpeedUnit) {
	switch {
	case to == project.PerMinute:
		*speed = min(*speed, 1<<20) * 60
	case *speed > 0:
		*speed = max(1, (*speed+30)/60)
	}
}

// changeUse makes a step of a change to how a stock is cut.
func (e *Editor) changeUse(title, stock string, f func(*project.Use) error) error {
	if e.doc.stock(stock) < 0 {
		return fmt.Errorf("this project has no stock %s", quoted(stock))
	}
	return e.changeBench(title, func(b *project.Bench) error {
		u, ok := b.UseOf(b.Machines[0].Name, stock)
		if !ok {
			b.Uses = append(b.Uses, u)
		}
		i := slices.IndexFunc(b.Uses, func(o project.Use) bool { return o.Machine == u.Machine && o.Stock == stock })
		return f(&b.Uses[i])
	})
}

func (a useArgs) apply(u *project.Use) error {
	for _, f := range []struct {
		to   *int
		from *int
	}{{&u.Power, a.Power}, {&u.Speed, a.Speed}, {&u.MarkPower, a.MarkPower}, {&u.MarkSpeed, a.MarkSpeed}, {&u.Passes, a.Passes}} {
		if f.from != nil {
			*f.to = *f.from
		}
	}
	if a.Order != nil {
		u.Order = project.Passes(*a.Order)
	}
	if a.Kerf != nil {
		k := um(*a.Kerf)
		if u.Kerf = &k; k < 0 {
			u.Kerf = nil
		}
	}
	return nil
}

func runSetOnShelf(e *Editor, a onShelfArgs) (any, error) {
	return nil, e.changeShelf("What is on the shelf", a.Stock, func(s *project.Shelf) error {
		if a.Count < 0 {
			s.Sheets = nil
			return nil
		}
		w, h := um(a.W), um(a.H)
		if w == 0 && h == 0 {
			w, h = e.doc.Project.Settings.SheetW, e.doc.Project.Settings.SheetH
			if s.Stock.SheetW > 0 {
				w, h = s.Stock.SheetW, s.Stock.SheetH
			}
		}
		s.Sheets = slices.DeleteFunc(slices.Clone(s.Sheets), func(o project.Sheets) bool { return o.W == w && o.H == h })
		s.Sheets = append(s.Sheets, project.Sheets{W: w, H: h, Count: a.Count})
		return nil
	})
}

func runSetOffcut(e *Editor, a offcutArgs) (any, error) {
	return nil, e.changeShelf("What is on the shelf", a.Stock, func(s *project.Shelf) error {
		s.Offcuts = slices.Clone(s.Offcuts)
		return offcut(s, um(a.W), um(a.H), a.Do)
	})
}

// changeShelf makes a step of a change to what there is of a stock.
func (e *Editor) changeShelf(title, stock string, f func(*project.Shelf) error) error {
	if e.doc.stock(stock) < 0 {
		return fmt.Errorf("this project has no stock %s", quoted(stock))
	}
	own := e.onShelf(stock)
	return e.changeBench(title, func(b *project.Bench) error {
		i := slices.IndexFunc(b.Shelf, func(s project.Shelf) bool { return s.Stock.ID == stock })
		if err := f(&b.Shelf[i]); err != nil || own < 0 {
			return err
		}
		list := slices.Clone(e.shelf) // the maker's own shelf has as many
		list[own].Sheets, list[own].Offcuts = b.Shelf[i].Sheets, b.Shelf[i].Offcuts
		if err := b.Validate(); err != nil {
			return err
		}
		e.setShelf(list)
		return nil
	})
}
