package readback

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
)

// maxLine is the longest line taken from a DXF file.
const maxLine = 4096

// dxfReader reads pairs of a group code and its value.
type dxfReader struct {
	r    *bufio.Reader
	line int
	code int
	text string
}

// next reads the next pair; io.EOF at the end of the file.
func (d *dxfReader) next() error {
	code, err := d.readLine()
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(string(bytes.TrimSpace(code)))
	if err != nil {
		return fmt.Errorf("line %d: a group code is expected", d.line)
	}
	value, err := d.readLine()
	if err != nil {
		if errors.Is(err, io.EOF) {
			err = io.ErrUnexpectedEOF
		}
		return fmt.Errorf("line %d: %w", d.line, err)
	}
	d.code, d.text = n, string(bytes.TrimSpace(value))
	return nil
}

func (d *dxfReader) readLine() ([]byte, error) {
	b, err := d.r.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		return nil, fmt.Errorf("line %d is too long", d.line+1)
	}
	if len(b) == 0 && err != nil {
		return nil, err
	}
	d.line++
	return b, nil
}

func (d *dxfReader) fault(format string, args ...any) error {
	return fmt.Errorf("line %d: %s", d.line, fmt.Sprintf(format, args...))
}

// line is a polyline as a file holds it; an open one ends in its last vertex,
// whose arc is 0.
type line struct {
	contour
	open bool
}

// readDXF is readLines where every line must be closed.
func readDXF(r io.Reader, take func(layer string, c contour) error) (w, h int64, err error) {
	return readLines(r, func(layer string, l line) error {
		if l.open {
			return errors.New("the polyline is not closed")
		}
		return take(layer, l.contour)
	})
}

// readLines reads the LWPOLYLINEs of a drawing in mm, in their order, and
// hands each to take with its layer's name; w and h are the drawing's size. It
// refuses drawings in another unit or version, such as don't begin at the origin,
// and entities of any other kind: they would be cut, too.
func readLines(r io.Reader, take func(layer string, l line) error) (w, h int64, err error) {
	d := &dxfReader{r: bufio.NewReaderSize(r, maxLine)}
	section, variable, version, units := "", "", "", ""
	var least, most [2]int64
	ended := false
	err = d.next()
	for err == nil {
		switch {
		case ended:
			return 0, 0, d.fault("something follows the end of the file")
		case d.code == 0 && d.text == "EOF":
			ended = true
		case d.code == 0 && d.text == "SECTION":
			if err = d.next(); err != nil {
				break
			}
			if d.code != 2 {
				return 0, 0, d.fault("a section's name is expected")
			}
			section = d.text
		case d.code == 0 && d.text == "ENDSEC":
			section = ""
		case section == "HEADER" && d.code == 9:
			variable = d.text
		case section == "HEADER" && variable == "$ACADVER" && d.code == 1:
			version = d.text
		case section == "HEADER" && variable == "$INSUNITS" && d.code == 70:
			units = d.text
		case section == "HEADER" && (d.code == 10 || d.code == 20) && (variable == "$EXTMIN" || variable == "$EXTMAX"):
			v, bad := parseMm(d.text)
			if bad != nil {
				return 0, 0, d.fault("%v", bad)
			}
			if variable == "$EXTMIN" {
				least[d.code/10-1] = v
			} else {
				most[d.code/10-1] = v
			}
		case section == "ENTITIES" && d.code == 0:
			if d.text != "LWPOLYLINE" {
				return 0, 0, d.fault("the drawing holds a %.20q beside its LWPOLYLINEs", d.text)
			}
			var layer string
			var l line
			layer, l, err = d.polyline()
			if err != nil && !errors.Is(err, io.EOF) {
				return 0, 0, err
			}
			if failed := take(layer, l); failed != nil {
				return 0, 0, failed
			}
			continue // polyline has read the pair after it
		}
		if err == nil {
			err = d.next()
		}
	}
	switch {
	case !errors.Is(err, io.EOF):
		return 0, 0, err
	case !ended:
		return 0, 0, errors.New("the file ends too early")
	case version != "AC1015":
		return 0, 0, fmt.Errorf("the drawing's version is %.20q, not AC1015", version)
	case units != "4":
		return 0, 0, fmt.Errorf("the drawing's unit is %.20q, not mm", units)
	case least != [2]int64{}:
		return 0, 0, errors.New("the drawing doesn't begin at the origin")
	}
	return most[0], most[1], nil
}

// polyline reads a polyline up to the pair after it.
func (d *dxfReader) polyline() (layer string, l line, err error) {
	count := -1
	var c contour
	l.open = true
	var bulges []float64 // as far as the last one that isn't 0
	for err = d.next(); err == nil && d.code != 0; err = d.next() {
		switch d.code {
		case 8:
			layer = d.text
		case 90:
			if count, err = strconv.Atoi(d.text); err != nil || count < 0 {
				return "", line{}, d.fault("a number of vertices is expected")
			}
		case 70:
			l.open = d.text != "1"
		case 10:
			x, bad := parseMm(d.text)
			if bad != nil {
				return "", line{}, d.fault("%v", bad)
			}
			c = append(c, vertex{x: x})
			if err = d.next(); err != nil {
				return "", line{}, d.fault("the y of a vertex is missing")
			}
			y, bad := parseMm(d.text)
			if d.code != 20 || bad != nil {
				return "", line{}, d.fault("the y of a vertex is expected")
			}
			c[len(c)-1].y = y
		case 42:
			b, bad := strconv.ParseFloat(d.text, 64)
			if bad != nil || !(math.Abs(b) <= 1) || len(c) == 0 {
				return "", line{}, d.fault("a bulge from -1 to 1 after a vertex is expected")
			}
			for len(bulges) < len(c) {
				bulges = append(bulges, 0)
			}
			bulges[len(c)-1] = b
		case 38, 39, 40, 41, 43, 210, 220, 230:
			if v, bad := strconv.ParseFloat(d.text, 64); bad != nil || v != 0 && d.code != 230 {
				return "", line{}, d.fault("the polyline is not a plain one")
			}
		}
	}
	if err != nil && !errors.Is(err, io.EOF) {
		return "", line{}, err
	}
	if count != len(c) {
		return "", line{}, d.fault("the polyline has %d vertices and says %d", len(c), count)
	}
	if l.open && len(bulges) == len(c) {
		return "", line{}, d.fault("an open polyline ends in an arc to nowhere")
	}
	for i, b := range bulges {
		n := c[(i+1)%len(c)]
		c[i].arc = radius(b, n.x-c[i].x, n.y-c[i].y)
	}
	l.contour = c
	return layer, l, err
}

// radius is that of an arc over a chord, to the nearest µm, with the sign of
// its bulge: half the chord times (1 + b²) / 2|b|.
func radius(b float64, dx, dy int64) int64 {
	if b == 0 {
		return 0
	}
	half := math.Sqrt(float64(dx*dx+dy*dy)) / 2
	r := math.Round(half * float64(1+float64(b*b)) / (2 * math.Abs(b)))
	if r > farthest {
		return 0 // flatter than anything that is drawn
	}
	return int64(math.Copysign(r, b))
}
