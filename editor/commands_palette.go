package editor

import (
	"fmt"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
)

type addColourArgs struct {
	Colour string  `json:"colour" about:"the colour, as #rrggbb"`
	Name   string  `json:"name,omitempty" about:"its name"`
	Stock  *string `json:"stock" about:"what it is cut from; card of its own if nothing is said"`
}
type changeColourArgs struct {
	Key    string  `json:"key" about:"the palette entry's key"`
	Colour *string `json:"colour" about:"the new colour, as #rrggbb"`
	Name   *string `json:"name" about:"its new name"`
}
type mergeArgs struct {
	From string `json:"from" about:"key of the colour that goes"`
	Into string `json:"into" about:"key of the colour that it becomes"`
}
type removeColourArgs struct {
	Key   string `json:"key" about:"the palette entry's key"`
	Cells string `json:"cells,omitempty" about:"what becomes of its cells" oneOf:"|keep|rub out"`
}
type moveColourArgs struct {
	Key string `json:"key" about:"the palette entry's key"`
	To  int    `json:"to" about:"its new place, from 0"`
}
type reduceArgs struct {
	Colours int `json:"colours" about:"how many to keep"`
}

func paletteCommands() []Command {
	return []Command{
		command("addColour", "Add a colour", runAddColour),
		command("changeColour", "Change a colour", runChangeColour),
		command("mergeColours", "Make one colour of two", func(e *Editor, a mergeArgs) (any, error) {
			from, err := e.paletteKey("mergeColours", a.From)
			if err != nil {
				return nil, err
			}
			into, err := e.paletteKey("mergeColours", a.Into)
			if err != nil {
				return nil, err
			}
			if from == into {
				return nil, fmt.Errorf("mergeColours: a colour can't become itself: choose another one")
			}
			return nil, e.recolour("Merge colours", map[byte]byte{from: into})
		}),
		command("removeColour", "Remove a colour", runRemoveColour),
		command("moveColour", "Move a colour in the palette", runMoveColour),
		command("reduceColours", "Reduce to fewer colours", runReduce),
	}
}

// parseColour reads "#rrggbb".
func parseColour(text string) (project.RGB, error) {
	rgb, err := colour.Parse(text)
	if err != nil {
		return rgb, fmt.Errorf("a colour is written as #rrggbb: %s can't be read", quoted(text))
	}
	return rgb, nil
}

func runAddColour(e *Editor, a addColourArgs) (any, error) {
	rgb, err := parseColour(a.Colour)
	if err != nil {
		return nil, err
	}
	st := project.CardFor(rgb)
	if a.Stock != nil {
		if st, err = e.findStock(*a.Stock); err != nil {
			return nil, err
		}
	}
	name := a.Name
	if name == "" {
		name = rgb.String()
	}
	var key byte
	err = e.do("Add a colour", func(c *change) error {
		var err error
		key, err = c.addColour(project.Colour{Name: name, RGB: rgb}, st)
		return err
	})
	if err != nil {
		return nil, err
	}
	e.session.Key = string(key)
	return map[string]string{"key": string(key)}, nil
}

func runChangeColour(e *Editor, a changeColourArgs) (any, error) {
	k, err := e.paletteKey("changeColour", a.Key)
	if err != nil {
		return nil, err
	}
	i := e.doc.colour(k)
	was := e.doc.Project.Palette[i]
	now := was
	if a.Name != nil {
		now.Name = *a.Name
	}
	if a.Colour != nil {
		if now.RGB, err = parseColour(*a.Colour); err != nil {
			return nil, err
		}
	}
	if now.Name == was.Name && now.RGB == was.RGB {
		return nil, nil
	}
	return nil, e.do("Change a colour", func(c *change) error {
		// Card that was made for the old colour makes way for card of the new one.
		if now.RGB != was.RGB && was.Stock == project.CardFor(was.RGB).ID {
			st := project.CardFor(now.RGB)
			if err := c.needStock(st); err != nil {
				return err
			}
			now.Stock = st.ID
		}
		replaceIn(c, common, palette, i, 1, colourBytes, now)
		c.dropStock(was.Stock)
		return nil
	})
}

// recolour makes a step of removeColours.
func (e *Editor) recolour(title string, into map[byte]byte) error {
	return e.do(title, func(c *change) error {
		e.putDown()
		return c.removeColours(into)
	})
}

func runRemoveColour(e *Editor, a removeColourArgs) (any, error) {
	k, err := e.paletteKey("removeColour", a.Key)
	if err != nil {
		return nil, err
	}
	if a.Cells != "rub out" {
		for i := range e.doc.Project.Sprites {
			if s := &e.doc.Project.Sprites[i]; usedKeys(s)[k] {
				return nil, fmt.Errorf("%s is drawn with this colour: make another colour of it, or rub it out first", quoted(s.Name))
			}
		}
	}
	return nil, e.recolour("Remove a colour", map[byte]byte{k: project.Empty})
}

func runMoveColour(e *Editor, a moveColourArgs) (any, error) {
	k, err := e.paletteKey("moveColour", a.Key)
	if err != nil {
		return nil, err
	}
	i := e.doc.colour(k)
	to := max(0, min(a.To, len(e.doc.Project.Palette)-1))
	if to == i {
		return nil, nil
	}
	return nil, e.do("Move a colour", func(c *change) error {
		lo, hi := min(i, to), max(i, to)+1
		now := rotated(e.doc.Project.Palette[lo:hi], i < to)
		replaceIn(c, common, palette, lo, hi-lo, colourBytes, now...)
		return nil
	})
}

// runReduce keeps so many of the colours that are drawn with; each of the
// others becomes the nearest of them.
func runReduce(e *Editor, a reduceArgs) (any, error) {
	if a.Colours < 1 || a.Colours > project.MaxPalette {
		return nil, fmt.Errorf("reduceColours: keep 1 to %d colours", project.MaxPalette)
	}
	var counts colour.Histogram
	var used [256]int
	for i := range e.doc.Project.Sprites {
		for _, f := range e.doc.Project.Sprites[i].Frames {
			for _, k := range f.Cells {
				used[k]++
			}
		}
	}
	for _, c := range e.doc.Project.Palette {
		if used[c.Key] > 0 {
			counts.Add(c.RGB, used[c.Key])
		}
	}
	few := colour.Reduce(counts.Counts(), a.Colours)
	if len(few) == 0 {
		return nil, nil
	}
	keeper := map[project.RGB]byte{} // the first entry of each colour that stays
	for _, c := range e.doc.Project.Palette {
		if _, ok := keeper[c.RGB]; !ok && used[c.Key] > 0 {
			keeper[c.RGB] = c.Key
		}
	}
	into := map[byte]byte{}
	for _, c := range e.doc.Project.Palette {
		if to := keeper[few[colour.Nearest(few, c.RGB)]]; used[c.Key] > 0 && to != c.Key {
			into[c.Key] = to
		}
	}
	if len(into) == 0 {
		return nil, nil
	}
	return nil, e.recolour("Reduce colours", into)
}

// rotated is l with its first element last, or its last one first.
func rotated[T any](l []T, firstLast bool) []T {
	n := len(l)
	if firstLast {
		return append(append([]T(nil), l[1:]...), l[0])
	}
	return append([]T{l[n-1]}, l[:n-1]...)
}
