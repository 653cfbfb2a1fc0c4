package cut

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Rule is how the parts of one stock are cut.
type Rule struct {
	Kerf  shape.Um
	Tab   shape.Um // what is left standing; 0: no tabs
	Marks project.Marks
	Face  project.Face
	Whole []int    // numbers of the layers whose parts stay in a frame
	Stay  shape.Um // what is left standing at their tabs
}

// tabOf is what is left standing at the tabs of a layer's parts; 0: no tabs.
func (r Rule) tabOf(layer *outline.Layer) shape.Um {
	if slices.Contains(r.Whole, layer.Number) {
		return r.Stay
	}
	return r.Tab
}

// Piece is a part as it is cut, one copy, in the layers' coordinates. On a
// sheet that is cut face down all of it is mirrored.
type Piece struct {
	Number   string
	Layer    *outline.Layer
	Part     *outline.Part
	Line     shape.Outline // the middle of the cut
	Tabs     []Tab
	Loose    bool            // fewer tabs than it wants: it may drop or swing
	Places   []shape.Contour // closed marks: where the parts on it go
	Ticks    []shape.Contour // open marks: the corners of those that float
	Label    *Label          // its number; nil where nothing would hide it
	Faults   []Fault         // where there are any it can't be cut
	Unmarked bool            // the machine draws no marks
}

// Parts are the pieces of a layout, by the parts' Index. numbers are the parts'
// numbers, rules those of the layout's stocks, stack says which heights float.
func Parts(l *outline.Layout, numbers []string, rules []Rule, stack project.Stack) []Piece {
	out := make([]Piece, len(numbers))
	uppers := make([][]Upper, len(numbers))
	joins := make([][]shape.Rect, len(numbers))
	for _, j := range l.Joins {
		half := shape.Point{X: j.Side / 2, Y: j.Side / 2}
		joins[j.Part] = append(joins[j.Part], shape.Rect{Min: j.At.Sub(half), Max: j.At.Add(half)})
	}
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			if p := &l.Layers[i].Parts[k]; p.On >= 0 {
				u := Upper{Outline: p.Bare(), Joins: joins[p.Index]}
				if h := l.Layers[i].Height; stack.Floats(h) {
					u.Float = stack.Gap(h)
				}
				uppers[p.On] = append(uppers[p.On], u)
			}
		}
	}
	for i := range l.Layers {
		layer := &l.Layers[i]
		for k := range layer.Parts {
			p := &layer.Parts[k]
			out[p.Index] = newPiece(layer, p, numbers[p.Index], joins[p.Index], uppers[p.Index], rules[layer.Stock])
		}
	}
	return out
}

func newPiece(layer *outline.Layer, p *outline.Part, number string, joins []shape.Rect, uppers []Upper, r Rule) Piece {
	c := Piece{Number: number, Layer: layer, Part: p, Unmarked: r.Marks == project.NoMarks}
	c.Line, c.Faults = Kerfed(p.Outline, r.Kerf)
	if len(c.Faults) > 0 {
		return c
	}
	if tab := r.tabOf(layer); tab > 0 {
		c.hold(tab+r.Kerf, joins, uppers, slices.Contains(r.Whole, layer.Number))
	}
	if !c.Unmarked {
		c.mark(r, uppers)
	}
	return c
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
	bare := c.Part.Bare() // no mark goes round a pin
	if r.Face == project.FaceDown {
		var back shape.Region
		if axisParallel(c.Part.Outline) {
			back = shape.FromPolygons(c.Part.Outline.Polygon())
		} else {
			for _, u := range uppers { // surely on the part
				back = back.Union(u.cover())
			}
		}
		if l, ok := fit(c.Number, c.besidePins(back.Shrink(numberClear)), true); ok {
			c.Label = &l
		}
		return
	}
	regions := make([]shape.Region, 0, len(uppers))
	for _, u := range uppers {
		if h := hiding(u, bare); !h.Empty() {
			if u.Float > 0 {
				c.Ticks = append(c.Ticks, ticks(h)...)
			} else {
				c.Places = append(c.Places, rings(h)...)
			}
			regions = append(regions, h)
		}
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
