package guide

import (
	"fmt"
	"strconv"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// cover shows what it will look like and what it takes.
func (g *guide) cover() {
	g.about = g.jobName()
	g.begin("", atAnyScale)
	name := g.jobName()
	for _, line := range g.lines(name, g.paper.width(), huge, bold) {
		g.write(side, g.y+huge.cap(), line, huge, bold, ink)
		g.y += huge.lead()
	}
	parts, spacers, seconds := 0, 0, 0
	for _, c := range g.job.Plan.Sheets.Parts {
		built := g.job.Plan.Assembly[c.Sprite].Parts
		if c.Piece.Part.Index >= len(built) {
			if c.First() {
				spacers++ // whoever places the part on it counts its time
			}
			continue
		}
		if !c.First() {
			continue
		}
		parts++
		seconds += built[c.Piece.Part.Index].Seconds
	}
	g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.summary, english.counted(len(g.sprites), english.sprites),
		english.partsAnd(parts, spacers), english.span(seconds)), medium, plain, quiet)
	g.y += 5 * shape.Mm
	items := g.needs(seconds)
	room := g.paper.floor() - g.y - g.needsHeight(items)
	g.pictures(max(55*shape.Mm, room))
	g.heading(english.takes)
	g.stocks()
	g.y += 3 * shape.Mm
	for _, text := range items {
		g.item(text)
	}
}

// needs is what a job takes beside card, a paragraph each.
func (g *guide) needs(seconds int) []string {
	var out []string
	for _, f := range g.foams() {
		out = append(out, fmt.Sprintf(english.foam, g.paper.length(f.thick),
			g.paper.length((f.length+9999)/10000*10000), english.counted(f.pads, english.pads)))
	}
	out = append(out, english.flat, english.toolList, fmt.Sprintf(english.time, english.span(seconds)))
	for _, f := range g.job.Plan.Findings {
		if f.Code == inspect.ShelfShort {
			out = append(out, fmt.Sprintf(english.titled, english.buy, f.Text))
		}
	}
	return append(out, english.fullScale)
}

// needsHeight is how high the list of stocks and what follows it are.
func (g *guide) needsHeight(items []string) shape.Um {
	h := shape.Um(len(g.used())+1)*stockLine + 20*shape.Mm
	for _, text := range items {
		h += shape.Um(len(g.lines(text, g.paper.width()-4*shape.Mm, normal, plain)))*normal.lead() + 700
	}
	return h
}

// heading begins a part of a page.
func (g *guide) heading(text string) {
	g.room(20*shape.Mm, "", atAnyScale)
	g.y += 3 * shape.Mm
	g.write(side, g.y+medium.cap(), text, medium, bold, ink)
	g.y += medium.cap() + 2500
}

// item writes a paragraph of a list.
func (g *guide) item(text string) {
	text = g.legibleLong(text)
	n := shape.Um(len(g.lines(text, g.paper.width()-4*shape.Mm, normal, plain)))
	g.room(n*normal.lead()+1000, "", atAnyScale)
	g.box(side, g.y+1400, 1200, 1200, look{fill: &signal})
	g.y = g.paragraph(side+4*shape.Mm, g.y, g.paper.width()-4*shape.Mm, text, normal, plain, ink) + 700
}

// pictures are the sprites as they will look, in rows that take a height.
func (g *guide) pictures(height shape.Um) {
	n := len(g.sprites)
	cols := 1
	for cols*cols < n {
		cols++
	}
	if n > 2 && (cols-1)*cols >= n {
		cols = max(cols, 2)
	}
	rows := (n + cols - 1) / cols
	w := g.paper.width() / shape.Um(cols)
	h := min(w, height/shape.Um(rows))
	for i := range g.sprites {
		s := &g.sprites[i]
		x, y := side+shape.Um(i%cols)*w, g.y+shape.Um(i/cols)*h
		caption := g.title(s)
		if c := s.copies(); c > 1 {
			caption += " × " + strconv.Itoa(c)
		}
		const line = 5 * shape.Mm
		iw, ih := g.pictureSize(i, w-4*shape.Mm, h-line-2*shape.Mm)
		g.image(s.png, x+(w-4*shape.Mm-iw)/2, y, iw, ih)
		size := normal
		for size > tiny && g.wide(caption, size, bold) > w-4*shape.Mm {
			size -= 0.5
		}
		g.writeMiddle(x+(w-4*shape.Mm)/2, y+ih+line/2, g.fit(caption, w-4*shape.Mm, size, bold), size, bold, ink)
	}
	g.y += shape.Um(rows)*h + 2*shape.Mm
}

