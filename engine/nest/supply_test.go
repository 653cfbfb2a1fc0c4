package nest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

func TestSmallPartsLieInTheHolesOfLargeOnes(t *testing.T) {
	frame := shape.FromRects([]shape.Rect{{Max: shape.Point{X: 40_000, Y: 40_000}}}).
		Subtract(shape.FromRects([]shape.Rect{{Min: shape.Point{X: 5000, Y: 5000}, Max: shape.Point{X: 35_000, Y: 35_000}}}))
	j := Job{
		Gap: 1000,
		Pieces: []Piece{
			{ID: "frame", Outline: frame.Polygons(shape.BySides)[0].Outline(), Copies: 1},
			{ID: "dot", Outline: box(13_500, 28_000), Copies: 2}, // 1 + 13.5 + 1 + 13.5 + 1 = 30: to the µm
		},
		Supply: Supply{Sheets: []Sheets{{Size: Size{40_000, 40_000}, Count: 1}}},
	}
	n, err := Nest(j, 0, 1)
	require.NoError(t, err)
	assert.Empty(t, n.Unplaced)
	assert.Empty(t, judge(j, n))
}

func TestOffcutsAreUsedFirst(t *testing.T) {
	j := Job{
		Pieces: []Piece{{Outline: box(20_000, 20_000), Copies: 5}},
		Supply: Supply{
			Offcuts: []Size{{10_000, 90_000}, {45_000, 25_000}, {25_000, 25_000}},
			Sheets:  []Sheets{{Size{60_000, 60_000}, 1}, {Size{100_000, 100_000}, 0}},
		},
	}
	n, err := Nest(j, 3, 2)
	require.NoError(t, err)
	require.Empty(t, judge(j, n))
	var got []int
	for _, s := range n.Sheets {
		got = append(got, s.Number, s.Parts)
	}
	assert.Equal(t, []int{1, 2, 2, 1, 3, 2}, got, "sheet and parts: the narrow offcut takes none")
	assert.Equal(t, []Origin{FromOffcuts, FromOffcuts, FromSheets}, []Origin{n.Sheets[0].Origin, n.Sheets[1].Origin, n.Sheets[2].Origin})
	assert.Equal(t, []int{1, 2, 0}, []int{n.Sheets[0].Index, n.Sheets[1].Index, n.Sheets[2].Index})
}

func TestWhatFitsNowhereIsReported(t *testing.T) {
	j := Job{
		Pieces: []Piece{
			{Outline: box(50_000, 10_000), Copies: 1, Turns: AsDrawn},
			{Outline: box(50_000, 10_000), Copies: 1},
			{Outline: box(30_000, 45_000), Copies: 2},
		},
		Supply: Supply{Sheets: []Sheets{{Size{40_000, 60_000}, 2}}},
	}
	n, err := Nest(j, 1, 1)
	require.NoError(t, err)
	require.Empty(t, judge(j, n))
	assert.Equal(t, []Unplaced{{0, 0, TooLarge}}, n.Unplaced)

	j.Supply.Sheets[0].Count = 1
	n, err = Nest(j, 1, 1)
	require.NoError(t, err)
	require.Empty(t, judge(j, n))
	assert.Contains(t, n.Unplaced, Unplaced{2, 1, OutOfRoom})
}

func TestJobRefusals(t *testing.T) {
	ok := func() Job {
		return Job{Pieces: []Piece{{ID: "a", Outline: box(10, 10), Copies: 1}}, Supply: Supply{Sheets: []Sheets{{Size: Size{100, 100}}}}}
	}
	for want, change := range map[string]func(*Job){
		"gap is -1":                    func(j *Job) { j.Gap = -1 },
		"a margin is -1":               func(j *Job) { j.Supply.Margins.Top = -1 },
		"there is no sheet to nest on": func(j *Job) { j.Supply.Sheets = nil },
		"offcut 1: size is 0 × 5":      func(j *Job) { j.Supply.Offcuts = []Size{{0, 5}} },
		"sheet size 1: there are -1":   func(j *Job) { j.Supply.Sheets[0].Count = -1 },
		`piece 1 ("a"): copies are 0`:  func(j *Job) { j.Pieces[0].Copies = 0 },
		"no way of turning 3":          func(j *Job) { j.Pieces[0].Turns = 3 },
		"its outline encloses nothing": func(j *Job) { j.Pieces[0].Outline = shape.Outline{} },
		"piece 0, copy 1, which isn't": func(j *Job) { j.Fixed = []Placement{{Copy: 1}} },
		"which has one already":        func(j *Job) { j.Fixed = []Placement{{}, {}} },
		"has sheet -1 and turn 0":      func(j *Job) { j.Fixed = []Placement{{Sheet: -1}} },
	} {
		j := ok()
		change(&j)
		_, err := Start(j)
		assert.ErrorContains(t, err, want)
	}
	_, err := Start(ok())
	assert.NoError(t, err)
	n, err := Nest(Job{Supply: ok().Supply}, 3, 1)
	assert.NoError(t, err)
	assert.Empty(t, n.Placements)
}
