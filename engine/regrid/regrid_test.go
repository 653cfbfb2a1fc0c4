package regrid

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
)

// drawn is a drawing from text: '.' is empty, letters are colours.
func drawn(text string) *picture.Raster {
	inks := map[byte][4]uint8{
		'k': {32, 32, 36, 255}, 'w': {250, 250, 245, 255}, 'r': {200, 30, 40, 255}, 'y': {245, 200, 40, 255},
	}
	rows := strings.Fields(text)
	r := picture.NewRaster(len(rows[0]), len(rows))
	for y, row := range rows {
		for x := range row {
			r.Set(x, y, inks[row[x]])
		}
	}
	return r
}

func show(r *Result) {
	for y := range r.H {
		var row strings.Builder
		for x := range r.W {
			row.WriteByte(".abcdefgh"[r.At(x, y)])
		}
		fmt.Println(row.String())
	}
}

const sheet = `
	.......................
	.kkkkk....kkkk...y.....
	.kwwwk....kyyk.........
	.krwwk....krrk...kkkk..
	.kkkkk....kkkk...krrk..
	.................kkkk..
	.......................
	.....kkkkkk............
	.....kwwrwk............
	.....kkkkkk............
	.......................`

func ExampleFind() {
	r, err := Find(nearest(drawn(sheet), 23*7, 11*7, byCentre), Options{Trimming: TrimEdges})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("cells of %g × %g pixels, %d colours, most cells: %v\n", r.Grid.X.Size, r.Grid.Y.Size, len(r.Palette), r.Palette[0])
	show(r)
	// Output:
	// cells of 7 × 7 pixels, 4 colours, most cells: #202024
	// aaaaa....aaaa...d...
	// abbba....adda.......
	// acbba....acca...aaaa
	// aaaaa....aaaa...acca
	// ................aaaa
	// ....................
	// ....aaaaaa..........
	// ....abbcba..........
	// ....aaaaaa..........
}

