package plan

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Planned is a sprite with its plan, as the engine gives it.
type Planned struct {
	Sprite  project.Sprite
	Palette []project.Colour
	Stocks  []project.Stock // outline.Layer.Stock is an index into it
	Forest  stack.Forest
	Layout  outline.Layout
	Patches int // connected by sides only
	Refused []int
}

// Summarise counts what the page shows of p. Revision, sprite, whether it is
// final, findings and scene are the caller's to add.
func Summarise(p Planned) *Summary {
	s := &Summary{Heights: p.Layout.Heights, Patches: p.Patches, Refused: p.Refused, Top: p.Layout.Top(p.Sprite.Stack, p.Stocks)}
	at := map[byte]int{} // index into s.Colours
	for _, l := range p.Layout.Layers {
		for _, part := range l.Parts {
			s.Parts++
			if w, h := part.Bounds.Size(); max(w, h) < Tweezers {
				s.Tweezers++
			}
			for _, key := range keysOn(p, part.Tree) {
				i, ok := at[key]
				if !ok {
					i = len(s.Colours)
					at[key] = i
					s.Colours = append(s.Colours, Colour{Key: key, Stock: p.Stocks[l.Stock].ID})
				}
				c := &s.Colours[i]
				c.Parts++
				if !slices.Contains(c.Heights, l.Height) {
					c.Heights = append(c.Heights, l.Height)
				}
			}
		}
	}
	s.Seconds = (s.Parts-s.Tweezers)*PlaceSeconds + s.Tweezers*FiddlySeconds
	place := func(key byte) int { // in the palette; the backer comes last
		if key == 0 {
			return math.MaxInt
		}
		return slices.IndexFunc(p.Palette, func(c project.Colour) bool { return c.Key == key })
	}
	for i := range s.Colours {
		slices.Sort(s.Colours[i].Heights)
	}
	slices.SortFunc(s.Colours, func(a, b Colour) int {
		return cmp.Or(
			cmp.Compare(b.Heights[len(b.Heights)-1], a.Heights[len(a.Heights)-1]),
			cmp.Compare(place(a.Key), place(b.Key)),
		)
	})
	return s
}

// keysOn are the palette keys that show on a part of the forest, in the
// palette's order; the backer's is 0.
func keysOn(p Planned, tree int) []byte {
	if tree < 0 {
		return []byte{0}
	}
	var has [256]bool
	cells := p.Sprite.Frames[0].Cells
	for _, r := range p.Forest.Parts[tree].Shows {
		for x := r.X0; x < r.X1; x++ {
			has[cells[int(r.Y)*p.Sprite.W+int(x)]] = true
		}
	}
	var keys []byte
	for _, c := range p.Palette {
		if has[c.Key] {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

// FindingsOf are the findings that the maker sees with a sprite: those about it
// and those about the whole project, their places on this sprite's grid.
func FindingsOf(all []inspect.Finding, sprite string, l outline.Layout) []Finding {
	var list []Finding
	for _, f := range all {
		g := Finding{Code: string(f.Code), Severity: string(f.Severity), Text: f.Text, Count: f.Count}
		here := len(f.Places) == 0 && (f.Sprite == "" || f.Sprite == sprite)
		for _, place := range f.Places {
			if place.Sprite != sprite && place.Sprite != "" {
				continue
			}
			here = true
			if place.Layer > 0 {
				g.Places = append(g.Places, PlaceOf(l, place.At))
			}
		}
		if !here {
			continue
		}
		for _, r := range f.Remedies {
			args, err := json.Marshal(r.Args)
			if err != nil {
				panic(fmt.Sprintf("plan: remedy %s with arguments that aren't plain data: %v", r.Command, r.Args))
			}
			g.Remedies = append(g.Remedies, Remedy{Text: r.Text, Command: string(r.Command), Args: args, Asks: r.Asks, Sure: r.Sure})
		}
		list = append(list, g)
	}
	return list
}

// PlaceOf is a point of the layers' coordinates on the grid.
func PlaceOf(l outline.Layout, at shape.Point) Place {
	return Place{
		X: float64(at.X-l.Grid.X) / float64(l.Cell),
		Y: float64(l.Rows) - float64(at.Y-l.Grid.Y)/float64(l.Cell),
	}
}
