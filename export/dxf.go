package export

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// dxfLayer is a layer of a DXF file and what lies on it.
type dxfLayer struct {
	name  string // safe: lower-case letters, digits and '-' after the "CUT-"
	parts []outline.Part
}

// dxf writes group codes and their values, as the DXF Reference for AutoCAD
// 2000 (AC1015) lays them down: a line each.
type dxf struct {
	w      io.Writer
	b      []byte // not yet written
	err    error  // the first one
	handle int    // next one for an entity
}

// writeDXF writes a drawing with the layers' contours, each as one closed
// LWPOLYLINE, in mm, y up. size is the upper right corner of the bounds of all
// layers of the sprite; the lower left one is the origin.
func writeDXF(w io.Writer, size shape.Point, layers []dxfLayer) error {
	d := &dxf{w: w, handle: hFirstLayer + len(layers)}
	entities := 0
	for _, l := range layers {
		for _, p := range l.parts {
			entities += 1 + len(p.Outline.Holes)
		}
	}
	d.header(size, d.handle+entities)
	d.tables(size, layers)
	d.blocks()
	d.section("ENTITIES")
	for _, l := range layers {
		for _, p := range l.parts {
			d.polyline(l.name, p.Outline.Outer, shut)
			for _, h := range p.Outline.Holes {
				d.polyline(l.name, h, shut)
			}
		}
	}
	d.end()
	d.objects(size)
	d.text(0, "EOF")
	d.flush()
	return d.err
}

// flush writes what has gathered.
func (d *dxf) flush() {
	if d.err == nil {
		_, d.err = d.w.Write(d.b)
	}
	d.b = d.b[:0]
}

// ends says whether a line comes back to its first vertex.
type ends bool

const (
	open ends = false // it ends in its last vertex
	shut ends = true
)

// polyline writes a contour; an arc is a bulge, the tangent of a quarter
// of its angle, positive where it runs anticlockwise.
func (d *dxf) polyline(layer string, c shape.Contour, e ends) {
	if len(d.b) > 1<<15 {
		d.flush()
	}
	d.text(0, "LWPOLYLINE")
	d.hex(5, d.handle)
	d.handle++
	d.hex(330, hModelSpace)
	d.text(100, "AcDbEntity")
	d.text(8, layer)
	d.text(100, "AcDbPolyline")
	d.int(90, len(c))
	if e == shut {
		d.int(70, 1)
	} else {
		d.int(70, 0)
	}
	d.text(43, "0.0")
	for i, v := range c {
		d.mm(10, v.X)
		d.mm(20, v.Y)
		if v.Arc != nil && (e == shut || i+1 < len(c)) {
			d.float(42, bulge(v, c[(i+1)%len(c)].Point))
		}
	}
}

// bulge is the tangent of a quarter of the angle of the arc from v to next, at
// most a half turn: with half the chord a and radius r it is a / (r + √(r²−a²)).
// Only whole numbers, a root and a quotient: the same digits on every machine.
func bulge(v shape.Vertex, next shape.Point) float64 {
	dx, dy := int64(next.X-v.X), int64(next.Y-v.Y)
	r := int64(v.Arc.Radius)
	chord2 := dx*dx + dy*dy
	rest := max(0, 4*r*r-chord2) // below 0 only by the rounding of the end points
	t := math.Sqrt(float64(chord2)) / float64(float64(2*r)+math.Sqrt(float64(rest)))
	if v.Arc.Turn == shape.Clockwise {
		return -t
	}
	return t
}

func (d *dxf) code(code int) {
	switch {
	case code < 10:
		d.b = append(d.b, "  "...)
	case code < 100:
		d.b = append(d.b, ' ')
	}
	d.b = strconv.AppendInt(d.b, int64(code), 10)
	d.b = append(d.b, '\n')
}

// text writes a value that is known to hold no line break: our own words, or a
// name that was made safe.
func (d *dxf) text(code int, s string) {
	d.code(code)
	d.b = append(d.b, s...)
	d.b = append(d.b, '\n')
}

func (d *dxf) int(code, v int) {
	d.code(code)
	d.b = strconv.AppendInt(d.b, int64(v), 10)
	d.b = append(d.b, '\n')
}

func (d *dxf) hex(code, v int) { d.text(code, fmt.Sprintf("%X", v)) }

// mm writes a length with a decimal point, since the value is a real number.
func (d *dxf) mm(code int, v shape.Um) {
	d.code(code)
	d.b = appendMm(d.b, v)
	if v%shape.Mm == 0 {
		d.b = append(d.b, ".0"...)
	}
	d.b = append(d.b, '\n')
}

// float writes a number rounded to nine decimals: for a bulge that is far below
// a µm in the place of every point of the arc.
func (d *dxf) float(code int, v float64) {
	d.code(code)
	d.b = strconv.AppendFloat(d.b, v, 'f', 9, 64)
	d.b = append(d.b, '\n')
}

// point writes x and y under code and code+10.
func (d *dxf) point(code int, x, y shape.Um) {
	d.mm(code, x)
	d.mm(code+10, y)
}

// space writes x, y and z = 0.
func (d *dxf) space(code int, x, y shape.Um) {
	d.point(code, x, y)
	d.mm(code+20, 0)
}

func (d *dxf) section(name string) {
	d.text(0, "SECTION")
	d.text(2, name)
}

func (d *dxf) end() { d.text(0, "ENDSEC") }