func ExampleResult_Sprites() {
	r, err := Find(nearest(drawn(sheet), 23*7, 11*7, byCentre), Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, s := range r.Sprites() {
		fmt.Println(i+1, "from", s.Grid.X.Start, s.Grid.Y.Start)
		show(s)
	}
	// Output:
	// 1 from 7 7
	// aaaaa
	// abbba
	// acbba
	// aaaaa
	// 2 from 70 7
	// aaaa
	// adda
	// acca
	// aaaa
	// 3 from 119 7
	// d...
	// ....
	// aaaa
	// acca
	// aaaa
	// 4 from 35 49
	// aaaaaa
	// abbcba
	// aaaaaa
}

// One pixel a cell is a grid too.
func TestAlreadySmall(t *testing.T) {
	for seed := range rounds(8) {
		what := sprite(seed)
		var all tally
		all.add(t, what, what.small(), len(what.palette), fmt.Sprint("small ", seed))
		all.reaches(t, 100, 100)
	}
}

// Pictures in which no cells are have none found.
func TestNoSprite(t *testing.T) {
	for seed := range rounds(5) {
		d := dice(seed)
		r := scenery(d, 200+d.IntN(200), 200+d.IntN(200))
		for _, quality := range []int{0, 75} {
			p := r
			if quality > 0 {
				p = throughJPEG(t, r, quality)
			}
			_, err := Find(p, Options{})
			var none *NotASprite
			assert.ErrorAs(t, err, &none, "scenery %d, quality %d", seed, quality)
		}
	}
	for _, size := range [][2]int{{1, 1}, {2, 1}, {1, 300}, {3000, 1}, {7, 5000}, {300, 300}} {
		r := picture.NewRaster(size[0], size[1])
		d := dice(size[0])
		for i := range r.Pix {
			r.Pix[i] = uint8(d.IntN(256)) | 0xff*uint8(i%4/3)
		}
		_, err := Find(r, Options{})
		assert.Error(t, err, "%v", size)
		_, err = Find(picture.NewRaster(size[0], size[1]), Options{Photo: IsPhoto})
		assert.Error(t, err, "%v", size)
	}
}

func TestFindRefuses(t *testing.T) {
	r := nearest(drawn(sheet), 23*7, 11*7, byCentre)
	for name, o := range map[string]Options{
		"too many colours":    {Colours: MaxColours + 1},
		"fewer than none":     {Colours: -1},
		"corners on a line":   {Corners: &Corners{{0, 0}, {10, 0}, {20, 0}, {30, 0}}},
		"corners anticlock":   {Corners: &Corners{{0, 0}, {0, 77}, {161, 77}, {161, 0}}},
		"corners in a point":  {Corners: &Corners{}},
		"cells of no size":    {Grid: &Grid{X: Axis{Size: 0}, Y: Axis{Size: 7}}},
		"cells without bound": {Grid: &Grid{X: Axis{Size: 1e9}, Y: Axis{Size: 7}}},
		"a cell of no size":   {Size: [2]float64{0, 7}},
		"a cell too large":    {Size: [2]float64{7, 78}},
		"a cell of no number": {Size: [2]float64{math.NaN(), 7}},
	} {
		_, err := Find(r, o)
		require.Error(t, err, name)
		assert.NotContains(t, err.Error(), "\n", name)
	}
}

// The maker's own size and phase are taken as they are.
func TestNudged(t *testing.T) {
	r := nearest(drawn(sheet), 23*8, 11*8, byCentre)
	got, err := Find(r, Options{Grid: &Grid{X: Axis{Size: 4, Start: 0}, Y: Axis{Size: 8, Start: 0}}})
	require.NoError(t, err)
	assert.Equal(t, [2]int{46, 11}, [2]int{got.W, got.H})
	for y := range got.H {
		for x := 0; x < got.W; x += 2 {
			assert.Equal(t, got.At(x, y), got.At(x+1, y))
		}
	}
}

// Of cells of about the size that the maker gives the place is found, and the size to
// the hundredth of a pixel.
func TestSized(t *testing.T) {
	for seed := range rounds(3) {
		what := sprite(seed + 40)
		r := throughJPEG(t, scalers["bicubic"](what.onWhite().small(), 32*9+5, 32*7+3), 80)
		got, err := Find(r, Options{Size: [2]float64{9.1, 7.15}, Colours: len(what.palette)})
		require.NoError(t, err)
		right, size := what.onWhite().score(got)
		assert.True(t, size, "%d × %d", got.W, got.H)
		assert.Greater(t, right, what.w*what.h*99/100)
		half, err := Find(r, Options{Size: [2]float64{4.58, 3.55}})
		require.NoError(t, err)
		assert.InDelta(t, 64, half.W, 1)
		assert.InDelta(t, 64, half.H, 1)
	}
}

// A smooth enlargement offers no other grid that is as good; what it offers
// has cells of another size.
func TestOtherGrid(t *testing.T) {
	what := sprite(1)
	r, err := Find(throughJPEG(t, nearest(what.onWhite().small(), 32*9, 32*9, byCentre), 60), Options{})
	require.NoError(t, err)
	require.NotNil(t, r.OtherGrid)
	assert.Greater(t, r.Grid.X.Size, 1.5*r.OtherGrid.X.Size)
}

// Every result holds together, whatever the picture.
func FuzzFind(f *testing.F) {
	f.Add([]byte("\x10\x0c\x03sprite"), uint8(0), uint8(3))
	f.Add([]byte("\x20\x20\x05abcabcabc"), uint8(1), uint8(0))
	f.Fuzz(func(t *testing.T, data []byte, how, colours uint8) {
		if len(data) < 4 {
			return
		}
		w, h, by := 1+int(data[0])%24, 1+int(data[1])%24, 1+int(data[2])%6
		r := picture.NewRaster(w, h)
		for i := range w * h {
			v := data[3+i%(len(data)-3)]
			r.Set(i%w, i/w, [4]uint8{v, v << 2, v << 4, 255})
		}
		switch how % 3 {
		case 0:
			r = nearest(r, w*by, h*by, byCorner)
		case 1:
			r = bilinear(r, w*by, h*by)
		}
		res, err := Find(r, Options{Colours: int(colours) % (MaxColours + 1)})
		if err != nil {
			return
		}
		require.Positive(t, res.W)
		require.Positive(t, res.H)
		require.Len(t, res.Cells, res.W*res.H)
		require.Len(t, res.Second, res.W*res.H)
		require.Len(t, res.Sure, res.W*res.H)
		for i, c := range res.Cells {
			require.LessOrEqual(t, c, len(res.Palette))
			require.LessOrEqual(t, res.Second[i], len(res.Palette))
			require.True(t, res.Sure[i] >= 0 && res.Sure[i] <= 100)
		}
		if n := int(colours) % (MaxColours + 1); n > 0 {
			require.LessOrEqual(t, len(res.Palette), n)
		}
		for _, s := range res.Sprites() {
			require.Positive(t, s.W*s.H)
		}
	})
}

// With fewer colours than were drawn, the thin outline is not given up for a
// shade.
func TestFewColoursKeepTheOutline(t *testing.T) {
	what := truth{w: 12, h: 12, palette: []colour.RGB{{R: 40, G: 40, B: 46}, {R: 70, G: 72, B: 80}, {R: 120, G: 122, B: 130}, {R: 200, G: 204, B: 210}, {R: 230, G: 60, B: 40}, {R: 40, G: 150, B: 60}}}
	for y := range 12 {
		for x := range 12 {
			c := 2 + (x/3+y/4)%5
			switch {
			case x == 0 || y == 0 || x == 11 || y == 11:
				c = 0
			case x == 1 || y == 1 || x == 10 || y == 10:
				c = 1
			}
			what.cells = append(what.cells, c)
		}
	}
	r := nearest(what.small(), 12*9, 12*9, byCentre)
	for n := 2; n <= 6; n++ {
		res, err := Find(r, Options{Colours: n})
		require.NoError(t, err)
		assert.Len(t, res.Palette, n)
		assert.Contains(t, res.Palette, what.palette[0], "%d colours", n)
		assert.Equal(t, res.At(1, 1), res.At(10, 5), "%d colours", n)
	}
}

func TestMendedOnlyWhereAsked(t *testing.T) {
	what := truth{w: 8, h: 8, palette: []colour.RGB{{R: 40, G: 40, B: 46}, {R: 230, G: 60, B: 40}}}
	for i := range 64 {
		c := 1
		if i == 3*8+4 {
			c = 2
		}
		if i%8 == 0 || i/8 == 0 {
			c = 0
		}
		what.cells = append(what.cells, c)
	}
	res, err := Find(nearest(what.small(), 80, 80, byCentre), Options{Colours: 2})
	require.NoError(t, err)
	require.Len(t, res.Strays(), 1)
	stray := res.Strays()[0]
	assert.Equal(t, []int{4, 3}, []int{stray.X, stray.Y})
	mended := res.Mended()
	assert.Equal(t, stray.Colour, res.At(4, 3), "the result itself stays")
	assert.Equal(t, stray.Agreed, mended.At(4, 3))
	assert.Empty(t, mended.Strays())
}
