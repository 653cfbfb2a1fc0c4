package project

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"sheetsprite/engine/project/strictjson"
	"sheetsprite/engine/shape"
)

// MaxFile is the largest project file that is read or written, in bytes.
const MaxFile = 64 << 20

// Read reads a project file (see Format) and checks it: what it returns passes
// Validate. It fails with an InputError that says what is wrong, where and
// what to do, or with r's own error. Memory stays within a small multiple of
// the file's size.
func Read(r io.Reader) (*Project, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxFile+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxFile {
		return nil, wrong("the project file is larger than %d MiB: split it into several projects", MaxFile>>20)
	}
	p := &Project{Settings: DefaultSettings()}
	err = checkHead(data)
	if err == nil {
		err = readObject(strictjson.New(data), p, projectFields, &p.Extra)
	}
	if err != nil {
		return nil, asInput(err)
	}
	addMissingStocks(p)
	if err := p.Validate(); err != nil {
		return nil, err
	}
	return p, nil
}

// asInput makes an InputError of what the JSON reader says.
func asInput(err error) error {
	var syntax *strictjson.SyntaxError
	var kind *strictjson.KindError
	switch {
	case errors.As(err, &syntax):
		return &InputError{fmt.Sprintf("line %d, column %d", syntax.Line, syntax.Column), syntax.What}
	case errors.As(err, &kind):
		return wrong("this %v", kind)
	}
	return err
}

// fileKind is what a file of ours calls itself.
type fileKind struct {
	name    string // as a message calls it
	format  string
	version int
}

// checkHead checks the whole file's syntax and that it is a project of a
// version that this program knows, before anything else is looked at.
func checkHead(data []byte) error {
	return checkHeadOf(data, fileKind{"project", Format, Version})
}

// checkHeadOf is checkHead for any kind of file.
func checkHeadOf(data []byte, want fileKind) error {
	c := strictjson.New(data)
	if kind := c.Kind(); kind != strictjson.Object {
		return wrong("this isn't a %s file: it doesn't start with {", want.name)
	}
	var format, version string
	err := c.Object(func(name string) (err error) {
		switch {
		case name == "format" && c.Kind() == strictjson.Text:
			format, err = c.Text()
		case name == "version" && c.Kind() == strictjson.Number:
			version, err = c.Number()
		default:
			err = c.Skip()
		}
		return err
	})
	if err == nil {
		err = c.End()
	}
	switch {
	case err != nil:
		return err
	case format == "sheetsprite-job" && want.format == Format:
		return wrong("this is the job.json of a bundle: open the project.json beside it")
	case format != want.format:
		return wrong("this isn't a %s file: its field \"format\" isn't %q", want.name, want.format)
	case version == "":
		return wrong("the field \"version\" is missing or isn't a number: this program writes %d", want.version)
	case version == strconv.Itoa(want.version):
		return nil
	case strings.Trim(version, "0123456789") == "" && version != "0":
		return wrong("the %s file is of version %s, but this program knows versions up to %d: open it with a newer sheetsprite",
			want.name, shortNumber(version), want.version)
	}
	return wrong("the field \"version\" is %s, but must be a whole number from 1", shortNumber(version))
}

// readList reads a list of at most most things.
func readList[T any](c *strictjson.Cursor, list *[]T, thing string, most int, read func(i int, v *T) error) error {
	*list = nil
	return c.Array(func(i int) error {
		if i >= most {
			return wrong("there are more than %d %ss: take some out", most, thing)
		}
		var v T
		err := read(i, &v)
		*list = append(*list, v)
		return err
	})
}

// inItem puts an item of a list in front of an error's place, wrong kinds
// included.
func inItem(where string, err error) error {
	var kind *strictjson.KindError
	if errors.As(err, &kind) {
		err = wrong("this %v", kind)
	}
	return in(where, err)
}

func readPalette(c *strictjson.Cursor, p *Project) error {
	return readList(c, &p.Palette, "colour", MaxPalette, func(i int, k *Colour) error {
		err := readObject(c, k, colourFields, &k.Extra)
		return inItem(label("palette, colour", i, k.Name), err)
	})
}

func readStocks(c *strictjson.Cursor, p *Project) error {
	return readList(c, &p.Stocks, "stock", MaxStocks, func(i int, s *Stock) error {
		if err := readStock(c, s); err != nil {
			return inItem(label("stock", i, s.ID), err)
		}
		return nil
	})
}

