package guide

import (
	"strconv"

	"sheetsprite/engine/shape"
)

// scaled says whether a page's drawing is at true scale.
type scaled bool

const (
	atTrueScale scaled = true
	atAnyScale  scaled = false
)

// begin starts a page with a heading.
func (g *guide) begin(heading string, s scaled) {
	g.newPage()
	about := g.fit(g.about, g.paper.width()-110*shape.Mm, small, plain)
	g.foot = func() { g.drawFoot(s, about) }
	g.y = top
	if heading != "" {
		g.write(side, g.y+large.cap(), g.fit(heading, g.paper.width(), large, bold), large, bold, ink)
		g.y += large.cap() + 3*shape.Mm
	}
}

// drawFoot draws the page's foot: its number and, at true scale, the check
// figure.
func (g *guide) drawFoot(s scaled, about string) {
	y := g.paper.Height - 11*shape.Mm
	if s {
		g.checkFigure(side, y)
	}
	number := pageNumber(g.pages)
	g.write(g.paper.Width-side-g.wide(number, small, plain), y, number, small, plain, quiet)
	g.write(g.paper.Width-side-12*shape.Mm-g.wide(about, small, plain), y, about, small, plain, quiet)
}

// checkFigure is 50 mm with a tick every 10 mm; the line's ends are where its
// outer ticks are.
func (g *guide) checkFigure(x, y shape.Um) {
	const long = 50 * shape.Mm
	g.rule(ink, 200, x, y, x+long, y)
	for i := shape.Um(0); i <= 5; i++ {
		up := 1500 * shape.Um(1)
		if i == 0 || i == 5 {
			up = 3000
		}
		g.rule(ink, 200, x+i*10*shape.Mm, y, x+i*10*shape.Mm, y-up)
	}
	g.write(x+long+2*shape.Mm, y, english.check, small, plain, ink)
}

// room makes sure that height is left on the page, else begins another one.
func (g *guide) room(height shape.Um, heading string, s scaled) {
	if g.y+height > g.paper.floor() {
		g.begin(heading, s)
	}
}

func pageNumber(n int) string { return strconv.Itoa(n) }
