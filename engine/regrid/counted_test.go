package regrid

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/regrid/picture"
)

// Columns and rows that the maker counted are taken, also through lenses; and the
// photograph made straight shows each cell's colour in the cell's middle.
func TestCounted(t *testing.T) {
	var counted tally
	for seed := range rounds(2) {
		what := sprite(seed + 300)
		r, corners := photoThrough(what, dice(seed+700), []float64{0, -0.08, 0.05}[seed%3])
		o := Options{Colours: len(what.palette), Corners: &corners, Count: [2]int{what.w, what.h}}
		counted.addWith(t, what, r, o, fmt.Sprint("counted ", seed))

		res, err := Find(r, o)
		require.NoError(t, err)
		flat := res.Straightened()
		require.Equal(t, [2]int{0, 0}, [2]int{flat.W % what.w, flat.H % what.h})
		side := flat.W / what.w
		require.Equal(t, side, flat.H/what.h, "square")
		// Near means: nearer to a cell's own colour than to most others.
		near := 0
		for i, cell := range res.Cells {
			at := flat.At(i%what.w*side+side/2, i/what.w*side+side/2)
			own, least := 0, 1<<30
			for k, p := range res.Palette {
				d := 0
				for c, v := range [3]uint8{p.R, p.G, p.B} {
					d += (int(v) - int(at[c])) * (int(v) - int(at[c]))
				}
				if d < least {
					own, least = k+1, d
				}
			}
			if cell == 0 || own == cell {
				near++
			}
		}
		assert.Greater(t, 10*near, 8*len(res.Cells), seed)

		o.Count[0]++
		other, err := Find(r, o)
		require.NoError(t, err)
		assert.Equal(t, o.Count, [2]int{other.W, other.H}, "as it is said, though it fits badly")
		assert.Less(t, other.GridSure, res.GridSure)
	}
	counted.reaches(t, 100, 99)
}

func TestCountedRefuses(t *testing.T) {
	r := picture.NewRaster(60, 40)
	c := Corners{{5, 5}, {50, 5}, {50, 35}, {5, 35}}
	var bad *OptionError
	for count, want := range map[[2]int]string{{0, 4}: "0 × 4 cells", {4, 513}: "4 × 513 cells", {-1, -1}: "-1 × -1 cells"} {
		_, err := Find(r, Options{Corners: &c, Count: count})
		require.ErrorAs(t, err, &bad)
		assert.ErrorContains(t, err, want)
	}
	_, err := Find(r, Options{Count: [2]int{4, 4}})
	require.ErrorAs(t, err, &bad)
	assert.ErrorContains(t, err, "four corners")
	straight, err := Find(nearest(sprite(1).small(), 320, 320, byCentre), Options{})
	require.NoError(t, err)
	assert.Nil(t, straight.Straightened())
}
