package engine

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// drawing is a sprite as the stack step takes it: a colour for each stock,
// numbered in the palette's order.
type drawing struct {
	stack.Drawing
	stocks   []project.Stock // of colour c at c-1
	colourOf [256]stack.Colour
	all      stack.Colours
}

// newDrawing makes palette entries of one stock one colour.
func newDrawing(p *project.Project, s *project.Sprite) (*drawing, error) {
	var used [256]bool
	for _, key := range s.Frames[0].Cells {
		used[key] = true
	}
	d := &drawing{Drawing: stack.Drawing{W: s.W, H: s.H, Cells: make([]stack.Colour, len(s.Frames[0].Cells))}}
	for _, entry := range p.Palette {
		if !used[entry.Key] {
			continue
		}
		stock, ok := p.StockByID(entry.Stock)
		if !ok {
			return nil, fmt.Errorf("colour %q is cut from %q, which isn't among the stocks", entry.Name, entry.Stock)
		}
		i := slices.IndexFunc(d.stocks, func(st project.Stock) bool { return st.ID == stock.ID })
		if i < 0 {
			i = len(d.stocks)
			d.stocks = append(d.stocks, stock)
		}
		if i >= stack.MaxColours {
			return nil, fmt.Errorf("has more than %d colours", stack.MaxColours)
		}
		d.colourOf[entry.Key] = stack.Colour(i + 1)
		d.all |= stack.Of(stack.Colour(i + 1))
	}
	for i, key := range s.Frames[0].Cells {
		d.Cells[i] = d.colourOf[key]
	}
	return d, nil
}

// colours are those of keys that the drawing shows, each once.
func (d *drawing) colours(keys string) []stack.Colour {
	var cs []stack.Colour
	for _, key := range []byte(keys) {
		if c := d.colourOf[key]; c != 0 && !slices.Contains(cs, c) {
			cs = append(cs, c)
		}
	}
	return cs
}

// rules are what the sprite's stack asks for.
func (d *drawing) rules(s *project.Sprite, set project.Settings) stack.Rules {
	r := stack.Rules{
		ExtraHeights: s.Stack.ExtraHeights,
		SmallCells:   int((inspect.Tweezers - 1) / s.Cell), // the most cells that are under 4 mm
	}
	for i, stock := range d.stocks {
		if joinFits(set, s, stock) {
			r.Joins |= stack.Of(stack.Colour(i + 1))
		}
	}
	// What is pinned lowest lies on nothing else; what is pinned highest, spared
	// or the outline carries nothing else. Within such a group all is free, but
	// nothing lies on the outline.
	lowest := stack.Of(d.colours(s.Stack.Lowest)...)
	highest := stack.Of(d.colours(s.Stack.Highest + s.Stack.Spare + s.Stack.OutlineOnTop)...)
	for c := stack.Colour(1); c <= stack.MaxColours; c++ {
		if lowest.Len() > 0 && d.all.Has(c) && !lowest.Has(c) {
			r.Below[c] |= lowest
		}
		if highest.Has(c) {
			r.Below[c] |= d.all &^ highest
		}
	}
	for _, c := range d.colours(s.Stack.OutlineOnTop) {
		r.Highest(c, d.all)
	}
	for _, u := range s.Stack.Under {
		under, over := d.colourOf[u.Under], d.colourOf[u.Over]
		if under != 0 && over != 0 && under != over {
			r.Under(under, over)
		}
	}
	return r
}

// explain puts the stocks' names into what the stack step says.
func (d *drawing) explain(err error) error {
	var c *stack.ContradictionError
	if !errors.As(err, &c) {
		return err
	}
	var names []string
	for i, stock := range d.stocks {
		if c.Colours.Has(stack.Colour(i + 1)) {
			names = append(names, stock.Name)
		}
	}
	return fmt.Errorf("%s are each to lie over another one of them: take one of the stack's rules back", strings.Join(names, ", "))
}

// byPatch is how many parts the drawing takes with a part for each patch of
// cells that hang together by sides.
func (d *drawing) byPatch() int {
	labels := make([]uint8, len(d.Cells))
	for i, c := range d.Cells {
		labels[i] = uint8(c)
	}
	n := 0
	for _, r := range shape.TraceLabels(labels, d.W, d.H, shape.BySides).Rings {
		if r.Kind == shape.OuterRing {
			n++
		}
	}
	return n
}
