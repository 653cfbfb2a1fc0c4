package stack_test

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/stack"
)

// The judge of this file works on cells, not on patches, and tries every forest.

// cells is a set of up to 64 cells.
type cells uint64

// brute tries all forests of a tiny drawing.
type brute struct {
	d     stack.Drawing
	rules stack.Rules
	every bool // any set of a colour's patches may show, not just all
	memo  map[cells][]stack.Cost
}

// spread is the cells of within that hang together with the first cell of from.
func (b *brute) spread(from, within cells, corners bool) cells {
	got := from & -from
	for {
		more := got
		for s := got; s != 0; s &= s - 1 {
			i := bits.TrailingZeros64(uint64(s))
			x, y := i%b.d.W, i/b.d.W
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if !corners && dx != 0 && dy != 0 {
						continue
					}
					if u, v := x+dx, y+dy; u >= 0 && v >= 0 && u < b.d.W && v < b.d.H {
						more |= cells(1) << (v*b.d.W + u) & within
					}
				}
			}
		}
		if more == got {
			return got
		}
		got = more
	}
}

func (b *brute) pieces(of cells) []cells {
	var out []cells
	for of != 0 {
		q := b.spread(of, of, b.rules.Joins != 0)
		out = append(out, q)
		of &^= q
	}
	return out
}

func (b *brute) has(s cells, x, y int) bool {
	return x >= 0 && y >= 0 && x < b.d.W && y < b.d.H && s>>(y*b.d.W+x)&1 != 0
}

// own is what a part cut from r costs by itself.
func (b *brute) own(r cells) stack.Cost {
	c := stack.Cost{Parts: 1, Heights: 1}
	x0, y0, x1, y1 := 99, 99, -1, -1
	for y := range b.d.H {
		for x := range b.d.W {
			if !b.has(r, x, y) {
				continue
			}
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
			for _, e := range [][2]int{{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}} {
				if !b.has(r, e[0], e[1]) {
					c.Cut++
				}
			}
		}
	}
	if max(x1-x0, y1-y0)+1 <= b.rules.SmallCells {
		c.Small = 1
	}
	return c
}

// diagonals counts the corners at which s touches itself across a corner only.
func (b *brute) diagonals(s cells) map[[2]int]bool {
	out := map[[2]int]bool{}
	for y := 1; y < b.d.H; y++ {
		for x := 1; x < b.d.W; x++ {
			ul, ur, ll, lr := b.has(s, x-1, y-1), b.has(s, x, y-1), b.has(s, x-1, y), b.has(s, x, y)
			if ul == lr && ur == ll && ul != ur {
				out[[2]int{x, y}] = true
			}
		}
	}
	return out
}

// forests are the costs of all ways to cut r.
func (b *brute) forests(r cells) []stack.Cost {
	if c, ok := b.memo[r]; ok {
		return c
	}
	byColour := map[stack.Colour]cells{}
	for s := r; s != 0; s &= s - 1 {
		i := bits.TrailingZeros64(uint64(s))
		byColour[b.d.Cells[i]] |= 1 << i
	}
	seen := map[stack.Cost]bool{}
	for c, mine := range byColour {
		allowed := true
		for o := range byColour {
			allowed = allowed && (o == c || !b.rules.Below[c].Has(o))
		}
		if !allowed {
			continue
		}
		var patches []cells
		for left := mine; left != 0; {
			p := b.spread(left, mine, b.rules.Joins.Has(c))
			patches = append(patches, p)
			left &^= p
		}
		from := 1<<len(patches) - 1
		if b.every {
			from = 1
		}
		for choice := from; choice < 1<<len(patches); choice++ {
			shows := cells(0)
			for i, p := range patches {
				if choice>>i&1 != 0 {
					shows |= p
				}
			}
			rest := r &^ shows
			// Above this part, the costs of all combinations of its pieces' forests.
			above := map[stack.Cost]bool{{}: true}
			for _, q := range b.pieces(rest) {
				next := map[stack.Cost]bool{}
				for x := range above {
					for _, y := range b.forests(q) {
						next[stack.Cost{Parts: x.Parts + y.Parts, Small: x.Small + y.Small, Heights: max(x.Heights, y.Heights), Joins: x.Joins + y.Joins, Cut: x.Cut + y.Cut}] = true
					}
				}
				above = next
			}
			// A join shows where the rest touches itself across a corner and this
			// region did not: what held it together now shows below.
			own := b.own(r)
			if b.rules.Joins != 0 {
				before := b.diagonals(r)
				for k := range b.diagonals(rest) {
					if !before[k] {
						own.Joins++
					}
				}
			}
			for x := range above {
				seen[stack.Cost{Parts: x.Parts + own.Parts, Small: x.Small + own.Small, Heights: x.Heights + 1, Joins: x.Joins + own.Joins, Cut: x.Cut + own.Cut}] = true
			}
		}
	}
	out := make([]stack.Cost, 0, len(seen))
	for c := range seen {
		out = append(out, c)
	}
	b.memo[r] = out
	return out
}

