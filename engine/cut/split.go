package cut

import (
	"cmp"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// A part that is too large for every sheet is cut in pieces along lines of the
// grid, so that they meet edge to edge when they are glued. A line cuts all that
// lies in a box in two; where a piece is still too large, its box is cut again.

// Splitting is how a part is cut in pieces.
type Splitting struct {
	Pieces []Shard // in order from the top, then from the left; none where no line will do
	Seams  []Seam
}

// Shard is a piece of a part, finished.
type Shard struct {
	Outline shape.Outline
	Pins    int        // how many of its holes, the last ones, are for pins
	Within  shape.Rect // the box: what hangs together of the part within it is a piece, and this is one of those
}

// Seam is a stretch along which two pieces of a part meet.
type Seam struct {
	From, To shape.Point
	Shows    shape.Um // how much of it no single part on top covers on both sides
}

// Splittings are those of a layout's parts by their Index: nil of parts that fit
// a sheet, and where the rules leave all whole. rules are those of the layout's
// stocks, stack says which heights float.
func Splittings(l *outline.Layout, rules []Rule, stack project.Stack) []*Splitting {
	return newParting(l, rules, stack).splittings
}

// parting is a layout with what its large parts are split into.
type parting struct {
	layout     *outline.Layout
	rules      []Rule
	splittings []*Splitting
	joins      [][]shape.Rect // of each part, by Index
	on         [][]place      // the parts on each part
	stack      project.Stack
}

// place is where a part stands in the layout.
type place struct{ layer, part int }

// newParting splits the higher parts first: what lies over a seam may be a piece.
func newParting(l *outline.Layout, rules []Rule, stack project.Stack) *parting {
	n := 0
	for i := range l.Layers {
		n += len(l.Layers[i].Parts)
	}
	g := &parting{
		layout: l, rules: rules, stack: stack,
		splittings: make([]*Splitting, n), joins: make([][]shape.Rect, n), on: make([][]place, n),
	}
	for _, j := range l.Joins {
		g.joins[j.Part] = append(g.joins[j.Part], j.Square())
	}
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			if p := &l.Layers[i].Parts[k]; p.On >= 0 {
				g.on[p.On] = append(g.on[p.On], place{i, k})
			}
		}
	}
	for i := len(l.Layers) - 1; i >= 0; i-- {
		layer := &l.Layers[i]
		for k := range layer.Parts {
			p := &layer.Parts[k]
			r := rules[layer.Stock]
			if w, h := p.Bounds.Size(); r.Large != project.LargeSplit || r.Holds(w, h) {
				continue
			}
			if _, faults := Kerfed(p.Outline, r.Kerf); len(faults) > 0 {
				continue
			}
			s := splitter{cell: l.Cell, grid: l.Grid, rule: r, back: outline.Setback, avoid: slices.Clone(g.joins[p.Index])}
			for _, hole := range p.Outline.Holes[len(p.Outline.Holes)-p.Pins:] {
				s.pins = append(s.pins, hole.Bounds())
			}
			s.avoid = append(s.avoid, s.pins...)
			for _, o := range l.Opened {
				if o.Parts[0] == p.Index || o.Parts[1] == p.Index {
					s.avoid = append(s.avoid, o.Square())
				}
			}
			for _, u := range g.uppers(p.Index) {
				if u.Float > 0 {
					s.back = outline.FloatSetback
				}
				s.covers = append(s.covers, u.cover())
			}
			g.splittings[p.Index] = s.split(p.Outline)
		}
	}
	return g
}

// uppers are what lies on a part, piece by piece.
func (g *parting) uppers(index int) []Upper {
	var out []Upper
	for _, at := range g.on[index] {
		layer := &g.layout.Layers[at.layer]
		p := &layer.Parts[at.part]
		u := Upper{Outline: p.Bare(), Joins: g.joins[p.Index]}
		if g.stack.Floats(layer.Height) {
			u.Float = g.stack.Gap(layer.Height)
		}
		if s := g.splittings[p.Index]; s != nil && len(s.Pieces) > 0 {
			for _, shard := range s.Pieces {
				one := outline.Part{Outline: shard.Outline, Pins: shard.Pins}
				u.Outline = one.Bare()
				out = append(out, u)
			}
			continue
		}
		out = append(out, u)
	}
	return out
}

// splitter finds the seams of a part.
type splitter struct {
	cell   shape.Um
	grid   shape.Point
	rule   Rule
	avoid  []shape.Rect // joins, opened corners and pins: no seam through them
	pins   []shape.Rect
	covers []shape.Region
	back   shape.Um // by how much a cover reaches beyond a seam that it hides
	tries  int
}

// mostTries bounds how many lines are tried for a part.
const mostTries = 4000

// split cuts a part in pieces; Pieces is empty where that can't be.
func (s *splitter) split(o shape.Outline) *Splitting {
	out := &Splitting{}
	shards, seams, ok := s.pieces([]Shard{s.shard(o, o.Bounds())})
	if !ok {
		return out
	}
	slices.SortFunc(shards, func(a, b Shard) int {
		return cmp.Or(cmp.Compare(b.Within.Max.Y, a.Within.Max.Y), cmp.Compare(a.Within.Min.X, b.Within.Min.X), byFoot(a.Outline, b.Outline))
	})
	out.Pieces, out.Seams = shards, seams
	return out
}

// shard is a piece; a seam leaves holes in their order.
func (s *splitter) shard(o shape.Outline, within shape.Rect) Shard {
	out := Shard{Outline: o, Within: within}
	for _, hole := range o.Holes {
		if slices.Contains(s.pins, hole.Bounds()) {
			out.Pins++
		}
	}
	return out
}

// pieces cuts what is too large in two, as often as need be: all of a box at once,
// so that boxes never lie over one another.
func (s *splitter) pieces(box []Shard) (out []Shard, seams []Seam, ok bool) {
	i := slices.IndexFunc(box, func(p Shard) bool {
		w, h := p.Outline.Bounds().Size()
		return !s.rule.Holds(w, h)
	})
	if i < 0 {
		return box, nil, true
	}
	for _, c := range s.cuts(box, box[i]) {
		if !s.holds(&c) {
			continue
		}
		low, inLow, okLow := s.pieces(c.low)
		if okLow {
			high, inHigh, okHigh := s.pieces(c.high)
			if okHigh {
				return slices.Concat(low, high), slices.Concat(c.seams, inLow, inHigh), true
			}
		}
		if s.tries > mostTries {
			break
		}
	}
	return nil, nil, false
}
