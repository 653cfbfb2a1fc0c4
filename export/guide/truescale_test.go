package guide

import (
	"bytes"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// pixels are a page as poppler draws it at 300 dpi in colour.
type pixels struct {
	w, h int
	rgb  []byte
}

// inColour is a page as poppler draws it: a PPM file, Netpbm's raw kind.
func inColour(t *testing.T, path string, page int) pixels {
	t.Helper()
	data, err := exec.Command("pdftoppm", "-r", "300", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), path).Output()
	require.NoError(t, err)
	var p pixels
	var most int
	_, err = fmt.Fscanf(bytes.NewReader(data), "P6\n%d %d\n%d\n", &p.w, &p.h, &most)
	require.NoError(t, err)
	require.Equal(t, 255, most)
	p.rgb = data[len(data)-3*p.w*p.h:]
	return p
}

// step is how much the colour changes from one pixel to another, over all three of
// red, green and blue; 0 beside the page.
func (p pixels) step(x0, y0, x1, y1 int) int {
	if min(x0, y0, x1, y1) < 0 || max(x0, x1) >= p.w || max(y0, y1) >= p.h {
		return 0
	}
	n := 0
	for c := range 3 {
		d := int(p.rgb[3*(y0*p.w+x0)+c]) - int(p.rgb[3*(y1*p.w+x1)+c])
		n += max(d, -d)
	}
	return n
}

// line says whether a line is upright.
type line bool

// reach is how far an edge is looked for, in pixels to either side.
const reach = 4

// edgeNear is where the middle of an edge across x, y lies along the way across
// it, in hundredths of a pixel from there: the middle of all change of colour. A
// line of 0.1 mm on the edge is a little more than a pixel wide, so whatever the
// colours beside it are, that is within 0.6 of a pixel of the line's middle. ok is
// false where there is no edge.
func (p pixels) edgeNear(x, y shape.Um, upright line) (off int, ok bool) {
	px, py := pixel(x), pixel(y)
	sum, weight := 0, 0
	for k := -reach; k < reach; k++ {
		x0, y0, x1, y1 := px/100, py/100, px/100, py/100
		var between int // the border of the two pixels
		if upright {
			x0, x1 = x0+k, x1+k+1
			between = x1*100 - px
		} else {
			y0, y1 = y0+k, y1+k+1
			between = y1*100 - py
		}
		n := p.step(x0, y0, x1, y1)
		sum, weight = sum+n*between, weight+n
	}
	if weight < 40 {
		return 0, false
	}
	return sum / weight, true
}

// seen is an outline that was drawn.
type seen struct {
	page int
	v    view
	o    shape.Outline
}

// places are where an edge is looked at, as parts of eight of its length.
var places = []shape.Um{1, 2, 3, 4, 5, 6, 7}

// True scale: drawn by poppler at 300 dpi, every straight edge of every outline
// that can be seen lies within a pixel of the engine's geometry: on the pages of
// the key and the mat, at true scale, over several pages for a large sprite; in the
// steps' pictures and on the sheets in their scale. So does the check figure on
// every page at true scale.
func TestOutlinesAreAtTrueScale(t *testing.T) {
	variants := map[string]func(p *project.Project){
		"one page": func(p *project.Project) { p.Settings.Hold = project.Light },
		"tiles": func(p *project.Project) {
			p.Settings.Hold, p.Sprites[0].Cell = project.Light, 8*shape.Mm
			p.Settings.SheetW, p.Settings.SheetH = 500*shape.Mm, 700*shape.Mm
			p.Settings.Paper = project.PaperLetter
		},
	}
	if testing.Short() {
		delete(variants, "tiles")
	}
	for name, change := range variants {
		t.Run(name, func(t *testing.T) {
			var all []seen
			j := harbour(t, 1, change)
			var pdf bytes.Buffer
			err := write(&pdf, j, func(page int, v view, o shape.Outline) { all = append(all, seen{page, v, o}) })
			require.NoError(t, err)
			path := saved(t, pdf.Bytes())
			pages := strings.Split(asked(t, "pdftotext", path, "-"), "\f")
			keys, mats, sheets := 0, 0, 0
			met := map[string]map[string]bool{"key": {}, "mat": {}} // edges of the engine's outlines
			looked := map[string]int{}
			for n, text := range pages[:len(pages)-1] {
				page := n + 1
				list := slices.DeleteFunc(slices.Clone(all), func(s seen) bool { return s.page != page || s.v.Lean != 0 })
				what := "key"
				switch scaled := strings.Contains(text, english.check); {
				case strings.Contains(text, english.faceUp):
					what = "sheet"
					sheets++
				case strings.Contains(text, english.mat):
					what = "mat"
					mats++
				case !scaled && len(list) > 0:
					what = "steps"
				default:
					keys++
				}
				if len(list) == 0 || what != "key" && what != "mat" && looked[what] > 20 || what == "mat" && mats > 3 {
					continue
				}
				img := inColour(t, path, page)
				if strings.Contains(text, english.check) {
					checkFigureMeasures(t, img, j.Paper)
				}
				for i, s := range list {
					looked[what] += s.edges(t, img, list[i+1:], j.Paper, func(edge string) {
						if m := met[what]; m != nil && s.v.Scale == trueScale {
							m[edge] = true
						}
					})
				}
			}
			assert.Greater(t, looked["key"], 30)
			assert.Greater(t, looked["mat"], 30)
			assert.Greater(t, looked["sheet"], 20)
			assert.Positive(t, sheets)
			if name == "tiles" {
				assert.Greater(t, keys, 2)
				assert.Greater(t, mats, 2)
			}
			// What was looked at are the engine's edges, not what the guide made of them.
			theirs := map[string]bool{}
			for _, l := range j.Plan.Sprites[0].Layout.Layers {
				for _, p := range l.Parts {
					for _, c := range append([]shape.Contour{p.Outline.Outer}, p.Outline.Holes...) {
						for i, v := range c {
							theirs[fmt.Sprint(v.Point, c[(i+1)%len(c)].Point)] = true
						}
					}
				}
			}
			for what, edges := range met {
				assert.Greater(t, len(edges), 20, what)
				for e := range edges {
					assert.True(t, theirs[e], "%s: %s", what, e)
				}
			}
		})
	}
}

