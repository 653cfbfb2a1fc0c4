package shape

import (
	"math/bits"
	"testing"

	"github.com/stretchr/testify/require"
)

// cells is a set of cells of at most 8×8 as bits, row by row from the top.
type cells uint64

func (c cells) labels() []uint8 {
	out := make([]uint8, 64)
	for i := range out {
		out[i] = uint8(c >> i & 1)
	}
	return out
}

// shifted is the same shape against the top and left edge.
func (c cells) shifted() cells {
	for c != 0 && c&0xff == 0 {
		c >>= 8
	}
	for c != 0 && c&0x0101010101010101 == 0 {
		c >>= 1
	}
	return c
}

// turned is the shape turned by a right angle, or mirrored.
func (c cells) turned(mirror bool) cells {
	var out cells
	for i := range 64 {
		if c>>i&1 == 1 {
			x, y := i%8, i/8
			if mirror {
				out |= 1 << (y*8 + 7 - x)
			} else {
				out |= 1 << (x*8 + 7 - y)
			}
		}
	}
	return out.shifted()
}

// least is one of the shape's eight turned and mirrored forms.
func (c cells) least() cells {
	best := c
	for range 2 {
		for range 4 {
			c = c.turned(false)
			best = min(best, c)
		}
		c = c.turned(true)
	}
	return best
}

func (c cells) count() int { return bits.OnesCount64(uint64(c)) }

// onePiece says whether the labeller finds a single patch, by sides.
func onePiece(c cells) bool {
	n := 0
	for _, r := range TraceLabels(c.labels(), 8, 8, BySides).Rings {
		if r.Kind == OuterRing {
			n++
		}
	}
	return n == 1
}

// TestAllGridsUpTo5x5AreA001168: the fixed polyominoes, OEIS A001168. All 0/1
// grids of 5×5 that the labeller calls one patch, made unique by shifting; up
// to five cells they all fit.
func TestAllGridsUpTo5x5AreA001168(t *testing.T) {
	var found [6]map[cells]bool
	for n := range found {
		found[n] = map[cells]bool{}
	}
	for bits := cells(1); bits < 1<<25; bits++ {
		if bits.count() > 5 {
			continue
		}
		var c cells
		for row := range 5 {
			c |= bits >> (5 * row) & 31 << (8 * row)
		}
		if c == c.shifted() && onePiece(c) {
			found[c.count()][c] = true
		}
	}
	for n, want := range []int{0, 1, 2, 6, 19, 63} {
		require.Len(t, found[n], want, "%d cells", n)
	}
}

// TestGrownPolyominoesAreOEIS: grown cell by cell to eight cells, fixed ones
// are A001168, those alike but for turning and mirroring A000105, and those
// with a hole A001419. There a hole is what is enclosed by cells that touch at
// corners too; so the picture's empty cells are counted, linked by sides.
func TestGrownPolyominoesAreOEIS(t *testing.T) {
	fixed := []int{1, 2, 6, 19, 63, 216, 760, 2725}
	free := []int{1, 1, 2, 5, 12, 35, 108, 369}
	holed := []int{0, 0, 0, 0, 0, 0, 1, 6}
	now := map[cells]bool{1: true}
	for n := 1; n <= 8; n++ {
		kinds, withHole := map[cells]bool{}, map[cells]bool{}
		for c := range now {
			k := c.least()
			kinds[k] = true
			require.True(t, onePiece(c))
			if hasHole(c) {
				withHole[k] = true
			}
		}
		require.Len(t, now, fixed[n-1], "fixed, %d cells", n)
		require.Len(t, kinds, free[n-1], "free, %d cells", n)
		require.Len(t, withHole, holed[n-1], "with a hole, %d cells", n)
		next := map[cells]bool{}
		for c := range now {
			for _, more := range grownByOne(c) {
				next[more] = true
			}
		}
		now = next
	}
}

func grownByOne(c cells) []cells {
	var out []cells
	at := map[[2]int]bool{}
	for i := range 64 {
		if c>>i&1 == 1 {
			at[[2]int{i % 8, i / 8}] = true
		}
	}
	for p := range at {
		for _, d := range [][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			q := [2]int{p[0] + d[0], p[1] + d[1]}
			if at[q] {
				continue
			}
			dx, dy := max(0, -q[0]), max(0, -q[1])
			more, fits := cells(0), true
			for r := range at {
				more, fits = set(more, r[0]+dx, r[1]+dy, fits)
			}
			if more, fits = set(more, q[0]+dx, q[1]+dy, fits); fits {
				out = append(out, more.shifted())
			}
		}
	}
	return out
}

func set(c cells, x, y int, fits bool) (cells, bool) {
	return c | 1<<(y*8+x), fits && x < 8 && y < 8
}

// hasHole traces the cells that are empty, with a ring of them around.
func hasHole(c cells) bool {
	empty := make([]uint8, 100)
	for i := range empty {
		x, y := i%10-1, i/10-1
		if x < 0 || y < 0 || x > 7 || y > 7 || c>>(y*8+x)&1 == 0 {
			empty[i] = 1
		}
	}
	n := 0
	for _, r := range TraceLabels(empty, 10, 10, BySides).Rings {
		if r.Kind == OuterRing {
			n++
		}
	}
	return n > 1
}
