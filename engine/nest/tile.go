package nest

import (
	"cmp"
	"math/bits"
	"slices"

	"sheetsprite/engine/shape"
)

// A few small pieces are searched through completely: all their coordinates
// are multiples of one length, so an answer can be pushed down and left until
// every piece lies on that lattice. The first free cell, line by line, either
// belongs to a piece whose first cell lies there or stays empty; waste counts
// how many more may stay empty. (Backtracking on the first free cell: Golomb,
// Polyominoes, 1965; from memory.)
//
// Lines run across the shorter side, 64 cells at most, one bit a cell.

// tiling is one such search, for one target height.
type tiling struct {
	width  int      // cells of a line
	lines  []uint64 // taken cells
	kinds  []tile   // the largest first
	left   int      // copies still to be placed
	waste  int      // cells that may still stay empty
	common int      // all areas are multiples of it
	least  int      // the smallest area
	stack  []tileStep
	state  tilingState
	work   int
}

type tilingState uint8

const (
	tilingOpen tilingState = iota
	tilingFound
	tilingNone // searched through: there is no answer
)

type tile struct {
	forms []tileForm
	kind  int // in the problem
	left  int
	area  int
}

// tileForm is a form as lines of bits, the first one's lowest at first.
type tileForm struct {
	form  int
	lines []uint64
	first int
	width int
}

// tileStep is what was decided about one free cell.
type tileStep struct {
	line, bit  int
	kind, form int // tried next; form −1: nothing tried yet; kind len(kinds): the cell stays empty
	shift      int
	placed     bool
}

// newTiling prepares the search for a sheet of columns × rows cells of side
// unit; ok is false where it doesn't suit.
func newTiling(p *problem, unit shape.Um, columns, rows int) (t *tiling, across lineWay) {
	across = alongX
	if rows < columns {
		across = alongY
	}
	t = &tiling{width: min(columns, rows), left: len(p.copies), waste: columns * rows}
	t.lines = make([]uint64, max(columns, rows))
	for _, c := range p.copies {
		i := slices.IndexFunc(t.kinds, func(k tile) bool { return k.kind == c.kind })
		if i < 0 {
			i = len(t.kinds)
			t.kinds = append(t.kinds, newTile(p, c.kind, unit, across))
		}
		t.kinds[i].left++
		t.waste -= t.kinds[i].area
		t.common = gcd(t.common, t.kinds[i].area)
		if t.least == 0 || t.kinds[i].area < t.least {
			t.least = t.kinds[i].area
		}
	}
	slices.SortStableFunc(t.kinds, func(a, b tile) int { return cmp.Compare(b.area, a.area) })
	t.stack = []tileStep{{form: -1}}
	if t.waste < 0 {
		t.state = tilingNone
	}
	return t, across
}

// lineWay says what a line is.
type lineWay bool

const (
	alongX lineWay = false // a line is a row, bits run right
	alongY lineWay = true  // a line is a column, bits run up
)

func newTile(p *problem, kind int, unit shape.Um, way lineWay) tile {
	t := tile{kind: kind}
	for i, f := range p.kinds[kind].forms {
		w, h := f.w, f.h
		if way == alongY {
			w, h = h, w
		}
		tf := tileForm{form: i, lines: make([]uint64, h/unit), width: int(w / unit)}
		area := 0
		for _, r := range f.rects {
			if way == alongY {
				r = shape.Rect{Min: shape.Point{X: r.Min.Y, Y: r.Min.X}, Max: shape.Point{X: r.Max.Y, Y: r.Max.X}}
			}
			run := run(int(r.Max.X/unit)) &^ run(int(r.Min.X/unit))
			for y := r.Min.Y / unit; y < r.Max.Y/unit; y++ {
				tf.lines[y] |= run
				area += int((r.Max.X - r.Min.X) / unit)
			}
		}
		tf.first = bits.TrailingZeros64(tf.lines[0])
		t.area = area
		t.forms = append(t.forms, tf)
	}
	return t
}

