package export

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

func picture(t *testing.T, j Job) image.Image {
	t.Helper()
	s := j.Plan.Sprites[0]
	data, err := encodePicture(s.Layout, j.Project.Sprites[s.Index].Stack, s.Stocks)
	require.NoError(t, err)
	again, err := encodePicture(s.Layout, j.Project.Sprites[s.Index].Stack, s.Stocks)
	require.NoError(t, err)
	require.True(t, bytes.Equal(data, again))
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	return img
}

func TestPictureSize(t *testing.T) {
	for _, c := range []struct {
		d       stack.Drawing
		cell    shape.Um
		perCell int
	}{
		{grid("a"), 3000, pictureCell},
		{grid("a"), 50000, pictureCell},
		{stacktest.Noise(48, 30, 2, 1), 2000, 20},
		{stacktest.Noise(1, 256, 1, 1), 3000, 3},
		{stacktest.Noise(256, 256, 1, 1), 500, 3},
	} {
		img := picture(t, planned(t, drawn(c.cell, c.d)))
		edge := (img.Bounds().Dx() - c.d.W*c.perCell) / 2
		assert.Equal(t, image.Pt(c.d.W*c.perCell+2*edge, c.d.H*c.perCell+2*edge), img.Bounds().Size(), "whole pixels a cell, bench all around")
		assert.True(t, edge >= 8 && edge <= pictureEdge)
		assert.LessOrEqual(t, max(img.Bounds().Dx(), img.Bounds().Dy()), pictureSide+2*pictureEdge)
	}
}

// In the middle of a wide cell, away from shadows, a card has its own colour
// (grain aside); the bench is the page's; beside a card lies its shadow, the
// darker the higher it is, and never on the side of the light.
func TestPictureColours(t *testing.T) {
	p := drawn(3000, grid("aaaa", "aaaa", "aabb", "aabb"), grid("a"))
	p.Sprites[0].Stack.Lowest = "a"
	p.Sprites[0].Stack.Foam = 0 // on foam both would throw as dark a one
	j := planned(t, p)
	img := picture(t, j)
	at := func(col, row, dx, dy int) [3]int {
		r, g, b, _ := img.At(10+col*pictureCell+dx, 10+row*pictureCell+dy).RGBA()
		return [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}
	}
	edge := (img.Bounds().Dx() - 4*pictureCell) / 2
	require.Equal(t, 10, edge)
	a, b := p.Stocks[0].Colour, p.Stocks[1].Colour
	near := func(want [3]uint8, got [3]int) {
		t.Helper()
		for i := range want {
			assert.InDelta(t, int(want[i]), got[i], 2)
		}
	}
	near([3]uint8{a.R, a.G, a.B}, at(0, 0, 16, 16))
	near([3]uint8{b.R, b.G, b.B}, at(3, 3, 0, 0))
	assert.Equal(t, [3]int{int(bench.R), int(bench.G), int(bench.B)}, at(0, 0, -8, -8))
	shadow := at(3, 3, pictureCell+1, 0)
	assert.Less(t, shadow[1], int(bench.G)-20, "shadow beside two cards")
	assert.Less(t, at(3, 3, pictureCell+5, 0)[1], at(3, 0, pictureCell+5, 16)[1], "two cards throw more than one")
	assert.Greater(t, at(0, 0, 0, 16)[0], int(a.R)+20, "the edge catches the light")
	assert.Less(t, at(1, 3, 16, pictureCell-1)[1], int(a.G)-20, "the far edge doesn't")
}

// Points of an arc lie on its circle and between its ends, to the µm.
func TestChordsFollowTheArc(t *testing.T) {
	for _, turn := range []shape.Turn{shape.Anticlockwise, shape.Clockwise} {
		for _, end := range []shape.Point{{X: 0, Y: 1000}, {X: 0, Y: -1000}, {X: -1000, Y: 0}, {X: 800, Y: 600}, {X: 800, Y: -600}} {
			if (end.Y < 0) != (turn == shape.Clockwise) && end.Y != 0 {
				continue // more than a half turn
			}
			v := shape.Vertex{Point: shape.Point{X: 1000}, Arc: &shape.Arc{Turn: turn, Radius: 1000}}
			ps := chords(v, end)
			require.Len(t, ps, chordsPerArc)
			assert.Equal(t, end, ps[chordsPerArc-1])
			last := 0.0
			for _, p := range ps {
				assert.InDelta(t, 1000, math.Hypot(float64(p.X), float64(p.Y)), 1)
				angle := math.Atan2(float64(p.Y), float64(p.X)) * float64(turn)
				if angle < 0 {
					angle += 2 * math.Pi
				}
				assert.Greater(t, angle, last)
				last = angle
			}
			assert.LessOrEqual(t, last, math.Pi+1e-9)
		}
	}
}