// edges holds every edge of 3 mm on paper and more against the picture, where it is
// on the page and nothing that is drawn over it lies near: seven places of each,
// of which the second nearest counts, as numbers and their lines may lie on some:
// an edge in a wrong place is wrong at all of them.
func (s seen) edges(t *testing.T, img pixels, over []seen, paper Paper, met func(edge string)) (n int) {
	t.Helper()
	for _, c := range append([]shape.Contour{s.o.Outer}, s.o.Holes...) {
		for i, a := range c {
			b := c[(i+1)%len(c)].Point
			long := max(a.X-b.X, b.X-a.X, a.Y-b.Y, b.Y-a.Y) * shape.Um(s.v.Scale) / 1000
			if a.X != b.X && a.Y != b.Y || a.Arc != nil || long < 3*shape.Mm {
				continue
			}
			var offs []int
			missing := 0
			for _, k := range places {
				at := shape.Point{X: a.X + (b.X-a.X)*k/8, Y: a.Y + (b.Y-a.Y)*k/8}
				x, y := s.v.at(at)
				if !s.plain(at, line(a.X == b.X), over) || x < side+gutter || x > paper.Width-side-gutter || y < top+30*shape.Mm || y > paper.floor()-14*shape.Mm {
					continue
				}
				off, ok := img.edgeNear(x, y, line(a.X == b.X))
				if !ok {
					missing++
					continue
				}
				offs = append(offs, off)
			}
			if len(offs)+missing < 4 {
				continue // on another page, or under something
			}
			where := fmt.Sprintf("page %d: %v to %v", s.page, a.Point, b)
			if !assert.Less(t, missing, 3, "%s: no edge", where) {
				continue
			}
			slices.SortFunc(offs, func(a, b int) int { return max(a, -a) - max(b, -b) })
			assert.InDelta(t, 0, offs[1], 100, where)
			met(fmt.Sprint(a.Point, b))
			n++
		}
	}
	return n
}

// plain says whether nothing of what was drawn later lies at a place of an edge or
// near it.
func (s seen) plain(at shape.Point, upright line, over []seen) bool {
	pixel := shape.Um(25400*1000/300) / shape.Um(s.v.Scale)
	for _, o := range over {
		if o.v != s.v {
			continue
		}
		b := o.o.Bounds()
		far := 7 * pixel
		if at.X < b.Min.X-far || at.X > b.Max.X+far || at.Y < b.Min.Y-far || at.Y > b.Max.Y+far {
			continue
		}
		polygon := o.o.Flatten(5)
		for k := shape.Um(-6); k <= 6; k += 2 {
			p := shape.Point{X: at.X, Y: at.Y + k*pixel}
			if upright {
				p = shape.Point{X: at.X + k*pixel, Y: at.Y}
			}
			if polygon.Where(p) != shape.Outside {
				return false
			}
		}
	}
	return true
}

// checkFigureMeasures requires that the ticks at the ends of the check figure are
// 50 mm apart, within a pixel.
func checkFigureMeasures(t *testing.T, img pixels, paper Paper) {
	t.Helper()
	y := paper.Height - 11*shape.Mm - 2*shape.Mm // through the outer ticks only
	left, ok := img.edgeNear(side, y, true)
	require.True(t, ok)
	right, ok := img.edgeNear(side+50*shape.Mm, y, true)
	require.True(t, ok)
	assert.InDelta(t, pixel(50*shape.Mm), pixel(side+50*shape.Mm)+right-pixel(side)-left, 100)
}