// readStock reads a stock; figures that aren't given are the typical ones of
// the kind, a kind that isn't given is other.
func readStock(c *strictjson.Cursor, s *Stock) error {
	const missing = shape.Um(-1 << 62)
	s.Kind, s.Thickness, s.Kerf, s.LeastStrip = Other, missing, missing, missing
	if err := readObject(c, s, stockFields, &s.Extra); err != nil {
		return err
	}
	usual := typical[s.Kind]
	for _, figure := range []struct{ at, usual *shape.Um }{
		{&s.Thickness, &usual.thickness}, {&s.Kerf, &usual.kerf}, {&s.LeastStrip, &usual.strip},
	} {
		if *figure.at == missing {
			*figure.at, s.Typical = *figure.usual, true
		}
	}
	if s.Laser == "" {
		s.Laser = usual.laser
	}
	return nil
}

// addMissingStocks gives each colour that names no stock card of its own.
func addMissingStocks(p *Project) {
	for i := range p.Palette {
		k := &p.Palette[i]
		if k.Stock != "" {
			continue
		}
		card := CardFor(k.RGB)
		k.Stock = card.ID
		if _, ok := p.StockByID(card.ID); !ok {
			p.Stocks = append(p.Stocks, card)
		}
	}
}

func readSprites(c *strictjson.Cursor, p *Project) error {
	return readList(c, &p.Sprites, "sprite", MaxSprites, func(i int, s *Sprite) error {
		*s = NewSprite("", 0, 0)
		s.Frames = nil
		err := readObject(c, s, spriteFields, &s.Extra)
		return inItem(label("sprite", i, s.Name), err)
	})
}

func readUnder(c *strictjson.Cursor, s *Stack) error {
	return readList(c, &s.Under, "pair", MaxUnder, func(i int, u *Under) error {
		return inItem(label("under", i, ""), readObject(c, u, underFields, &u.Extra))
	})
}

func readWhole(c *strictjson.Cursor, s *Stack) error {
	return readList(c, &s.Whole, "layer", MaxWhole, func(i int, l *Whole) error {
		return inItem(label("whole", i, ""), readObject(c, l, wholeFields, &l.Extra))
	})
}

func readJigs(c *strictjson.Cursor, s *Stack) error {
	return readList(c, &s.Jigs, "jig", MaxHeights, func(i int, j *Jig) error {
		return inItem(label("jig", i, ""), readObject(c, j, jigFields, &j.Extra))
	})
}

func readFrames(c *strictjson.Cursor, s *Sprite) error {
	return readList(c, &s.Frames, "frame", MaxFrames, func(i int, f *Frame) error {
		err := c.Object(func(name string) error {
			if name == frameFields[0] {
				return inField(name, readRows(c, s, f))
			}
			raw, err := c.Raw()
			if f.Extra == nil {
				f.Extra = Extra{}
			}
			f.Extra[name] = raw
			return err
		})
		if err == nil && len(f.Cells) == 0 {
			err = wrong("has no rows: a sprite has 1 to %d of them, each of 1 to %d cells", MaxSide, MaxSide)
		}
		return inItem(label("frame", i, ""), err)
	})
}

// readRows reads a frame's rows; the first frame's say how large the sprite is.
func readRows(c *strictjson.Cursor, s *Sprite, f *Frame) error {
	w, h := 0, 0
	err := c.Array(func(y int) error {
		row, err := c.Text()
		if err == nil {
			err = checkRow(row)
		}
		if err == nil && y > 0 && len(row) != w {
			err = wrong("has %d cells, but the rows above have %d: make all rows equally long", len(row), w)
		}
		if err == nil && y >= MaxSide {
			err = wrong("is one too many: a sprite has at most %d rows", MaxSide)
		}
		if err != nil {
			return inItem(label("row", y, ""), err)
		}
		w, h = len(row), y+1
		f.Cells = append(f.Cells, row...)
		return nil
	})
	switch {
	case err != nil:
		return err
	case h == 0:
		return wrong("has no rows: a sprite has 1 to %d of them, each of 1 to %d cells", MaxSide, MaxSide)
	case s.W == 0:
		s.W, s.H = w, h
	case s.W != w || s.H != h:
		return wrong("is %d × %d cells, but the first frame is %d × %d: make all frames equally large", w, h, s.W, s.H)
	}
	return nil
}

// checkRow checks a row's length and that each character can be a key.
func checkRow(row string) error {
	if len(row) == 0 {
		return wrong("is empty: write '.' for an empty cell")
	}
	column := 0
	for _, r := range row {
		column++
		if r >= utf8.RuneSelf || byte(r) != Empty && !GoodKey(byte(r)) {
			return &InputError{fmt.Sprintf("column %d", column),
				fmt.Sprintf("%q can't be a key: write '.' for an empty cell or the key of a palette colour", r)}
		}
	}
	if len(row) > MaxSide {
		return wrong("has %d cells, but a sprite is at most %d cells wide", len(row), MaxSide)
	}
	return nil
}
