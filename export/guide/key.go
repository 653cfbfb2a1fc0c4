package guide

import (
	"fmt"
	"strconv"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// title is how a sprite is called: its letters and its name.
func (g *guide) title(s *sprite) string {
	if name := g.spriteName(s); name != s.plan.Letters {
		return s.plan.Letters + "  " + name
	}
	return s.plan.Letters
}

// spriteName is a sprite's name, or its letters where the fonts don't hold it.
func (g *guide) spriteName(s *sprite) string { return g.legible(s.source.Name, s.plan.Letters) }

// stockName is a stock's name, or its ID where the fonts don't hold it: its files
// are named after that.
func (g *guide) stockName(st project.Stock) string {
	return g.legible(st.Name, g.legible(st.ID, english.noName))
}

// jobName is the project's name.
func (g *guide) jobName() string { return g.legible(g.job.Project.Name, english.noName) }

// keyOf shows which part is which, at true scale, beside the stack pulled apart.
func (g *guide) keyOf(s *sprite) {
	g.about = g.spriteName(s)
	g.begin(g.title(s), atTrueScale)
	g.facts(s)
	size := s.size()
	drawn := size.X + 2*gutter
	room := g.paper.floor() - g.y - 6*shape.Mm
	switch {
	case drawn+62*shape.Mm <= g.paper.width() && size.Y <= room:
		g.y += keyTop
		h := max(size.Y, 76*shape.Mm)
		g.keyHere(s, side+gutter, whole(s))
		g.pulledApart(s, side+drawn+2*shape.Mm, g.y, g.paper.width()-drawn-2*shape.Mm, min(h, room))
		g.y += min(h, room) + 4*shape.Mm
	case drawn <= g.paper.width() && size.Y <= room:
		g.y += keyTop
		g.keyHere(s, side+(g.paper.width()-size.X)/2, whole(s))
		g.y += size.Y + 8*shape.Mm
		g.apartBelow(s)
	default:
		g.keyTiles(s)
		g.apartBelow(s)
	}
}

// keyTop is the space over a key.
const keyTop = 3 * shape.Mm

// facts are a sprite's size and counts.
func (g *guide) facts(s *sprite) {
	text := fmt.Sprintf(english.facts, g.paper.size(s.size().X, s.size().Y),
		english.partsAnd(s.plan.Parts(), len(s.plan.Lifted)), g.paper.length(s.built.Total))
	if n := s.copies(); n > 1 {
		text = fmt.Sprintf(english.both, text, fmt.Sprintf(english.make, n, english.several(n)))
	}
	g.y = g.paragraph(side, g.y, g.paper.width(), text, normal, plain, quiet)
	g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.both, english.key, english.keyHelp), normal, plain, quiet)
}

// whole is a window on all of a sprite.
func whole(s *sprite) shape.Rect { return shape.Rect{Max: s.size()} }

// keyHere draws what is seen in a window of the sprite, at true scale, with the
// window's upper left corner at x and the guide's y.
func (g *guide) keyHere(s *sprite, x shape.Um, window shape.Rect) {
	w, h := window.Size()
	v := view{X: x, Y: g.y + h, From: window.Min, Scale: trueScale}
	g.onPage(v)
	g.clip(window)
	var labels []label
	for _, layer := range s.plan.Layout.Layers {
		for _, p := range layer.Parts {
			if q := &s.parts[p.Index]; meets(p.Bounds, window) {
				g.outline(v, card(q.stock), p.Outline)
			}
		}
	}
	g.offPage()
	frame := shape.FromRects([]shape.Rect{window})
	for i := range s.parts {
		q := &s.parts[i]
		if seen := q.seen.Intersect(frame); !seen.Empty() {
			labels = append(labels, label{q.number, seen, q.stock.Colour})
		}
	}
	g.writeLabels(v, g.place(v, labels), x, x+w, g.y, g.y+h)
}

// meets says whether two rectangles have a point in common.
func meets(a, b shape.Rect) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// card is how a part of a stock is drawn: its colour with a thin edge that shows
// on it and beside it.
func card(st project.Stock) look {
	line := quiet
	if contrast(st.Colour) == white {
		line = project.RGB{R: 0x9a, G: 0xa2, B: 0xaa}
	}
	return look{fill: &st.Colour, stroke: &line, width: 100}
}

// pulledApart draws the stack with its heights in the air, one over the other,
// in a box of the page, each with its name.
func (g *guide) pulledApart(s *sprite, x, y, w, h shape.Um) {
	const lean, flat = 350, 450
	names := 30 * shape.Mm
	size := s.size()
	heights := s.plan.Layout.Heights
	g.write(x, y+normal.cap(), english.apart, normal, bold, ink)
	y, h = y+6*shape.Mm, h-6*shape.Mm
	least := shape.Um(heights-1) * 7 * shape.Mm
	across := size.X + size.Y*lean/1000
	up := size.Y * flat / 1000
	scale := min(1000, int64((w-names)*1000/across), int64(max(h/3, h-least)*1000/up))
	rise := shape.Um(0)
	if heights > 1 {
		drawn := up * shape.Um(scale) / 1000
		rise = min(drawn+4*shape.Mm, (h-drawn)/shape.Um(heights-1))
	}
	for height := 1; height <= heights; height++ {
		v := view{X: x, Y: y + h - rise*shape.Um(height-1), Scale: scale, Lean: lean, Flat: flat}
		n := 0
		var stocks []string
		g.onPage(v)
		for _, layer := range s.plan.Layout.Layers {
			if layer.Height != height {
				continue
			}
			stocks = append(stocks, g.stockName(s.plan.Stocks[layer.Stock]))
			for _, p := range layer.Parts {
				g.outline(v, card(s.parts[p.Index].stock), p.Outline)
				n++
			}
		}
		g.offPage()
		ly := v.Y - up*shape.Um(scale)/2000
		lx := x + across*shape.Um(scale)/1000 + 1500
		g.write(lx, ly, strconv.Itoa(height), normal, bold, ink)
		room := int(max(1, rise/small.lead()))
		lx += 4 * shape.Mm
		// The number comes first: of a long name its end may have no room.
		lines := g.lines(english.counted(n, english.parts)+english.comma+joined(stocks), x+w-lx, small, plain)
		for k, line := range lines[:min(room, len(lines))] {
			g.write(lx, ly+shape.Um(k)*small.lead(), line, small, plain, quiet)
		}
	}
}

// apartBelow draws the stack pulled apart under the key, or on the next page.
func (g *guide) apartBelow(s *sprite) {
	h := min(120*shape.Mm, max(70*shape.Mm, shape.Um(s.plan.Layout.Heights)*14*shape.Mm))
	if g.y+h > g.paper.floor() {
		g.begin(fmt.Sprintf(english.continued, g.title(s)), atAnyScale)
	}
	g.pulledApart(s, side, g.y, g.paper.width(), h)
	g.y += h + 6*shape.Mm
}

// joined is names as a sentence lists them.
func joined(names []string) string {
	text := ""
	for i, n := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			text += english.and
		default:
			text += english.comma
		}
		text += n
	}
	return text
}
