package stack_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// drawings to try everything on: random ones of all sizes, sprites and noise.
func drawings(yield func(name string, d stack.Drawing) bool) {
	r := rand.New(rand.NewPCG(5, 6))
	rounds := 90
	if testing.Short() {
		rounds = 12
	}
	for n := range rounds {
		side := []int{3, 6, 10, 17}[n%4]
		w, h := 1+r.IntN(side), 1+r.IntN(side)
		d := randomDrawing(r, w, h, 1+r.IntN(6), []int{0, 3, 10}[n%3])
		if !yield(fmt.Sprintf("random %d", n), d) {
			return
		}
	}
	for n := range 1 + rounds/20 {
		if !yield(fmt.Sprintf("sprite %d", n), stacktest.Sprite32(n, 4+n%5)) {
			return
		}
	}
	for _, side := range []int{1, 2, min(33, rounds)} {
		if !yield(fmt.Sprintf("noise %d", side), stacktest.Noise(side, side, min(24, side*side), side)) {
			return
		}
	}
	if !yield("tiled", stacktest.Tile(min(64, 5*rounds), 16)) {
		return
	}
	yield("empty", stack.Drawing{W: 3, H: 2, Cells: make([]stack.Colour, 6)})
}

// styles are all ways to make a forest, few rounds each.
func styles(d stack.Drawing) map[string]func(stack.Rules) *stack.Forest {
	return map[string]func(stack.Rules) *stack.Forest{
		"first":  func(r stack.Rules) *stack.Forest { return must(stack.First(d, r)) },
		"fewest": func(r stack.Rules) *stack.Forest { return must(stack.Fewest(d, r)) },
		"by hand": func(r stack.Rules) *stack.Forest {
			return must(stack.ByHand(d, r, []stack.Colour{3, 1}))
		},
		"side by side": func(r stack.Rules) *stack.Forest { return stack.SideBySide(d, r, 1) },
	}
}

func joinSets(d stack.Drawing) map[string]stack.Colours {
	all := d.Colours()
	return map[string]stack.Colours{"joined": all, "apart": 0, "mixed": all & 0b0101_0110}
}

// What shows is the drawing, cell by cell; every part shows something, and lies
// within the one it rests on, which is one lower.
func TestForestShowsTheDrawing(t *testing.T) {
	for name, d := range drawings {
		for how, joins := range joinSets(d) {
			for style, make := range styles(d) {
				f := make(stack.Rules{Joins: joins, SmallCells: 1, ExtraHeights: 3, Rounds: 100})
				name := fmt.Sprintf("%s, %s, %s", name, how, style)
				checkForest(t, d, f, style == "side by side", how == "joined", name)
			}
		}
	}
}

func checkForest(t *testing.T, d stack.Drawing, f *stack.Forest, sideBySide, joined bool, name string) {
	t.Helper()
	require.Equal(t, [2]int{d.W, d.H}, [2]int{f.W, f.H}, name)
	shown := make([]stack.Colour, d.W*d.H)
	// part[h] is the part at height h+1 in each cell, plus 1.
	part := make([][]int, f.Heights)
	for h := range part {
		part[h] = make([]int, d.W*d.H)
	}
	for i, p := range f.Parts {
		require.NotEmpty(t, p.Shows, "%s: part %d shows nothing", name, i)
		require.True(t, ordered(p.Cells) && ordered(p.Shows), "%s: part %d has unordered runs", name, i)
		for _, run := range p.Cells {
			for x := int(run.X0); x < int(run.X1); x++ {
				at := int(run.Y)*d.W + x
				require.Zero(t, part[p.Height-1][at], "%s: two parts in one place", name)
				part[p.Height-1][at] = i + 1
				if p.On >= 0 {
					require.Equal(t, p.On+1, part[p.Height-2][at], "%s: part %d isn't wholly on part %d", name, i, p.On)
				} else {
					require.Equal(t, 1, p.Height, name)
				}
			}
		}
		for _, run := range p.Shows {
			for x := int(run.X0); x < int(run.X1); x++ {
				require.Zero(t, shown[int(run.Y)*d.W+x], name)
				shown[int(run.Y)*d.W+x] = p.Colour
			}
		}
		if i > 0 {
			q := f.Parts[i-1]
			before := q.Height < p.Height || q.Height == p.Height && (q.Cells[0].Y < p.Cells[0].Y || q.Cells[0].Y == p.Cells[0].Y && q.Cells[0].X0 < p.Cells[0].X0)
			require.True(t, before, "%s: parts %d and %d are out of order", name, i-1, i)
		}
	}
	require.Equal(t, d.Cells, shown, name)
	// Cells show the topmost part that they belong to.
	for at, c := range d.Cells {
		top := 0
		for h := range part {
			if part[h][at] != 0 {
				require.True(t, h == 0 || part[h-1][at] != 0, "%s: a part hangs in the air", name)
				top = part[h][at]
			}
		}
		if c == 0 {
			require.Zero(t, top, name)
		} else {
			require.Equal(t, c, f.Parts[top-1].Colour, name)
		}
	}
	if sideBySide {
		return
	}
	for h := range part {
		at := func(x, y int) int {
			if x < 0 || y < 0 || x >= d.W || y >= d.H {
				return 0
			}
			return part[h][y*d.W+x]
		}
		for y := range d.H {
			for x := range d.W {
				p := at(x, y)
				for _, e := range [][2]int{{x + 1, y}, {x, y + 1}} {
					q := at(e[0], e[1])
					require.True(t, p == 0 || q == 0 || p == q, "%s: parts of height %d touch", name, h+1)
				}
				if joined {
					for _, e := range [][2]int{{x + 1, y + 1}, {x - 1, y + 1}} {
						q := at(e[0], e[1])
						require.True(t, p == 0 || q == 0 || p == q, "%s: parts of height %d touch at a corner", name, h+1)
					}
				}
			}
		}
	}
	if joined {
		checkDiagonals(t, d, part, name)
	}
}

