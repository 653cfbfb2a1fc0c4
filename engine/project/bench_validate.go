package project

import "sheetsprite/engine/shape"

// Validate names the first rule that the bench breaks; nil where it breaks
// none. What it returns is an InputError.
func (b *Bench) Validate() error {
	if err := checkExtra(b.Extra, names(benchFileFields)); err != nil {
		return err
	}
	machines, stocks := map[string]bool{}, map[string]bool{}
	for i := range b.Machines {
		m := &b.Machines[i]
		where := label("machine", i, m.Name)
		if machines[m.Name] {
			return in(where, wrong("has the same name as a machine before it: give each its own"))
		}
		machines[m.Name] = true
		if err := m.validate(); err != nil {
			return in(where, err)
		}
	}
	for i := range b.Shelf {
		s := &b.Shelf[i]
		where := label("stock on the shelf", i, s.Stock.ID)
		if stocks[s.Stock.ID] {
			return in(where, wrong("has the same id as a stock before it: give each its own"))
		}
		stocks[s.Stock.ID] = true
		if err := s.validate(); err != nil {
			return in(where, err)
		}
	}
	seen := map[[2]string]bool{}
	for i := range b.Uses {
		u := &b.Uses[i]
		where := label("use", i, u.Stock)
		switch key := [2]string{u.Machine, u.Stock}; {
		case !machines[u.Machine]:
			return in(where, wrong("is of the machine %s, which isn't on the bench: add it or take this out", quote(u.Machine)))
		case !stocks[u.Stock]:
			return in(where, wrong("is of the stock %s, which isn't on the shelf: add it or take this out", quote(u.Stock)))
		case seen[key]:
			return in(where, wrong("is of the same machine and stock as one before it: take one out"))
		default:
			seen[key] = true
		}
		if err := u.validate(); err != nil {
			return in(where, err)
		}
	}
	return nil
}

func (m *Machine) validate() error {
	const long = 10000 * shape.Mm
	if m.Name == "" {
		return wrong("has no name: give it one")
	}
	err := first(
		checkName(m.Name),
		oneOf("kind", m.Kind, LaserCutter, Knife, Hand),
		within("bed_mm", min(m.BedW, m.BedH), 0, long),
		within("bed_mm", max(m.BedW, m.BedH), 0, long),
		within("left_mm", m.Left, 0, 1000*shape.Mm),
		within("right_mm", m.Right, 0, 1000*shape.Mm),
		within("bottom_mm", m.Bottom, 0, 1000*shape.Mm),
		within("top_mm", m.Top, 0, 1000*shape.Mm),
		oneOf("origin", m.Origin, LowerLeft, LowerRight, UpperLeft, UpperRight),
		within("thickest_mm", m.Thickest, 0, 100*shape.Mm),
		oneOf("speed_unit", m.Unit, PerSecond, PerMinute),
		between("full_power_s", m.FullPower, 1, 1000000),
		between("acceleration_mm_s2", m.Acceleration, 1, 1000000),
		between("travel_mm_s", m.TravelSpeed, 1, 100000),
		oneOf("beam", m.Beam, M3, M4),
		within("blade_offset_mm", m.BladeOffset, 0, 5*shape.Mm),
		within("overcut_mm", m.Overcut, 0, 5*shape.Mm),
		oneOf("marks", m.Marks, DrawMarks, NoMarks),
		checkExtra(m.Extra, names(machineFields)),
	)
	if err == nil && (m.BedW == 0) != (m.BedH == 0) {
		err = wrong("bed_mm must be [width, height], both above 0, or left out")
	}
	return err
}

func (s *Shelf) validate() error {
	if err := first(s.Stock.validate(), checkExtra(s.Extra, names(shelfFields))); err != nil {
		return err
	}
	for i := range s.Sheets {
		sh := &s.Sheets[i]
		if err := first(checkSheet(sh.W, sh.H), between("count", sh.Count, 0, MaxSheets), checkExtra(sh.Extra, names(sheetsFields))); err != nil {
			return in(label("size of sheets", i, ""), err)
		}
	}
	for i := range s.Offcuts {
		o := &s.Offcuts[i]
		if err := first(checkSheet(o.W, o.H), checkExtra(o.Extra, names(offcutFields))); err != nil {
			return in(label("offcut", i, ""), err)
		}
	}
	return nil
}

func checkSheet(w, h shape.Um) error {
	return first(
		within("size_mm", min(w, h), 10*shape.Mm, 10000*shape.Mm),
		within("size_mm", max(w, h), 10*shape.Mm, 10000*shape.Mm),
	)
}

func (u *Use) validate() error {
	var kerf error
	if u.Kerf != nil {
		kerf = within("kerf_mm", *u.Kerf, 0, 10*shape.Mm)
	}
	return first(
		between("power_percent", u.Power, 0, 100),
		between("speed", u.Speed, 0, 1000000),
		between("mark_power_percent", u.MarkPower, 0, 100),
		between("mark_speed", u.MarkSpeed, 0, 1000000),
		between("passes", u.Passes, 1, MaxPasses),
		oneOf("pass_order", u.Order, ContourByContour, WholeSheet),
		kerf,
		checkExtra(u.Extra, names(useFields)),
	)
}
