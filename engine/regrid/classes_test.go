package regrid

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
)

// score counts the cells of a result that are right: empty where the truth is,
// else nearest to the true palette entry; entries closer than ΔE 4 count as
// one. A result of the wrong size has no right cell.
func (t truth) score(r *Result) (right int, size bool) {
	if r == nil || r.W != t.w || r.H != t.h {
		return 0, false
	}
	for i, want := range t.cells {
		got := r.Cells[i]
		switch {
		case want == 0 || got == 0:
			if want == got {
				right++
			}
		default:
			c := r.Palette[got-1]
			best, at := 1e9, 0
			for k, p := range t.palette {
				if d := colour.Difference(c, p); d < best {
					best, at = d, k
				}
			}
			if at == want-1 || colour.Difference(t.palette[at], t.palette[want-1]) < 4 {
				right++
			}
		}
	}
	return right, true
}

// cut is the truth of a crop.
func (t truth) cut(x0, y0, x1, y1 int) truth {
	out := truth{w: x1 - x0, h: y1 - y0, palette: t.palette, ground: t.ground}
	for y := y0; y < y1; y++ {
		out.cells = append(out.cells, t.cells[y*t.w+x0:y*t.w+x1]...)
	}
	return out
}

// tally is what a class of pictures reached: how many had the right number of
// cells, how many cells there were in all and how many of those were right,
// and how many had as many colours as were drawn.
type tally struct{ pictures, sizes, cells, right, palettes int }

func (c tally) String() string {
	return fmt.Sprintf("%d pictures, %d of the right size, %d of %d cells right, %d palettes right", c.pictures, c.sizes, c.right, c.cells, c.palettes)
}

// reaches fails the test if fewer sizes or cells are right than these percentages.
func (c tally) reaches(t *testing.T, sizes, cells float64) {
	t.Helper()
	t.Log(c)
	assert.Positive(t, c.pictures)
	assert.GreaterOrEqual(t, 100*float64(c.sizes), sizes*float64(c.pictures), "%s: want %g %% of the sizes", c, sizes)
	assert.GreaterOrEqual(t, 100*float64(c.right), cells*float64(c.cells), "%s: want %g %% of the cells", c, cells)
}

// rounds is how many pictures of a class are tried, fewer in a short run.
func rounds(n int) int {
	if testing.Short() {
		return max(1, n/10)
	}
	return n
}

// add finds the grid of a picture and counts what is right.
func (c *tally) add(t *testing.T, what truth, r *picture.Raster, colours int, name string) {
	c.addWith(t, what, r, Options{Colours: colours}, name)
}

func (c *tally) addWith(t *testing.T, what truth, r *picture.Raster, o Options, name string) {
	res, err := Find(r, o)
	c.pictures++
	if err != nil {
		t.Logf("%s (%d×%d): %v", name, r.W, r.H, err)
	}
	right, size := what.score(res)
	if size {
		c.sizes++
	} else if res != nil {
		t.Logf("%s (%d×%d): %d×%d cells instead of %d×%d; %+v %s", name, r.W, r.H, res.W, res.H, what.w, what.h, res.Grid, res.Enlarged)
	}
	if size && o.Colours == 0 {
		used := map[int]bool{}
		for _, c := range what.cells {
			used[c] = true
		}
		delete(used, 0)
		if len(used) == len(res.Palette) {
			c.palettes++
		} else {
			t.Logf("%s (%d×%d): %d colours instead of %d: %v instead of %v", name, r.W, r.H, len(res.Palette), len(used), res.Palette, what.palette)
		}
	}
	if size && right < len(what.cells) {
		t.Logf("%s (%d×%d): %d cells wrong, palette %v instead of %v, ground %v, %s", name, r.W, r.H, len(what.cells)-right, res.Palette, what.palette, res.Ground, res.Enlarged)
	}
	c.cells += len(what.cells)
	c.right += right
}

