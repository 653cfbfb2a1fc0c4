package guide

import (
	"strconv"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// view maps a drawing's µm, y up, onto a page: the drawing's point From lies at
// X, Y on the page. Scale is in thousandths: 1000 is true scale.
type view struct {
	X, Y  shape.Um
	From  shape.Point
	Scale int64
	Lean  int64 // thousandths by which what is higher on the drawing moves right
	Flat  int64 // thousandths of its height that the drawing keeps; 0: all
}

const trueScale = 1000

// at is where a point of the drawing lies on the page.
func (v view) at(p shape.Point) (x, y shape.Um) {
	d := p.Sub(v.From)
	flat := v.flat()
	return v.X + (d.X+d.Y*shape.Um(v.Lean)/1000)*shape.Um(v.Scale)/1000, v.Y - d.Y*shape.Um(flat)/1000*shape.Um(v.Scale)/1000
}

func (v view) flat() int64 {
	if v.Flat == 0 {
		return 1000
	}
	return v.Flat
}

// look says how a path is painted.
type look struct {
	fill   *project.RGB // nil: not filled
	stroke *project.RGB // nil: no line
	width  shape.Um     // of the line, on the page
	dashed bool         // a line of short dashes
}

// onPage opens a group in which coordinates are the drawing's whole µm.
func (p *pen) onPage(v view) {
	b := []byte("q ")
	s := float64(v.Scale) * 72 / 25400 / 1000 // points for a µm of the drawing
	lean := s * float64(v.Lean) / 1000
	rise := s * float64(v.flat()) / 1000
	x := pt(v.X) - float64(s*float64(v.From.X)) - float64(lean*float64(v.From.Y))
	y := pt(p.paper.Height-v.Y) - float64(rise*float64(v.From.Y))
	for _, m := range []float64{s, 0, lean, rise} {
		b = strconv.AppendFloat(b, m, 'f', 12, 64)
		b = append(b, ' ')
	}
	for _, m := range []float64{x, y} {
		b = appendNumber(b, m)
		b = append(b, ' ')
	}
	p.raw(append(b, "cm 1 j"...))
}

func (p *pen) offPage() { p.raw([]byte("Q")) }

// clip keeps all that follows in the group within a rectangle of the drawing.
func (p *pen) clip(r shape.Rect) {
	w, h := r.Size()
	var b []byte
	for _, v := range []shape.Um{r.Min.X, r.Min.Y, w, h} {
		b = strconv.AppendInt(b, int64(v), 10)
		b = append(b, ' ')
	}
	p.raw(append(b, "re W n"...))
}

// paint draws closed contours as one path, holes left open; the view is the
// group's, for the line's width.
func (p *pen) paint(v view, l look, contours ...shape.Contour) {
	b := l.begin(nil, v)
	for _, c := range contours {
		b = appendContour(b, c, shape.Point{})
	}
	p.raw(append(b, l.operator()...))
}

// outline draws a part.
func (p *pen) outline(v view, l look, o shape.Outline) {
	if p.watch != nil {
		p.watch(p.pages, v, o)
	}
	f, at := p.formOf(o, l)
	if f == nil {
		p.raw(append(l.begin(nil, v), painted(o, l, shape.Point{})...))
		return
	}
	p.raw(l.begin(nil, v))
	p.drawForm(f, at)
}

// operator paints the path, holes left open.
func (l look) operator() string {
	switch {
	case l.fill != nil && l.stroke != nil:
		return "B*"
	case l.fill != nil:
		return "f*"
	default:
		return "S"
	}
}

// begin sets colours and line.
func (l look) begin(b []byte, v view) []byte {
	if l.fill != nil {
		b = append(appendColour(b, *l.fill), "rg "...)
	}
	if l.stroke != nil {
		b = append(appendColour(b, *l.stroke), "RG "...)
		unit := float64(l.width) * 1000 / float64(v.Scale)
		b = append(appendNumber(b, unit), " w "...)
		if l.dashed {
			b = append(b, '[')
			b = append(appendNumber(b, 700*1000/float64(v.Scale)), ' ')
			b = append(appendNumber(b, 500*1000/float64(v.Scale)), "] 0 d "...)
		} else {
			b = append(b, "[] 0 d "...)
		}
	}
	return append(b, '\n')
}

// appendContour writes a closed contour as seen from an origin.
func appendContour(b []byte, c shape.Contour, origin shape.Point) []byte {
	for i, q := range c.Flatten(5) {
		b = appendPoint(b, q.Sub(origin), i == 0)
	}
	return append(b, "h\n"...)
}

func appendPoint(b []byte, q shape.Point, first bool) []byte {
	b = strconv.AppendInt(b, int64(q.X), 10)
	b = append(b, ' ')
	b = strconv.AppendInt(b, int64(q.Y), 10)
	if first {
		return append(b, " m\n"...)
	}
	return append(b, " l\n"...)
}

func appendColour(b []byte, c project.RGB) []byte {
	for _, v := range []uint8{c.R, c.G, c.B} {
		b = append(appendNumber(b, float64(v)/255), ' ')
	}
	return b
}

// page is the view in which a page itself is drawn on, y up.
func (p *pen) page() view { return view{X: 0, Y: p.paper.Height, Scale: trueScale} }

// box draws a rectangle of the page, given by its upper left corner.
func (p *pen) box(x, y, w, h shape.Um, l look) {
	low := shape.Point{X: x, Y: p.paper.Height - y - h}
	high := low.Add(shape.Point{X: w, Y: h})
	p.onPage(p.page())
	p.paint(p.page(), l, shape.Ring{low, {X: high.X, Y: low.Y}, high, {X: low.X, Y: high.Y}}.Contour())
	p.offPage()
}

// rule draws a line of the page through points x, y.
func (p *pen) rule(c project.RGB, width shape.Um, xy ...shape.Um) {
	v := p.page()
	p.onPage(v)
	b := look{stroke: &c, width: width}.begin(nil, v)
	for i := 0; i+1 < len(xy); i += 2 {
		b = appendPoint(b, shape.Point{X: xy[i], Y: p.paper.Height - xy[i+1]}, i == 0)
	}
	p.raw(append(b, 'S'))
	p.offPage()
}
