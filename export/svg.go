package export

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// writeSVG writes a layer as an SVG file: width, height and viewBox in mm, y
// running down from the top of the layers' bounds, one path with its holes for
// each part, its number as the id; numbers are by the parts' Index. title is a
// maker's text. See the W3C's SVG 1.1, chapters 7 and 8.
func writeSVG(w io.Writer, size shape.Point, parts []outline.Part, numbers []string, colour project.RGB, title string) error {
	width, height := mmText(size.X), mmText(size.Y)
	b := fmt.Appendf(nil, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n<title>",
		width, height, width, height)
	b = appendXML(b, title)
	b = append(b, "</title>\n"...)
	for _, p := range parts {
		// Letters, digits and '-', a letter first: a name in XML as it is.
		b = append(append(b, `<path id="`...), numbers[p.Index]...)
		b = append(b, `" fill="`...)
		b = append(b, hexColour(colour)...)
		b = append(b, `" fill-rule="evenodd" d="`...)
		b = appendPath(b, p.Outline.Outer, size.Y, shut)
		for _, hole := range p.Outline.Holes {
			b = appendPath(b, hole, size.Y, shut)
		}
		b = append(b, "\"/>\n"...)
		if len(b) > 1<<15 {
			if _, err := w.Write(b); err != nil {
				return err
			}
			b = b[:0]
		}
	}
	_, err := w.Write(append(b, "</svg>\n"...))
	return err
}

// appendPath adds a contour as path data, turned over so that y runs down from
// height.
func appendPath(b []byte, c shape.Contour, height shape.Um, e ends) []byte {
	for i, v := range c {
		if i == 0 {
			b = append(b, 'M')
			b = appendMm(b, v.X)
			b = append(b, ' ')
			b = appendMm(b, height-v.Y)
		}
		next := c[(i+1)%len(c)]
		last := i == len(c)-1
		switch {
		case last && e == open:
		case v.Arc != nil:
			r := mmText(v.Arc.Radius)
			sweep := "1" // y runs down, so a clockwise arc is in the direction of growing angles
			if v.Arc.Turn == shape.Anticlockwise {
				sweep = "0"
			}
			b = append(b, "A"+r+" "+r+" 0 0 "+sweep+" "...)
			b = appendMm(b, next.X)
			b = append(b, ' ')
			b = appendMm(b, height-next.Y)
		case last: // the closing edge is Z's
		case next.Y == v.Y:
			b = append(b, 'H')
			b = appendMm(b, next.X)
		case next.X == v.X:
			b = append(b, 'V')
			b = appendMm(b, height-next.Y)
		default:
			b = append(b, 'L')
			b = appendMm(b, next.X)
			b = append(b, ' ')
			b = appendMm(b, height-next.Y)
		}
	}
	if e == open {
		return b
	}
	return append(b, 'Z')
}

// appendXML adds a maker's text, encoded; what XML can't hold becomes U+FFFD.
func appendXML(b []byte, s string) []byte {
	var buf bytes.Buffer
	if err := xml.EscapeText(&buf, []byte(s)); err != nil {
		panic(err) // a bytes.Buffer takes everything
	}
	return append(b, buf.Bytes()...)
}

// hexColour is c as "#rrggbb".
func hexColour(c project.RGB) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