func TestNearest(t *testing.T) {
	var all tally
	for seed := range rounds(16) {
		d := dice(seed + 1000)
		what := sprite(seed)
		w, h := factor(d, 2, 40, seed%2 == 0), factor(d, 2, 40, seed%2 == 0)
		all.add(t, what, nearest(what.small(), w, h, rounded(seed/2%2)), len(what.palette), fmt.Sprint("nearest ", seed))
	}
	all.reaches(t, 100, 100)
}

// factor is 32 cells times a factor from low to high, whole or not.
func factor(d *rand.Rand, low, high int, whole bool) int {
	if whole {
		return 32 * (low + d.IntN(high-low+1))
	}
	return int(32*(float64(low)+d.Float64()*float64(high-low)) + 0.5)
}

func TestSmooth(t *testing.T) {
	var all tally
	for seed := range rounds(4) {
		d := dice(seed + 2000)
		what := sprite(seed)
		for name, enlarge := range scalers {
			w, h := factor(d, 3, 20, false), factor(d, 3, 20, false)
			all.add(t, what, enlarge(what.small(), w, h), len(what.palette), fmt.Sprint(name, " ", seed))
		}
	}
	all.reaches(t, 100, 99.9)
}

func TestJPEG(t *testing.T) {
	var all tally
	for seed := range rounds(10) {
		d := dice(seed + 3000)
		what := sprite(seed)
		enlarged := nearest(what.small(), factor(d, 6, 16, false), factor(d, 6, 16, false), byCentre)
		if seed%2 == 1 {
			enlarged = bicubic(what.small(), factor(d, 6, 16, false), factor(d, 6, 16, false))
		}
		quality := 50 + d.IntN(41)
		all.add(t, what, throughJPEG(t, enlarged, quality), len(what.palette), fmt.Sprint("JPEG ", seed, " ", quality))
	}
	all.reaches(t, 99, 99)
}

// Cells as large as a JPEG's blocks are flat but for its samples of colour, which look
// like cells of two pixels.
func TestJPEGBlocks(t *testing.T) {
	var all tally
	for i, quality := range []int{50, 60, 70, 80, 90, 95} {
		what := sprite(600 + i)
		for _, cell := range []int{8, 16} {
			r := throughJPEG(t, nearest(what.onWhite().small(), 32*cell, 32*cell, byCentre), quality)
			all.add(t, what.onWhite(), r, 0, fmt.Sprint("blocks ", cell, " ", quality))
		}
	}
	all.reaches(t, 100, 99)
}

func TestAveraged(t *testing.T) {
	var all tally
	seeds := []int{2017} // ridges of its drawing lie as lines would
	for seed := range rounds(10) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		d := dice(seed + 4000)
		what := sprite(seed)
		large := nearest(what.small(), 32*20, 32*20, byCentre)
		all.add(t, what, averaged(large, factor(d, 2, 3, false), factor(d, 2, 3, false)), len(what.palette), fmt.Sprint("averaged ", seed))
	}
	all.reaches(t, 100, 99.9)
}

// Screenshots: lines of one or two pixels between the cells, cropped anywhere,
// also in mid-cell.
func TestLined(t *testing.T) {
	var all tally
	for seed := range rounds(12) {
		d := dice(seed + 5000)
		what := sprite(seed).onWhite()
		r, cell := screenshot(d, what)
		all.add(t, what, r, len(what.palette), fmt.Sprint("lined ", seed))
		from, to := d.IntN(cell), 31*cell+d.IntN(cell)
		l := cropped(float64(cell), -float64(from), to-from)
		first := int(math.Round((float64(from) + l.start) / float64(cell)))
		end := first + l.cells
		all.add(t, what.cut(first, first, end, end), part(r, from, from, to, to), len(what.palette), fmt.Sprint("lined, cropped ", seed))
	}
	all.reaches(t, 100, 100)
}

// screenshot is a drawing with lines between its cells of so many pixels.
func screenshot(d *rand.Rand, what truth) (r *picture.Raster, cell int) {
	cell = 6 + d.IntN(20)
	inks := [][4]uint8{{128, 128, 128, 255}, {255, 255, 255, 255}, {0, 0, 0, 255}, {200, 200, 220, 255}}
	r = nearest(what.small(), 32*cell, 32*cell, byCentre)
	return lined(r, cell, 1+d.IntN(2), inks[d.IntN(len(inks))]), cell
}