// run is the n lowest bits; n may be beyond 64.
func run(n int) uint64 { return uint64(1)<<min(n, 64) - 1 }

func gcd[T int | shape.Um](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// search goes on until it is through or the work is spent.
func (t *tiling) search(work int) {
	for end := t.work + work; t.work < end && t.state == tilingOpen; {
		if len(t.stack) == 0 {
			t.state = tilingNone
			return
		}
		s := &t.stack[len(t.stack)-1]
		if s.placed {
			t.turnOver(s)
		}
		if !t.next(s) {
			t.stack = t.stack[:len(t.stack)-1]
			continue
		}
		if t.left == 0 {
			t.state = tilingFound
			return
		}
		if line, bit, ok := t.free(s.line); ok && t.hopeful(line, bit) {
			t.stack = append(t.stack, tileStep{line: line, bit: bit, form: -1})
		}
	}
}

// turnOver puts the step's piece down where it isn't, and takes it up where it is.
func (t *tiling) turnOver(s *tileStep) {
	d := 1
	if s.placed {
		d = -1
	}
	s.placed = !s.placed
	if s.kind == len(t.kinds) {
		t.lines[s.line] ^= 1 << s.bit
		t.waste -= d
		return
	}
	k := &t.kinds[s.kind]
	for i, m := range k.forms[s.form].lines {
		t.lines[s.line+i] ^= m << s.shift
	}
	k.left -= d
	t.left -= d
}

// next makes the step's next decision that is possible.
func (t *tiling) next(s *tileStep) bool {
	for s.kind < len(t.kinds) {
		k := &t.kinds[s.kind]
		s.form++
		if s.form == len(k.forms) || k.left == 0 {
			s.kind, s.form = s.kind+1, -1
			continue
		}
		f := &k.forms[s.form]
		s.shift = s.bit - f.first
		t.work++
		if s.shift >= 0 && s.shift+f.width <= t.width && s.line+len(f.lines) <= len(t.lines) && t.fits(f, s.line, s.shift) {
			t.turnOver(s)
			return true
		}
	}
	if s.form == -1 && t.waste > 0 {
		s.form = 0
		t.turnOver(s)
		return true
	}
	return false
}

func (t *tiling) fits(f *tileForm, line, shift int) bool {
	for i, m := range f.lines {
		if t.lines[line+i]&(m<<shift) != 0 {
			return false
		}
	}
	return true
}

// free is the first free cell from line on.
func (t *tiling) free(line int) (int, int, bool) {
	for full := run(t.width); line < len(t.lines); line++ {
		if t.lines[line] != full {
			return line, bits.TrailingZeros64(^t.lines[line]), true
		}
	}
	return 0, 0, false
}

// lookAhead is how many lines hopeful looks at.
const lookAhead = 8

// hopeful says whether what hangs together with a free cell can be used well
// enough: where it ends within a few lines, what no number of pieces can fill
// must be within the waste.
func (t *tiling) hopeful(line, bit int) bool {
	if t.common == 1 && t.waste >= t.least {
		return true
	}
	var spread [lookAhead]uint64
	n := min(lookAhead, len(t.lines)-line)
	full := run(t.width)
	spread[0] = 1 << bit
	for changed := true; changed; {
		changed = false
		t.work += n
		for i := range n {
			s := spread[i]
			if i > 0 {
				s |= spread[i-1]
			}
			if i+1 < n {
				s |= spread[i+1]
			}
			open := full &^ t.lines[line+i]
			s &= open
			for {
				wider := (s | s<<1 | s>>1) & open
				if wider == s {
					break
				}
				s = wider
			}
			if s != spread[i] {
				spread[i], changed = s, true
			}
		}
	}
	if n == lookAhead && spread[n-1] != 0 {
		return true
	}
	area := 0
	for _, s := range spread[:n] {
		area += bits.OnesCount64(s)
	}
	if area < t.least {
		return area <= t.waste
	}
	return area%t.common <= t.waste
}
