package number

import (
	"hash"
	"hash/fnv"
	"slices"
	"strconv"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Parts is the number of each part of a layout at its height, by its Index, and
// what the sprite is to remember. forest is what the layout was made of, stocks
// are what its layers point into, had is what the sprite remembers.
//
// A part is the same thing as before where it is cut from the same cells of the
// same stock at the same height; what lies at its place comes first, then what
// has moved along with the drawing, then any of its shape: those are
// interchangeable. All others get new numbers: of a drawing that nobody saw
// before counted within each height from the top row, there from the left, which
// is the order of their indices (see stack.Forest), else above all numbers that
// were ever given.
//
// spacers are the layers of cut pieces that lift parts; their numbers come after
// those of the parts at their height, here after all parts.
func Parts(had project.Numbers, f *stack.Forest, l *outline.Layout, spacers []outline.Layer, stocks []project.Stock) (numbers []int, now project.Numbers) {
	parts := thingsOf(f, l, stocks)
	for _, layer := range spacers {
		for _, p := range layer.Parts {
			parts = append(parts, pieceOf("spacer", layer, p, l, stocks))
		}
	}
	m := matcher{parts: parts, had: slices.Clone(had.Parts), used: make([]bool, len(had.Parts)), numbers: make([]int, len(parts)), at: map[key][]int{}}
	for i, q := range m.had {
		k := key{q.Height, q.Print}
		m.at[k] = append(m.at[k], i)
	}
	m.inPlace(m.drift())
	m.inPlace(0, 0)
	m.anywhere()
	m.others()
	now = had
	now.Parts = kept(m.had, m.used)
	return m.numbers, now
}

// Prints are what tells pieces of card apart, by a part's Index: the same for
// what is cut from the same cells of the same stock, wherever in the drawing they
// are. Hidden edges, joins and the kerf are left out: what is changed above a
// part draws its edges back by some tenths of a millimetre, and the piece that is
// cut still fits. A backer, which has no cells, is told by its outline. Cells
// count, not how large they are.
func Prints(f *stack.Forest, l *outline.Layout, stocks []project.Stock) []string {
	things := thingsOf(f, l, stocks)
	out := make([]string, len(things))
	for i, t := range things {
		out[i] = t.print
	}
	return out
}

// thing is a part as it is told from others.
type thing struct {
	key
	col, row int // of the upper left corner of its cells' bounds
}

type key struct {
	height int
	print  string
}

// thingsOf are the parts of a layout by their Index.
func thingsOf(f *stack.Forest, l *outline.Layout, stocks []project.Stock) []thing {
	n := 0
	for _, layer := range l.Layers {
		n += len(layer.Parts)
	}
	things := make([]thing, n)
	for _, layer := range l.Layers {
		for _, p := range layer.Parts {
			if p.Tree < 0 {
				things[p.Index] = pieceOf("backer", layer, p, l, stocks)
				continue
			}
			runs := f.Parts[p.Tree].Cells
			left := runs[0].X0
			for _, r := range runs {
				left = min(left, r.X0)
			}
			print := newPrint(stocks[layer.Stock].ID)
			for _, r := range runs {
				print.say(int64(r.Y - runs[0].Y))
				print.say(int64(r.X0 - left))
				print.say(int64(r.X1 - left))
			}
			things[p.Index] = thing{key{layer.Height, print.text()}, int(left), int(runs[0].Y)}
		}
	}
	return things
}

// pieceOf is a piece that has a shape of its own, in the cells of no part: it is
// told by that.
func pieceOf(kind string, layer outline.Layer, p outline.Part, l *outline.Layout, stocks []project.Stock) thing {
	low := p.Outline.Bounds().Min
	print := newPrint(stocks[layer.Stock].ID + "\n" + kind)
	for _, c := range append([]shape.Contour{p.Outline.Outer}, p.Outline.Holes...) {
		for _, v := range c {
			print.say(int64(v.X - low.X))
			print.say(int64(v.Y - low.Y))
		}
		print.say(int64(len(c)))
	}
	cell := func(at shape.Um, most int) int { return int(min(max(0, at/l.Cell), shape.Um(most))) }
	return thing{key{layer.Height, print.text()}, cell(low.X-l.Grid.X, l.Cols), cell(low.Y-l.Grid.Y, l.Rows)}
}

// print is what makes a thing the same thing, in the making.
type print struct{ sum hash.Hash64 }

func newPrint(kind string) print {
	h := fnv.New64a()
	h.Write([]byte(kind + "\n"))
	return print{h}
}

func (p print) say(n int64) { p.sum.Write(append(strconv.AppendInt(nil, n, 10), ' ')) }

func (p print) text() string {
	digits := strconv.FormatUint(p.sum.Sum64(), 16)
	return "0000000000000000"[len(digits):] + digits
}

// matcher finds again what had a number.
type matcher struct {
	parts   []thing
	had     []project.Numbered
	used    []bool // beside had
	numbers []int  // beside parts; 0: none yet
	at      map[key][]int
}

// drift is by how much most of the parts that there is one of have moved.
func (m *matcher) drift() (col, row int) {
	count := map[key]int{}
	for _, t := range m.parts {
		count[t.key]++
	}
	votes := map[[2]int]int{}
	for _, t := range m.parts {
		if i := m.at[t.key]; len(i) == 1 && count[t.key] == 1 {
			way := [2]int{t.col - m.had[i[0]].Col, t.row - m.had[i[0]].Row}
			votes[way]++
			if votes[way] > votes[[2]int{col, row}] {
				col, row = way[0], way[1]
			}
		}
	}
	return col, row
}

// inPlace gives parts the numbers of what they are the same as, where that lay
// so far away.
func (m *matcher) inPlace(col, row int) {
	there := map[thing]int{}
	for k, q := range m.had {
		if !m.used[k] {
			there[thing{key{q.Height, q.Print}, q.Col + col, q.Row + row}] = k
		}
	}
	for i, t := range m.parts {
		if k, ok := there[t]; ok && m.numbers[i] == 0 {
			m.give(i, k)
		}
	}
}

// anywhere gives parts the numbers of what they are the same as, wherever that
// lay, in order.
func (m *matcher) anywhere() {
	for i, t := range m.parts {
		if m.numbers[i] > 0 {
			continue
		}
		left := m.at[t.key]
		for len(left) > 0 && m.used[left[0]] {
			left = left[1:]
		}
		if len(left) > 0 {
			m.give(i, left[0])
		}
		m.at[t.key] = left
	}
}

// give gives part i the number of what had it at k.
func (m *matcher) give(i, k int) {
	m.used[k], m.numbers[i] = true, m.had[k].Number
	m.had[k].Col, m.had[k].Row = m.parts[i].col, m.parts[i].row
}

// others gives the rest new numbers.
func (m *matcher) others() {
	most := map[int]int{} // by height; only asked
	for _, q := range m.had {
		most[q.Height] = max(most[q.Height], q.Number)
	}
	for i := range m.parts {
		if t := &m.parts[i]; m.numbers[i] == 0 {
			most[t.height]++
			m.numbers[i] = most[t.height]
			m.had = append(m.had, project.Numbered{Height: t.height, Number: m.numbers[i], Print: t.print, Col: t.col, Row: t.row})
			m.used = append(m.used, true)
		}
	}
}

// mostGone is how many numbers of parts that are gone a sprite remembers.
const mostGone = 5000

// kept is what is remembered, in order: all that is used, and of what is gone
// the highest numbers where there are too many.
func kept(all []project.Numbered, used []bool) []project.Numbered {
	var now, gone []project.Numbered
	for i, q := range all {
		if used[i] {
			now = append(now, q)
		} else {
			gone = append(gone, q)
		}
	}
	if more := len(gone) - mostGone; more > 0 {
		slices.SortStableFunc(gone, func(a, b project.Numbered) int { return a.Number - b.Number })
		gone = gone[more:]
	}
	now = append(now, gone...)
	slices.SortFunc(now, project.CompareNumbered)
	return now
}