// best is the least cost of all forests with at most limit heights.
func (b *brute) best(limit int) stack.Cost {
	b.memo = map[cells][]stack.Cost{}
	all := cells(0)
	for i, c := range b.d.Cells {
		if c != 0 {
			all |= 1 << i
		}
	}
	costs := map[stack.Cost]bool{{}: true}
	for _, q := range b.pieces(all) {
		next := map[stack.Cost]bool{}
		for x := range costs {
			for _, y := range b.forests(q) {
				next[stack.Cost{Parts: x.Parts + y.Parts, Small: x.Small + y.Small, Heights: max(x.Heights, y.Heights), Joins: x.Joins + y.Joins, Cut: x.Cut + y.Cut}] = true
			}
		}
		costs = next
	}
	best := stack.Cost{Parts: 1 << 30}
	for c := range costs {
		if c.Heights <= limit && c.Compare(best) < 0 {
			best = c
		}
	}
	return best
}

// costOf measures a forest from its cells.
func costOf(f *stack.Forest, r stack.Rules) stack.Cost {
	var c stack.Cost
	b := &brute{d: stack.Drawing{W: f.W, H: f.H}, rules: r}
	top := make([]int, f.W*f.H)
	for _, p := range f.Parts {
		region := cells(0)
		for _, run := range p.Cells {
			for x := run.X0; x < run.X1; x++ {
				region |= 1 << (int(run.Y)*f.W + int(x))
			}
		}
		own := b.own(region)
		c.Parts++
		c.Small += own.Small
		c.Cut += own.Cut
		c.Heights = max(c.Heights, p.Height)
		for _, run := range p.Shows {
			for x := run.X0; x < run.X1; x++ {
				top[int(run.Y)*f.W+int(x)] = p.Height
			}
		}
	}
	at := func(x, y int) int { return top[y*f.W+x] }
	if r.Joins != 0 {
		for y := 1; y < f.H; y++ {
			for x := 1; x < f.W; x++ {
				ul, ur, ll, lr := at(x-1, y-1), at(x, y-1), at(x-1, y), at(x, y)
				lo, hi := max(ul, lr), min(ur, ll)
				if min(ul, lr) > max(ur, ll) {
					lo, hi = max(ur, ll), min(ul, lr)
				}
				// Where nothing lies beside the join it is there in every forest.
				if hi > lo && lo > 0 {
					c.Joins++
				}
			}
		}
	}
	return c
}

func randomDrawing(r *rand.Rand, w, h, colours int, emptyOneIn int) stack.Drawing {
	d := stack.Drawing{W: w, H: h, Cells: make([]stack.Colour, w*h)}
	for i := range d.Cells {
		if emptyOneIn == 0 || r.IntN(emptyOneIn) != 0 {
			d.Cells[i] = stack.Colour(1 + r.IntN(colours))
		}
	}
	return d
}

func text(d stack.Drawing) string {
	s := ""
	for y := range d.H {
		for x := range d.W {
			s += string(".abcdefghijklmnopqrstuvwxyz"[d.At(x, y)])
		}
		s += "\n"
	}
	return s
}

// Both steps find what trying everything finds, ties included.
func TestSearchEqualsBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 400 {
		w, h := 1+r.IntN(4), 1+r.IntN(4)
		d := randomDrawing(r, w, h, 2+r.IntN(3), []int{0, 4, 8}[n%3])
		rules := stack.Rules{Joins: d.Colours(), SmallCells: r.IntN(3), ExtraHeights: r.IntN(3)}
		if n%4 == 0 {
			rules.Joins = 0
		}
		switch all := d.Colours(); {
		case n%5 == 1 && all.Has(1):
			rules.Lowest(1, all)
		case n%5 == 2 && all.Has(2):
			rules.Highest(2, all)
		case n%5 == 3:
			rules.Under(2, 1)
		}
		name := fmt.Sprintf("drawing %d, rules %+v\n%s", n, rules, text(d))
		limit := d.Colours().Len()

		first, err := stack.First(d, rules)
		require.NoError(t, err, name)
		require.Equal(t, (&brute{d: d, rules: rules}).best(limit), costOf(first, rules), name)

		fewest, err := stack.Fewest(d, rules)
		require.NoError(t, err, name)
		require.Equal(t, (&brute{d: d, rules: rules, every: true}).best(limit+rules.ExtraHeights), costOf(fewest, rules), name)
	}
}

// No part is saved by showing one patch at two heights: forests that may split
// patches into cells have as many parts.
func TestSplittingPatchesSavesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 150 {
		d := randomDrawing(r, 3, 3, 3, 6)
		rules := stack.Rules{Joins: d.Colours(), ExtraHeights: 9}
		require.Equal(t, fewestOfCells(d), len(must(stack.Fewest(d, rules)).Parts), text(d))
	}
}

// fewestOfCells is the least number of parts where any cells may show.
func fewestOfCells(d stack.Drawing) int {
	b := &brute{d: d, rules: stack.Rules{Joins: d.Colours()}}
	memo := map[cells]int{}
	var solve func(r cells) int
	sum := func(r cells) int {
		n := 0
		for _, q := range b.pieces(r) {
			n += solve(q)
		}
		return n
	}
	solve = func(r cells) int {
		if n, ok := memo[r]; ok {
			return n
		}
		best := 1 << 30
		for c := stack.Colour(1); c <= 3; c++ {
			mine := cells(0)
			for i, k := range d.Cells {
				if k == c {
					mine |= 1 << i & r
				}
			}
			for shows := mine; shows != 0; shows = (shows - 1) & mine {
				best = min(best, 1+sum(r&^shows))
			}
		}
		memo[r] = best
		return best
	}
	all := cells(0)
	for i, c := range d.Cells {
		if c != 0 {
			all |= 1 << i
		}
	}
	return sum(all)
}

func must(f *stack.Forest, err error) *stack.Forest {
	if err != nil {
		panic(err)
	}
	return f
}
