package regrid

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/regrid/picture"
)

// Edges along two bundles of lines, with as many at random between them: both bundles are
// found, and with them where their lines meet.
func TestBundles(t *testing.T) {
	for seed := range 8 {
		d := dice(seed)
		turn := (d.Float64() - 0.5) * 0.6
		want := [2]bundle{
			{math.Cos(turn), math.Sin(turn), (d.Float64() - 0.5) * 0.2},
			{-math.Sin(turn), math.Cos(turn), (d.Float64() - 0.5) * 0.2},
		}
		var list []edgel
		for i := range 4000 {
			e := edgel{x: d.Float64()*1.4 - 0.7, y: d.Float64()*1.4 - 0.7, weight: 1}
			dx, dy := want[i%2].along(e.x, e.y)
			a := math.Atan2(dy, dx) + d.NormFloat64()*0.02
			if i%4 > 1 {
				a = d.Float64() * 2 * math.Pi
			}
			e.nx, e.ny = -math.Sin(a), math.Cos(a)
			list = append(list, e)
		}
		got, ok := turnOf(list)
		require.True(t, ok)
		assert.InDelta(t, turn, got, 0.03, "seed %d", seed)
		for i, m := range []bundle{bundleOf(list, got), bundleOf(list, got+math.Pi/2)} {
			assert.InDelta(t, want[i].a, m.a, 0.003, "seed %d, bundle %d", seed, i)
			assert.InDelta(t, want[i].b, m.b, 0.003, "seed %d, bundle %d", seed, i)
			assert.InDelta(t, want[i].c, m.c, 0.015, "seed %d, bundle %d", seed, i)
		}
	}
}

// Edges of all directions alike show no turn.
func TestNoBundles(t *testing.T) {
	d := dice(1)
	var list []edgel
	for range 4000 {
		a := d.Float64() * 2 * math.Pi
		list = append(list, edgel{d.Float64() - 0.5, d.Float64() - 0.5, math.Cos(a), math.Sin(a), 1})
	}
	_, ok := turnOf(list)
	assert.False(t, ok)
}

// A drawing on a ground like its surroundings ends where it was drawn; else at the line
// along which the ground ends, however far that is, and antennas belong to it.
func TestEnded(t *testing.T) {
	text := `
		.....k......
		.....k......
		...kkkkkk...
		..kwwrwwyk..
		..kwrrwywk..
		..kwwywwwk..
		...kk..kk...
		............`
	white := [4]uint8{250, 250, 245, 255}
	for _, c := range []struct {
		around [4]uint8
		w, h   int // of the grid found
	}{{white, 8, 7}, {[4]uint8{120, 130, 140, 255}, 12, 8}} {
		small := drawn(text)
		const cell, edge = 16, 96
		r := picture.NewRaster(small.W*cell+2*edge, small.H*cell+2*edge)
		for y := range r.H {
			for x := range r.W {
				p := c.around
				if u, v := x-edge, y-edge; u >= 0 && v >= 0 && u < small.W*cell && v < small.H*cell {
					if p = small.At(u/cell, v/cell); p[3] == 0 {
						p = white
					}
				}
				r.Set(x, y, p)
			}
		}
		at := func(x, y int) Point { return Point{float64(edge + x*cell), float64(edge + y*cell)} }
		b, ok := recounted(r, Corners{at(2, 2), at(10, 2), at(10, 7), at(2, 7)}, unbending(r), 8, 5)
		require.True(t, ok)
		got := b.ended(r)
		assert.Equal(t, [2]int{c.w, c.h}, [2]int{got.grid.x.cells, got.grid.y.cells}, fmt.Sprint(c))
	}
}
