package project

import "sheetsprite/engine/shape"

// Bench is the maker's machines and shelf: theirs, not the drawing's. A project
// carries a copy of what it was planned with.
type Bench struct {
	Machines []Machine
	Shelf    []Shelf
	Uses     []Use
	Extra    Extra
}

// Limits of a bench.
const (
	MaxMachines = 100
	MaxUses     = 10000
	MaxOffcuts  = 1000 // of a stock
	MaxSizes    = 100  // of a stock's sheets
	MaxSheets   = 1000 // of one size
	MaxPasses   = 100
)

// Machine is what cuts.
type Machine struct {
	Name         string // unique on the bench
	Kind         MachineKind
	BedW, BedH   shape.Um // 0: any sheet fits
	Left, Right  shape.Um // margins that it can't reach, of every sheet
	Bottom, Top  shape.Um
	Origin       BedCorner // where its coordinates begin; they grow away from there
	Thickest     shape.Um  // stock that it cuts; 0: not known
	Unit         SpeedUnit // in which its speeds are told and written down
	FullPower    int       // S value of full power in its files
	Acceleration int       // mm/s²
	TravelSpeed  int       // mm/s, beam off
	Beam         Beam      // the word that turns the beam on
	BladeOffset  shape.Um  // of a knife: machine files hold it, drawings tell it; 0: left to the machine's own program
	Overcut      shape.Um  // of a knife: how far it runs on past the beginning; likewise
	Marks        Marks
	Extra        Extra
}

// MachineKind is how a machine cuts.
type MachineKind string

// The kinds of machines.
const (
	LaserCutter MachineKind = "laser"
	Knife       MachineKind = "knife"
	Hand        MachineKind = "hand" // scissors or a scalpel along a print
)

// BedCorner is a corner of the bed as one stands before it.
type BedCorner string

// The corners.
const (
	LowerLeft  BedCorner = "lower-left"
	LowerRight BedCorner = "lower-right"
	UpperLeft  BedCorner = "upper-left"
	UpperRight BedCorner = "upper-right"
)

// SpeedUnit is the unit of a machine's speeds.
type SpeedUnit string

// The units of speed.
const (
	PerSecond SpeedUnit = "mm/s"
	PerMinute SpeedUnit = "mm/min"
)

// Beam is the word of RS-274 that turns the beam on.
type Beam string

// The words. In many lasers' controllers M3 is steady power and M4 power that
// follows the speed (common practice, no source).
const (
	M3 Beam = "M3"
	M4 Beam = "M4"
)

// Marks says whether a machine draws marks.
type Marks string

// What a machine does about marks.
const (
	DrawMarks Marks = "draw" // with little power, or a pen
	NoMarks   Marks = "none"
)

// Shelf is a stock and what there is of it.
type Shelf struct {
	Stock   Stock
	Sheets  []Sheets
	Offcuts []Offcut
	Extra   Extra
}

// Sheets is how many sheets of a size there are.
type Sheets struct {
	W, H  shape.Um
	Count int
	Extra Extra
}

// Offcut is a part-used sheet: the rectangle that is left of it.
type Offcut struct {
	W, H  shape.Um
	Extra Extra
}

// Use is how a machine cuts a stock. Where Power or Speed is 0 the maker never
// entered it, and no machine file is written.
type Use struct {
	Machine   string // its name
	Stock     string // its ID
	Power     int    // percent of full power, 1 to 100
	Speed     int    // in the machine's unit
	MarkPower int    // for marks; 0: none are drawn in machine files
	MarkSpeed int
	Passes    int
	Order     Passes
	Kerf      *shape.Um // nil: the stock's own
	Extra     Extra
}

// Passes says how several passes are made.
type Passes string

// The ways of making passes.
const (
	ContourByContour Passes = "contour"
	WholeSheet       Passes = "sheet"
)

// MachineNamed finds a machine by its name.
func (b *Bench) MachineNamed(name string) (Machine, bool) {
	for _, m := range b.Machines {
		if m.Name == name {
			return m, true
		}
	}
	return Machine{}, false
}

// UseOf is how a machine cuts a stock; ok is false where nobody entered it.
func (b *Bench) UseOf(machine, stock string) (u Use, ok bool) {
	for _, u := range b.Uses {
		if u.Machine == machine && u.Stock == stock {
			return u, true
		}
	}
	return Use{Machine: machine, Stock: stock, Passes: 1, Order: ContourByContour}, false
}

// ShelfOf is what there is of a stock; ok is false where it isn't on the shelf.
func (b *Bench) ShelfOf(stock string) (s Shelf, ok bool) {
	for _, s := range b.Shelf {
		if s.Stock.ID == stock {
			return s, true
		}
	}
	return Shelf{}, false
}

// NewMachine is a machine of a kind with typical figures (common practice, no
// source).
func NewMachine(name string, kind MachineKind) Machine {
	m := Machine{
		Name: name, Kind: kind, Origin: LowerLeft, Unit: PerSecond, FullPower: 1000,
		Acceleration: 1000, TravelSpeed: 100, Beam: M4, Marks: DrawMarks,
	}
	if kind != LaserCutter {
		m.Marks = NoMarks
	}
	return m
}

// StarterBench is the bench that a maker starts with: a laser, a knife and a
// hand, all of a general kind, and the shelf of Starter.
func StarterBench() Bench {
	b := Bench{Machines: []Machine{
		NewMachine("Laser", LaserCutter), NewMachine("Knife plotter", Knife), NewMachine("By hand", Hand),
	}}
	for _, s := range Starter() {
		b.Shelf = append(b.Shelf, Shelf{Stock: s})
	}
	return b
}

// Machine is what the project is planned for: the bench's, or a laser of a
// general kind.
func (p *Project) Machine() Machine {
	if p.Bench != nil && len(p.Bench.Machines) > 0 {
		return p.Bench.Machines[0]
	}
	return NewMachine("Laser", LaserCutter)
}

// Takes says whether a sheet of this size fits the machine's bed.
func (m Machine) Takes(w, h shape.Um) bool { return m.BedW == 0 || w <= m.BedW && h <= m.BedH }

// Corner is where the machine's coordinates begin on a sheet of this size.
func (m Machine) Corner(w, h shape.Um) shape.Point {
	var p shape.Point
	if m.Origin == LowerRight || m.Origin == UpperRight {
		p.X = w
	}
	if m.Origin == UpperLeft || m.Origin == UpperRight {
		p.Y = h
	}
	return p
}
