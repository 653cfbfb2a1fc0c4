package readback

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"sheetsprite/engine/project"
)

// A sheet's machine file is held against the sheet's drawing: the beam draws the
// drawing's lines, in their order, as often as the stock asks, with the power and
// feed that the maker entered, and nothing else.

// drawn is a line of a sheet's drawing.
type drawn struct {
	line
	layer string
	mark  bool
	power int64 // with which the machine file draws it, in thousandths; 0: not at all
	feed  int64 // mm a minute, likewise
}

// tool is the machine as far as its files depend on it.
type tool struct {
	beam         int64
	right, top   bool  // the corner of the sheet where its coordinates begin
	w, h         int64 // of the sheet
	bedW, bedH   int64 // 0: any sheet fits
	passes       int
	wholeSheet   bool
	fullPower    int64
	minuteFactor int64 // from the machine's unit of speed to mm a minute
	knife        bool
	offset       int64 // of a knife's blade
	overcut      int64
}

// toolOf is how a machine cuts a sheet.
func toolOf(m project.Machine, u project.Use, w, h int64) tool {
	t := tool{
		beam: 3, w: w, h: h, bedW: int64(m.BedW), bedH: int64(m.BedH),
		right:  m.Origin == project.LowerRight || m.Origin == project.UpperRight,
		top:    m.Origin == project.UpperLeft || m.Origin == project.UpperRight,
		passes: max(1, u.Passes), wholeSheet: u.Order == project.WholeSheet,
		fullPower: int64(m.FullPower), minuteFactor: 60,
	}
	if t.knife = m.Kind == project.Knife; t.knife {
		t.offset, t.overcut = int64(m.BladeOffset), int64(m.Overcut)
	}
	if m.Beam == project.M4 {
		t.beam = 4
	}
	if m.Unit == project.PerMinute {
		t.minuteFactor = 1
	}
	return t
}

// set is what a percentage of the power and a speed are in the file, both in
// thousandths: the power is a whole number where full power is at least 100.
func (t tool) set(percent, speed int) (power, feed int64) {
	if percent <= 0 || speed <= 0 {
		return 0, 0
	}
	power = t.fullPower * int64(percent) * 10
	if t.fullPower >= 100 {
		power = (power + 500) / 1000 * 1000
	}
	return power, int64(speed) * t.minuteFactor * 1000
}

// figures are what a machine file measures, in µm.
type figures struct {
	cut, lead, mark, travel float64
	moves                   int
}

// stroke is what is drawn between the beam's going on and off, on the sheet.
type stroke struct {
	line        int     // of the file
	path        contour // its last vertex is where it ends
	power, feed int64
	length      float64
	waits       int
	centres     []xy  // of the path's arcs, one for each of its edges
	near        int64 // how far its places may be off
}

// machineFile reads a machine file that draws the lines; leads are the ways from
// where the beam goes on to where a closed line begins, which no drawing holds.
func (t tool) machineFile(data []byte, lines []drawn) (f figures, leads []lead, err error) {
	var strokes []stroke
	err = readGCode(data, func(m ncMove) error {
		if err := t.reaches(m); err != nil {
			return err
		}
		f.moves++
		if m.stroke == 0 {
			f.travel += m.length()
			return nil
		}
		if m.beam != t.beam {
			return fmt.Errorf("the beam is switched on by M%d, the machine asks for M%d", m.beam, t.beam)
		}
		if m.stroke > len(strokes) {
			a := t.onSheet(m.from)
			strokes = append(strokes, stroke{line: m.line, path: contour{{x: a.x, y: a.y}}, power: m.power, feed: m.feed, waits: m.waits})
		}
		s := &strokes[len(strokes)-1]
		if m.power != s.power || m.feed != s.feed {
			return errors.New("power or feed change within a line")
		}
		b := t.onSheet(m.to)
		if m.turn != 0 {
			s.path[len(s.path)-1].arc = int64(math.Round((m.radius(m.from)+m.radius(m.to))/2)) * m.turn * t.mirror()
		}
		s.path = append(s.path, vertex{x: b.x, y: b.y})
		s.centres = append(s.centres, t.onSheet(m.centre))
		s.length += m.length()
		return nil
	})
	if err != nil {
		return f, nil, err
	}
	q := sequence{tool: t, strokes: strokes, figures: &f}
	err = q.all(lines)
	return f, q.leads, err
}

// mirror is -1 where the machine's coordinates are the sheet's seen in a mirror.
func (t tool) mirror() int64 {
	if t.right != t.top {
		return -1
	}
	return 1
}

