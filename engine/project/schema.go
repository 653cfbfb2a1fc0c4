package project

import (
	"cmp"
	"strconv"

	"sheetsprite/engine/project/strictjson"
	"sheetsprite/engine/shape"
)

// Format and Version stand at the top of every project file.
//
// The file is JSON in UTF-8; the tables below are its fields, in the order in
// which they are written. Lengths are in millimetres with at most 3 decimals
// (names end in _mm), colours "#rrggbb", keys one character. A sprite's cells
// are text rows, one string a row from the top, '.' for an empty cell, so that
// two versions of a file compare line by line. A field that isn't given takes
// its default; one that isn't known is kept.
const (
	Format  = "sheetsprite-project"
	Version = 1
)

var projectFields = []field[Project]{
	{"format", passOver, func(w *writer, _ *Project) { w.text(Format) }, nil},
	{"version", passOver, func(w *writer, _ *Project) { w.raw(strconv.Itoa(Version)) }, nil},
	text("name", func(p *Project) *string { return &p.Name }),
	{"settings",
		func(c *strictjson.Cursor, p *Project) error {
			return in("settings", readObject(c, &p.Settings, settingsFields, &p.Settings.Extra))
		},
		func(w *writer, p *Project) {
			writeObject(w, &p.Settings, settingsFields, p.Settings.Extra, manyLines)
		}, nil},
	{"palette", readPalette, func(w *writer, p *Project) {
		w.open('[', manyLines)
		for i := range p.Palette {
			writeObject(w.next(), &p.Palette[i], colourFields, p.Palette[i].Extra, oneLine)
		}
		w.close(']')
	}, nil},
	{"stocks", readStocks, func(w *writer, p *Project) {
		w.open('[', manyLines)
		for i := range p.Stocks {
			writeObject(w.next(), &p.Stocks[i], stockFields, p.Stocks[i].Extra, manyLines)
		}
		w.close(']')
	}, nil},
	{"sprites", readSprites, func(w *writer, p *Project) {
		w.open('[', manyLines)
		for i := range p.Sprites {
			writeObject(w.next(), &p.Sprites[i], spriteFields, p.Sprites[i].Extra, manyLines)
		}
		w.close(']')
	}, nil},
	{"choice",
		func(c *strictjson.Cursor, p *Project) error {
			return in("choice", readObject(c, &p.Choice, choiceFields, &p.Choice.Extra))
		},
		func(w *writer, p *Project) { writeObject(w, &p.Choice, choiceFields, p.Choice.Extra, manyLines) },
		func(p *Project) bool { return p.Choice.empty() }},
	omitEmpty(count("letters_given", func(p *Project) *int { return &p.Lettered }), func(p *Project) *int { return &p.Lettered }),
	placementList,
	{"bench",
		func(c *strictjson.Cursor, p *Project) error {
			p.Bench = &Bench{}
			return in("bench", readObject(c, p.Bench, benchFields, &p.Bench.Extra))
		},
		func(w *writer, p *Project) { writeObject(w, p.Bench, benchFields, p.Bench.Extra, manyLines) },
		func(p *Project) bool { return p.Bench == nil }},
}

var colourFields = []field[Colour]{
	key("key", func(k *Colour) *byte { return &k.Key }),
	text("name", func(k *Colour) *string { return &k.Name }),
	rgb("colour", func(k *Colour) *RGB { return &k.RGB }),
	text("stock", func(k *Colour) *string { return &k.Stock }),
}

var stockFields = []field[Stock]{
	text("id", func(s *Stock) *string { return &s.ID }),
	text("name", func(s *Stock) *string { return &s.Name }),
	text("kind", func(s *Stock) *Kind { return &s.Kind }),
	rgb("colour", func(s *Stock) *RGB { return &s.Colour }),
	length("thickness_mm", func(s *Stock) *shape.Um { return &s.Thickness }),
	length("kerf_mm", func(s *Stock) *shape.Um { return &s.Kerf }),
	length("least_strip_mm", func(s *Stock) *shape.Um { return &s.LeastStrip }),
	omitEmpty(lengths("sheet_mm",
		func(s *Stock) *shape.Um { return &s.SheetW },
		func(s *Stock) *shape.Um { return &s.SheetH }),
		func(s *Stock) *shape.Um { return &s.SheetW }),
	laser,
	omitEmpty(text("face", func(s *Stock) *Face { return &s.Face }), func(s *Stock) *Face { return &s.Face }),
	truth("typical", func(s *Stock) *bool { return &s.Typical }),
	omitEmpty(count("weight_g_m2", func(s *Stock) *int { return &s.Weight }), func(s *Stock) *int { return &s.Weight }),
	core,
	omitEmpty(text("sides", func(s *Stock) *Sides { return &s.Sides }), func(s *Stock) *Sides { return &s.Sides }),
	omitEmpty(text("grain", func(s *Stock) *Grain { return &s.Grain }), func(s *Stock) *Grain { return &s.Grain }),
}

