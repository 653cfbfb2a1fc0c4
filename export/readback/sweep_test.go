package readback

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// demo is a project of one sprite with one cell.
func demo() *project.Project {
	p := &project.Project{Settings: project.DefaultSettings()}
	p.Stocks = []project.Stock{project.CardFor(project.RGB{})}
	p.Palette = []project.Colour{{Key: 'a', Stock: p.Stocks[0].ID}}
	p.Sprites = []project.Sprite{project.NewSprite("demo", 1, 1)}
	p.Sprites[0].Frames[0].Cells[0] = 'a'
	return p
}

// rectangle is an outline that runs anticlockwise.
func rectangle(x0, y0, x1, y1 int64) contour {
	return contour{{x0, y0, 0}, {x1, y0, 0}, {x1, y1, 0}, {x0, y1, 0}}
}

// pile is a sprite of cols × rows cells of 100 µm in which nothing is drawn, with
// rectangles of one stock on it, each at a height of its own.
func pile(cols, rows int, rs ...contour) *sprite {
	s := &sprite{
		name: "pile", cols: cols, rows: rows, cell: 100, heights: len(rs), want: make([]int, cols*rows),
		stocks: demo().Stocks, settings: demo().Settings,
	}
	for i := range s.want {
		s.want[i] = empty
	}
	for i, r := range rs {
		s.layers = append(s.layers, layer{number: i + 1, height: i + 1, parts: []part{{contours: []contour{r}}}})
	}
	s.place()
	return s
}

// The sweep's area of what is seen is that of a raster of 1 µm, the plain way.
func TestSweepAgreesWithARaster(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 0))
	for n := range 200 {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			const cols, rows = 3, 2
			var rs []contour
			seen := [rows * 100][cols * 100]bool{}
			for range 1 + r.IntN(5) {
				x0, y0 := r.Int64N(cols*100-1), r.Int64N(rows*100-1)
				x1, y1 := x0+1+r.Int64N(cols*100-x0), y0+1+r.Int64N(rows*100-y0)
				rs = append(rs, rectangle(x0, y0, x1, y1))
				for y := y0; y < y1; y++ {
					for x := x0; x < x1; x++ {
						seen[y][x] = true
					}
				}
			}
			w, err := pile(cols, rows, rs...).look()
			require.NoError(t, err)
			var area, byCorner int64
			for _, row := range seen {
				for _, in := range row {
					if in {
						area++
					}
				}
			}
			for _, d := range w.differ {
				byCorner += d.area
			}
			assert.Equal(t, area, w.area)
			assert.Equal(t, area, byCorner)
		})
	}
}

func TestSweepRefuses(t *testing.T) {
	reversed := rectangle(10, 10, 20, 20)
	reversed[1], reversed[3] = reversed[3], reversed[1]
	for _, c := range []struct {
		name string
		add  contour
		want string
	}{
		{"a part within a part", rectangle(60, 60, 70, 70), "two parts of one height overlap"},
		{"a hole outside", reversed, "a hole lies outside its part"},
		{"beyond the grid", rectangle(150, 150, 250, 160), "card stands out of the drawing's grid"},
		{"aslant", contour{{10, 10, 0}, {20, 12, 0}, {10, 20, 0}}, "an edge runs aslant"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := pile(2, 2, rectangle(50, 50, 150, 150))
			s.layers[0].parts = append(s.layers[0].parts, part{contours: []contour{c.add}})
			s.parts = nil
			s.place()
			_, err := s.look()
			require.Error(t, err)
			assert.ErrorContains(t, err, c.want)
			assert.ErrorContains(t, err, `sprite "pile", layer 1, row `)
		})
	}
}

// The side is the least even number that is √2 times the strip at least.
func TestJoinSide(t *testing.T) {
	for strip := range shape.Um(5000) {
		w := &sweep{sprite: &sprite{cell: 4, stocks: []project.Stock{{LeastStrip: strip}}}}
		side := w.joinSide(0)
		assert.Zero(t, side%2)
		assert.GreaterOrEqual(t, side*side, 2*int64(strip*strip))
		if side > 2 {
			assert.Less(t, (side-2)*(side-2), 2*int64(strip*strip))
		}
	}
}

func TestOctagonFlat(t *testing.T) {
	for r := range int64(5000) {
		s := octagonFlat(r) + r // the least number that is √2 times r at least
		assert.GreaterOrEqual(t, s*s, 2*r*r)
		if s > 0 {
			assert.Less(t, (s-1)*(s-1), max(1, 2*r*r))
		}
	}
}