// onSheet is a place of the file in the sheet's coordinates.
func (t tool) onSheet(p xy) xy {
	if t.right {
		p.x = t.w - p.x
	}
	if t.top {
		p.y = t.h - p.y
	}
	return p
}

// reaches says whether a move stays on the sheet and the bed.
func (t tool) reaches(m ncMove) error {
	w, h := t.w, t.h
	if t.bedW > 0 {
		w, h = min(w, t.bedW), min(h, t.bedH)
	}
	least, most := m.bounds()
	if least.x < 0 || least.y < 0 || most.x > w || most.y > h {
		return fmt.Errorf("line %d: a move to X%s Y%s leaves the sheet or the bed", m.line, mm(m.to.x), mm(m.to.y))
	}
	return nil
}

// bounds are those of a move, an arc's bulge counted.
func (m ncMove) bounds() (least, most xy) {
	least = xy{min(m.from.x, m.to.x), min(m.from.y, m.to.y)}
	most = xy{max(m.from.x, m.to.x), max(m.from.y, m.to.y)}
	if m.turn == 0 {
		return least, most
	}
	r := int64(math.Floor(m.radius(m.from)))
	for _, d := range []xy{{r, 0}, {0, r}, {-r, 0}, {0, -r}} {
		p := xy{m.centre.x + d.x, m.centre.y + d.y}
		side := (m.to.x-m.from.x)*(p.y-m.from.y) - (m.to.y-m.from.y)*(p.x-m.from.x)
		if side*m.turn < 0 { // an arc lies to the right of its chord where it turns left
			least = xy{min(least.x, p.x), min(least.y, p.y)}
			most = xy{max(most.x, p.x), max(most.y, p.y)}
		}
	}
	return least, most
}

// sequence compares strokes with lines, in order.
type sequence struct {
	tool
	strokes []stroke
	next    int
	leads   []lead
	figures *figures
}

// all takes all strokes: the marks, then the cuts in all their passes.
func (q *sequence) all(lines []drawn) error {
	lines = slices.DeleteFunc(slices.Clone(lines), func(l drawn) bool { return l.power == 0 || l.feed == 0 })
	for len(lines) > 0 && lines[0].mark {
		if err := q.expect(&lines[0], forth, 0); err != nil {
			return err
		}
		lines = lines[1:]
	}
	waits := 0 // for the pen to be changed for the blade
	if q.knife && q.next > 0 && len(lines) > 0 {
		waits = 1
	}
	for i := range q.strokes {
		if s := &q.strokes[i]; i >= q.next && s.waits != waits || i < q.next && s.waits > 0 {
			return fmt.Errorf("line %d: the machine waits where it mustn't, or not where it must", s.line)
		}
	}
	var err error
	if q.offset > 0 || q.overcut > 0 {
		if err = q.undo(q.strokes[q.next:]); err != nil {
			return err
		}
	}
	if q.wholeSheet || q.passes == 1 {
		err = q.roundByRound(lines)
	} else {
		err = q.eachContour(lines)
	}
	if err == nil && q.next < len(q.strokes) {
		err = fmt.Errorf("line %d: it goes on after the drawing's last line", q.strokes[q.next].line)
	}
	return err
}

func (q *sequence) roundByRound(cuts []drawn) error {
	for pass := range q.passes {
		for i := range cuts {
			if err := q.expect(&cuts[i], forth, pass); err != nil {
				return err
			}
		}
	}
	return nil
}

// eachContour takes all passes of a contour before the next one's. A contour cut
// as open lines is run to and fro: how many lines it has shows where the way back
// begins.
func (q *sequence) eachContour(cuts []drawn) error {
	for len(cuts) > 0 {
		n := 1
		for ; ; n++ {
			l := &cuts[n-1]
			if err := q.expect(l, forth, 0); err != nil {
				return err
			}
			if !l.open || n == len(cuts) || !cuts[n].open || q.fits(l, back, 1) {
				break
			}
		}
		for pass := 1; pass < q.passes; pass++ {
			for i := range n {
				l, way := &cuts[i], forth
				if pass%2 == 1 && l.open {
					l, way = &cuts[n-1-i], back
				}
				if err := q.expect(l, way, pass); err != nil {
					return err
				}
			}
		}
		cuts = cuts[n:]
	}
	return nil
}

// way says from which end a line is run.
type way bool

const (
	forth way = false
	back  way = true
)

// fits says whether the next stroke is the line.
func (q *sequence) fits(l *drawn, w way, pass int) bool {
	if q.next == len(q.strokes) {
		return false
	}
	_, ok := q.strokes[q.next].draws(l, w, pass, q.overcut)
	return ok
}

