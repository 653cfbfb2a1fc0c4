package guide

import (
	"fmt"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/assemble"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// sheetMaps draws every sheet as it comes off the machine, with the parts'
// numbers.
func (g *guide) sheetMaps() {
	for i := range g.job.Plan.Sheets.List {
		g.sheetMap(&g.job.Plan.Sheets.List[i], g.job.Sheets[i])
	}
}

func (g *guide) sheetMap(sh *engine.Sheet, file string) {
	name := fmt.Sprintf(english.sheet, g.stockName(sh.Stock), sh.Number)
	g.about = g.jobName()
	g.begin(name, atAnyScale)
	width, height := sh.Size.Width, sh.Size.Height
	head := g.y
	w, h := g.paper.width()-2*gutter, g.paper.floor()-head-22*shape.Mm
	scale := min(1000, int64(w*1000/width), int64(h*1000/height))
	face := english.faceUp
	if sh.Face == project.FaceDown {
		face = english.faceDown
	}
	g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.sheetFacts, g.paper.size(width, height),
		english.counted(len(sh.Placed), english.parts), percent(scale)), normal, plain, quiet)
	weight, colour := plain, quiet
	if sh.Face == project.FaceDown {
		weight, colour = bold, signal
	}
	g.y = g.paragraph(side, g.y, g.paper.width(), face, normal, weight, colour)
	g.y = g.paragraph(side, g.y, g.paper.width(), fmt.Sprintf(english.file, file), normal, plain, quiet) + 3*shape.Mm
	drawnW, drawnH := width*shape.Um(scale)/1000, height*shape.Um(scale)/1000
	x := side + gutter + (w-drawnW)/2
	v := view{X: x, Y: g.y + drawnH, Scale: scale}
	g.box(x, g.y, drawnW, drawnH, look{fill: &well, stroke: &edge, width: 200})
	g.onPage(v)
	for _, f := range sh.Frames {
		g.outline(v, look{stroke: &quiet, width: 200, dashed: true}, f.Line)
	}
	for _, i := range sh.Placed {
		g.outline(v, card(sh.Stock), g.job.Plan.Sheets.Parts[i].Line)
	}
	g.offPage()
	var labels []label
	for _, i := range sh.Placed {
		p := &g.job.Plan.Sheets.Parts[i]
		labels = append(labels, label{p.Piece.Number, assemble.Inscribed(p.Line), sh.Stock.Colour})
	}
	g.writeLabels(v, g.place(v, labels), x, x+drawnW, g.y, g.y+drawnH)
}

// percent is a scale in thousandths, in whole percents.
func percent(scale int64) string { return fmt.Sprintf(english.percent, (scale+5)/10) }

// cautions is the last page: what to mind.
func (g *guide) cautions() {
	g.about = g.jobName()
	g.begin(english.mind, atAnyScale)
	g.heading(english.trim)
	any := false
	for i := range g.sprites {
		s := &g.sprites[i]
		trim := s.toTrim()
		if len(trim) == 0 {
			continue
		}
		if !any {
			g.item(english.trimHelp)
			any = true
		}
		g.item(fmt.Sprintf(english.titled, g.title(s), strings.Join(trim, english.comma)))
	}
	if !any {
		g.item(english.noTrim)
	}
	g.heading(english.build)
	for _, text := range english.buildHelp {
		g.item(text)
	}
	g.heading(english.safety)
	for _, text := range english.safeHelp {
		g.item(text)
	}
}
