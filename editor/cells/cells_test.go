package cells

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// picture reads a grid from text, a row a line.
func picture(text string) Grid {
	rows := strings.Fields(text)
	return Grid{len(rows[0]), len(rows), []byte(strings.Join(rows, ""))}
}

func (g Grid) String() string { return strings.Join(g.Rows(), "\n") }

// noise is a grid of w × h cells of the first n letters and empty ones.
func noise(r *rand.Rand, w, h, n int) Grid {
	g := New(w, h)
	for i := range g.Cells {
		if k := r.IntN(n + 1); k > 0 {
			g.Cells[i] = 'a' + byte(k-1)
		}
	}
	return g
}

func ink(g Grid) func(Cell)    { return func(c Cell) { g.Put(c, '#') } }
func inkRuns(g Grid) func(Run) { return func(r Run) { g.PutRun(r, '#') } }

func ExampleOval() {
	for _, w := range []int{5, 8, 11} {
		g := New(w, 8)
		Oval(Box{0, 0, w, 8}, Hollow, inkRuns(g))
		fmt.Println(g)
		fmt.Println()
	}
	// Output:
	// .###.
	// .#.#.
	// #...#
	// #...#
	// #...#
	// #...#
	// .#.#.
	// .###.
	//
	// ..####..
	// .#....#.
	// #......#
	// #......#
	// #......#
	// #......#
	// .#....#.
	// ..####..
	//
	// ...#####...
	// .##.....##.
	// #.........#
	// #.........#
	// #.........#
	// #.........#
	// .##.....##.
	// ...#####...
}

func ExampleLine() {
	g := New(12, 5)
	Line(Cell{0, 0}, Cell{11, 4}, ink(g))
	fmt.Println(g)
	// Output:
	// ##..........
	// ..###.......
	// .....##.....
	// .......###..
	// ..........##
}

func ExampleOutline() {
	for _, side := range []Side{Outside, Inside} {
		for _, corner := range []Corner{WithCorners, WithoutCorners} {
			g := picture("....... ..###.. .####.. ..##... .......")
			Outline(g, side, corner, 'o')
			fmt.Printf("%s, %s corners\n%v\n", side, corner, g)
		}
	}
	// Output:
	// outside, with corners
	// .ooooo.
	// oo###o.
	// o####o.
	// oo##oo.
	// .oooo..
	// outside, without corners
	// ..ooo..
	// .o###o.
	// o####o.
	// .o##o..
	// ..oo...
	// inside, with corners
	// .......
	// ..ooo..
	// .oooo..
	// ..oo...
	// .......
	// inside, without corners
	// .......
	// ..ooo..
	// .o##o..
	// ..oo...
	// .......
}

func TestLineHasNoGapsAndNoDirection(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 3000 {
		a, b := Cell{r.IntN(60) - 20, r.IntN(60) - 20}, Cell{r.IntN(60) - 20, r.IntN(60) - 20}
		var there, back []Cell
		Line(a, b, func(c Cell) { there = append(there, c) })
		Line(b, a, func(c Cell) { back = append(back, c) })
		n := max(abs(b.X-a.X), abs(b.Y-a.Y))
		assert.Len(t, there, n+1)
		assert.Equal(t, a, there[0])
		assert.Equal(t, b, there[n])
		for i, c := range there {
			assert.Equal(t, c, back[n-i])
			if i > 0 {
				assert.LessOrEqual(t, max(abs(c.X-there[i-1].X), abs(c.Y-there[i-1].Y)), 1)
			}
			// Never further than half a cell from the true line, measured along the lesser axis.
			if n > 0 {
				assert.LessOrEqual(t, 2*abs((c.X-a.X)*n-i*(b.X-a.X)), n)
				assert.LessOrEqual(t, 2*abs((c.Y-a.Y)*n-i*(b.Y-a.Y)), n)
			}
		}
		if t.Failed() {
			return
		}
	}
}

func abs(v int) int { return max(v, -v) }

func TestCellAt(t *testing.T) {
	nan := 0.0
	nan /= nan
	for _, c := range []struct {
		x, y float64
		want Cell
		ok   bool
	}{
		{0, 0, Cell{0, 0}, true},
		{2.999, 3, Cell{2, 3}, true},
		{-0.001, -1, Cell{-1, -1}, true},
		{1e300, -1e300, Cell{far, -far}, true},
		{nan, 0, Cell{}, false},
	} {
		got, ok := CellAt(c.x, c.y)
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.ok, ok)
	}
}