// expect takes the next stroke, which must be the line.
func (q *sequence) expect(l *drawn, w way, pass int) error {
	if q.next == len(q.strokes) {
		return fmt.Errorf("the line at (%s, %s) mm isn't drawn, or not as often as it must be", mm(l.contour[0].x), mm(l.contour[0].y))
	}
	s := &q.strokes[q.next]
	from, ok := s.draws(l, w, pass, q.overcut)
	switch {
	case !ok:
		return fmt.Errorf("line %d: the drawing's next line is the one at (%s, %s) mm, which isn't what is drawn from (%s, %s) mm", s.line,
			mm(l.contour[0].x), mm(l.contour[0].y), mm(s.path[0].x), mm(s.path[0].y))
	case s.power != l.power || s.feed != l.feed:
		return fmt.Errorf("line %d: power and feed are S%s F%s instead of S%s F%s", s.line, mm(s.power), mm(s.feed), mm(l.power), mm(l.feed))
	}
	if from > 0 {
		d := lead{own: l, from: s.path[0], to: s.path[1], file: s.line}
		q.leads = append(q.leads, d)
		q.figures.lead += d.length()
	}
	if l.mark {
		q.figures.mark += s.length
	} else {
		q.figures.cut += s.length
	}
	q.next++
	return nil
}

// draws says whether the stroke draws a line, and at which of its vertices it
// comes to it: 1 after a lead-in. Only the first pass must begin where the
// drawing does, and may have a lead-in: when a whole sheet is run again, closed lines
// may begin elsewhere.
// A blade runs on along a closed line, past where that began.
func (s *stroke) draws(l *drawn, w way, pass int, overcut int64) (from int, ok bool) {
	p := s.path
	want := l.contour
	if l.open {
		if w == back {
			want = turned(want)
		}
		return 0, samePath(p, want, s.near)
	}
	if overcut > 0 && !l.mark {
		if p, ok = s.once(overcut); !ok {
			return 0, false
		}
	}
	if end := p[len(p)-1]; pass == 0 && len(p) > 2 && p[0].arc == 0 && !sameSpot(p[0], end, s.near) && sameSpot(p[1], end, s.near) {
		p, from = p[1:], 1
	}
	if !sameSpot(p[0], p[len(p)-1], s.near) {
		return 0, false
	}
	if pass == 0 {
		return from, samePath(p, append(slices.Clip(want), vertex{x: want[0].x, y: want[0].y}), s.near)
	}
	got, want := whole(p[:len(p)-1]), whole(want)
	for i, v := range want {
		if sameSpot(v, got[0], s.near) && samePath(got, slices.Concat(want[i:], want[:i]), s.near) {
			return from, true
		}
	}
	return 0, false
}

// whole is a closed line without a first vertex that lies on a straight run, where
// it was only begun.
func whole(c contour) contour {
	n := len(c)
	if n < 3 || c[0].arc != 0 || c[n-1].arc != 0 {
		return c
	}
	ax, ay := c[0].x-c[n-1].x, c[0].y-c[n-1].y
	bx, by := c[1].x-c[0].x, c[1].y-c[0].y
	if ax*by == ay*bx && ax*bx+ay*by > 0 {
		return c[1:]
	}
	return c
}

// turned is an open line run from its other end.
func turned(c contour) contour {
	n := len(c)
	out := make(contour, n)
	for i, v := range c {
		out[n-1-i] = vertex{x: v.x, y: v.y}
	}
	for i, v := range c[:n-1] {
		out[n-2-i].arc = -v.arc
	}
	return out
}

// sameSpot says whether two places are one, to so many µm.
func sameSpot(a, b vertex, near int64) bool {
	return max(a.x-b.x, b.x-a.x, a.y-b.y, b.y-a.y) <= near
}

// samePath says whether two lines have the same vertices and bend alike. The arc
// of an open line's last vertex counts for nothing, so both must have it alike.
func samePath(got, want contour, near int64) bool {
	if len(got) != len(want) {
		return false
	}
	for i, g := range got {
		v := want[i]
		if !sameSpot(g, v, near) || step(g.arc) != step(v.arc) {
			return false
		}
		if g.arc == 0 {
			continue
		}
		next := want[(i+1)%len(want)]
		// As in sameBend: the flatter an arc, the less a drawing's bulge says.
		chord := hypot(float64(next.x-v.x), float64(next.y-v.y))
		off := oddSlack + 8*float64(v.arc)*float64(v.arc)/(chord*chord) + float64(2*near)
		if math.Abs(float64(g.arc-v.arc)) > off {
			return false
		}
	}
	return true
}
