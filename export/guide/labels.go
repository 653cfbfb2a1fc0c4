package guide

import (
	"cmp"
	"slices"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// label is a part's number on a drawing.
type label struct {
	text   string
	within shape.Region // where it may stand, in the drawing's µm: what is seen of the part
	on     project.RGB  // the colour it stands on
}

// gutter is what a drawing leaves on either side for numbers that don't fit on
// their part.
const gutter = 15 * shape.Mm

// sizes that numbers on parts are tried in.
var labelSizes = []points{9, 7.5, 6.5, 5.5}

// placed is a label with its place.
type placed struct {
	label
	size points
	at   shape.Point // its middle on the part, or the part's middle
	out  bool        // it stands in the gutter
}

// place finds room for each label on its part, else it goes into the gutter.
func (p *pen) place(v view, labels []label) []placed {
	out := make([]placed, len(labels))
	for i, l := range labels {
		out[i] = placed{label: l, size: labelSizes[len(labelSizes)-1], out: true}
		out[i].at = shape.Roomiest(l.within.Rects())
		for _, size := range labelSizes {
			w := p.wide(l.text, size, bold) + size.cap()
			h := size.cap() * 8 / 5
			spots := l.within.Spots(w*1000/shape.Um(v.Scale), h*1000/shape.Um(v.Scale))
			if len(spots) > 0 {
				out[i].size, out[i].at, out[i].out = size, shape.Roomiest(spots), false
				break
			}
		}
	}
	return out
}

// outside is how many labels stand in each gutter.
func outside(list []placed) (each int) {
	n := 0
	for _, l := range list {
		if l.out {
			n++
		}
	}
	return (n + 1) / 2
}

// gutterStep is the way from one number in a gutter to the next.
const gutterStep = 2800

// writeLabels writes the numbers: on the parts, and in gutters left and right of
// the space from x0 to x1 with a line to the part. y0 and y1 are where the
// gutters begin and end.
func (p *pen) writeLabels(v view, list []placed, x0, x1, y0, y1 shape.Um) {
	var left, right []placed
	var gone []placed
	for _, l := range list {
		if l.out {
			gone = append(gone, l)
			continue
		}
		x, y := v.at(l.at)
		p.writeMiddle(x, y, l.text, l.size, bold, contrast(l.on))
	}
	// The leftmost half goes left, so that both gutters fill alike.
	slices.SortStableFunc(gone, func(a, b placed) int { return cmp.Compare(a.at.X, b.at.X) })
	half := len(gone) / 2
	left, right = append(left, gone[:half]...), append(right, gone[half:]...)
	p.gutter(v, left, x0-gutter, x0, y0, y1, true)
	p.gutter(v, right, x1+gutter, x1, y0, y1, false)
}

// gutter writes numbers at x, from the top down, with a line to each part.
func (p *pen) gutter(v view, list []placed, x, inner, y0, y1 shape.Um, atLeft leftwards) {
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(a, b placed) int { return cmp.Compare(b.at.Y, a.at.Y) })
	step := shape.Um(gutterStep)
	if room := (y1 - y0) / shape.Um(len(list)); room < step {
		step = room
	}
	ys := make([]shape.Um, len(list))
	low := y0
	for i, l := range list {
		_, y := v.at(l.at)
		ys[i] = max(low, y)
		low = ys[i] + step
	}
	high := y1
	for i := len(ys) - 1; i >= 0; i-- {
		ys[i] = min(ys[i], high)
		high = ys[i] - step
	}
	size := min(points(6.5), points(float64(step)*72/25400/1.15))
	for i, l := range list {
		px, py := v.at(l.at)
		w := p.wide(l.text, size, bold)
		from, text := x+w+600, x
		if !atLeft {
			from, text = x-w-600, x-w
		}
		p.rule(quiet, 120, from, ys[i], inner, ys[i], px, py)
		p.dot(px, py)
		p.write(text, ys[i]+size.cap()/2, l.text, size, bold, ink)
	}
}

// leftwards says whether a gutter is the left one.
type leftwards bool

// dot is the end of a line to a part: seen on light and dark card.
func (p *pen) dot(x, y shape.Um) {
	p.box(x-350, y-350, 700, 700, look{fill: &white, stroke: &ink, width: 150})
}

// contrast is the colour of a text on a colour: dark on light, light on dark.
// The weights are those of BT.601's luma.
func contrast(on project.RGB) project.RGB {
	if 299*int(on.R)+587*int(on.G)+114*int(on.B) < 128_000 {
		return white
	}
	return ink
}
