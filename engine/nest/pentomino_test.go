package nest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// pentominoes are the twelve, each in one of its hands.
var pentominoes = []struct{ name, rows string }{
	{"F", ".## ##. .#."}, {"L", "#### #..."}, {"N", "###. ..##"}, {"P", "## ## #."}, {"Y", "#### .#.."}, {"Z", "##. .#. .##"},
	{"I", "#####"}, {"T", "### .#. .#."}, {"U", "#.# ###"}, {"V", "#.. #.. ###"}, {"W", "#.. ##. .##"}, {"X", ".#. ### .#."},
}

// handed is the number of pentominoes that differ from their mirror image, the
// first ones in the list.
const handed = 6

// pentominoJob is the twelve for a sheet of columns × rows cells of 3 mm; bit i
// of hands flips the i-th.
func pentominoJob(hands, columns, rows int) Job {
	const cell = 3 * shape.Mm
	j := Job{Supply: Supply{Sheets: []Sheets{{Size: Size{shape.Um(columns) * cell, shape.Um(rows) * cell}}}}}
	for i, p := range pentominoes {
		var rects []shape.Rect
		for y, row := range strings.Fields(p.rows) {
			for x, c := range row {
				if c != '#' {
					continue
				}
				if hands>>i&1 == 1 {
					x = -x
				}
				at := shape.Point{X: shape.Um(x) * cell, Y: shape.Um(y) * cell}
				rects = append(rects, shape.Rect{Min: at, Max: at.Add(shape.Point{X: cell, Y: cell})})
			}
		}
		j.Pieces = append(j.Pieces, Piece{ID: p.name, Outline: shape.FromRects(rects).Polygons(shape.BySides)[0].Outline(), Copies: 1})
	}
	return j
}

// countTilings searches everything: all tilings for one choice of hands.
func countTilings(hands, columns, rows int) int {
	p := newProblem(pentominoJob(hands, columns, rows))
	t, _ := newTiling(p, 3*shape.Mm, columns, rows)
	n := 0
	for {
		t.search(1 << 40)
		if t.state == tilingNone {
			return n
		}
		n++
		t.state = tilingOpen
	}
}

// Published counts, mirrored and turned ones counted once: 6×10 2339, 5×12
// 1010, 4×15 368, 3×20 2 (C. B. and J. Haselgrove, Eureka 23, 1960, and Golomb,
// Polyominoes; from memory). Each stands for four: the rectangle's own turns
// and mirror images. Over all hands they are all found.
func TestAllTilingsOfThePublishedRectanglesAreFound(t *testing.T) {
	for _, c := range []struct{ columns, rows, published int }{{10, 6, 2339}, {5, 12, 1010}, {15, 4, 368}, {3, 20, 2}} {
		if testing.Short() && c.published > 2 {
			continue
		}
		all := 0
		for hands := range 1 << handed {
			all += countTilings(hands, c.columns, c.rows)
		}
		assert.Equal(t, 4*c.published, all, "%d × %d", c.columns, c.rows)
	}
}

func TestPentominoesFillTheirRectangles(t *testing.T) {
	for _, c := range [][2]int{{6, 10}, {10, 6}, {5, 12}, {12, 5}, {4, 15}, {15, 4}} {
		for _, hands := range []int{0, 11, 42} { // each has a tiling, as the search through everything shows
			if testing.Short() && hands > 0 {
				continue
			}
			j := pentominoJob(hands, c[0], c[1])
			n, err := Nest(j, 3, 2)
			require.NoError(t, err)
			require.Empty(t, judge(j, n))
			require.Empty(t, n.Unplaced, "%v, hands %b", c, hands)
			require.Len(t, n.Sheets, 1, "%v, hands %b", c, hands)
		}
	}
}

func ExampleNest() {
	j := pentominoJob(0, 10, 6)
	n, err := Nest(j, 3, 2)
	if err != nil {
		panic(err)
	}
	var rows [6][10]string
	for _, p := range n.Placements {
		poly := p.Outline(j.Pieces[p.Piece]).Polygon()
		for y := range rows {
			for x := range rows[y] {
				if poly.Where(shape.Point{X: shape.Um(x)*3000 + 1500, Y: shape.Um(y)*3000 + 1500}) == shape.Inside {
					rows[len(rows)-1-y][x] = j.Pieces[p.Piece].ID
				}
			}
		}
	}
	for _, r := range rows {
		fmt.Println(strings.Join(r[:], ""))
	}
	// Output:
	// LLPPZZYVVV
	// LPPPZYYYYV
	// LWWZZNNNXV
	// LFWWNNTXXX
	// FFFWTTTUXU
	// FIIIIITUUU
}
