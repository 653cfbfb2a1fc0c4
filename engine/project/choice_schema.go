package project

import (
	"sheetsprite/engine/project/strictjson"
	"sheetsprite/engine/shape"
)

var choiceFields = []field[Choice]{
	unlessNone(listOf("sprites", "sprite", MaxSprites, func(c *Choice) *[]Chosen { return &c.Sprites },
		func() Chosen { return Chosen{Copies: 1} },
		chosenFields, func(c *Chosen) *Extra { return &c.Extra }, func(c *Chosen) string { return c.Sprite }),
		func(c *Choice) int { return len(c.Sprites) }),
	{"parts",
		func(c *strictjson.Cursor, v *Choice) error {
			return readList(c, &v.Parts, "part", MaxChosenParts, func(_ int, s *string) (err error) { *s, err = c.Text(); return })
		},
		func(w *writer, v *Choice) {
			w.open('[', oneLine)
			for _, n := range v.Parts {
				w.next().text(n)
			}
			w.close(']')
		},
		func(v *Choice) bool { return len(v.Parts) == 0 }},
}

var chosenFields = []field[Chosen]{
	text("sprite", func(c *Chosen) *string { return &c.Sprite }),
	count("copies", func(c *Chosen) *int { return &c.Copies }),
}

var placementList = unlessNone(listOf("placements", "placement", MaxPlacements, func(p *Project) *[]Placement { return &p.Places },
	func() Placement { return Placement{Copy: 1, Sheet: 1, Held: Found} },
	placementFields, func(q *Placement) *Extra { return &q.Extra }, func(q *Placement) string { return q.Part }),
	func(p *Project) int { return len(p.Places) })

var placementFields = []field[Placement]{
	text("sprite", func(q *Placement) *string { return &q.Sprite }),
	count("copy", func(q *Placement) *int { return &q.Copy }),
	text("part", func(q *Placement) *string { return &q.Part }),
	text("stock", func(q *Placement) *string { return &q.Stock }),
	count("sheet", func(q *Placement) *int { return &q.Sheet }),
	lengths("at_mm", func(q *Placement) *shape.Um { return &q.X }, func(q *Placement) *shape.Um { return &q.Y }),
	count("turn", func(q *Placement) *int { return &q.Turn }),
	text("held", func(q *Placement) *Held { return &q.Held }),
}

// unlessNone is f, not written where the list is empty.
func unlessNone[T any](f field[T], length func(*T) int) field[T] {
	f.omit = func(v *T) bool { return length(v) == 0 }
	return f
}
