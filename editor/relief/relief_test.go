package relief_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/relief"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// planned is a sprite of rows, 3 mm a cell, cut from card 0.3 mm thick, after
// the search's first step.
func planned(t testing.TB, border shape.Um, edge project.Edge, rows ...string) (engine.Sprite, relief.Scene) {
	p := &project.Project{Name: "Test", Settings: project.DefaultSettings()}
	p.Settings.Border, p.Settings.Edge = border, edge
	s := project.NewSprite("buoy", len(rows[0]), len(rows))
	for y, row := range rows {
		copy(s.Frames[0].Cells[y*s.W:], row)
	}
	for i, key := range []byte("abcd") {
		rgb := project.RGB{R: uint8(60 * i), G: 90, B: 30}
		stock := project.CardFor(rgb)
		p.Palette = append(p.Palette, project.Colour{Key: key, Name: string(key), RGB: rgb, Stock: stock.ID})
		p.Stocks = append(p.Stocks, stock)
	}
	p.Sprites = []project.Sprite{s}
	require.NoError(t, p.Validate())
	all, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	one := all.Sprites[0]
	return one, relief.Build(*one.Layout, *one.Forest, s.Stack, one.Stocks)
}

// random is a drawing with a few colours and holes.
func random(r *rand.Rand) []string {
	w, h := 2+r.IntN(14), 2+r.IntN(14)
	rows := make([]string, h)
	for y := range rows {
		row := make([]byte, w)
		for x := range row {
			row[x] = ".aabbcd"[r.IntN(7)]
		}
		rows[y] = string(row)
	}
	rows[0] = "a" + rows[0][1:]
	return rows
}

// Green's theorem on a part's edges gives the area that its trapezia fill.
func TestQuadsFillTheOutlines(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for i := range 60 {
		edge := []project.Edge{project.Square, project.Chamfered, project.Round}[i%3]
		_, s := planned(t, shape.Um(i%4)*1000, edge, random(r)...)
		for _, p := range s.Parts {
			var around, filled, crossings int64
			for _, e := range s.Edges[p.Edge0:p.Edge1] {
				around += int64(e.X0)*int64(e.Y1) - int64(e.X1)*int64(e.Y0)
				if e.X0 != e.X1 && e.Y0 != e.Y1 {
					crossings++
				}
			}
			for _, q := range s.Quads[p.Quad0:p.Quad1] {
				require.Less(t, q.Y0, q.Y1)
				require.LessOrEqual(t, q.XL0, q.XR0)
				filled += int64(q.Y1-q.Y0) * int64(q.XR0-q.XL0+q.XR1-q.XL1)
			}
			// Slanted sides are cut at whole µm: at most that on each side of a slab.
			slack := int64(0)
			if crossings > 0 {
				slack = 4 * int64(p.Y1-p.Y0)
			}
			require.InDelta(t, around, filled, float64(slack))
		}
	}
}

func TestPartsLieOnOneAnother(t *testing.T) {
	_, s := planned(t, 0, project.Square, "aaaa", "abba", "abba", "aaaa")
	require.Len(t, s.Parts, 2)
	low, high := s.Parts[0], s.Parts[1]
	assert.EqualValues(t, -1, low.On)
	assert.EqualValues(t, 0, high.On)
	assert.EqualValues(t, 3000, low.Z0, "foam")
	assert.EqualValues(t, 3300, low.Z1)
	assert.EqualValues(t, 3400, high.Z0, "tape")
	assert.EqualValues(t, 3700, s.Top())
	covered := s.Covered()
	assert.True(t, covered(0, 0))
	assert.False(t, covered(4, 0))
	assert.False(t, covered(0, -1))
}

func TestPick(t *testing.T) {
	_, s := planned(t, 0, project.Square, "aaaa", "abba", "abba", "aaaa")
	top := s.Parts[1]
	for _, c := range []relief.Camera{
		{PerMm: 10, CX: 100, CY: 100},
		{PerMm: 10, CX: 100, CY: 100, Turn: 0.7, Tilt: 0.9},
		{PerMm: 10, CX: 100, CY: 100, Turn: -2, Tilt: 1.2, Pull: 4000},
	} {
		x0, y0, x1, y1 := c.Bounds(s, relief.Shown{})
		// The middle of the drawing is the upper part, seen from anywhere but edge-on.
		at := relief.Pick(s, c, relief.Shown{}, (x0+x1)/2, (y0+y1)/2)
		if c.Pull == 0 {
			assert.Equal(t, 1, at)
		} else {
			assert.Contains(t, []int{0, 1}, at)
		}
		assert.Equal(t, -1, relief.Pick(s, c, relief.Shown{}, x0-5, y0-5))
		assert.NotEqual(t, 1, relief.Pick(s, c, relief.Shown{UpTo: 1}, (x0+x1)/2, (y0+y1)/2))
	}
	c := relief.Camera{PerMm: 10, CX: 60, CY: 60}
	assert.Equal(t, 0, relief.Pick(s, c, relief.Shown{}, 60-55, 60), "the frame about it")
	x0, _, x1, _ := c.Bounds(s, relief.Shown{Only: top.Layer})
	assert.InDelta(t, 60, x1-x0, 0.01, "6 mm, 10 pixels each")
}

