package guide

import (
	"crypto/sha256"
	"errors"
	"strconv"

	"codeberg.org/go-pdf/fpdf"

	"sheetsprite/engine/shape"
)

// form is a drawing that stands in the file once and is drawn wherever it is
// wanted: a form XObject (ISO 32000-1, 8.10). Colours and the line's width are
// those of the page that draws it. It has coordinates of its own, from 0.
//
// Without it every step would hold the outlines of all that lies there already,
// and a guide would grow with the square of its parts.
type form struct {
	id            int
	width, height shape.Um
	content       []byte
	uses          []fpdf.Template // forms that it draws itself
}

// formMargin is kept free around a form's drawing, in µm of the drawing, so that
// its edge, where the form is cut off, doesn't cut the lines: they are at most
// 0.2 mm wide on paper at a hundredth of the true scale.
const formMargin = 20 * shape.Mm

// leastForm is how many bytes of content are worth an object of their own, which
// takes some 250.
const leastForm = 400

var errForm = errors.New("a form is not kept outside its file")

// ID, Size and so on make a form a template of the PDF library.
func (f *form) ID() string { return strconv.Itoa(f.id) }

// Size is the form's extent. The library calls the units points; they are what
// the group that draws the form says: the drawing's µm.
func (f *form) Size() (fpdf.PointType, fpdf.SizeType) {
	return fpdf.PointType{}, fpdf.SizeType{Wd: float64(f.width), Ht: float64(f.height)}
}

// Bytes is the form's content, once: the library asks for it where it writes the file,
// and what is written needn't be held any more.
func (f *form) Bytes() []byte {
	b := f.content
	f.content = nil
	return b
}

func (f *form) Images() map[string]*fpdf.ImageInfoType { return nil }
func (f *form) Templates() []fpdf.Template             { return f.uses }
func (f *form) NumPages() int                          { return 1 }
func (f *form) FromPage(int) (fpdf.Template, error)    { return f, nil }
func (f *form) FromPages() []fpdf.Template             { return []fpdf.Template{f} }
func (f *form) Serialize() ([]byte, error)             { return nil, errForm }
func (f *form) GobEncode() ([]byte, error)             { return nil, errForm }
func (f *form) GobDecode([]byte) error                 { return errForm }

// form keeps a drawing of w × h, once: equal drawings are one form.
func (p *pen) form(w, h shape.Um, content []byte, uses ...fpdf.Template) *form {
	key := sha256.Sum256(content)
	if p.forms[key] == nil {
		p.forms[key] = &form{id: len(p.forms) + 1, width: w, height: h, content: content, uses: uses}
	}
	return p.forms[key]
}

// drawForm draws a form on the page with its origin at a point of the drawing.
// The first time the library does it, to know that the form is wanted.
func (p *pen) drawForm(f *form, at shape.Point) {
	if !p.drawn[f] {
		p.drawn[f] = true
		high := float64(f.height)
		_, page := p.pdf.GetPageSize()
		p.pdf.UseTemplateScaled(f, fpdf.PointType{X: float64(at.X), Y: page - float64(at.Y) - high},
			fpdf.SizeType{Wd: float64(f.width), Ht: high})
		return
	}
	p.raw(f.draw(nil, at))
}

// draw appends the operators that draw a form.
func (f *form) draw(b []byte, at shape.Point) []byte {
	if at == (shape.Point{}) {
		return append(append(append(b, "/TPL"...), f.ID()...), " Do\n"...)
	}
	b = append(b, "q 1 0 0 1 "...)
	b = append(strconv.AppendInt(b, int64(at.X), 10), ' ')
	b = append(strconv.AppendInt(b, int64(at.Y), 10), " cm /TPL"...)
	return append(append(b, f.ID()...), " Do Q\n"...)
}

// formOf is the form of a part painted so, and where its origin lies; nil where
// the outline is too short to be worth one.
func (p *pen) formOf(o shape.Outline, l look) (*form, shape.Point) {
	bounds := o.Bounds()
	origin := bounds.Min.Sub(shape.Point{X: formMargin, Y: formMargin})
	content := painted(o, l, origin)
	if len(content) < leastForm {
		return nil, origin
	}
	w, h := bounds.Size()
	return p.form(w+2*formMargin, h+2*formMargin, content), origin
}

// painted is a part's path and how it is painted, seen from an origin.
func painted(o shape.Outline, l look, origin shape.Point) []byte {
	b := appendContour(nil, o.Outer, origin)
	for _, h := range o.Holes {
		b = appendContour(b, h, origin)
	}
	return append(append(b, l.operator()...), '\n')
}

// lyingPile draws what the steps put down, in grey: it holds forms of forms, each
// of twice as many steps as the one after it, so that a step draws few of them
// and each part stands in few of them.
type lyingPile struct {
	p             *pen
	width, height shape.Um // of the sprite, with margins
	forms         []*form
	steps         []int // how many steps each form holds
}

// pileOrigin is where the origin of a pile's forms lies in the drawing.
var pileOrigin = shape.Point{X: -formMargin, Y: -formMargin}

// lyingLook is how parts are drawn that lie there already.
var lyingLook = look{fill: &lying, stroke: &edge, width: 100}

func newPile(p *pen, size shape.Point) *lyingPile {
	return &lyingPile{p: p, width: size.X + 2*formMargin, height: size.Y + 2*formMargin}
}

// put lays down a step's parts.
func (l *lyingPile) put(outlines []shape.Outline) {
	if len(outlines) == 0 {
		return
	}
	var content []byte
	var uses []fpdf.Template
	for _, o := range outlines {
		if f, at := l.p.formOf(o, lyingLook); f != nil {
			content = f.draw(content, at.Sub(pileOrigin))
			uses = append(uses, f)
		} else {
			content = append(content, painted(o, lyingLook, pileOrigin)...)
		}
	}
	l.forms, l.steps = append(l.forms, l.p.form(l.width, l.height, content, uses...)), append(l.steps, 1)
	for n := len(l.forms); n > 1 && l.steps[n-2] == l.steps[n-1]; n-- {
		below, upper := l.forms[n-2], l.forms[n-1]
		both := l.p.form(l.width, l.height, upper.draw(below.draw(nil, shape.Point{}), shape.Point{}), below, upper)
		l.forms, l.steps = append(l.forms[:n-2], both), append(l.steps[:n-2], 2*l.steps[n-1])
	}
}

// draw draws all that lies there.
func (l *lyingPile) draw(v view) {
	if len(l.forms) == 0 {
		return
	}
	l.p.raw(lyingLook.begin(nil, v))
	for _, f := range l.forms {
		l.p.drawForm(f, pileOrigin)
	}
}