// Two diagonals never cross: where a part touches itself across a corner at one
// height, no other height does so across the other diagonal.
func checkDiagonals(t *testing.T, d stack.Drawing, part [][]int, name string) {
	for y := 1; y < d.H; y++ {
		for x := 1; x < d.W; x++ {
			falling, rising := false, false
			for h := range part {
				at := func(dx, dy int) int { return part[h][(y+dy)*d.W+x+dx] }
				ul, ur, ll, lr := at(-1, -1), at(0, -1), at(-1, 0), at(0, 0)
				falling = falling || ul != 0 && ul == lr && ur == 0 && ll == 0
				rising = rising || ll != 0 && ll == ur && ul == 0 && lr == 0
			}
			require.False(t, falling && rising, "%s: diagonals cross at column %d, row %d", name, x, y)
		}
	}
}

func ordered(runs []stack.Run) bool {
	for i, r := range runs {
		if r.X0 >= r.X1 {
			return false
		}
		if i > 0 && (r.Y < runs[i-1].Y || r.Y == runs[i-1].Y && r.X0 <= runs[i-1].X1) {
			return false
		}
	}
	return true
}

// The second step is never worse than the first, and both are repeatable.
func TestFewestIsNeverWorseThanFirst(t *testing.T) {
	for name, d := range drawings {
		for how, joins := range joinSets(d) {
			r := stack.Rules{Joins: joins, SmallCells: 1, ExtraHeights: 3, Rounds: 100}
			first, fewest := must(stack.First(d, r)), must(stack.Fewest(d, r))
			require.LessOrEqual(t, len(fewest.Parts), len(first.Parts), "%s, %s", name, how)
			require.LessOrEqual(t, fewest.Heights, d.Colours().Len()+3, "%s, %s", name, how)
			require.Equal(t, fewest, must(stack.Fewest(d, r)), "%s, %s", name, how)
		}
	}
}

// Pins and "a under b" hold in every part, as the maker asked.
func TestRulesAreHonoured(t *testing.T) {
	for name, d := range drawings {
		all := d.Colours()
		for how, joins := range joinSets(d) {
			r := stack.Rules{Joins: joins, ExtraHeights: 3, Rounds: 100}
			r.Lowest(2, all)
			r.Highest(1, all)
			r.Under(4, 3)
			for style, f := range map[string]*stack.Forest{"first": must(stack.First(d, r)), "fewest": must(stack.Fewest(d, r))} {
				for i, p := range f.Parts {
					for on := p.On; on >= 0; on = f.Parts[on].On {
						below := f.Parts[on].Colour
						require.False(t, r.Below[below].Has(p.Colour), "%s, %s, %s: part %d of colour %d lies on colour %d", name, how, style, i, p.Colour, below)
					}
				}
			}
		}
	}
}

func TestContradictingRulesAreRefused(t *testing.T) {
	d := stack.Drawing{W: 2, H: 1, Cells: []stack.Colour{1, 2}}
	r := stack.Rules{}
	r.Lowest(1, d.Colours())
	r.Highest(1, d.Colours())
	_, err := stack.Fewest(d, r)
	require.ErrorAs(t, err, new(*stack.ContradictionError))
	require.EqualError(t, err, "2 colours are each to lie over another one of them: take one of these rules back")
	_, err = stack.ByHand(d, stack.Rules{}, []stack.Colour{1, 2, 1})
	require.EqualError(t, err, "the order names colour 1 twice: name each colour once")
}
