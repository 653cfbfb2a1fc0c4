package export

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// gcode writes RS-274 (Kramer, Proctor, Messina: The NIST RS274NGC Interpreter,
// version 3, 2000): millimetres, absolute places, arcs by the offset of their
// centre. The beam is on only between the M3 or M4 of a line and its M5, never
// during a rapid move. A knife is lowered and lifted by the same words, S is its
// pressure; M0 waits for the pen that draws the marks to be changed for the blade.
type gcode struct {
	b       []byte
	machine project.Machine
	size    shape.Point // of the sheet
}

// place is a point of the sheet in the machine's coordinates.
func (g *gcode) place(p shape.Point) shape.Point {
	c := g.machine.Corner(g.size.X, g.size.Y)
	if c.X > 0 {
		p.X = c.X - p.X
	}
	if c.Y > 0 {
		p.Y = c.Y - p.Y
	}
	return p
}

func (g *gcode) line(format string, args ...any) { g.b = fmt.Appendf(g.b, format+"\n", args...) }

// comment is a maker's text between brackets, which it can't close.
func (g *gcode) comment(s string) {
	s = strings.NewReplacer("(", "[", ")", "]", ";", ",").Replace(shown(s))
	ascii := strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, s)
	g.line("(%s)", ascii)
}

func (g *gcode) begin(sh *engine.Sheet, what string) {
	g.comment(fmt.Sprintf(english.gcodeSheet, what, sh.Number, sh.Stock.Name))
	g.comment(fmt.Sprintf(english.gcodeSize, mmText(sh.Size.Width), mmText(sh.Size.Height), faceWords(sh.Face)))
	if g.machine.Kind == project.Knife {
		g.comment(english.gcodeFingers)
		for _, line := range strings.Split(bladeWords(g.machine, inMachineFile), "\n") {
			g.comment(line)
		}
	} else {
		g.comment(english.gcodeRunning)
	}
	g.line("G21")
	g.line("G90")
	g.line("M5")
}

func (g *gcode) rapid(p shape.Point) {
	p = g.place(p)
	g.line("G0 X%s Y%s", mmText(p.X), mmText(p.Y))
}

// stroke is one line with the beam on.
func (g *gcode) stroke(st route.Stroke, power string, speed int) {
	g.rapid(st.From())
	g.line("%s S%s", g.machine.Beam, power)
	feed := fmt.Sprintf(" F%d", speed)
	if st.Lead != nil {
		p := g.place(st.Begin())
		g.line("G1 X%s Y%s%s", mmText(p.X), mmText(p.Y), feed)
		feed = ""
	}
	path, closed := st.Path, st.Closed
	if len(st.Drive) > 0 {
		path, closed = st.Drive, false
	}
	for i, v := range path {
		if i+1 == len(path) && !bool(closed) {
			break
		}
		p := g.place(path[(i+1)%len(path)].Point)
		if v.Arc == nil {
			g.line("G1 X%s Y%s%s", mmText(p.X), mmText(p.Y), feed)
		} else {
			word := "G3"
			c := g.machine.Corner(1, 1)
			if (v.Arc.Turn == shape.Clockwise) != (c.X != c.Y) { // one axis turned over makes a mirror image
				word = "G2"
			}
			from := g.place(v.Point)
			centre := g.place(v.Arc.Centre).Sub(from)
			g.line("%s X%s Y%s I%s J%s%s", word, mmText(p.X), mmText(p.Y), mmText(centre.X), mmText(centre.Y), feed)
		}
		feed = ""
	}
	g.line("M5")
}

// end stops with the beam off where the machine's coordinates begin.
func (g *gcode) end() {
	g.line("M5")
	g.line("G0 X0 Y0")
	g.line("M2")
}

// powerOf is the S value of a power in percent. Where full power is a small number,
// as in files of 0 to 1, whole ones would say too little.
func powerOf(m project.Machine, percent int) string {
	if m.FullPower < 100 {
		return string(appendDecimal(nil, int64(m.FullPower*percent), 2))
	}
	return strconv.Itoa((m.FullPower*percent + 50) / 100)
}

// perMinute is a speed in the machine's unit as a feed.
func perMinute(m project.Machine, speed int) int {
	if m.Unit == project.PerMinute {
		return speed
	}
	return speed * 60
}

// setting is the power and speed for a stroke, in percent and the machine's unit.
type setting struct{ power, speed int }

// settingsOf are those of a sheet: one for cuts, one for marks.
func settingsOf(sh *engine.Sheet) func(route.Stroke) setting {
	return func(st route.Stroke) setting {
		if st.Kind == route.Cutting {
			return setting{sh.Use.Power, sh.Use.Speed}
		}
		return setting{sh.Use.MarkPower, sh.Use.MarkSpeed}
	}
}

// writeGCode writes a sheet's machine file. Strokes are left out where the maker
// entered no power and speed for them.
func writeGCode(w io.Writer, m project.Machine, sh *engine.Sheet, settingOf func(route.Stroke) setting) error {
	g := gcode{machine: m, size: shape.Point{X: sh.Size.Width, Y: sh.Size.Height}}
	g.begin(sh, english.gcodeCut)
	pen := false
	for _, st := range sh.Route.Strokes {
		if s := settingOf(st); s.power > 0 && s.speed > 0 {
			if st.Kind == route.Marking {
				pen = m.Kind == project.Knife
			} else if pen {
				g.comment(english.gcodeSwap)
				g.line("M0")
				pen = false
			}
			g.stroke(st, powerOf(m, s.power), perMinute(m, s.speed))
		}
	}
	g.end()
	_, err := w.Write(g.b)
	return err
}

// writeBounds writes a file that runs round the bounds of the sheet's lines
// with the beam off, to see where it will cut.
func writeBounds(w io.Writer, m project.Machine, sh *engine.Sheet) error {
	g := gcode{machine: m, size: shape.Point{X: sh.Size.Width, Y: sh.Size.Height}}
	g.begin(sh, english.gcodeBounds)
	b := boundsOf(sh)
	for _, p := range []shape.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}, b.Min} {
		g.rapid(p)
	}
	g.end()
	_, err := w.Write(g.b)
	return err
}

// boundsOf is the bounds of all lines of a sheet.
func boundsOf(sh *engine.Sheet) shape.Rect {
	var b shape.Rect
	for i, st := range sh.Route.Strokes {
		path := st.Path
		if !st.Closed { // no way back counts, least of all an arc
			path = append(shape.Contour(nil), path...)
			last := &path[len(path)-1]
			last.Arc = nil
		}
		r := path.Bounds()
		f := st.Begin()
		if st.Lead != nil {
			f = *st.Lead
		}
		r.Min = shape.Point{X: min(r.Min.X, f.X), Y: min(r.Min.Y, f.Y)}
		r.Max = shape.Point{X: max(r.Max.X, f.X), Y: max(r.Max.Y, f.Y)}
		if i == 0 {
			b = r
		}
		b.Min = shape.Point{X: min(b.Min.X, r.Min.X), Y: min(b.Min.Y, r.Min.Y)}
		b.Max = shape.Point{X: max(b.Max.X, r.Max.X), Y: max(b.Max.Y, r.Max.Y)}
	}
	return b
}
