package project

import (
	"strconv"

	"sheetsprite/engine/project/strictjson"
)

var numbersFields = []field[Numbers]{
	text("letters", func(n *Numbers) *string { return &n.Letters }),
	{"parts",
		func(c *strictjson.Cursor, n *Numbers) error {
			return readList(c, &n.Parts, "part", MaxNumbered, func(i int, q *Numbered) error {
				return inItem(label("part", i, ""), readObject(c, q, numberedFields, &q.Extra))
			})
		},
		func(w *writer, n *Numbers) {
			w.open('[', manyLines)
			for i := range n.Parts {
				writeObject(w.next(), &n.Parts[i], numberedFields, n.Parts[i].Extra, oneLine)
			}
			w.close(']')
		}, nil},
}

var numberedFields = []field[Numbered]{
	count("height", func(q *Numbered) *int { return &q.Height }),
	count("number", func(q *Numbered) *int { return &q.Number }),
	text("print", func(q *Numbered) *string { return &q.Print }),
	{"at",
		func(c *strictjson.Cursor, q *Numbered) error {
			var at []int
			err := readList(c, &at, "number", 2, func(_ int, n *int) error {
				digits, err := c.Number()
				if err == nil {
					if *n, err = strconv.Atoi(digits); err != nil {
						err = wrong("the field %q is %s, but must be [column, row]", "at", shortNumber(digits))
					}
				}
				return err
			})
			if err == nil && len(at) != 2 {
				err = wrong("the field %q must be [column, row]", "at")
			}
			if err == nil {
				q.Col, q.Row = at[0], at[1]
			}
			return err
		},
		func(w *writer, q *Numbered) {
			w.raw("[" + strconv.Itoa(q.Col) + ", " + strconv.Itoa(q.Row) + "]")
		}, nil},
}
