package project

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project/strictjson"
	"sheetsprite/engine/shape"
)

// field is one field of a JSON object that stands for a T: how it is called,
// read and written. The tables of fields (schema.go) are the file format.
type field[T any] struct {
	name  string
	read  func(c *strictjson.Cursor, v *T) error
	write func(w *writer, v *T)
	omit  func(v *T) bool // not written; nil: always written
}

// readObject fills v from the object that is next; fields that the table
// doesn't have are kept in extra.
func readObject[T any](c *strictjson.Cursor, v *T, table []field[T], extra *Extra) error {
	return c.Object(func(name string) error {
		for i := range table {
			if table[i].name == name {
				return inField(name, table[i].read(c, v))
			}
		}
		raw, err := c.Raw()
		if err != nil {
			return err
		}
		if *extra == nil {
			*extra = Extra{}
		}
		(*extra)[name] = raw
		return nil
	})
}

// inField says in which field a value is of the wrong kind or doesn't read.
func inField(name string, err error) error {
	var kind *strictjson.KindError
	if errors.As(err, &kind) {
		return wrong("the field %q %v", name, kind)
	}
	return err
}

// writeObject writes v in the order of the table, then extra by name.
func writeObject[T any](w *writer, v *T, table []field[T], extra Extra, how layout) {
	w.open('{', how)
	for i := range table {
		if f := &table[i]; f.omit == nil || !f.omit(v) {
			w.name(f.name)
			f.write(w, v)
		}
	}
	w.extra(extra)
	w.close('}')
}

// names lists the table's fields.
func names[T any](table []field[T]) []string {
	list := make([]string, len(table))
	for i := range table {
		list[i] = table[i].name
	}
	return list
}

// omitEmpty is f, not written where its value is the zero value.
func omitEmpty[T any, V comparable](f field[T], at func(*T) *V) field[T] {
	f.omit = func(v *T) bool { var zero V; return *at(v) == zero }
	return f
}

// omitUsual leaves a field out where it has the value that a new project has.
func omitUsual[T any, V comparable](f field[T], at func(*T) *V, usual V) field[T] {
	f.omit = func(v *T) bool { return *at(v) == usual }
	return f
}

// text is a field that holds any text.
func text[T any, S ~string](name string, at func(*T) *S) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) error {
			s, err := c.Text()
			*at(v) = S(s)
			return err
		},
		func(w *writer, v *T) { w.text(string(*at(v))) }, nil}
}

// key is a field that holds one palette key.
func key[T any](name string, at func(*T) *byte) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) error {
			s, err := c.Text()
			if err == nil && (len(s) != 1 || !GoodKey(s[0])) {
				err = wrong("the field %q is %s, but a key is one printable ASCII character other than '.', '\"', '\\' and space", name, quote(s))
			}
			if err == nil {
				*at(v) = s[0]
			}
			return err
		},
		func(w *writer, v *T) { w.text(string(rune(*at(v)))) }, nil}
}

// rgb is a field that holds a colour.
func rgb[T any](name string, at func(*T) *RGB) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) error {
			s, err := c.Text()
			if err != nil {
				return err
			}
			if *at(v), err = colour.Parse(s); err != nil {
				return wrong("the field %q is %s, but %v", name, quote(s), err)
			}
			return nil
		},
		func(w *writer, v *T) { w.text(at(v).String()) }, nil}
}

// truth is a field that holds true or false.
func truth[T any](name string, at func(*T) *bool) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) (err error) { *at(v), err = c.Bool(); return },
		func(w *writer, v *T) { w.raw(strconv.FormatBool(*at(v))) }, nil}
}

// count is a field that holds a whole number.
func count[T any](name string, at func(*T) *int) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) error {
			n, err := c.Number()
			if err != nil {
				return err
			}
			if *at(v), err = strconv.Atoi(n); err != nil || len(n) > 9 {
				return wrong("the field %q is %s, but must be a whole number of at most 9 digits", name, shortNumber(n))
			}
			return nil
		},
		func(w *writer, v *T) { w.raw(strconv.Itoa(*at(v))) }, nil}
}

// length is a field that holds millimetres.
func length[T any](name string, at func(*T) *shape.Um) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) (err error) { *at(v), err = readMm(c, name); return },
		func(w *writer, v *T) { w.raw(FormatMm(*at(v))) }, nil}
}

// lengths is a field that holds a list of two lengths in millimetres: width, height.
func lengths[T any](name string, width, height func(*T) *shape.Um) field[T] {
	return field[T]{name,
		func(c *strictjson.Cursor, v *T) error {
			var both []shape.Um
			err := c.Array(func(i int) error {
				u, err := readMm(c, name)
				if err == nil && i > 1 {
					err = wrong("the field %q must be [width, height], but has more than two numbers", name)
				}
				both = append(both, u)
				return err
			})
			if err == nil && len(both) != 2 {
				err = wrong("the field %q must be [width, height], but has %d of the two numbers", name, len(both))
			}
			if err == nil {
				*width(v), *height(v) = both[0], both[1]
			}
			return err
		},
		func(w *writer, v *T) { w.raw(fmt.Sprintf("[%s, %s]", FormatMm(*width(v)), FormatMm(*height(v)))) }, nil}
}

// readMm reads a length in millimetres for the named field.
func readMm(c *strictjson.Cursor, name string) (shape.Um, error) {
	n, err := c.Number()
	if err != nil {
		return 0, err
	}
	u, err := ParseMm(n)
	if err != nil {
		return 0, in(fmt.Sprintf("the field %q", name), err)
	}
	return u, nil
}

// shortNumber is a number as a message shows it.
func shortNumber(n string) string {
	if len(n) > 20 {
		return strings.TrimSpace(n[:20]) + "…"
	}
	return n
}
