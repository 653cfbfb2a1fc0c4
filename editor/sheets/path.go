package sheets

import (
	"strconv"

	"sheetsprite/engine/shape"
)

// mm is a length in millimetres.
func mm(u shape.Um) float64 { return float64(u) / 1000 }

// Frame turns a sheet's, or a sprite's, coordinates over: the page's y runs down.
type Frame struct{ Height shape.Um }

func (f Frame) point(p shape.Point) [2]float64 { return [2]float64{mm(p.X), mm(f.Height - p.Y)} }

// Outline is a part's outline with its holes as an SVG path.
func (f Frame) Outline(o shape.Outline) string {
	d := f.path(o.Outer, true)
	for _, hole := range o.Holes {
		d += f.path(hole, true)
	}
	return d
}

// Line is a straight line as an SVG path.
func (f Frame) Line(from, to shape.Point) string {
	return f.path(shape.Contour{{Point: from}, {Point: to}}, false)
}

// path is a contour as an SVG path.
func (f Frame) path(c shape.Contour, closed bool) string {
	if len(c) == 0 {
		return ""
	}
	b := f.add(append([]byte(nil), 'M'), c[0].Point)
	last := len(c)
	if !closed {
		last--
	}
	for i := range last {
		v, next := c[i], c[(i+1)%len(c)].Point
		switch {
		case v.Arc != nil:
			b = f.arc(b, v, next)
		case i == len(c)-1: // the way back
		case v.Y == next.Y:
			b = number(append(b, 'H'), next.X)
		case v.X == next.X:
			b = number(append(b, 'V'), f.Height-next.Y)
		default:
			b = f.add(append(b, 'L'), next)
		}
	}
	if closed {
		b = append(b, 'Z')
	}
	return string(b)
}

// arc goes on along the arc of a vertex, in two halves where it might be more
// than half a circle: SVG's flags would have to say so.
func (f Frame) arc(b []byte, v shape.Vertex, to shape.Point) []byte {
	sweep := byte('0') // y runs down here, so anticlockwise stays anticlockwise to the eye
	if v.Arc.Turn == shape.Clockwise {
		sweep = '1'
	}
	a, e := v.Sub(v.Arc.Centre), to.Sub(v.Arc.Centre)
	cross := int64(a.X)*int64(e.Y) - int64(a.Y)*int64(e.X)
	large := byte('0')
	if (v.Arc.Turn == shape.Anticlockwise) == (cross < 0) && cross != 0 {
		large = '1'
	}
	b = number(append(b, 'A'), v.Arc.Radius)
	b = number(append(b, ' '), v.Arc.Radius)
	b = append(b, ' ', '0', ' ', large, ' ', sweep, ' ')
	return f.add(b, to)
}

func (f Frame) add(b []byte, p shape.Point) []byte {
	return number(append(number(b, p.X), ' '), f.Height-p.Y)
}

func number(b []byte, u shape.Um) []byte { return strconv.AppendFloat(b, mm(u), 'f', -1, 64) }
