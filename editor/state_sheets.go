package editor

import "sheetsprite/engine/project"

// ChoiceState is what of the project is cut now.
type ChoiceState struct {
	Copies []int    `json:"copies"` // of each sprite, in their order; 0: not now
	Some   string   `json:"some"`   // "some" where not all are cut, or not as often as they say; else ""
	Parts  []string `json:"parts"`  // numbers of single parts that are cut again
}

// LaidState counts the places that the project keeps.
type LaidState struct {
	Found  int `json:"found"`
	Moved  int `json:"moved"`
	Locked int `json:"locked"`
}

func (e *Editor) choiceState() ChoiceState {
	p := &e.doc.Project
	s := ChoiceState{Copies: make([]int, len(p.Sprites)), Parts: append([]string{}, p.Choice.Parts...)}
	for i := range p.Sprites {
		s.Copies[i] = p.CopiesOf(i)
	}
	if len(p.Choice.Sprites) > 0 {
		s.Some = "some"
	}
	return s
}

func (e *Editor) laidState() LaidState {
	var s LaidState
	for i := range e.doc.Project.Places {
		switch e.doc.Project.Places[i].Held {
		case project.Moved:
			s.Moved++
		case project.Locked:
			s.Locked++
		default:
			s.Found++
		}
	}
	return s
}

// BenchState is the bench that the project is cut with. Lengths are in mm.
type BenchState struct {
	Machine  MachineState `json:"machine"`
	Machines []string     `json:"machines"` // names of all on the maker's own bench, this one first
	Own      string       `json:"own"`      // "own" where the maker's bench has this machine just like this, "other" where it has another of that name, else ""
	Stocks   []BenchStock `json:"stocks"`
}

// MachineState is what cuts.
type MachineState struct {
	Name         string  `json:"name"`
	Kind         string  `json:"kind"`
	BedW         float64 `json:"bedWidth"`
	BedH         float64 `json:"bedHeight"`
	Left         float64 `json:"left"`
	Right        float64 `json:"right"`
	Bottom       float64 `json:"bottom"`
	Top          float64 `json:"top"`
	Origin       string  `json:"origin"`
	Thickest     float64 `json:"thickest"`
	Unit         string  `json:"unit"`
	FullPower    int     `json:"fullPower"`
	Acceleration int     `json:"acceleration"`
	TravelSpeed  int     `json:"travelSpeed"`
	Beam         string  `json:"beam"`
	Marks        string  `json:"marks"`
	BladeOffset  float64 `json:"bladeOffset"`
	Overcut      float64 `json:"overcut"`
}

// BenchStock is a stock of the project, how the machine cuts it and what there
// is of it.
type BenchStock struct {
	ID        string       `json:"id"`
	Name      string       `json:"name"`
	Colour    string       `json:"colour"`
	Laser     string       `json:"laser"`
	Kerf      float64      `json:"kerf"`     // that it is cut with
	Measured  string       `json:"measured"` // "measured" where the kerf was entered for this machine, else ""
	Power     int          `json:"power"`
	Speed     int          `json:"speed"`
	MarkPower int          `json:"markPower"`
	MarkSpeed int          `json:"markSpeed"`
	Passes    int          `json:"passes"`
	Order     string       `json:"order"`
	Sheets    []ShelfSheet `json:"sheets"`  // none: nobody counted
	Offcuts   []ShelfSheet `json:"offcuts"` // Count is 1
}

// ShelfSheet is a size of sheets and how many there are.
type ShelfSheet struct {
	W     float64 `json:"width"`
	H     float64 `json:"height"`
	Count int     `json:"count"`
}

// Bench is the bench as the page shows it.
func (e *Editor) Bench() BenchState {
	p := &e.doc.Project
	m := p.Machine()
	s := BenchState{Machine: MachineState{
		Name: m.Name, Kind: string(m.Kind), BedW: mm(m.BedW), BedH: mm(m.BedH), Left: mm(m.Left), Right: mm(m.Right),
		Bottom: mm(m.Bottom), Top: mm(m.Top), Origin: string(m.Origin), Thickest: mm(m.Thickest), Unit: string(m.Unit),
		FullPower: m.FullPower, Acceleration: m.Acceleration, TravelSpeed: m.TravelSpeed, Beam: string(m.Beam),
		Marks: string(m.Marks), BladeOffset: mm(m.BladeOffset), Overcut: mm(m.Overcut),
	}, Stocks: []BenchStock{}, Machines: []string{m.Name}}
	if e.own != nil {
		for _, o := range e.own.Machines {
			switch {
			case o.Name != m.Name:
				s.Machines = append(s.Machines, o.Name)
			case sameJSON(o, m):
				s.Own = "own"
			default:
				s.Own = "other"
			}
		}
	}
	b := p.Bench
	if b == nil {
		b = &project.Bench{}
	}
	for _, st := range p.Stocks {
		u, _ := b.UseOf(m.Name, st.ID)
		shelf, _ := b.ShelfOf(st.ID)
		t := BenchStock{
			ID: st.ID, Name: st.Name, Colour: st.Colour.String(), Laser: string(st.Laser), Kerf: mm(st.Kerf),
			Power: u.Power, Speed: u.Speed, MarkPower: u.MarkPower, MarkSpeed: u.MarkSpeed, Passes: u.Passes, Order: string(u.Order),
			Sheets: []ShelfSheet{}, Offcuts: []ShelfSheet{},
		}
		if u.Kerf != nil {
			t.Measured = "measured"
		}
		for _, sh := range shelf.Sheets {
			t.Sheets = append(t.Sheets, ShelfSheet{mm(sh.W), mm(sh.H), sh.Count})
		}
		for _, o := range shelf.Offcuts {
			t.Offcuts = append(t.Offcuts, ShelfSheet{mm(o.W), mm(o.H), 1})
		}
		s.Stocks = append(s.Stocks, t)
	}
	return s
}