// pictureSize fits a picture of the sprite into a box.
func (g *guide) pictureSize(i int, w, h shape.Um) (iw, ih shape.Um) {
	pw, ph := pngSize(g.sprites[i].png)
	if shape.Um(pw)*h > shape.Um(ph)*w {
		return w, w * shape.Um(ph) / shape.Um(pw)
	}
	return h * shape.Um(pw) / shape.Um(ph), h
}

// stockLine is the height of a line in the list of stocks.
const stockLine = shape.Um(5500)

// used is a stock with what is cut from it.
type used struct {
	stock         project.Stock
	parts, sheets int
}

// used are the stocks that have parts, in the project's order.
func (g *guide) used() []used {
	var list []used
	for _, st := range g.job.Project.Stocks {
		l := used{stock: st}
		for _, c := range g.job.Plan.Sheets.Parts {
			if c.First() && g.job.Plan.Sprites[c.Sprite].Stocks[c.Piece.Layer.Stock].ID == st.ID {
				l.parts++
			}
		}
		for _, sh := range g.job.Plan.Sheets.List {
			if sh.Stock.ID == st.ID {
				l.sheets++
			}
		}
		if l.parts > 0 {
			list = append(list, l)
		}
	}
	return list
}

// stocks lists the stocks with their parts and sheets.
func (g *guide) stocks() {
	list := g.used()
	right := g.paper.Width - side
	stops := [3]shape.Um{right - 60*shape.Mm, right - 25*shape.Mm, right}
	put := func(cells [4]string, w weight, c project.RGB) {
		g.write(side+8*shape.Mm, g.y+4*shape.Mm, cells[0], normal, w, c)
		for i, stop := range stops {
			g.write(stop-g.wide(cells[i+1], normal, w), g.y+4*shape.Mm, cells[i+1], normal, w, c)
		}
	}
	put(english.columns, plain, quiet)
	g.y += stockLine
	for _, l := range list {
		g.room(6*shape.Mm, english.takes, atAnyScale)
		g.rule(edge, 100, side, g.y, right, g.y)
		g.box(side, g.y+900, 5*shape.Mm, 4*shape.Mm, look{fill: &l.stock.Colour, stroke: &quiet, width: 100})
		put([4]string{g.fit(g.stockName(l.stock), stops[0]-side-40*shape.Mm, normal, plain), g.paper.length(l.stock.Thickness), strconv.Itoa(l.parts), strconv.Itoa(l.sheets)}, plain, ink)
		g.y += stockLine
	}
	g.rule(edge, 100, side, g.y, right, g.y)
}

// foamed is the foam of one thickness that a job takes.
type foamed struct {
	thick, length shape.Um
	pads          int
}

// foams is all foam, by the order in which it is first met.
func (g *guide) foams() []foamed {
	var out []foamed
	for i := range g.sprites {
		s := &g.sprites[i]
		for _, p := range s.built.Parts {
			lift := s.built.Lifts[p.Height-1]
			if lift.Kind != assemble.Foam || len(p.Pads) == 0 || !s.parts[p.Index].wanted {
				continue
			}
			k := 0
			for k < len(out) && out[k].thick != lift.Thick {
				k++
			}
			if k == len(out) {
				out = append(out, foamed{thick: lift.Thick})
			}
			for _, pad := range p.Pads {
				w, h := pad.Size()
				out[k].length += max(w, h) * shape.Um(s.copies())
				out[k].pads += s.copies()
			}
		}
	}
	return out
}