var spriteFields = []field[Sprite]{
	text("name", func(s *Sprite) *string { return &s.Name }),
	count("copies", func(s *Sprite) *int { return &s.Copies }),
	length("cell_mm", func(s *Sprite) *shape.Um { return &s.Cell }),
	{"stack",
		func(c *strictjson.Cursor, s *Sprite) error {
			return in("stack", readObject(c, &s.Stack, stackFields, &s.Stack.Extra))
		},
		func(w *writer, s *Sprite) { writeObject(w, &s.Stack, stackFields, s.Stack.Extra, manyLines) }, nil},
	{"frames", readFrames, func(w *writer, s *Sprite) {
		w.open('[', manyLines)
		for i := range s.Frames {
			w.next().frame(s, &s.Frames[i])
		}
		w.close(']')
	}, nil},
	{"numbers",
		func(c *strictjson.Cursor, s *Sprite) error {
			return in("numbers", readObject(c, &s.Numbers, numbersFields, &s.Numbers.Extra))
		},
		func(w *writer, s *Sprite) { writeObject(w, &s.Numbers, numbersFields, s.Numbers.Extra, manyLines) },
		func(s *Sprite) bool { return s.Numbers.empty() }},
}

var stackFields = []field[Stack]{
	text("style", func(s *Stack) *Style { return &s.Style }),
	count("extra_heights", func(s *Stack) *int { return &s.ExtraHeights }),
	optional("order", func(s *Stack) *string { return &s.Order }),
	optional("lowest", func(s *Stack) *string { return &s.Lowest }),
	optional("highest", func(s *Stack) *string { return &s.Highest }),
	{"under", readUnder, func(w *writer, s *Stack) {
		w.open('[', manyLines)
		for i := range s.Under {
			writeObject(w.next(), &s.Under[i], underFields, s.Under[i].Extra, oneLine)
		}
		w.close(']')
	}, func(s *Stack) bool { return len(s.Under) == 0 }},
	optional("outline_on_top", func(s *Stack) *string { return &s.OutlineOnTop }),
	optional("spare", func(s *Stack) *string { return &s.Spare }),
	unless(UsualFoam, length("foam_mm", func(s *Stack) *shape.Um { return &s.Foam }), func(s *Stack) shape.Um { return s.Foam }),
	omitEmpty(count("float", func(s *Stack) *int { return &s.Float }), func(s *Stack) *int { return &s.Float }),
	unless(UsualFloat, length("float_mm", func(s *Stack) *shape.Um { return &s.FloatBy }), func(s *Stack) shape.Um { return s.FloatBy }),
	optional("foam_stock", func(s *Stack) *string { return &s.FoamStock }),
	optional("float_stock", func(s *Stack) *string { return &s.FloatStock }),
	{"whole", readWhole, func(w *writer, s *Stack) {
		w.open('[', manyLines)
		for i := range s.Whole {
			writeObject(w.next(), &s.Whole[i], wholeFields, s.Whole[i].Extra, oneLine)
		}
		w.close(']')
	}, func(s *Stack) bool { return len(s.Whole) == 0 }},
	{"jigs", readJigs, func(w *writer, s *Stack) {
		w.open('[', manyLines)
		for i := range s.Jigs {
			writeObject(w.next(), &s.Jigs[i], jigFields, s.Jigs[i].Extra, oneLine)
		}
		w.close(']')
	}, func(s *Stack) bool { return len(s.Jigs) == 0 }},
}

var jigFields = []field[Jig]{
	count("height", func(j *Jig) *int { return &j.Height }),
	text("stock", func(j *Jig) *string { return &j.Stock }),
}

var wholeFields = []field[Whole]{
	count("height", func(l *Whole) *int { return &l.Height }),
	text("stock", func(l *Whole) *string { return &l.Stock }),
}