// From straight above every cell shows the colour of the drawing.
func TestFaceOnTheDrawingIsSeen(t *testing.T) {
	rows := []string{"aabbc", "a.bcc", "aabdc", "ddd.a"}
	one, s := planned(t, 0, project.Square, rows...)
	c := relief.Camera{PerMm: 10, CX: 1000, CY: 1000}
	keys := map[string]byte{}
	for i, st := range one.Stocks {
		for _, key := range []byte("abcd") {
			if st.Colour == (project.RGB{R: uint8(60 * (key - 'a')), G: 90, B: 30}) {
				keys[s.Stocks[i]] = key
			}
		}
	}
	for y, row := range rows {
		for x := range row {
			sx := 1000 + (float64(s.Grid[0])+(float64(x)+0.5)*3000-float64(s.Size[0])/2)/100
			sy := 1000 - (float64(s.Grid[1])+(float64(len(rows)-y)-0.5)*3000-float64(s.Size[1])/2)/100
			got := byte('.')
			if i := relief.Pick(s, c, relief.Shown{}, sx, sy); i >= 0 {
				got = keys[s.Stocks[s.Parts[i].Stock]]
			}
			require.Equal(t, string(row[x]), string(got), "column %d, row %d", x, y)
		}
	}
}

func TestShadowsFallAwayFromTheLight(t *testing.T) {
	_, s := planned(t, 0, project.Square, "aaaaaa", "aaaaaa", "aabbaa", "aabbaa", "aaaaaa", "aaaaaa")
	m := relief.NewShade(s, nil)
	dark := func(x, y float64) uint8 { // mm from the upper left of the grid
		column := (x*1000 - float64(m.X0)) / m.Texel
		row := (float64(m.Y1) - (18-y)*1000) / m.Texel
		return m.Dark[int(row)*int(m.W)+int(column)]
	}
	assert.Zero(t, dark(9, 9), "on top of the upper part")
	assert.Zero(t, dark(5.5, 8), "on the lit side")
	assert.Greater(t, dark(12.2, 11), uint8(120), "beside it, away from the light")
	assert.Greater(t, dark(18.15, 15), uint8(120), "on the board")
	assert.Zero(t, dark(18.5, 0.1), "where nothing stands toward the light")
	// However high it stands, a shadow has faded before the map ends.
	for _, z := range []int32{300, 1000, 5000, 20_000} {
		tall := s
		tall.Parts = slices.Clone(s.Parts)
		for i := range tall.Parts {
			tall.Parts[i].Z0, tall.Parts[i].Z1 = tall.Parts[i].Z0+z, tall.Parts[i].Z1+z
		}
		m := relief.NewShade(tall, nil)
		for i := range m.H {
			assert.Less(t, m.Dark[i*m.W+m.W-1], uint8(6), "z %d, row %d", z, i)
		}
		for i := range m.W {
			assert.Less(t, m.Dark[(m.H-1)*m.W+i], uint8(6), "z %d, column %d", z, i)
		}
	}
}

func TestLight(t *testing.T) {
	assert.InDelta(t, 1, relief.Light(-1, 1), 1e-9)
	assert.InDelta(t, -1, relief.Light(3, -3), 1e-9)
	assert.InDelta(t, math.Sqrt2/2, relief.Light(-5, 0), 1e-9)
	assert.Zero(t, relief.Light(0, 0))
}

func TestSceneComesBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for range 20 {
		_, s := planned(t, 1000, project.Round, random(r)...)
		m := relief.NewShade(s, nil)
		data := relief.Encode(s, m)
		s2, m2, err := relief.Decode(data)
		require.NoError(t, err)
		require.Equal(t, s, s2)
		require.Equal(t, m, m2)
		_, _, err = relief.Decode(data[:r.IntN(len(data))])
		require.Error(t, err)
	}
}

func FuzzDecode(f *testing.F) {
	_, s := planned(f, 0, project.Square, "ab", "ba")
	f.Add(relief.Encode(s, relief.NewShade(s, nil)))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, m, err := relief.Decode(data)
		if err != nil {
			return
		}
		faces := relief.Faces(s, relief.Camera{PerMm: 1, Tilt: 0.5, Rim: 1}, relief.Shown{}) // whoever draws it must not fall over
		m.Map(faces, s, relief.Camera{PerMm: 1})
	})
}
