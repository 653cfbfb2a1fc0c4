package regrid

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/regrid/picture"
)

// trimmed is a drawing without its empty rows and columns.
func (t truth) trimmed() truth {
	x0, y0, x1, y1 := t.w, t.h, 0, 0
	for i, c := range t.cells {
		if c > 0 {
			x0, y0, x1, y1 = min(x0, i%t.w), min(y0, i/t.w), max(x1, i%t.w+1), max(y1, i/t.w+1)
		}
	}
	return t.cut(x0, y0, x1, y1)
}

// scattered puts six drawings on one sheet, each at any pixel and with cells of its own
// size, and lists them in reading order.
func scattered(t *testing.T, seed int, how func(r *picture.Raster, w, h int) *picture.Raster) (*picture.Raster, []truth) {
	d := dice(seed + 60000)
	names := []string{"crab", "ferry", "anchor", "buoy", "fish", "gull"}
	d.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	paper := [4]uint8{30, 60, 90, 255}
	const slot = 420
	sheet := plain(3*slot, 2*slot, paper)
	var list []truth
	for i, name := range names {
		what := harbour(t, name)
		what.ground = paper
		what = what.trimmed()
		padded := what.padded()
		size := 4 + 4*d.Float64()
		w, h := int(size*float64(padded.w)+0.5), int(size*float64(padded.h)+0.5)
		require.Less(t, max(w, h), slot-24)
		one := how(padded.small(), w, h)
		x0, y0 := i%3*slot+d.IntN(24), i/3*slot+d.IntN(24)
		paste(sheet, one, x0, y0)
		list = append(list, what)
	}
	return sheet, list
}

// plain is a sheet of one colour.
func plain(w, h int, paper [4]uint8) *picture.Raster {
	r := picture.NewRaster(w, h)
	for i := 0; i < len(r.Pix); i += 4 {
		copy(r.Pix[i:], paper[:])
	}
	return r
}

// paste lays one picture on another.
func paste(sheet, one *picture.Raster, x0, y0 int) {
	for y := range one.H {
		copy(sheet.Pix[4*((y0+y)*sheet.W+x0):][:4*one.W], one.Pix[4*y*one.W:])
	}
}

// padded is the drawing with an empty cell all round.
func (t truth) padded() truth {
	out := truth{w: t.w + 2, h: t.h + 2, palette: t.palette, ground: t.ground, cells: make([]int, (t.w+2)*(t.h+2))}
	for y := range t.h {
		copy(out.cells[(y+1)*out.w+1:], t.cells[y*t.w:][:t.w])
	}
	return out
}

// Sprites that stand at any pixel of a sheet, each with its own size of cell, are found
// each with its own grid.
func TestFindSeveralWithOwnGrids(t *testing.T) {
	ways := map[string]func(r *picture.Raster, w, h int) *picture.Raster{
		"nearest": func(r *picture.Raster, w, h int) *picture.Raster { return nearest(r, w, h, byCentre) },
		"bicubic": bicubic,
		"JPEG":    func(r *picture.Raster, w, h int) *picture.Raster { return nearest(r, w, h, byCentre) },
	}
	var all tally
	for seed := range rounds(2) {
		for name, how := range ways {
			sheet, wants := scattered(t, seed, how)
			if name == "JPEG" {
				sheet = throughJPEG(t, sheet, 85)
			}
			got, err := FindSeveral(sheet, Options{})
			require.NoError(t, err)
			if !assert.Len(t, got, len(wants), "%s %d", name, seed) {
				continue
			}
			for i, want := range wants {
				right, size := want.score(got[i])
				all.pictures++
				all.cells += len(want.cells)
				all.right += right
				if size {
					all.sizes++
				} else {
					t.Logf("%s %d, sprite %d: %d×%d instead of %d×%d, cells of %.2f", name, seed, i, got[i].W, got[i].H, want.w, want.h, got[i].Grid.X.Size)
				}
			}
		}
	}
	all.reaches(t, 100, 99)
}

// Dirt at a sheet's edges that is smaller than half a cell is no sprite: cells that are
// much wider than high leave no room for one there.
func TestFindSeveralWithDirtAtTheEdges(t *testing.T) {
	paper := [4]uint8{30, 60, 90, 255}
	sheet := plain(700, 400, paper)
	var wants []truth
	for i, name := range []string{"crab", "ferry"} {
		what := harbour(t, name)
		what.ground = paper
		what = what.trimmed()
		wants = append(wants, what)
		padded := what.padded()
		w, h := int((11.3+float64(i))*float64(padded.w)), int(3.4*float64(padded.h))
		paste(sheet, nearest(padded.small(), w, h, byCentre), 40+i*13, 30+i*240)
	}
	for y := 205; y < 209; y++ {
		sheet.Set(0, y, [4]uint8{255, 0, 0, 255})
		sheet.Set(1, y, [4]uint8{255, 255, 0, 255})
	}
	got, err := FindSeveral(sheet, Options{})
	require.NoError(t, err)
	require.Len(t, got, len(wants))
	for i, want := range wants {
		assert.Equal(t, [2]int{want.w, want.h}, [2]int{got[i].W, got[i].H})
	}
}

// Where one grid carries all sprites it is used: the same as Find and Sprites give.
func TestFindSeveralOnOneGrid(t *testing.T) {
	for _, by := range []int{2, 7} {
		r := nearest(drawn(sheet), 23*by, 11*by, byCentre)
		one, err := Find(r, Options{})
		require.NoError(t, err)
		several, err := FindSeveral(r, Options{})
		require.NoError(t, err)
		same := slices.EqualFunc(one.Sprites(), several, func(a, b *Result) bool {
			return a.Grid == b.Grid && slices.Equal(a.Cells, b.Cells)
		})
		assert.True(t, same, fmt.Sprint(by))
	}
}

// Drawings laid out together keep apart from one another and from the edges, in a few
// times their own area, however much wider one is than the others.
func TestLaidOut(t *testing.T) {
	d := dice(61000)
	for round := range 20 {
		parts := []sampled{{w: 1 + d.IntN(512), h: 1 + d.IntN(40)}}
		for range 1 + d.IntN(300) {
			parts = append(parts, sampled{w: 1 + d.IntN(30), h: 1 + d.IntN(30)})
		}
		w, h, places := laidOut(parts)
		cells := 0
		for i, a := range places {
			cells += (parts[i].w + 2) * (parts[i].h + 2)
			assert.Equal(t, [2]int{parts[i].w, parts[i].h}, [2]int{a.x1 - a.x0, a.y1 - a.y0})
			assert.True(t, a.x0 >= 1 && a.y0 >= 1 && a.x1 < w && a.y1 < h, round)
			for _, b := range places[:i] {
				assert.False(t, a.touches(b, 1), "%d: %v %v", round, a, b)
			}
		}
		assert.Less(t, w*h, 3*cells+512*42, round)
	}
}
