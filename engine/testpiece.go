package engine

import (
	"sheetsprite/engine/cut"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// TestPiece is something small to cut before a job.
type TestPiece struct {
	Kind    TestKind
	Sheet   Sheet
	Uses    []project.Use // for each of Sheet.Loops, where they differ; else nil
	Samples []string      // what the worst places are
}

// TestKind is what a test piece is for.
type TestKind string

// The kinds of test pieces.
const (
	KerfGauge TestKind = "gauge"  // how wide a cut is
	Ladder    TestKind = "ladder" // which power and speed cut a stock
	Worst     TestKind = "worst"  // whether this job's most delicate places hold
)

// The kerf gauge: a strip that lies in a slot is cut across; its left end and
// gaugeCuts−1 more cuts leave that many kerfs free when all is pushed to the
// left, and a vernier on the last block says how far it went. Common practice
// for the cuts, no source; the vernier is Pierre Vernier's (1631): ten of its
// divisions are nine of the scale's.
const (
	gaugeCuts    = 20
	gaugeBlock   = shape.Um(2500)
	gaugeLast    = 14 * shape.Mm // with the vernier
	gaugeSlot    = 10 * shape.Mm // high
	gaugeFrame   = 8 * shape.Mm  // around the slot
	gaugeTick    = 2 * shape.Mm
	gaugeOff     = shape.Um(600)  // from the slot's edge to ticks
	gaugeZero    = shape.Um(1500) // from the last block's end to its first tick
	gaugeScale   = 16             // ticks, 1 mm apart
	vernierStep  = shape.Um(900)
	vernierTicks = 11
	testMargin   = 5 * shape.Mm
)

// KerfOfReading is the kerf that a reading of the gauge means, to the nearest
// µm: it is the width of gaugeCuts cuts.
func KerfOfReading(reading shape.Um) shape.Um { return (reading + gaugeCuts/2) / gaugeCuts }

// tester puts lines on a small sheet.
type tester struct {
	sheet  Sheet
	marks  bool
	passes int // over every cut
	ladder bool
}

func newTester(m project.Machine, stock project.Stock, use project.Use, w, h shape.Um) *tester {
	t := &tester{marks: m.Marks != project.NoMarks, passes: use.Passes}
	t.sheet = Sheet{
		Stock: stock, Number: 1, Face: project.FaceUp, Kerf: stock.Kerf, Use: use,
		Inner: shape.Rect{Max: shape.Point{X: w, Y: h}},
	}
	t.sheet.Size.Width, t.sheet.Size.Height = w, h
	return t
}

// cut adds a line to be cut, in order.
func (t *tester) cut(c shape.Contour, closed route.Closed, inner Inner) {
	t.sheet.Route.Strokes = append(t.sheet.Route.Strokes, route.Stroke{
		Path: c, Closed: closed, Kind: route.Cutting, Source: len(t.sheet.Loops),
	})
	t.sheet.Loops = append(t.sheet.Loops, LoopOf{Part: -1, Inner: inner})
}

// text marks letters.
func (t *tester) text(s string, at shape.Point, high shape.Um) {
	if !t.marks {
		return
	}
	for _, c := range cut.Text(s, at, high) {
		t.sheet.Route.Strokes = append(t.sheet.Route.Strokes, route.Stroke{Path: c, Kind: route.Marking, Source: len(t.sheet.Marks)})
		t.sheet.Marks = append(t.sheet.Marks, NumberMark)
	}
}

// done measures the lines, marks first.
func (t *tester) done(m project.Machine) Sheet {
	r := &t.sheet.Route
	var marks, cuts []route.Stroke
	for _, s := range r.Strokes {
		if s.Kind == route.Marking {
			marks = append(marks, s)
			r.Marked += s.Length()
			continue
		}
		for _, pass := range s.Passes(t.passes) {
			cuts = append(cuts, pass)
			r.Cut += s.Length()
		}
	}
	r.Strokes = append(marks, cuts...)
	start := m.Corner(t.sheet.Size.Width, t.sheet.Size.Height)
	r.BeginOnRuns(start, route.AtStart)
	if !t.ladder { // whose settings are its own
		(&Sheets{Machine: m}).drive(&t.sheet, start)
	}
	t.sheet.Seconds = seconds(m, t.sheet.Use, start, *r)
	return t.sheet
}

func rectangle(x0, y0, x1, y1 shape.Um) shape.Contour {
	return shape.Ring{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}.Contour()
}

// upright is an open line.
func upright(x, y0, y1 shape.Um) shape.Contour {
	return shape.Contour{{Point: shape.Point{X: x, Y: y0}}, {Point: shape.Point{X: x, Y: y1}}}
}

// kerfGauge is the gauge for a stock.
func kerfGauge(m project.Machine, stock project.Stock, use project.Use) TestPiece {
	long := (gaugeCuts-1)*gaugeBlock + gaugeLast
	x0, y0 := testMargin+gaugeFrame, testMargin+gaugeFrame
	x1, y1 := x0+long, y0+gaugeSlot
	t := newTester(m, stock, use, x1+gaugeFrame+testMargin, y1+gaugeFrame+testMargin)
	zero := x1 - gaugeZero
	for i := range shape.Um(gaugeScale + 1) { // the scale on the frame, to the left
		x := zero - i*shape.Mm
		tick := gaugeTick
		if i%5 == 0 {
			tick += shape.Mm
			t.text([]string{"0", "5", "10", "15"}[i/5], shape.Point{X: x - 700, Y: y0 - gaugeOff - tick - 2500}, 1500)
		}
		t.cut(upright(x, y0-gaugeOff-tick, y0-gaugeOff), false, true)
	}
	for i := range shape.Um(vernierTicks) {
		t.cut(upright(zero-i*vernierStep, y0+gaugeOff, y0+gaugeOff+gaugeTick), false, true)
	}
	for i := range shape.Um(gaugeCuts - 1) {
		t.cut(upright(x0+(i+1)*gaugeBlock, y0, y1), false, true)
	}
	t.cut(rectangle(x0, y0, x1, y1).Reversed(), true, true)
	t.cut(rectangle(testMargin, testMargin, x1+gaugeFrame, y1+gaugeFrame), true, false)
	return TestPiece{Kind: KerfGauge, Sheet: t.done(m)}
}

// Steps of a ladder's powers and speeds.
const (
	ladderSquare = 5 * shape.Mm
	ladderPitch  = 9 * shape.Mm
	ladderLabels = 12 * shape.Mm
)

// Range is the least and the largest of a ladder's settings, and how many there
// are in all, at least 2.
type Range struct{ Low, High, Steps int }

// at is the i-th value, rounded.
func (r Range) at(i int) int {
	n := max(1, r.Steps-1)
	return r.Low + ((r.High-r.Low)*i+n/2)/n
}

// ladder is squares cut with all powers (rows, from below) and speeds (columns,
// from the left).
func ladder(m project.Machine, stock project.Stock, use project.Use, power, speed Range) TestPiece {
	w := testMargin + ladderLabels + shape.Um(speed.Steps)*ladderPitch + testMargin
	h := testMargin + shape.Um(power.Steps)*ladderPitch + ladderLabels/2 + testMargin
	t := newTester(m, stock, use, w, h)
	t.passes, t.ladder = 1, true // what one pass does is what it shows
	p := TestPiece{Kind: Ladder}
	at := func(row, col int) shape.Point {
		return shape.Point{X: testMargin + ladderLabels + shape.Um(col)*ladderPitch, Y: testMargin + shape.Um(row)*ladderPitch}
	}
	for row := range power.Steps {
		a := at(row, 0)
		t.text("P"+digits(power.at(row)), shape.Point{X: testMargin, Y: a.Y + 1500}, 2000)
		for col := range speed.Steps {
			a := at(row, col)
			t.cut(rectangle(a.X, a.Y, a.X+ladderSquare, a.Y+ladderSquare), true, false)
			u := use
			u.Power, u.Speed, u.Passes = power.at(row), speed.at(col), 1
			p.Uses = append(p.Uses, u)
		}
	}
	for col := range speed.Steps {
		a := at(power.Steps, col)
		t.text("S"+digits(speed.at(col)), shape.Point{X: a.X - 1000, Y: a.Y}, 2000)
	}
	p.Sheet = t.done(m)
	return p
}

func digits(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return digits(n/10) + string(rune('0'+n%10))
}