// The judge of Oval: every cell whose middle lies in the ellipse, plus the
// middle cells of each row and column.
func inOval(w, h, x, y int) bool {
	u, v := 2*x+1-w, 2*y+1-h
	return u*u*h*h+v*v*w*w <= w*w*h*h || abs(u) <= 1 || abs(v) <= 1
}

func TestOvalIsCleanAndSymmetrical(t *testing.T) {
	for w := 1; w <= 40; w++ {
		for h := 1; h <= 40; h++ {
			solid, hollow := New(w, h), New(w, h)
			Oval(Box{0, 0, w, h}, Solid, inkRuns(solid))
			Oval(Box{0, 0, w, h}, Hollow, inkRuns(hollow))
			for y := range h {
				for x := range w {
					in := func(x, y int) bool { return x >= 0 && y >= 0 && x < w && y < h && inOval(w, h, x, y) }
					edge := in(x, y) && !(in(x-1, y) && in(x+1, y) && in(x, y-1) && in(x, y+1))
					if (solid.At(Cell{x, y}) == '#') != in(x, y) || (hollow.At(Cell{x, y}) == '#') != edge {
						t.Fatalf("%d × %d at %d, %d:\n%v\n\n%v", w, h, x, y, solid, hollow)
					}
				}
			}
			for _, g := range []Grid{solid, hollow} {
				f := g.Clone()
				Flip(f, Sideways)
				assert.Equal(t, g, f)
				Flip(f, UpsideDown)
				assert.Equal(t, g, f)
				assert.Equal(t, Box{0, 0, w, h}, g.Inked(), "it reaches all sides")
			}
			turned := New(h, w)
			Oval(Box{0, 0, h, w}, Hollow, inkRuns(turned))
			assert.Equal(t, Turned(hollow, ToRight), turned)
			if t.Failed() {
				return
			}
		}
	}
}

func TestRectangle(t *testing.T) {
	for w := 1; w <= 6; w++ {
		for h := 1; h <= 6; h++ {
			solid, hollow := New(8, 8), New(8, 8)
			b := Box{1, 1, w, h}
			Rectangle(b, Solid, inkRuns(solid))
			Rectangle(b, Hollow, inkRuns(hollow))
			for y := range 8 {
				for x := range 8 {
					in := b.Has(Cell{x, y})
					edge := in && (x == 1 || y == 1 || x == w || y == h)
					assert.Equal(t, in, solid.At(Cell{x, y}) == '#')
					assert.Equal(t, edge, hollow.At(Cell{x, y}) == '#')
				}
			}
		}
	}
}

// floodPlain is the textbook fill, cell by cell: the judge of Fill.
func floodPlain(g Grid, c Cell, was, key byte) {
	if g.Has(c) && g.At(c) == was {
		g.Put(c, key)
		for _, d := range []Cell{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			floodPlain(g, Cell{c.X + d.X, c.Y + d.Y}, was, key)
		}
	}
}

func TestFill(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	for range 2000 {
		g := noise(r, 1+r.IntN(16), 1+r.IntN(16), 1+r.IntN(2))
		c := Cell{r.IntN(g.W), r.IntN(g.H)}
		want, all := g.Clone(), g.Clone()
		if was := g.At(c); was != 'z' {
			floodPlain(want, c, was, 'z')
			for i, k := range all.Cells {
				if k == was {
					all.Cells[i] = 'z'
				}
			}
		}
		joined, everywhere := g.Clone(), g.Clone()
		Fill(joined, c, Joined, 'z')
		Fill(everywhere, c, Everywhere, 'z')
		assert.Equal(t, want, joined)
		assert.Equal(t, all, everywhere)
		Fill(joined, c, Joined, 'z')
		assert.Equal(t, want, joined, "filling with its own colour does nothing")
		Fill(joined, Cell{-1, 0}, Joined, 'y')
		assert.Equal(t, want, joined, "outside there is nothing to fill")
	}
}

func TestTurnsFlipsAndShiftsComeBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 500 {
		g := noise(r, 1+r.IntN(12), 1+r.IntN(12), 3)
		was := g.Clone()
		right := Turned(g, ToRight)
		assert.Equal(t, g, Turned(right, ToLeft))
		assert.Equal(t, Turned(Turned(g, ToLeft), ToLeft), Turned(right, ToRight))
		assert.Equal(t, g.At(Cell{0, 0}), right.At(Cell{right.W - 1, 0}), "the top left goes to the top right")

		Flip(g, Sideways)
		assert.Equal(t, was.At(Cell{0, 0}), g.At(Cell{g.W - 1, 0}))
		Flip(g, UpsideDown)
		assert.Equal(t, Turned(right, ToRight), g, "both flips are half a turn")
		Flip(g, UpsideDown)
		Flip(g, Sideways)
		assert.Equal(t, was, g)

		dx, dy := r.IntN(100)-50, r.IntN(100)-50
		s := Shifted(g, dx, dy)
		for y := range g.H {
			for x := range g.W {
				assert.Equal(t, g.At(Cell{x, y}), s.At(Cell{wrap(x+dx, g.W), wrap(y+dy, g.H)}))
			}
		}
		assert.Equal(t, g, Shifted(s, -dx, -dy))
	}
}

func TestCutAndPaste(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for range 1000 {
		g := noise(r, 1+r.IntN(9), 1+r.IntN(9), 2)
		b := Box{r.IntN(14) - 6, r.IntN(14) - 6, 1 + r.IntN(9), 1 + r.IntN(9)}
		c := Cut(g, b)
		over, inked := New(g.W, g.H), noise(r, g.W, g.H, 2)
		was := inked.Clone()
		Paste(over, c, Cell{b.X, b.Y}, Opaque)
		Paste(inked, c, Cell{b.X, b.Y}, Ink)
		for y := range g.H {
			for x := range g.W {
				at, want := Cell{x, y}, Empty
				if b.Has(at) {
					want = g.At(at)
				}
				assert.Equal(t, want, over.At(at))
				if want == Empty {
					want = was.At(at)
				}
				assert.Equal(t, want, inked.At(at))
			}
		}
	}
	assert.Equal(t, Grid{}, Cut(New(3, 3), Box{}))
}

func TestOutlineOnNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for range 500 {
		g := noise(r, 1+r.IntN(9), 1+r.IntN(9), 1)
		for _, side := range []Side{Outside, Inside} {
			for _, corner := range []Corner{WithCorners, WithoutCorners} {
				o := g.Clone()
				Outline(o, side, corner, 'o')
				for i := range g.Cells {
					c := Cell{i % g.W, i / g.W}
					beside := false
					for dy := -1; dy <= 1; dy++ {
						for dx := -1; dx <= 1; dx++ {
							if corner == WithoutCorners && dx*dy != 0 {
								continue
							}
							other := g.At(Cell{c.X + dx, c.Y + dy}) != Empty
							beside = beside || other == (side == Outside)
						}
					}
					want := g.At(c)
					if (want != Empty) == (side == Inside) && beside {
						want = 'o'
					}
					assert.Equal(t, want, o.At(c))
				}
			}
		}
	}
}

func TestMirrored(t *testing.T) {
	for sides, want := range map[Sides][]Cell{
		One:        {{1, 0}},
		LeftRight:  {{1, 0}, {3, 0}},
		TopBottom:  {{1, 0}, {1, 2}},
		AllQuarter: {{1, 0}, {3, 0}, {1, 2}, {3, 2}},
	} {
		var got []Cell
		Mirrored(sides, 5, 3, Cell{1, 0}, func(c Cell) { got = append(got, c) })
		assert.Equal(t, want, got)
	}
}

func TestMirroredRuns(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for range 2000 {
		w, h := 1+r.IntN(9), 1+r.IntN(9)
		x0 := r.IntN(14) - 3
		run := Run{r.IntN(12) - 2, x0, x0 + r.IntN(6)}
		for _, sides := range []Sides{One, LeftRight, TopBottom, AllQuarter} {
			cells, runs := New(w, h), New(w, h)
			for x := run.X0; x < run.X1; x++ {
				Mirrored(sides, w, h, Cell{x, run.Y}, ink(cells))
			}
			MirroredRun(sides, w, h, run, inkRuns(runs))
			assert.Equal(t, cells, runs)
		}
	}
}

func TestBoxes(t *testing.T) {
	assert.Equal(t, Box{1, 2, 3, 3}, Between(Cell{3, 2}, Cell{1, 4}))
	assert.Equal(t, Box{0, 0, 2, 1}, Box{-1, -1, 3, 2}.Within(5, 5))
	assert.True(t, Box{5, 0, 3, 3}.Within(5, 5).Empty())
	assert.Equal(t, Box{1, 1, 2, 1}, picture("..... .ab.. .....").Inked())
	assert.True(t, New(4, 4).Inked().Empty())
}
