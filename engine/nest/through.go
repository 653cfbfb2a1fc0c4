package nest

import "sheetsprite/engine/shape"

// through searches a small set through completely: for one height of the
// first sheet after the other, from the least that the area allows, until one
// can be filled.
type through struct {
	p        *problem
	unit     shape.Um
	columns  int
	rows     int // tried now
	highest  int // of the sheet
	tiling   *tiling
	way      lineWay
	finished bool
	work     int
	best     answer
}

// Limits of the sets that are searched through. More copies than a few dozen
// are hopeless; the lines must fit 64 bits.
const (
	throughCopies = 24
	throughCells  = 4096
)

// newThrough is nil where a set doesn't suit: too many copies, some held or
// kept together, more than the first sheet takes, or no common lattice coarse
// enough.
func newThrough(p *problem) *through {
	if len(p.held) > 0 || len(p.units) != len(p.copies) || len(p.copies) == 0 || len(p.copies) > throughCopies {
		return nil
	}
	sheet, ok := p.sheet(0)
	if !ok {
		return nil
	}
	t := &through{p: p, best: answer{spots: make([]spot, len(p.copies))}}
	var area shape.Um2
	low := shape.Um(0)
	for _, c := range p.copies {
		k := &p.kinds[c.kind]
		area += k.area
		if !k.fits(sheet) {
			return nil
		}
		least := never
		for _, f := range k.forms {
			least = min(least, f.h)
			for _, r := range f.rects {
				for _, x := range []shape.Um{r.Min.X, r.Min.Y, r.Max.X, r.Max.Y} {
					t.unit = gcd(t.unit, x)
				}
			}
		}
		low = max(low, least)
	}
	t.columns, t.highest = int(sheet.w/t.unit), int(sheet.h/t.unit)
	low = max(low, shape.Um((area+shape.Um2(sheet.w)-1)/shape.Um2(sheet.w)))
	t.rows = int((low + t.unit - 1) / t.unit)
	if t.rows > t.highest || min(t.columns, t.rows) > 64 || t.columns*t.rows > throughCells {
		return nil
	}
	t.best.cost = cost{unplaced: area} // until something is found
	for i := range t.best.spots {
		t.best.spots[i].sheet = -1
	}
	t.tiling, t.way = newTiling(p, t.unit, t.columns, t.rows)
	return t
}

func (t *through) found() answer { return t.best }

func (t *through) spent() int { return t.work }

func (t *through) idle() bool { return t.finished }

// improve searches on.
func (t *through) improve(until int) {
	for !t.finished && t.work < until {
		before := t.tiling.work
		t.tiling.search(until - t.work)
		t.work += t.tiling.work - before + 1
		switch t.tiling.state {
		case tilingFound:
			t.finished = true
			t.read()
		case tilingNone:
			t.rows++
			if t.rows > t.highest || min(t.columns, t.rows) > 64 || t.columns*t.rows > throughCells {
				t.finished = true
				return
			}
			t.tiling, t.way = newTiling(t.p, t.unit, t.columns, t.rows)
		}
	}
}

// lowest is a height that no answer goes below, found out so far.
func (t *through) lowest() shape.Um { return shape.Um(t.rows) * t.unit }

// read turns the tiling into spots.
func (t *through) read() {
	var free [][]int // copies of each kind
	free = make([][]int, len(t.p.kinds))
	for i, c := range t.p.copies {
		free[c.kind] = append(free[c.kind], i)
	}
	for _, s := range t.tiling.stack {
		if !s.placed || s.kind == len(t.tiling.kinds) {
			continue
		}
		k := &t.tiling.kinds[s.kind]
		at := shape.Point{X: shape.Um(s.shift) * t.unit, Y: shape.Um(s.line) * t.unit}
		if t.way == alongY {
			at.X, at.Y = at.Y, at.X
		}
		c := free[k.kind][0]
		free[k.kind] = free[k.kind][1:]
		t.best.spots[c] = spot{0, int8(k.forms[s.form].form), at}
	}
	t.best.cost = t.p.cost(t.best.spots, 0)
}
