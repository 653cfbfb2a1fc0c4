package route

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// nestedSheet is a sheet of places in rows, most with a part, each with holes
// and at times smaller parts in them, to any depth. parent is known from how
// it was made.
func nestedSheet(rng *rand.Rand, columns, rows int) (s Sheet, parent []int) {
	const pitch = 12 * shape.Mm
	var fill func(x, y, side shape.Um, parent0 int, turn bool)
	fill = func(x, y, side shape.Um, up int, hole bool) {
		if side < shape.Mm {
			return
		}
		c := steps(rng, x, y, side)
		if hole {
			c = c.Reversed()
		}
		l := Loop{Contour: c}
		for e := range c {
			if n := length(c[e].Point, c[(e+1)%len(c)].Point); n > 2*shape.Mm && rng.IntN(8) == 0 {
				l.Tabs = append(l.Tabs, Tab{e, n / 3, n/3 + 500})
			}
		}
		me := len(s.Loops)
		s.Loops, parent = append(s.Loops, l), append(parent, up)
		if rng.IntN(3) == 0 {
			half := (side - 4*side/10) / 2
			fill(x+side/4, y+side/4, half, me, !hole)
		}
	}
	for i := range columns {
		for k := range rows {
			if rng.IntN(10) > 0 {
				side := shape.Um(2000 + rng.IntN(9000))
				fill(shape.Um(i)*pitch+shape.Um(rng.IntN(900)), shape.Um(k)*pitch, side, -1, false)
			}
		}
	}
	// Not in the order that they must be cut in.
	order := rng.Perm(len(s.Loops))
	t, p, to := Sheet{Loops: make([]Loop, len(order))}, make([]int, len(order)), func(i int) int { return order[i] }
	for i, l := range s.Loops {
		t.Loops[to(i)] = l
		p[to(i)] = -1
		if parent[i] >= 0 {
			p[to(i)] = to(parent[i])
		}
	}
	return t, p
}

// steps is a square, or one with a step cut from a corner.
func steps(rng *rand.Rand, x, y, side shape.Um) shape.Contour {
	if rng.IntN(2) == 0 {
		return square(x, y, side)
	}
	d := side / 10
	return shape.Ring{
		{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side - d}, {X: x + side - d, Y: y + side - d},
		{X: x + side - d, Y: y + side}, {X: x, Y: y + side},
	}.Contour()
}

// requireOrder wants each loop to be through before the one round it begins,
// in every round over the sheet, and every mark before every cut.
func requireOrder(t *testing.T, s Sheet, parent []int, r Route) {
	t.Helper()
	begins, ends := map[[2]int]int{}, map[[2]int]int{}
	lastMark, firstCut := -1, math.MaxInt
	for i, st := range r.Strokes {
		if st.Kind == Marking {
			lastMark = max(lastMark, i)
			continue
		}
		firstCut = min(firstCut, i)
		round := 0
		if s.Repeat == WholeSheet {
			round = st.Pass
		}
		k := [2]int{st.Source, round}
		if _, ok := begins[k]; !ok {
			begins[k] = i
		}
		ends[k] = i
	}
	require.Less(t, lastMark, firstCut)
	for i, p := range parent {
		if p < 0 {
			continue
		}
		rounds := 1
		if s.Repeat == WholeSheet {
			rounds = max(1, s.Passes)
		}
		for round := range rounds {
			require.Less(t, ends[[2]int{i, round}], begins[[2]int{p, round}], "loop %d comes before %d, which is round it", i, p)
		}
	}
}

// piece is a straight bit of line, whichever way it runs.
type piece struct{ a, b shape.Point }

func pieceOf(a, b shape.Point) piece {
	if cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) > 0 {
		a, b = b, a
	}
	return piece{a, b}
}

// lineBits lists what the strokes of one pass run over, cut at every
// coordinate in `at`, so that equal bits are equal values.
func lineBits(paths []Stroke, at []shape.Um) []piece {
	var out []piece
	for _, st := range paths {
		n := len(st.Path)
		if !st.Closed {
			n--
		}
		for i := range n {
			out = append(out, bits(st.Path[i].Point, st.Path[(i+1)%len(st.Path)].Point, at)...)
		}
	}
	return out
}

func bits(a, b shape.Point, at []shape.Um) []piece {
	p := pieceOf(a, b)
	cut := []shape.Point{p.a}
	for _, v := range at {
		switch {
		case p.a.Y == p.b.Y && v > p.a.X && v < p.b.X:
			cut = append(cut, shape.Point{X: v, Y: p.a.Y})
		case p.a.X == p.b.X && v > p.a.Y && v < p.b.Y:
			cut = append(cut, shape.Point{X: p.a.X, Y: v})
		}
	}
	cut = append(cut, p.b)
	var out []piece
	for i := 1; i < len(cut); i++ {
		out = append(out, pieceOf(cut[i-1], cut[i]))
	}
	return out
}

// wantedBits are the bits of all contours, each once, less those of all tabs.
func wantedBits(s Sheet) (want []piece, at []shape.Um) {
	tabEnds := func(l Loop, t Tab) (a, b shape.Point) {
		p, q := l.Contour[t.Edge].Point, l.Contour[(t.Edge+1)%len(l.Contour)].Point
		n := length(p, q)
		d := q.Sub(p)
		at := func(f shape.Um) shape.Point { return p.Add(shape.Point{X: d.X * f / n, Y: d.Y * f / n}) }
		return at(t.From), at(t.To)
	}
	for _, l := range s.Loops {
		for _, v := range l.Contour {
			at = append(at, v.X, v.Y)
		}
		for _, t := range l.Tabs {
			a, b := tabEnds(l, t)
			at = append(at, a.X, a.Y, b.X, b.Y)
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	set := map[piece]bool{}
	for _, l := range s.Loops {
		for i, v := range l.Contour {
			for _, p := range bits(v.Point, l.Contour[(i+1)%len(l.Contour)].Point, at) {
				set[p] = true
			}
		}
	}
	for _, l := range s.Loops {
		for _, t := range l.Tabs {
			a, b := tabEnds(l, t)
			for _, p := range bits(a, b, at) {
				delete(set, p)
			}
		}
	}
	for p := range set {
		want = append(want, p)
	}
	return want, at
}

// travelOf sums the moves again, from outside.
func travelOf(s Sheet, r Route) shape.Um {
	var sum shape.Um
	here := s.Start
	hop := func(p shape.Point) {
		sum += shape.Um(math.Round(math.Hypot(float64(p.X-here.X), float64(p.Y-here.Y))))
		here = p
	}
	for _, st := range r.Strokes {
		hop(st.Path[0].Point)
		if !st.Closed {
			here = st.Path[len(st.Path)-1].Point
		}
	}
	if s.End == AtStart {
		hop(s.Start)
	}
	return sum
}
