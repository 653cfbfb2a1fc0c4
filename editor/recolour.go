package editor

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine/project"
)

// keyFor is the key of the palette's entry of this colour; where there is none
// it adds one, cut from card of its own.
func (c *change) keyFor(rgb project.RGB) (byte, error) {
	for _, col := range c.doc.Project.Palette {
		if col.RGB == rgb {
			return col.Key, nil
		}
	}
	st := project.CardFor(rgb)
	return c.addColour(project.Colour{Name: rgb.String(), RGB: rgb}, st)
}

// addColour adds a palette entry with a new key, cut from st, and st where the
// project doesn't have it.
func (c *change) addColour(col project.Colour, st project.Stock) (byte, error) {
	key, ok := project.NewKey(c.doc.Project.Palette)
	if n := len(c.doc.Project.Palette); !ok || n >= project.MaxPalette {
		return 0, fmt.Errorf("the palette has %d colours, and no more than %d fit: merge two of them first", n, project.MaxPalette)
	}
	col.Key, col.Stock = key, st.ID
	if err := c.needStock(st); err != nil {
		return 0, err
	}
	replaceIn(c, common, palette, len(c.doc.Project.Palette), 0, colourBytes, col)
	return key, nil
}

// needStock adds a stock where the project doesn't have one with its ID.
func (c *change) needStock(st project.Stock) error {
	if c.doc.stock(st.ID) >= 0 {
		return nil
	}
	n := len(c.doc.Project.Stocks)
	if n >= project.MaxStocks {
		return fmt.Errorf("the project has %d stocks, and no more fit", n)
	}
	replaceIn(c, common, stocks, n, 0, stockBytes, st)
	return nil
}

// needShelf has the project know what there is of a stock of the maker's, where
// its bench doesn't yet.
func (c *change) needShelf(s project.Shelf) {
	p := &c.doc.Project
	b := &project.Bench{Machines: []project.Machine{p.Machine()}}
	if p.Bench != nil {
		*b = *p.Bench
	}
	if _, ok := b.ShelfOf(s.Stock.ID); ok || len(s.Sheets)+len(s.Offcuts) == 0 {
		return
	}
	b.Shelf = append(slices.Clone(b.Shelf), s)
	set(c, common, benchOf, b, 512+len(b.Shelf)*stockBytes)
}

// dropStock takes a stock out if nothing is cut from it any more.
func (c *change) dropStock(id string) {
	p := &c.doc.Project
	lifts := func(s project.Sprite) bool { return slices.Contains(s.Stack.Stocks(), id) }
	if p.Settings.Backer == id || slices.ContainsFunc(p.Sprites, lifts) || slices.ContainsFunc(p.Palette, func(col project.Colour) bool { return col.Stock == id }) {
		return
	}
	if i := c.doc.stock(id); i >= 0 {
		replaceIn(c, common, stocks, i, 1, stockBytes)
	}
}

// removeColours takes palette entries out. into says what becomes of each key's
// cells, and of what the stacks say of it: another key, or Empty for nothing.
func (c *change) removeColours(into map[byte]byte) error {
	if len(into) >= len(c.doc.Project.Palette) {
		return errors.New("this is the palette's last colour: add another one first")
	}
	var to [256]byte
	for k := range to {
		to[k] = byte(k)
	}
	for k, n := range into {
		to[k] = n
	}
	for i, id := range c.doc.IDs {
		for f := range c.doc.Project.Sprites[i].Frames {
			was := c.doc.Project.Sprites[i].Frames[f].Cells
			now := bytes.Clone(was)
			for at, k := range now {
				now[at] = to[k]
			}
			c.cells(id, f, now)
		}
		c.setSprite(id, func(s *project.Sprite) { s.Stack = recoloured(s.Stack, into) })
	}
	for i := len(c.doc.Project.Palette) - 1; i >= 0; i-- {
		if col := c.doc.Project.Palette[i]; to[col.Key] != col.Key {
			replaceIn(c, common, palette, i, 1, colourBytes)
			c.dropStock(col.Stock)
		}
	}
	return nil
}

// recoloured is what a stack says without the keys that went: pairs and the
// outline go over to the key that took their place, pins and the order don't.
func recoloured(s project.Stack, into map[byte]byte) project.Stack {
	for k, to := range into {
		s.Order, s.Lowest, s.Highest, s.Spare = without(s.Order, k), without(s.Lowest, k), without(s.Highest, k), without(s.Spare, k)
		if s.OutlineOnTop == string(k) {
			s.OutlineOnTop = ""
			if to != project.Empty {
				s.OutlineOnTop = string(to)
			}
		}
	}
	var under []project.Under
	for _, u := range s.Under {
		if to, gone := into[u.Under]; gone {
			u.Under = to
		}
		if to, gone := into[u.Over]; gone {
			u.Over = to
		}
		if u.Under != u.Over && u.Under != project.Empty && u.Over != project.Empty &&
			!slices.ContainsFunc(under, func(v project.Under) bool { return v.Under == u.Under && v.Over == u.Over }) {
			under = append(under, u)
		}
	}
	if len(under) != len(s.Under) || !slices.EqualFunc(under, s.Under, func(a, b project.Under) bool { return a.Under == b.Under && a.Over == b.Over }) {
		s.Under = under
	}
	return s
}

// has says whether a list of keys has k.
func has(keys string, k byte) bool { return strings.IndexByte(keys, k) >= 0 }

// without is a list of keys without k.
func without(keys string, k byte) string { return strings.ReplaceAll(keys, string(rune(k)), "") }

// with is a list of keys with k, at its end where it wasn't there.
func with(keys string, k byte) string {
	if has(keys, k) {
		return keys
	}
	return keys + string(rune(k))
}
