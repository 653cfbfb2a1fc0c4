// Package inspect looks over every step's result and says what to know before
// cutting: where, how much it matters, and what would help.
package inspect

import (
	"cmp"
	"slices"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Finding is something to know before cutting. Equal findings are one, with
// many places.
type Finding struct {
	Code     Code
	Severity Severity
	Text     string   // a sentence or two
	Sprite   string   // the sprite that all places are in; "" where there is none or are several
	Layer    int      // the layer that all places are in; 0 where there is none or are several
	Part     string   // the part's number, as A2-3; "" where there is none or are several
	Places   []Place  // by sprite, layer, part; may be empty
	Count    int      // how many: places, or what the text counts
	Remedies []Remedy // what would help, the best first; may be empty
}

// Place is where a finding is.
type Place struct {
	Sprite string
	Layer  int         // 0: the whole sprite, Part and At mean nothing
	Part   string      // its number; "" where two parts meet
	At     shape.Point // in the layers' coordinates
}

// At is the first place with a point; ok is false where there is none.
func (f Finding) At() (p shape.Point, ok bool) {
	for _, q := range f.Places {
		if q.Layer > 0 {
			return q.At, true
		}
	}
	return shape.Point{}, false
}

// Parts are the numbers of the parts that f is about, each once, in its places'
// order.
func (f Finding) Parts() []string {
	var parts []string
	for _, p := range f.Places {
		if p.Part != "" && !slices.Contains(parts, p.Part) {
			parts = append(parts, p.Part)
		}
	}
	return parts
}

// Sprite is what the steps made of one drawing.
type Sprite struct {
	Source *project.Sprite
	Forest *stack.Forest
	Layout *outline.Layout
	Stocks []project.Stock // what Layer.Stock points into
	// Once all sprites of the project are known:
	Numbers []string // of the parts, by Index, then of the spacers
	// Once it is known how the sprite is put together:
	Built   project.Stack // how its stack is made, see project.Stack.AsBuilt
	Plan    *assemble.Plan
	Pins    []assemble.Pin  // two, or none where there is no place for them
	Spacers []outline.Layer // cut pieces under what floats
}

// Measured is a sprite with its narrow places found: the costly half of an
// inspection, which depends on this sprite only.
type Measured struct {
	Sprite
	narrow []narrow
}

// narrow is a place narrower than the least strip of its stock.
type narrow struct {
	layer *outline.Layer
	part  *outline.Part
	strip Strip
}

// Measure finds the narrow places of all parts of a sprite.
func Measure(s Sprite) Measured {
	m := Measured{Sprite: s}
	teeth := newTeeth(s.Layout)
	for i := range s.Layout.Layers {
		l := &s.Layout.Layers[i]
		for j := range l.Parts {
			p := &l.Parts[j]
			for _, strip := range narrowStrips(squared(p.Outline), s.Stocks[l.Stock].LeastStrip, teeth.hold) {
				m.narrow = append(m.narrow, narrow{l, p, strip})
			}
		}
	}
	return m
}

// Project lists all findings of a project, gravest first. sprites are those
// that have a cell, in the project's order.
func Project(p *project.Project, sprites []Measured) []Finding {
	var fs []Finding
	fs = append(fs, emptySprites(p)...)
	for _, s := range sprites {
		fs = append(fs, narrowPlaces(p, s)...)
		fs = append(fs, apartCorners(p, s)...)
		fs = append(fs, smallParts(s)...)
		fs = append(fs, largeParts(p, s)...)
		fs = append(fs, boundedSearch(s)...)
		fs = append(fs, tooHigh(p, s)...)
		fs = append(fs, topShifts(s)...)
		fs = append(fs, s.tooSmallToFloat()...)
		fs = append(fs, s.uneven()...)
		fs = append(fs, pinsNowhere(p, s)...)
	}
	fs = append(fs, stocksAlike(p, sprites)...)
	fs = append(fs, lightOverDark(sprites)...)
	fs = append(fs, neverLaser(p, sprites)...)
	fs = append(fs, leastCells(p, sprites)...)
	for i := range fs {
		fs[i].complete()
	}
	slices.SortStableFunc(fs, func(a, b Finding) int { return cmp.Compare(rank(a.Code), rank(b.Code)) })
	return fs
}

// complete fills in what follows from code and places.
func (f *Finding) complete() {
	f.Severity = severity(f.Code)
	if f.Count == 0 {
		f.Count = max(1, len(f.Places))
	}
	for i, p := range f.Places {
		if i == 0 {
			f.Sprite, f.Layer, f.Part = p.Sprite, p.Layer, p.Part
			continue
		}
		if p.Sprite != f.Sprite {
			f.Sprite, f.Layer, f.Part = "", 0, ""
			break
		}
		if p.Layer != f.Layer {
			f.Layer, f.Part = 0, ""
		}
		if p.Part != f.Part {
			f.Part = ""
		}
	}
}

// place is where part is: in the middle of the first cell that shows, or of
// the backer.
func (s Sprite) place(l *outline.Layer, part *outline.Part) Place {
	at := shape.Point{
		X: (part.Bounds.Min.X + part.Bounds.Max.X) / 2,
		Y: (part.Bounds.Min.Y + part.Bounds.Max.Y) / 2,
	}
	if part.Tree >= 0 {
		r := s.Forest.Parts[part.Tree].Shows[0]
		lay := s.Layout
		at = lay.Grid.Add(shape.Point{
			X: shape.Um(r.X0)*lay.Cell + lay.Cell/2,
			Y: shape.Um(lay.Rows-1-int(r.Y))*lay.Cell + lay.Cell/2,
		})
	}
	return Place{Sprite: s.Source.Name, Layer: l.Number, Part: s.Numbers[part.Index], At: at}
}