var underFields = []field[Under]{
	key("under", func(u *Under) *byte { return &u.Under }),
	key("over", func(u *Under) *byte { return &u.Over }),
}

var settingsFields = []field[Settings]{
	text("corners", func(s *Settings) *Corners { return &s.Corners }),
	length("join_mm", func(s *Settings) *shape.Um { return &s.Join }),
	length("border_mm", func(s *Settings) *shape.Um { return &s.Border }),
	text("edge", func(s *Settings) *Edge { return &s.Edge }),
	truth("fill_in", func(s *Settings) *bool { return &s.FillIn }),
	optional("backer", func(s *Settings) *string { return &s.Backer }),
	lengths("sheet_mm",
		func(s *Settings) *shape.Um { return &s.SheetW },
		func(s *Settings) *shape.Um { return &s.SheetH }),
	length("margin_mm", func(s *Settings) *shape.Um { return &s.Margin }),
	length("gap_mm", func(s *Settings) *shape.Um { return &s.Gap }),
	{"kerf_mm",
		func(c *strictjson.Cursor, s *Settings) error {
			if null, err := c.Null(); null || err != nil {
				s.Kerf = nil
				return err
			}
			u, err := readMm(c, "kerf_mm")
			s.Kerf = &u
			return err
		},
		func(w *writer, s *Settings) { w.raw(FormatMm(*s.Kerf)) },
		func(s *Settings) bool { return s.Kerf == nil }},
	text("hold", func(s *Settings) *Hold { return &s.Hold }),
	omitUsual(length("tab_mm", func(s *Settings) *shape.Um { return &s.Tab }), func(s *Settings) *shape.Um { return &s.Tab }, UsualTab),
	omitEmpty(text("layout", func(s *Settings) *Layout { return &s.Layout }), func(s *Settings) *Layout { return &s.Layout }),
	omitEmpty(text("group", func(s *Settings) *Grouping { return &s.Group }), func(s *Settings) *Grouping { return &s.Group }),
	omitEmpty(text("large_parts", func(s *Settings) *Large { return &s.Large }), func(s *Settings) *Large { return &s.Large }),
	omitEmpty(text("guide_paper", func(s *Settings) *GuidePaper { return &s.Paper }), func(s *Settings) *GuidePaper { return &s.Paper }),
	omitEmpty(text("guide_units", func(s *Settings) *Units { return &s.Units }), func(s *Settings) *Units { return &s.Units }),
	omitUsual(length("jig_clear_mm", func(s *Settings) *shape.Um { return &s.JigClear }), func(s *Settings) *shape.Um { return &s.JigClear }, UsualClear),
	omitEmpty(length("pins_mm", func(s *Settings) *shape.Um { return &s.Pins }), func(s *Settings) *shape.Um { return &s.Pins }),
	count("effort", func(s *Settings) *int { return &s.Effort }),
	omitEmpty(length("cover_mm", func(s *Settings) *shape.Um { return &s.Cover }), func(s *Settings) *shape.Um { return &s.Cover }),
}

// frameFields are the names of a frame's fields; rows are read and written by
// functions of their own, since they need the sprite's size.
var frameFields = []string{"rows"}

// laser is always written: a stock of which nothing is known must not come back
// as what is typical of its kind.
var laser = field[Stock]{"laser",
	text("laser", func(s *Stock) *Laser { return &s.Laser }).read,
	func(w *writer, s *Stock) { w.text(string(cmp.Or(s.Laser, LaserUnknown))) }, nil}

// unless is f, not written where its value is the usual one, which it takes
// where it isn't given.
func unless[T any, V comparable](usual V, f field[T], of func(*T) V) field[T] {
	f.omit = func(v *T) bool { return of(v) == usual }
	return f
}

// core is a colour that may be left out.
var core = field[Stock]{"core",
	func(c *strictjson.Cursor, s *Stock) error {
		s.Core = new(RGB)
		return rgb("core", func(s *Stock) *RGB { return s.Core }).read(c, s)
	},
	func(w *writer, s *Stock) { w.text(s.Core.String()) },
	func(s *Stock) bool { return s.Core == nil }}

// optional is a text field that isn't written where it is empty.
func optional[T any](name string, at func(*T) *string) field[T] {
	return omitEmpty(text(name, at), at)
}

// passOver reads a value that has been looked at before.
func passOver(c *strictjson.Cursor, _ *Project) error { return c.Skip() }
