package guide

import (
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Paper is what the guide is printed on.
type Paper struct {
	Name          string
	Width, Height shape.Um
	Inches        Inches
}

// Inches says whether lengths are given in inches, too.
type Inches bool

// The papers: ISO 216 A4, and US Letter, 8.5 × 11 in.
var (
	A4     = Paper{"A4", 210 * shape.Mm, 297 * shape.Mm, false}
	Letter = Paper{"Letter", 215900, 279400, true}
)

// PaperFor is the paper of a project, with the units that it asks for: where it
// asks for none, Letter where its sheets are Letter or a craft card in whole
// inches, else A4; inches on Letter.
func PaperFor(p *project.Project) Paper {
	paper := bySheets(p)
	switch p.Settings.Paper {
	case project.PaperA4:
		paper = A4
	case project.PaperLetter:
		paper = Letter
	}
	if u := p.Settings.Units; u != "" {
		paper.Inches = u == project.MmAndInch
	}
	return paper
}

func bySheets(p *project.Project) Paper {
	w, h := p.Settings.SheetW, p.Settings.SheetH
	if w > h {
		w, h = h, w
	}
	near := func(a, b shape.Um) bool { return a-b < shape.Mm && b-a < shape.Mm }
	if near(w, Letter.Width) && near(h, Letter.Height) || near(w, 304800) && near(h, 304800) {
		return Letter
	}
	return A4
}

// Margins of every page. Few printers print nearer to the edge than 6 mm
// (common practice, no source).
const (
	side   = 14 * shape.Mm
	top    = 14 * shape.Mm
	bottom = 24 * shape.Mm // the foot with its check figure lies below
)

// width and floor are what a page has room for, and where its lower end is.
func (p Paper) width() shape.Um { return p.Width - 2*side }
func (p Paper) floor() shape.Um { return p.Height - bottom }
