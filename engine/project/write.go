package project

import (
	"bytes"
	"encoding/json"
	"io"
	"maps"
	"slices"
	"strconv"
)

// Write writes the project as a file (see Format): the same project always as
// the same bytes, and Read gives the project back. A project that Validate
// refuses isn't written.
func (p *Project) Write(w io.Writer) error {
	if err := p.Validate(); err != nil {
		return err
	}
	var out writer
	writeObject(&out, p, projectFields, p.Extra, manyLines)
	out.buf.WriteByte('\n')
	if out.buf.Len() > MaxFile {
		return wrong("the project file would be larger than %d MiB: split it into several projects", MaxFile>>20)
	}
	_, err := w.Write(out.buf.Bytes())
	return err
}

// layout is how an object or a list is written.
type layout uint8

const (
	manyLines layout = iota // each member on its own line
	oneLine
)

// writer writes JSON with an indent of two spaces a level.
type writer struct {
	buf  bytes.Buffer
	nest []level
}

// level is an open object or list.
type level struct {
	how   layout
	items int
}

// open starts an object or a list.
func (w *writer) open(bracket byte, how layout) {
	w.buf.WriteByte(bracket)
	w.nest = append(w.nest, level{how: how})
}

// next starts another member of the open list and returns w.
func (w *writer) next() *writer {
	l := &w.nest[len(w.nest)-1]
	if l.items > 0 {
		w.buf.WriteByte(',')
	}
	if l.how == manyLines {
		w.line()
	} else if l.items > 0 {
		w.buf.WriteByte(' ')
	}
	l.items++
	return w
}

// name starts another member of the open object.
func (w *writer) name(name string) {
	w.next().text(name)
	w.buf.WriteString(": ")
}

// close ends the open object or list.
func (w *writer) close(bracket byte) {
	l := w.nest[len(w.nest)-1]
	w.nest = w.nest[:len(w.nest)-1]
	if l.how == manyLines && l.items > 0 {
		w.line()
	}
	w.buf.WriteByte(bracket)
}

// line starts a new line.
func (w *writer) line() {
	w.buf.WriteByte('\n')
	w.buf.WriteString(w.indent())
}

func (w *writer) indent() string {
	return string(bytes.Repeat([]byte("  "), len(w.nest)))
}

// raw writes a value as it is.
func (w *writer) raw(value string) { w.buf.WriteString(value) }

// extra writes unknown fields by name, each on one line: indenting could make
// deeply nested values many times as large.
func (w *writer) extra(extra Extra) {
	for _, name := range slices.Sorted(maps.Keys(extra)) {
		w.name(name)
		_ = json.Compact(&w.buf, extra[name]) // Validate has checked that it is JSON
	}
}

// frame writes a frame of s, a line for each row.
func (w *writer) frame(s *Sprite, f *Frame) {
	w.open('{', manyLines)
	w.name(frameFields[0])
	w.open('[', manyLines)
	for y := range s.H {
		w.next()
		w.buf.WriteByte('"') // no key needs an escape
		w.buf.Write(f.Cells[y*s.W : (y+1)*s.W])
		w.buf.WriteByte('"')
	}
	w.close(']')
	w.extra(f.Extra)
	w.close('}')
}

// text writes a text. Control characters and those that change the direction
// of what follows or don't show at all are escaped, so that what one sees in
// an editor is what is there.
func (w *writer) text(s string) {
	w.buf.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			w.buf.WriteByte('\\')
			w.buf.WriteRune(r)
		case hidden(r):
			hex := strconv.FormatInt(int64(r), 16)
			w.buf.WriteString(`\u` + "0000"[len(hex):] + hex)
		default:
			w.buf.WriteRune(r)
		}
	}
	w.buf.WriteByte('"')
}

// hidden says whether r is written as an escape. All such characters are below
// U+10000. The list is our own, not package unicode's, which grows from one
// version of Go to the next.
func hidden(r rune) bool {
	return r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xad || r == 0x61c ||
		r >= 0x200b && r <= 0x200f || r >= 0x2028 && r <= 0x202e ||
		r >= 0x2060 && r <= 0x206f || r == 0xfeff
}
