package guide

import (
	"fmt"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// matGap is between the outlines of a sorting mat.
const matGap = 5 * shape.Mm

// matOf draws the empty outline and the number of every part of a sprite at
// true scale, in the numbers' order, to lay the parts on.
func (g *guide) matOf(s *sprite) {
	g.about = g.spriteName(s)
	heading := fmt.Sprintf(english.titled, g.title(s), english.mat)
	g.begin(heading, atTrueScale)
	g.y = g.paragraph(side, g.y, g.paper.width(), english.matHelp+" "+english.matTabs, normal, plain, quiet) + 3*shape.Mm
	x, high := shape.Um(0), shape.Um(0) // of the row
	for _, p := range s.asCut() {
		w, h := p.shape.Bounds.Size()
		name := g.matName(s, p)
		cell := max(w, g.wide(name, small, bold))
		if w > g.paper.width() || h > g.paper.floor()-top-24*shape.Mm {
			g.y += high
			x, high = 0, 0
			g.matTiles(s, p, heading)
			continue
		}
		if x > 0 && x+cell > g.paper.width() {
			g.y += high
			x, high = 0, 0
		}
		if g.y+h+7*shape.Mm > g.paper.floor() {
			g.begin(fmt.Sprintf(english.continued, heading), atTrueScale)
			x, high = 0, 0
		}
		g.matPart(s, p, side+x, g.y, shape.Rect{Min: p.shape.Bounds.Min, Max: p.shape.Bounds.Max})
		g.write(side+x, g.y+h+3500, name, small, bold, ink)
		x += cell + matGap
		high = max(high, h+9*shape.Mm)
	}
}

// inOrder is a sprite's parts by height, then as they are numbered.
func (s *sprite) inOrder() []int {
	order := make([]int, len(s.parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return s.parts[a].layer.Height - s.parts[b].layer.Height })
	return order
}

// asCut are the sprite's parts that are cut now in their order, those that are cut
// in pieces piece by piece.
func (s *sprite) asCut() []*part {
	var out []*part
	for _, i := range s.inOrder() {
		p := &s.parts[i]
		if !p.wanted {
			continue
		}
		for _, c := range p.piece.Cut() {
			one := *p
			one.number, one.shape, one.piece = c.Number, c.Part, c
			out = append(out, &one)
		}
	}
	return out
}

// matName is a part's number and how many there are of it.
func (g *guide) matName(s *sprite, p *part) string {
	name := p.number
	if p.lifts >= 0 {
		name = fmt.Sprintf(english.spacerOf, name, s.parts[p.lifts].number)
	}
	if n := s.copies(); n > 1 {
		return fmt.Sprintf(english.of, name, english.several(n))
	}
	return name
}

// matPart draws a window of a part with the stubs of its tabs; the window's
// upper left corner lies at x, y.
func (g *guide) matPart(s *sprite, p *part, x, y shape.Um, window shape.Rect) {
	_, h := window.Size()
	v := view{X: x, Y: y + h, From: window.Min, Scale: trueScale}
	g.onPage(v)
	// Half of the line lies outside the outline.
	g.clip(shape.Rect{Min: window.Min.Sub(shape.Point{X: 1500, Y: 1500}), Max: window.Max.Add(shape.Point{X: 1500, Y: 1500})})
	// Filled, so that it is the form that the other pages draw.
	g.outline(v, look{fill: &white, stroke: &ink, width: 150}, p.shape.Outline)
	for _, t := range s.stubs(p) {
		c := quiet
		if t.shows {
			c = signal
		}
		b := look{stroke: &c, width: 300}.begin(nil, v)
		across := shape.Point{X: t.out.X * 1200, Y: t.out.Y * 1200}
		b = appendPoint(b, t.at.Sub(across), true)
		b = appendPoint(b, t.at.Add(across), false)
		g.raw(append(b, 'S'))
	}
	g.offPage()
}

// matTiles draws a part that is larger than a page over several.
func (g *guide) matTiles(s *sprite, p *part, heading string) {
	b := p.shape.Bounds
	list, cols, rows := tiles(b, g.paper.width(), g.paper.floor()-top-24*shape.Mm)
	for _, t := range list {
		g.begin(heading, atTrueScale)
		g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.both, fmt.Sprintf(english.piece, g.matName(s, p), t.col, cols, t.row, rows), english.overlaps),
			normal, plain, quiet) + 3*shape.Mm
		g.matPart(s, p, side, g.y, t.window)
		g.crosses(t, cols, rows, side, g.y)
		_, h := t.window.Size()
		g.y += h
	}
	g.y += 6 * shape.Mm
}

// stub is where a tab held a part.
type stub struct {
	at    shape.Point // its middle, on the part's edge
	out   shape.Point // the unit step across the edge
	shows bool        // nothing lies over the edge
}

// stubs are the places of a part's tabs on its finished outline, in the layers'
// coordinates.
func (s *sprite) stubs(p *part) []stub {
	if out, ok := s.found[p.piece]; ok {
		return out
	}
	var out []stub
	for _, t := range p.piece.Tabs {
		if t.Contour > 0 {
			continue // what a hole's tab holds is waste
		}
		line, finished := p.piece.Line.Outer, p.shape.Outline.Outer
		a, b := line[t.Edge].Point, line[(t.Edge+1)%len(line)].Point
		d := b.Sub(a)
		n := max(d.X, -d.X, d.Y, -d.Y)
		along := shape.Point{X: d.X / n, Y: d.Y / n}
		mid := (t.From + t.To) / 2
		at := a.Add(shape.Point{X: along.X * mid, Y: along.Y * mid})
		// The cut line runs beside the finished edge.
		if along.X != 0 {
			at.Y = finished[t.Edge].Y
		} else {
			at.X = finished[t.Edge].X
		}
		st := stub{at: at, out: shape.Point{X: along.Y, Y: -along.X}}
		st.shows = p.lifts < 0 && !s.covered(p, at.Add(shape.Point{X: st.out.X * 100, Y: st.out.Y * 100}))
		out = append(out, st)
	}
	s.found[p.piece] = out
	return out
}

// covered says whether anything higher than p covers a place.
func (s *sprite) covered(p *part, at shape.Point) bool {
	for i := range s.parts {
		q := &s.parts[i]
		if q.layer.Height > p.layer.Height && holds(q.shape, at) {
			return true
		}
	}
	return false
}

func holds(p *outline.Part, at shape.Point) bool {
	b := p.Bounds
	if at.X < b.Min.X || at.X > b.Max.X || at.Y < b.Min.Y || at.Y > b.Max.Y {
		return false
	}
	return p.Outline.Flatten(5).Where(at) == shape.Inside
}

// toTrim is the parts with stubs on edges that show, and how many.
func (s *sprite) toTrim() []string {
	var out []string
	for _, p := range s.asCut() {
		n := 0
		for _, t := range s.stubs(p) {
			if t.shows {
				n++
			}
		}
		if n > 0 {
			out = append(out, fmt.Sprintf(english.stub, p.number, n))
		}
	}
	return out
}