// onWhite is the drawing on a white page if it has no ground.
func (t truth) onWhite() truth {
	if t.ground[3] == 0 {
		t.ground = [4]uint8{255, 255, 255, 255}
	}
	return t
}

func TestLinedJPEG(t *testing.T) {
	var all tally
	for seed := range rounds(6) {
		d := dice(seed + 6000)
		what := sprite(seed).onWhite()
		r, _ := screenshot(d, what)
		all.add(t, what, throughJPEG(t, r, 60+d.IntN(30)), len(what.palette), fmt.Sprint("lined, JPEG ", seed))
	}
	all.reaches(t, 99, 99)
}

// Crops that begin and end in mid-cell.
func TestCropped(t *testing.T) {
	var all tally
	for seed := range rounds(4) {
		d := dice(seed + 7000)
		what := sprite(seed)
		size := factor(d, 6, 16, false)
		cell := float64(size) / 32
		from, to := int(0.7*cell), int(30.3*cell)
		for name, r := range map[string]*picture.Raster{
			"nearest":       part(nearest(what.small(), size, size, byCentre), from, from, to, to),
			"bicubic":       part(bicubic(what.small(), size, size), from, from, to, to),
			"JPEG":          throughJPEG(t, part(nearest(what.small(), size, size, byCentre), from, from, to, to), 70),
			"bilinear JPEG": throughJPEG(t, part(bilinear(what.small(), size, size), from, from, to, to), 70),
		} {
			all.add(t, what.cut(1, 1, 30, 30), r, len(what.palette), fmt.Sprint("cropped ", name, " ", seed))
		}
	}
	all.reaches(t, 99, 99)
}

// A few colours, cut off in mid-cell and spoiled by much compression, hide the grid along
// an axis: that cells are as wide as high tells it then.
func TestCroppedAndSpoiled(t *testing.T) {
	var all tally
	for i, name := range []string{"anchor", "buoy", "fish", "gull", "crab", "ferry"} {
		for seed := range rounds(4) {
			d := dice(100*i + seed + 7500)
			what := harbour(t, name).onWhite()
			cell := 6.5 + 4*d.Float64()
			w, h := int(cell*float64(what.w)), int(cell*float64(what.h))
			x0, y0 := int(2.3*cell), int(1.7*cell)
			x1, y1 := int((float64(what.w)-0.2)*cell), int((float64(what.h)-1.2)*cell)
			large := lanczos3(what.small(), w, h)
			part := picture.NewRaster(x1-x0, y1-y0)
			for y := range part.H {
				copy(part.Pix[4*y*part.W:][:4*part.W], large.Pix[4*((y+y0)*w+x0):])
			}
			all.add(t, what.cut(2, 2, what.w, what.h-1), throughJPEG(t, part, 50), len(what.palette), fmt.Sprint("spoiled ", name, " ", seed))
		}
	}
	all.reaches(t, 95, 95)
}

func TestBlurred(t *testing.T) {
	var all tally
	for seed := range rounds(5) {
		d := dice(seed + 8000)
		what := sprite(seed).onWhite()
		size := factor(d, 5, 17, false)
		r := evenlyBlurred(nearest(what.small(), size, size, byCentre), float64(size)/32*(0.1+0.25*d.Float64()))
		all.add(t, what, r, len(what.palette), fmt.Sprint("blurred ", seed))
	}
	all.reaches(t, 99, 99)
}

