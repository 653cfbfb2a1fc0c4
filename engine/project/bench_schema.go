package project

import (
	"strconv"

	"sheetsprite/engine/project/strictjson"
	"sheetsprite/engine/shape"
)

// BenchFormat and BenchVersion stand at the top of every bench file. It follows
// the same rules as a project file (see Format); speeds are whole numbers in
// the machine's unit.
const (
	BenchFormat  = "sheetsprite-bench"
	BenchVersion = 1
)

// benchFileFields are a bench file: a head and what a project's copy has too.
var benchFileFields = append([]field[Bench]{
	{"format", passOverBench, func(w *writer, _ *Bench) { w.text(BenchFormat) }, nil},
	{"version", passOverBench, func(w *writer, _ *Bench) { w.raw(strconv.Itoa(BenchVersion)) }, nil},
}, benchFields...)

func passOverBench(c *strictjson.Cursor, _ *Bench) error { return c.Skip() }

var benchFields = []field[Bench]{
	listOf("machines", "machine", MaxMachines, func(b *Bench) *[]Machine { return &b.Machines },
		func() Machine { return NewMachine("", LaserCutter) },
		machineFields, func(m *Machine) *Extra { return &m.Extra }, func(m *Machine) string { return m.Name }),
	listOf("shelf", "stock on the shelf", MaxStocks, func(b *Bench) *[]Shelf { return &b.Shelf },
		func() Shelf { return Shelf{} },
		shelfFields, func(s *Shelf) *Extra { return &s.Extra }, func(s *Shelf) string { return s.Stock.ID }),
	listOf("uses", "use", MaxUses, func(b *Bench) *[]Use { return &b.Uses },
		func() Use { return Use{Passes: 1, Order: ContourByContour} },
		useFields, func(u *Use) *Extra { return &u.Extra }, func(u *Use) string { return u.Stock }),
}

var machineFields = []field[Machine]{
	text("name", func(m *Machine) *string { return &m.Name }),
	text("kind", func(m *Machine) *MachineKind { return &m.Kind }),
	omitEmpty(lengths("bed_mm",
		func(m *Machine) *shape.Um { return &m.BedW },
		func(m *Machine) *shape.Um { return &m.BedH }),
		func(m *Machine) *shape.Um { return &m.BedW }),
	length("left_mm", func(m *Machine) *shape.Um { return &m.Left }),
	length("right_mm", func(m *Machine) *shape.Um { return &m.Right }),
	length("bottom_mm", func(m *Machine) *shape.Um { return &m.Bottom }),
	length("top_mm", func(m *Machine) *shape.Um { return &m.Top }),
	text("origin", func(m *Machine) *BedCorner { return &m.Origin }),
	length("thickest_mm", func(m *Machine) *shape.Um { return &m.Thickest }),
	text("speed_unit", func(m *Machine) *SpeedUnit { return &m.Unit }),
	count("full_power_s", func(m *Machine) *int { return &m.FullPower }),
	count("acceleration_mm_s2", func(m *Machine) *int { return &m.Acceleration }),
	count("travel_mm_s", func(m *Machine) *int { return &m.TravelSpeed }),
	text("beam", func(m *Machine) *Beam { return &m.Beam }),
	length("blade_offset_mm", func(m *Machine) *shape.Um { return &m.BladeOffset }),
	length("overcut_mm", func(m *Machine) *shape.Um { return &m.Overcut }),
	text("marks", func(m *Machine) *Marks { return &m.Marks }),
}

var shelfFields = []field[Shelf]{
	{"stock",
		func(c *strictjson.Cursor, s *Shelf) error { return in("stock", readStock(c, &s.Stock)) },
		func(w *writer, s *Shelf) { writeObject(w, &s.Stock, stockFields, s.Stock.Extra, manyLines) }, nil},
	listOf("sheets", "size of sheets", MaxSizes, func(s *Shelf) *[]Sheets { return &s.Sheets },
		func() Sheets { return Sheets{Count: 1} },
		sheetsFields, func(s *Sheets) *Extra { return &s.Extra }, nil),
	listOf("offcuts", "offcut", MaxOffcuts, func(s *Shelf) *[]Offcut { return &s.Offcuts },
		func() Offcut { return Offcut{} },
		offcutFields, func(o *Offcut) *Extra { return &o.Extra }, nil),
}

var sheetsFields = []field[Sheets]{
	lengths("size_mm", func(s *Sheets) *shape.Um { return &s.W }, func(s *Sheets) *shape.Um { return &s.H }),
	count("count", func(s *Sheets) *int { return &s.Count }),
}

var offcutFields = []field[Offcut]{
	lengths("size_mm", func(o *Offcut) *shape.Um { return &o.W }, func(o *Offcut) *shape.Um { return &o.H }),
}

var useFields = []field[Use]{
	text("machine", func(u *Use) *string { return &u.Machine }),
	text("stock", func(u *Use) *string { return &u.Stock }),
	count("power_percent", func(u *Use) *int { return &u.Power }),
	count("speed", func(u *Use) *int { return &u.Speed }),
	count("mark_power_percent", func(u *Use) *int { return &u.MarkPower }),
	count("mark_speed", func(u *Use) *int { return &u.MarkSpeed }),
	count("passes", func(u *Use) *int { return &u.Passes }),
	text("pass_order", func(u *Use) *Passes { return &u.Order }),
	{"kerf_mm",
		func(c *strictjson.Cursor, u *Use) error {
			if null, err := c.Null(); null || err != nil {
				u.Kerf = nil
				return err
			}
			k, err := readMm(c, "kerf_mm")
			u.Kerf = &k
			return err
		},
		func(w *writer, u *Use) { w.raw(FormatMm(*u.Kerf)) },
		func(u *Use) bool { return u.Kerf == nil }},
}

// listOf is a field that holds a list of objects; blank is what one starts
// from, called is the name by which messages tell one from another.
func listOf[T, V any](name, thing string, most int, at func(*T) *[]V, blank func() V,
	table []field[V], extra func(*V) *Extra, called func(*V) string) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, t *T) error {
			return readList(c, at(t), thing, most, func(i int, v *V) error {
				*v = blank()
				err := readObject(c, v, table, extra(v))
				what := ""
				if called != nil {
					what = called(v)
				}
				return inItem(label(thing, i, what), err)
			})
		},
		func(w *writer, t *T) {
			w.open('[', manyLines)
			list := *at(t)
			for i := range list {
				writeObject(w.next(), &list[i], table, *extra(&list[i]), manyLines)
			}
			w.close(']')
		}, nil}
}
