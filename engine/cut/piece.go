package cut

import (
	"fmt"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Piece is a part as it is cut, one copy, in the layers' coordinates. On a
// sheet that is cut face down all of it is mirrored. A part that is too large for
// any sheet has no tabs and no marks itself: its pieces have.
type Piece struct {
	Number   string
	Layer    *outline.Layer
	Part     *outline.Part
	Line     shape.Outline // the middle of the cut
	Tabs     []Tab
	Loose    bool            // fewer tabs than it wants: it may drop or swing
	Places   []shape.Contour // closed marks: where the parts on it go
	Ticks    []shape.Contour // open marks: the corners of those that float, and what a seam cuts of closed ones
	Label    *Label          // its number; nil where nothing would hide it
	Faults   []Fault         // where there are any it can't be cut
	Unmarked bool            // the machine draws no marks
	Pieces   []Piece         // what it is cut in; none: it is whole
	Seams    []Seam          // where they meet
	Of       string          // of a piece: the part's number
	Within   shape.Rect      // of a piece, see Shard
	Whole    *outline.Part   // of a piece: the part, while Part is the piece alone
}

// Parts are the pieces of a layout, by the parts' Index. numbers are the parts'
// numbers, rules those of the layout's stocks, stack says which heights float. each
// does a job for 0 to n−1, in any order or at the same time.
func Parts(l *outline.Layout, numbers []string, rules []Rule, stack project.Stack, each func(n int, job func(i int))) []Piece {
	out := make([]Piece, len(numbers))
	g := newParting(l, rules, stack)
	var at []place
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			at = append(at, place{i, k})
		}
	}
	each(len(at), func(i int) {
		layer := &l.Layers[at[i].layer]
		p := &layer.Parts[at[i].part]
		out[p.Index] = g.piece(layer, p, numbers[p.Index])
	})
	return out
}

// piece is a part as it is cut. It changes nothing of the parting.
func (g *parting) piece(layer *outline.Layer, p *outline.Part, number string) Piece {
	r, uppers := g.rules[layer.Stock], g.uppers(p.Index)
	finish := func(c *Piece) { c.finish(r, g.joins[p.Index], uppers) }
	if s := g.splittings[p.Index]; s != nil && len(s.Pieces) > 0 {
		return inPieces(layer, p, number, s, r, finish)
	}
	c := newPiece(layer, p, number, r)
	finish(&c)
	return c
}

func newPiece(layer *outline.Layer, p *outline.Part, number string, r Rule) Piece {
	c := Piece{Number: number, Layer: layer, Part: p, Unmarked: r.Marks == project.NoMarks}
	c.Line, c.Faults = Kerfed(p.Outline, r.Kerf)
	return c
}

// inPieces is a part that is cut in pieces, each of which finish gives its tabs
// and marks.
func inPieces(layer *outline.Layer, p *outline.Part, number string, s *Splitting, r Rule, finish func(*Piece)) Piece {
	whole := newPiece(layer, p, number, r)
	whole.Seams = s.Seams
	whole.Pieces = make([]Piece, len(s.Pieces))
	for i, shard := range s.Pieces {
		one := *p
		one.Outline, one.Pins, one.Bounds = shard.Outline, shard.Pins, shard.Outline.Bounds()
		c := newPiece(layer, &one, fmt.Sprintf("%s/%d", number, i+1), r)
		c.Of, c.Within, c.Whole = number, shard.Within, p
		finish(&c)
		whole.Pieces[i] = c
	}
	return whole
}

// finish gives a piece its tabs and marks.
func (c *Piece) finish(r Rule, joins []shape.Rect, uppers []Upper) {
	if len(c.Faults) > 0 {
		return
	}
	if tab := r.tabOf(c.Layer); tab > 0 {
		c.hold(tab+r.Kerf, append(c.edges(), joins...), uppers, slices.Contains(r.Whole, c.Layer.Number))
	}
	if !c.Unmarked {
		c.mark(r, uppers)
	}
}

// Cut is what is cut of the part: its pieces, or itself.
func (c *Piece) Cut() []*Piece {
	if len(c.Pieces) == 0 {
		return []*Piece{c}
	}
	out := make([]*Piece, len(c.Pieces))
	for i := range c.Pieces {
		out[i] = &c.Pieces[i]
	}
	return out
}

// Called is the number of the part that it is, or is a piece of.
func (c *Piece) Called() string {
	if c.Of != "" {
		return c.Of
	}
	return c.Number
}

// hold gives the piece its tabs, so long on the cut line. Where its layer stays whole
// also what lies in a hole with another of its parts is held.
func (c *Piece) hold(gap shape.Um, joins []shape.Rect, uppers []Upper, whole bool) {
	var covers []shape.Rect    // holes for pins lie too far inside to matter to a tab
	for _, u := range uppers { // parts on one part don't overlap
		covers = append(covers, u.cover().Rects()...)
	}
	t := tabber{finished: c.Part.Outline, line: c.Line, gap: gap, joins: joins, cover: covers}
	if whole {
		for i := range c.Layer.Parts {
			if o := &c.Layer.Parts[i]; o.Index != c.Part.Index {
				t.beside = append(t.beside, o.Bounds)
			}
		}
	}
	tabs, wanted := t.outer()
	c.Loose = len(tabs) < wanted
	c.Tabs = append(tabs, t.slugs()...)
}

// mark draws where the parts on it go, and its number. Face up a part on top
// must hide them; face down only the number is drawn, on the back.
func (c *Piece) mark(r Rule, uppers []Upper) {
	if r.Face == project.FaceDown {
		var back shape.Region
		if axisParallel(c.Part.Outline) {
			back = shape.FromPolygons(c.Part.Outline.Polygon())
		} else {
			for _, u := range uppers { // surely on the part
				back = back.Union(c.onto(u.cover()))
			}
		}
		if l, ok := fit(c.Number, c.besidePins(back.Shrink(numberClear)), true); ok {
			c.Label = &l
		}
		return
	}
	regions := make([]shape.Region, 0, len(uppers))
	for _, u := range uppers {
		all := hiding(u)
		h := c.onto(all)
		if h.Empty() {
			continue
		}
		if u.Float > 0 {
			c.Ticks = append(c.Ticks, c.ticks(all, h)...)
		} else {
			c.places(h)
		}
		regions = append(regions, h)
	}
	// The largest place first: the number is most easily read there.
	slices.SortStableFunc(regions, func(a, b shape.Region) int { return int(b.Area() - a.Area()) })
	for _, h := range regions {
		if l, ok := fit(c.Number, c.besidePins(h.Shrink(numberClear)), false); ok {
			c.Label = &l
			return
		}
	}
}

// besidePins is a region for the middles of a number's lines, less what lies near
// a pin.
func (c *Piece) besidePins(r shape.Region) shape.Region {
	holes := c.Part.Outline.Holes
	for _, h := range holes[len(holes)-c.Part.Pins:] {
		r = r.Subtract(shape.FromRects([]shape.Rect{grown(h.Bounds(), numberClear)}))
	}
	return r
}

// Loops are the piece's cut lines: the outer one first, then its holes.
func (c *Piece) Loops() []shape.Contour {
	return append([]shape.Contour{c.Line.Outer}, c.Line.Holes...)
}

// Straight says whether all its cut lines run along the axes.
func (c *Piece) Straight() bool { return axisParallel(c.Line) }