// Grounds that aren't of one colour: a gradient, and the checkerboard that
// stands for transparency.
func TestGrounds(t *testing.T) {
	var gradient, board, smooth tally
	for seed := range rounds(6) {
		d := dice(seed + 9000)
		what := sprite(seed)
		what.ground = [4]uint8{}
		size := factor(d, 5, 17, false)
		from, to := [3]float64{float64(d.IntN(256)), float64(d.IntN(256)), 90}, [3]float64{float64(d.IntN(256)), 200, float64(d.IntN(256))}
		fading := func(x, y int) (p [3]float64) {
			for c := range p {
				p[c] = from[c] + (to[c]-from[c])*(0.3*float64(x)+0.7*float64(y))/float64(size)
			}
			return p
		}
		square := 4 + d.IntN(13)
		squares := func(x, y int) [3]float64 {
			if (x/square+y/square)%2 == 0 {
				return [3]float64{255, 255, 255}
			}
			return [3]float64{204, 204, 204}
		}
		large := nearest(what.small(), size, size, byCentre)
		if seed%2 == 1 {
			large = bicubic(what.small(), size, size)
		}
		gradient.add(t, what, over(large, fading), len(what.palette), fmt.Sprint("gradient ", seed))
		board.add(t, what, over(nearest(what.small(), size, size, byCentre), squares), len(what.palette), fmt.Sprint("board ", seed))
		smooth.add(t, what, over(bicubic(what.small(), size, size), squares), len(what.palette), fmt.Sprint("smooth before a board ", seed))
	}
	gradient.reaches(t, 99, 99.9)
	smooth.reaches(t, 99, 99.9)
	board.reaches(t, 99, 99.9)
}

// With the number of colours left to the picture: right in nine of ten.
func TestColoursSuggested(t *testing.T) {
	var all tally
	for seed := range rounds(10) {
		d := dice(seed + 10000)
		what := sprite(seed)
		size := factor(d, 5, 16, false)
		r := lanczos3(what.small(), size, size)
		if seed%2 == 1 {
			r = throughJPEG(t, r, 60+d.IntN(31))
		}
		all.add(t, what, r, 0, fmt.Sprint("suggested ", seed))
	}
	all.reaches(t, 100, 98)
	assert.GreaterOrEqual(t, 10*all.palettes, 9*all.pictures, "%s", all)
}

func TestPhotographs(t *testing.T) {
	var given, found tally
	for seed := range rounds(3) {
		what := sprite(seed)
		r, corners := photo(what, dice(seed+500))
		given.addWith(t, what, r, Options{Colours: len(what.palette), Corners: &corners}, fmt.Sprint("corners given ", seed))
		found.addWith(t, what, r, Options{Colours: len(what.palette)}, fmt.Sprint("corners found ", seed))
	}
	what := sprite(52012) // a row of ground that hardly differs from its surroundings
	r, _ := photo(what, dice(52512))
	found.addWith(t, what, r, Options{Colours: len(what.palette)}, "corners found, light row")
	given.reaches(t, 100, 99.3)
	found.reaches(t, 100, 99.3)
}

// Corners are found on desks that are light, of two colours or have a texture, and within
// a screen's frame, which is none of the drawing.
func TestPhotographsOnDesks(t *testing.T) {
	var found tally
	seed := 74002
	for i, name := range []string{"light", "cloth", "grain", "table before a wall"} {
		if seed++; testing.Short() && i > 0 {
			break
		}
		what := sprite(seed)
		r, _ := scene{frame: []float64{0, 0.07}[i%2], around: desks[name]}.photo(what, dice(seed+500))
		found.addWith(t, what, throughJPEG(t, r, 70), Options{Colours: len(what.palette)}, fmt.Sprint(name, " ", seed))
	}
	found.reaches(t, 95, 95)
}

// Through lenses that bend straight lines, up to a tenth at the picture's corners.
func TestBentPhotographs(t *testing.T) {
	var given, found tally
	for seed := range rounds(2) {
		what := sprite(seed)
		bend := []float64{-0.08, 0.05}[seed%2]
		r, corners := photoThrough(what, dice(seed+500), bend)
		given.addWith(t, what, r, Options{Colours: len(what.palette), Corners: &corners}, fmt.Sprint("bent, corners given ", seed))
		found.addWith(t, what, r, Options{Colours: len(what.palette)}, fmt.Sprint("bent, corners found ", seed))
	}
	what := sprite(20015) // 34 cells of 32 show rather clearly with a wrong bend
	r, corners := photoThrough(what, dice(20515), 0.0793)
	given.addWith(t, what, r, Options{Colours: len(what.palette), Corners: &corners}, "bent, corners given, 34 cells")
	given.reaches(t, 100, 99.3)
	found.reaches(t, 95, 95)
}
