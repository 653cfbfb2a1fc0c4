package nest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func put(x, y shape.Um, o shape.Outline) shape.Outline { return o.Moved(shape.Point{X: x, Y: y}) }

func TestInRegisterEveryLayerLiesAtItsTruePlace(t *testing.T) {
	r := Register{
		Pieces: []Piece{
			{ID: "base", Outline: put(-50, -50, box(40_100, 30_100)), Copies: 2},
			{ID: "left", Outline: put(2000, 3000, box(5000, 5000)), Copies: 2},
			{ID: "right", Outline: put(20_000, 3000, box(5000, 5000)), Copies: 2},
			{ID: "wide", Outline: put(0, 0, box(300_000, 10)), Copies: 1},
		},
		Layers: [][]int{{0}, {1, 2}, {3}},
		Supply: Supply{
			Offcuts: []Size{{36_000, 20_000}},
			Sheets:  []Sheets{{Size: Size{60_000, 50_000}}},
			Margins: Even(5000),
		},
		Low: []shape.Point{{X: -50, Y: -50}, {X: -50, Y: -50}, {X: -50, Y: -50}},
	}
	n, err := InRegister(r)
	require.NoError(t, err)
	assert.Equal(t, []Unplaced{{3, 0, TooLarge}}, n.Unplaced)
	shift := shape.Point{X: 5050, Y: 5050}
	for _, p := range n.Placements {
		assert.Equal(t, r.Pieces[p.Piece].Outline.Moved(shift), p.Outline(r.Pieces[p.Piece]), r.Pieces[p.Piece].ID)
	}
	assert.Empty(t, judge(Job{Pieces: r.Pieces, Supply: r.Supply}, n))
	assert.Equal(t, []int{1, 2, 0, 3, 0, 3}, func() (s []int) {
		for _, p := range n.Placements {
			s = append(s, p.Sheet)
		}
		return s
	}(), "the small layer's first copy takes the offcut")
}

func TestInRegisterRefuses(t *testing.T) {
	ok := func() Register {
		return Register{
			Pieces: []Piece{{Outline: box(10, 10), Copies: 1}, {Outline: box(10, 10), Copies: 2}},
			Layers: [][]int{{0}, {1}}, Low: make([]shape.Point, 2), Supply: Supply{Sheets: []Sheets{{Size: Size{100, 100}}}},
		}
	}
	for want, change := range map[string]func(*Register){
		"layer 2 has no pieces":              func(r *Register) { r.Layers[1] = nil },
		"layer 1 names piece 7":              func(r *Register) { r.Layers[0][0] = 7 },
		"which a layer has already":          func(r *Register) { r.Layers[1][0] = 0 },
		"different numbers of copies":        func(r *Register) { r.Layers, r.Low = [][]int{{0, 1}}, r.Low[:1] },
		"below or left of the common corner": func(r *Register) { r.Low[0].X = 1 },
		"is in no layer":                     func(r *Register) { r.Layers, r.Low = r.Layers[:1], r.Low[:1] },
		"there are 1 common corners for 2":   func(r *Register) { r.Low = r.Low[:1] },
		"there is no sheet":                  func(r *Register) { r.Supply = Supply{} },
	} {
		r := ok()
		change(&r)
		_, err := InRegister(r)
		assert.ErrorContains(t, err, want)
	}
	_, err := InRegister(ok())
	assert.NoError(t, err)
}
