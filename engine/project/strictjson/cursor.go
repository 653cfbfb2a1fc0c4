// Package strictjson reads JSON (RFC 8259) piece by piece, in bounded memory,
// and takes nothing that two readers could understand differently: a field
// given twice, bytes that aren't UTF-8, half a surrogate pair, anything after
// the end. encoding/json lets these pass and matches field names whatever
// their case, so that a file could change its meaning by a load and save.
package strictjson

import (
	"bytes"
	"encoding/json"
	"fmt"
	"unicode/utf8"
)

// Limits of what is read.
const (
	MaxDepth  = 64    // objects and arrays within one another
	MaxFields = 10000 // of one object
)

// Kind is what a value is.
type Kind string

// The kinds of value, as a message names them.
const (
	Object Kind = "an object {…}"
	Array  Kind = "a list […]"
	Text   Kind = "a text"
	Number Kind = "a number"
	Bool   Kind = "true or false"
	Null   Kind = "null"
	none   Kind = "nothing"
)

// SyntaxError says that the data isn't strict JSON, and where.
type SyntaxError struct {
	Line, Column int // from 1; the column counts characters
	What         string
}

func (e *SyntaxError) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.What)
}

// KindError says that a value is of another kind than it must be.
type KindError struct{ Want, Got Kind }

func (e *KindError) Error() string { return fmt.Sprintf("must be %s, but it is %s", e.Want, e.Got) }

// Cursor stands before a value and reads on. After an error it isn't used again.
type Cursor struct {
	data    []byte
	at      int
	depth   int
	deepest int
}

// New returns a cursor before the only value of data. A byte order mark in
// front is passed over.
func New(data []byte) *Cursor {
	return &Cursor{data: bytes.TrimPrefix(data, []byte("\ufeff"))}
}

// Kind is the kind of the next value, as its first character tells.
func (c *Cursor) Kind() Kind {
	switch b := c.peek(); {
	case b == '{':
		return Object
	case b == '[':
		return Array
	case b == '"':
		return Text
	case b == 't' || b == 'f':
		return Bool
	case b == 'n':
		return Null
	case b == '-' || b >= '0' && b <= '9':
		return Number
	}
	return none
}

// peek passes over spaces and returns the next byte, 0 at the end.
func (c *Cursor) peek() byte {
	for c.at < len(c.data) {
		switch b := c.data[c.at]; b {
		case ' ', '\t', '\n', '\r':
			c.at++
		default:
			return b
		}
	}
	return 0
}

// expect fails unless the next value is of the kind.
func (c *Cursor) expect(want Kind) error {
	switch got := c.Kind(); got {
	case want:
		return nil
	case none:
		return c.unexpected()
	default:
		return &KindError{want, got}
	}
}

// Object reads an object: field is called before each value, with its name,
// and reads the value. A name given twice is an error.
func (c *Cursor) Object(field func(name string) error) error {
	if err := c.expect(Object); err != nil {
		return err
	}
	names := map[string]bool{}
	return c.items('}', func(int) error {
		if c.peek() != '"' {
			return c.unexpected()
		}
		start := c.at
		name, err := c.Text()
		if err != nil {
			return err
		}
		switch {
		case names[name]:
			return c.fail(start, fmt.Sprintf("the field %s stands twice in one object; take one of them out", short(name)))
		case len(names) >= MaxFields:
			return c.fail(start, fmt.Sprintf("an object has more than %d fields", MaxFields))
		}
		names[name] = true
		if c.peek() != ':' {
			return c.unexpected()
		}
		c.at++
		return field(name)
	})
}

// Array reads a list: item is called before each item, with its index, and
// reads it.
func (c *Cursor) Array(item func(i int) error) error {
	if err := c.expect(Array); err != nil {
		return err
	}
	return c.items(']', item)
}

// items reads what stands between the brackets, the first of which is next.
func (c *Cursor) items(end byte, item func(i int) error) error {
	if c.depth == MaxDepth {
		return c.fail(c.at, fmt.Sprintf("objects and lists are nested more than %d deep", MaxDepth))
	}
	c.depth++
	c.deepest = max(c.deepest, c.depth)
	c.at++
	for i := 0; ; i++ {
		switch b := c.peek(); {
		case b == end && i == 0:
		case b == end:
			return c.fail(c.at, "a comma with nothing after it")
		default:
			if err := item(i); err != nil {
				return err
			}
			if c.peek() == ',' {
				c.at++
				continue
			}
			if c.peek() != end {
				return c.unexpected()
			}
		}
		c.at++
		c.depth--
		return nil
	}
}

// Bool reads true or false.
func (c *Cursor) Bool() (bool, error) {
	if err := c.expect(Bool); err != nil {
		return false, err
	}
	if c.data[c.at] == 't' {
		return true, c.word("true")
	}
	return false, c.word("false")
}

// Null reads null if that is next and says whether it was.
func (c *Cursor) Null() (bool, error) {
	if c.Kind() != Null {
		return false, nil
	}
	return true, c.word("null")
}

func (c *Cursor) word(w string) error {
	if !bytes.HasPrefix(c.data[c.at:], []byte(w)) {
		return c.unexpected()
	}
	c.at += len(w)
	return nil
}

// Skip passes over a value of any kind, checking it.
func (c *Cursor) Skip() error {
	var err error
	switch c.Kind() {
	case Object:
		err = c.Object(func(string) error { return c.Skip() })
	case Array:
		err = c.Array(func(int) error { return c.Skip() })
	case Text:
		err = c.passText()
	case Number:
		_, err = c.Number()
	case Bool:
		_, err = c.Bool()
	case Null:
		_, err = c.Null()
	default:
		err = c.unexpected()
	}
	return err
}

// Raw reads a value of any kind and returns it as JSON without spaces.
func (c *Cursor) Raw() (json.RawMessage, error) {
	c.peek()
	start := c.at
	if err := c.Skip(); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Compact(&out, c.data[start:c.at]); err != nil {
		return nil, c.fail(start, err.Error())
	}
	return out.Bytes(), nil
}

// Deepest is how many objects and lists stood within one another so far.
func (c *Cursor) Deepest() int { return c.deepest }

// End fails unless only spaces are left.
func (c *Cursor) End() error {
	c.peek()
	if c.at < len(c.data) {
		return c.fail(c.at, "there is something after the end")
	}
	return nil
}

// unexpected is the error for what is next.
func (c *Cursor) unexpected() error {
	c.peek()
	if c.at >= len(c.data) {
		return c.fail(c.at, "the data ends too early")
	}
	r, size := utf8.DecodeRune(c.data[c.at:])
	if r == utf8.RuneError && size == 1 {
		return c.fail(c.at, "this isn't UTF-8 text")
	}
	return c.fail(c.at, fmt.Sprintf("%q isn't expected here", r))
}

func (c *Cursor) fail(at int, what string) error {
	before := c.data[:at]
	start := bytes.LastIndexByte(before, '\n') + 1
	return &SyntaxError{1 + bytes.Count(before, []byte("\n")), 1 + utf8.RuneCount(before[start:]), what}
}

// short quotes a name for a message.
func short(name string) string {
	if runes := []rune(name); len(runes) > 40 {
		name = string(runes[:40]) + "…"
	}
	return fmt.Sprintf("%q", name)
}
