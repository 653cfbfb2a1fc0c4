package outline

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"sheetsprite/engine/stack"
)

// splitter makes a random forest of a drawing by the rule that stack goes by,
// without looking for a good one: a region is cut from a random one of its
// colours, some of that colour's cells show, the rest falls apart and is
// treated likewise.
type splitter struct {
	rng   *rand.Rand
	d     stack.Drawing
	joins [stack.MaxColours + 1]bool
	apart map[stack.Diagonal]bool
	parts []stack.Part
}

func randomForest(rng *rand.Rand, d stack.Drawing, joinable func(stack.Colour) bool) *stack.Forest {
	s := &splitter{rng: rng, d: d, apart: map[stack.Diagonal]bool{}}
	for c := range s.joins {
		s.joins[c] = c > 0 && joinable(stack.Colour(c))
	}
	all := make([]bool, len(d.Cells))
	for i, c := range d.Cells {
		all[i] = c != 0
	}
	for _, r := range s.components(all, true) {
		s.region(r, 1, -1)
	}
	f := &stack.Forest{W: d.W, H: d.H}
	order := make([]int, len(s.parts))
	for i := range order {
		order[i] = i
		f.Heights = max(f.Heights, s.parts[i].Height)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		p, q := s.parts[a], s.parts[b]
		return cmp.Or(cmp.Compare(p.Height, q.Height), cmp.Compare(p.Cells[0].Y, q.Cells[0].Y), cmp.Compare(p.Cells[0].X0, q.Cells[0].X0))
	})
	place := make([]int, len(order))
	for to, from := range order {
		place[from] = to
	}
	for _, from := range order {
		p := s.parts[from]
		if p.On >= 0 {
			p.On = place[p.On]
		}
		f.Parts = append(f.Parts, p)
	}
	return f
}

// region makes the parts of one connected region.
func (s *splitter) region(cells []bool, height, on int) {
	var colours []stack.Colour
	for i, in := range cells {
		if in && !slices.Contains(colours, s.d.Cells[i]) {
			colours = append(colours, s.d.Cells[i])
		}
	}
	c := colours[s.rng.IntN(len(colours))]
	if !s.joins[c] {
		for _, d := range s.contacts(cells) {
			s.apart[d] = true
		}
	}
	for _, piece := range s.components(cells, true) {
		s.part(piece, c, height, on)
	}
}

func (s *splitter) part(cells []bool, c stack.Colour, height, on int) {
	var own []bool
	has := false
	for i, in := range cells {
		has = has || in && s.d.Cells[i] == c
	}
	if !has { // the colour lies in another piece of the region
		s.region(cells, height, on)
		return
	}
	own = make([]bool, len(cells))
	for i, in := range cells {
		own[i] = in && s.d.Cells[i] == c
	}
	rest := slices.Clone(cells)
	shown := 0
	patches := s.components(own, false)
	for k, patch := range patches {
		if k == len(patches)-1 && shown == 0 || s.rng.IntN(3) > 0 {
			shown++
			for i, in := range patch {
				rest[i] = rest[i] && !in
			}
		}
	}
	index := len(s.parts)
	shows := slices.Clone(cells)
	for i := range shows {
		shows[i] = shows[i] && !rest[i]
	}
	s.parts = append(s.parts, stack.Part{Colour: c, Height: height, On: on, Cells: s.runs(cells), Shows: s.runs(shows)})
	for _, r := range s.components(rest, true) {
		s.region(r, height+1, index)
	}
}

func (s *splitter) in(cells []bool, x, y int) bool {
	return x >= 0 && y >= 0 && x < s.d.W && y < s.d.H && cells[y*s.d.W+x]
}

// contacts is the corners where two of the cells touch at a corner only.
func (s *splitter) contacts(cells []bool) []stack.Diagonal {
	var out []stack.Diagonal
	for y := 1; y < s.d.H; y++ {
		for x := 1; x < s.d.W; x++ {
			ul, ur, ll, lr := s.in(cells, x-1, y-1), s.in(cells, x, y-1), s.in(cells, x-1, y), s.in(cells, x, y)
			if ul && lr && !ur && !ll || ur && ll && !ul && !lr {
				out = append(out, stack.Diagonal{Col: int32(x), Row: int32(y), Rising: ur})
			}
		}
	}
	return out
}

// components falls apart by sides, or also holds at corners that aren't apart.
func (s *splitter) components(cells []bool, corners bool) [][]bool {
	links := map[int][]int{}
	if corners {
		for _, d := range s.contacts(cells) {
			if s.apart[d] {
				continue
			}
			a, b := int(d.Row-1)*s.d.W+int(d.Col-1), int(d.Row)*s.d.W+int(d.Col)
			if d.Rising {
				a, b = a+1, b-1
			}
			links[a], links[b] = append(links[a], b), append(links[b], a)
		}
	}
	seen := make([]bool, len(cells))
	var out [][]bool
	for i, in := range cells {
		if !in || seen[i] {
			continue
		}
		c := make([]bool, len(cells))
		todo := []int{i}
		for len(todo) > 0 {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if seen[k] {
				continue
			}
			seen[k], c[k] = true, true
			x, y := k%s.d.W, k/s.d.W
			for _, n := range [][2]int{{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}} {
				if s.in(cells, n[0], n[1]) {
					todo = append(todo, n[1]*s.d.W+n[0])
				}
			}
			todo = append(todo, links[k]...)
		}
		out = append(out, c)
	}
	return out
}

func (s *splitter) runs(cells []bool) []stack.Run {
	var out []stack.Run
	for y := range s.d.H {
		for x := 0; x < s.d.W; x++ {
			if !s.in(cells, x, y) {
				continue
			}
			x0 := x
			for s.in(cells, x, y) {
				x++
			}
			out = append(out, stack.Run{Y: int32(y), X0: int32(x0), X1: int32(x)})
		}
	}
	return out
}

func randomDrawing(rng *rand.Rand, w, h, colours int, empty float64) stack.Drawing {
	d := stack.Drawing{W: w, H: h, Cells: make([]stack.Colour, w*h)}
	for i := range d.Cells {
		switch {
		case rng.Float64() < empty:
		case i > 0 && rng.IntN(3) == 0:
			d.Cells[i] = d.Cells[i-1]
		case i >= w && rng.IntN(2) == 0:
			d.Cells[i] = d.Cells[i-w]
		default:
			d.Cells[i] = stack.Colour(1 + rng.IntN(colours))
		}
	}
	return d
}
