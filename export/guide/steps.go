package guide

import (
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// The widths of a step: its picture with its gutters, and its words.
const (
	stepPicture = 104 * shape.Mm
	stepGap     = 5 * shape.Mm
	stepHighest = 70 * shape.Mm
)

// stepsOf draws a sprite's steps, each with only what is new in colour and what
// is already there in grey.
func (g *guide) stepsOf(s *sprite) {
	g.about = g.spriteName(s)
	size := s.size()
	w := stepPicture - 2*gutter
	scale := min(1000, int64(w*1000/size.X), int64(stepHighest*1000/size.Y))
	placed := newPile(g.pen, size)
	heading := fmt.Sprintf(english.titled, g.title(s), english.steps)
	g.y += 2 * shape.Mm
	for n, step := range s.built.Steps {
		// Room for the gutters' numbers is found before the height is known.
		v := view{Scale: scale}
		var labels []label
		for _, i := range step.Parts {
			labels = append(labels, label{s.parts[i].number, s.parts[i].region, s.parts[i].stock.Colour})
		}
		list := g.place(v, labels)
		words := g.stepWords(s, step)
		drawn := size.Y * shape.Um(scale) / 1000
		h := max(drawn, min(stepHighest, shape.Um(outside(list))*gutterStep))
		text := g.paper.width() - stepPicture - stepGap
		full := max(h, g.stepHeight(words, text)) + 9*shape.Mm
		if g.y+full > g.paper.floor() && g.y > 40*shape.Mm {
			g.begin(heading, atAnyScale)
		} else if n == 0 {
			g.heading(english.steps)
		}
		g.rule(edge, 120, side, g.y, g.paper.Width-side, g.y)
		g.y += 4 * shape.Mm
		v.X, v.Y = side+gutter+(w-size.X*shape.Um(scale)/1000)/2, g.y+(h+drawn)/2
		g.drawStep(s, step, v, placed)
		g.writeLabels(v, list, v.X, v.X+size.X*shape.Um(scale)/1000, g.y, g.y+h)
		foot, page := v.Y+(h-drawn)/2, g.pages
		g.writeStep(s, n+1, step, words, side+stepPicture+stepGap, text, heading)
		if g.pages == page {
			g.y = max(g.y, foot)
		}
		g.y += 5 * shape.Mm
		var laid []shape.Outline
		for _, i := range step.Parts {
			laid = append(laid, s.parts[i].shape.Outline)
		}
		placed.put(laid)
	}
}

// drawStep draws what lies there and what is new, with the places of its pads.
func (g *guide) drawStep(s *sprite, step assemble.Step, v view, placed *lyingPile) {
	g.onPage(v)
	placed.draw(v)
	for _, i := range step.Parts {
		c := card(s.parts[i].stock)
		c.width = 200
		g.outline(v, c, s.parts[i].shape.Outline)
	}
	for _, i := range step.Parts {
		line := contrast(s.parts[i].stock.Colour)
		for _, pad := range s.built.Parts[i].Pads {
			g.paint(v, look{stroke: &line, width: 150, dashed: true}, boxed(pad))
		}
		for _, sp := range s.built.Parts[i].Spacers {
			g.paint(v, look{stroke: &line, width: 150, dashed: true}, sp.Outer)
		}
		g.seams(v, line, s.parts[i].piece)
	}
	g.offPage()
}

// seams draws where the pieces of a part meet.
func (g *guide) seams(v view, line project.RGB, c *cut.Piece) {
	for _, seam := range c.Seams {
		b := look{stroke: &line, width: 250, dashed: true}.begin(nil, v)
		b = appendPoint(b, seam.From, true)
		b = appendPoint(b, seam.To, false)
		g.raw(append(b, 'S'))
	}
}

// numbersOf are the numbers of pieces.
func numbersOf(list []cut.Piece) []string {
	out := make([]string, len(list))
	for i := range list {
		out[i] = list[i].Number
	}
	return out
}

func boxed(r shape.Rect) shape.Contour {
	return shape.Ring{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}.Contour()
}

// stepWords are what is to be done, a paragraph each.
func (g *guide) stepWords(s *sprite, step assemble.Step) []string {
	var out []string
	if len(step.Parts) == 0 {
		return nil
	}
	lift := s.built.Lifts[step.Height-1]
	pads := 0
	for _, i := range step.Parts {
		pads += len(s.built.Parts[i].Pads)
	}
	if lift.Kind == assemble.Foam && pads > 0 {
		out = append(out, fmt.Sprintf(english.padding, english.counted(pads, english.pads),
			g.paper.length(lift.Thick), g.paper.length(assemble.Back(lift.Thick))))
	}
	if lift.Kind == assemble.Spacer {
		out = append(out, g.spacing(s, step, lift)...)
	}
	for _, below := range belows(s, step) {
		var numbers []string
		for _, i := range step.Parts {
			if s.built.Parts[i].On == below {
				numbers = append(numbers, s.parts[i].number)
			}
		}
		if below < 0 {
			out = append(out, fmt.Sprintf(english.ontoBoard, strings.Join(numbers, english.comma)))
		} else {
			out = append(out, fmt.Sprintf(english.onto, strings.Join(numbers, english.comma), s.parts[below].number))
		}
	}
	for _, i := range step.Parts {
		if list := s.parts[i].piece.Pieces; len(list) > 0 {
			out = append(out, fmt.Sprintf(english.inPieces, s.parts[i].number, len(list), joined(numbersOf(list))))
		}
	}
	if lift.Kind == assemble.Tape {
		out = append(out, english.taped)
	}
	if s.parts[step.Parts[0]].stock.Face == project.FaceDown {
		out = append(out, english.turned)
	}
	out = append(out, g.pinning(s, step)...)
	out = append(out, g.framed(s, step)...)
	out = append(out, g.jigged(s, step)...)
	for _, root := range s.built.Apart() {
		if slices.Contains(step.Parts, root) {
			out = append(out, fmt.Sprintf(english.apartly, s.parts[root].number, english.counted(s.built.Carries(root), english.parts)))
		}
	}
	return out
}

// framed says of parts that stay in a frame how they are laid down at once.
func (g *guide) framed(s *sprite, step assemble.Step) []string {
	sheets := g.job.Plan.Sheets
	var from []string
	for _, i := range sheets.FrameSheets(s.index, s.plan.Layout.Layers[step.Layer].Number) {
		if i < 0 {
			continue
		}
		sh := &sheets.List[i]
		if name := fmt.Sprintf(english.sheet, g.stockName(sh.Stock), sh.Number); !slices.Contains(from, name) {
			from = append(from, name)
		}
	}
	if len(from) == 0 {
		return nil
	}
	var numbers []string
	for _, i := range step.Parts {
		numbers = append(numbers, s.parts[i].number)
	}
	return []string{fmt.Sprintf(english.whole, joined(numbers), joined(from))}
}

// jigged says of a height with a jig how that lies.
func (g *guide) jigged(s *sprite, step assemble.Step) []string {
	j := g.job.Plan.Sheets.JigFor(s.index, step.Height)
	if j == nil {
		return nil
	}
	return []string{fmt.Sprintf(english.jig, j.Height, g.stockName(j.Stock), g.paper.length(j.Pack))}
}

// pinning says what to do about pins: all of it where the first part with a hole is
// placed, and at each part that ends one.
func (g *guide) pinning(s *sprite, step assemble.Step) []string {
	var out []string
	pins := s.plan.Pins
	if len(pins) == 2 && slices.Contains(step.Parts, pins[0].Parts[0]) {
		w, _ := pins[0].Hole.Size()
		var through [2]string
		for k, pin := range pins {
			var numbers []string
			for _, i := range pin.Parts {
				numbers = append(numbers, s.parts[i].number)
			}
			through[k] = joined(numbers)
		}
		words := fmt.Sprintf(english.pinsApart, through[0], through[1])
		if through[0] == through[1] {
			words = fmt.Sprintf(english.pinsAlike, through[0])
		}
		out = append(out, fmt.Sprintf(english.pinned, g.paper.length(w), words))
	}
	for k, pin := range pins {
		if slices.Contains(step.Parts, pin.Under) && (k == 0 || pins[0].Under != pin.Under) {
			out = append(out, fmt.Sprintf(english.pinEnd, s.parts[pin.Under].number))
		}
	}
	return out
}

// spacing says which spacers go under which of a step's parts.
func (g *guide) spacing(s *sprite, step assemble.Step, lift assemble.Lift) []string {
	out := []string{fmt.Sprintf(english.spacing, g.stockName(s.plan.Stocks[lift.Stock]), g.paper.length(assemble.Back(lift.Rise())))}
	under := map[int][]string{}
	for i := s.plan.Parts(); i < len(s.parts); i++ {
		under[s.parts[i].lifts] = append(under[s.parts[i].lifts], s.parts[i].number)
	}
	for _, i := range step.Parts {
		if list := under[i]; len(list) > 0 {
			out = append(out, fmt.Sprintf(english.spacerUnder, strings.Join(list, english.comma), s.parts[i].number))
		}
	}
	return out
}

// belows are what a step's parts rest on, in the order of the parts.
func belows(s *sprite, step assemble.Step) []int {
	var out []int
	for _, i := range step.Parts {
		if on := s.built.Parts[i].On; !slices.Contains(out, on) {
			out = append(out, on)
		}
	}
	return out
}

// stepHead is the height of a step's first two lines.
func stepHead() shape.Um { return medium.lead() + small.lead() + 2*shape.Mm }

func (g *guide) stepHeight(words []string, width shape.Um) shape.Um {
	h := stepHead()
	for _, w := range words {
		h += shape.Um(len(g.lines(w, width, normal, plain)))*normal.lead() + 800
	}
	return h
}

// writeStep writes a step's words beside its picture, and goes on over the page
// where there are many.
func (g *guide) writeStep(s *sprite, n int, step assemble.Step, words []string, x, width shape.Um, heading string) {
	stock := s.plan.Stocks[step.Stock]
	y := g.y
	g.write(x, y+medium.cap(), fmt.Sprintf(english.step, n), medium, bold, ink)
	y += medium.lead()
	g.box(x, y, 3*shape.Mm, 3*shape.Mm, look{fill: &stock.Colour, stroke: &quiet, width: 100})
	name := g.stockName(stock)
	facts := fmt.Sprintf(english.stepFacts, name, step.Height, english.counted(len(step.Parts), english.parts))
	if c := s.copies(); c > 1 {
		facts += english.comma + fmt.Sprintf(english.eachOf, english.several(c))
	}
	for i, line := range g.lines(facts, width-4500, small, plain) {
		if i > 0 {
			y += small.lead()
		}
		g.write(x+4500, y+2500, line, small, plain, quiet)
	}
	y += small.lead() + 1500
	for _, text := range words {
		for _, line := range g.lines(text, width, normal, plain) {
			if y+normal.lead() > g.paper.floor() {
				g.begin(fmt.Sprintf(english.continued, heading), atAnyScale)
				y = g.y
			}
			y += normal.lead()
			g.write(x, y-normal.lead()/4, line, normal, plain, ink)
		}
		y += 800
	}
	g.y = y
}
