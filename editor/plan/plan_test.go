package plan

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// random is a summary with everything in it.
func random(r *rand.Rand) *Summary {
	s := &Summary{
		Revision: r.Uint64(), Sprite: r.IntN(1000), Final: r.IntN(2) == 0,
		Problem: []string{"", "it is empty", "ünïcode ⛵"}[r.IntN(3)],
		Parts:   r.IntN(500), Patches: r.IntN(5000), Heights: r.IntN(12), Top: shape.Um(r.IntN(1 << 20)), Tweezers: r.IntN(9), Seconds: r.IntN(1 << 20),
	}
	for range r.IntN(5) {
		c := Colour{Key: byte(r.IntN(127)), Stock: "card-ff0000", Parts: r.IntN(9)}
		for range r.IntN(4) {
			c.Heights = append(c.Heights, r.IntN(9))
		}
		s.Colours = append(s.Colours, c)
	}
	for range r.IntN(4) {
		f := Finding{Code: "strip-narrow", Severity: "look", Text: "narrow", Count: r.IntN(5)}
		for range r.IntN(4) {
			f.Places = append(f.Places, Place{r.NormFloat64(), r.NormFloat64()})
		}
		for range r.IntN(2) {
			f.Remedies = append(f.Remedies, Remedy{Text: "Larger cells", Command: "setCell", Args: json.RawMessage(`{"mm":4}`), Asks: []string{"x"}})
		}
		s.Findings = append(s.Findings, f)
	}
	for range r.IntN(40) {
		s.Scene = append(s.Scene, byte(r.Uint32()))
	}
	return s
}

func encoded(t testing.TB, s *Summary) []byte {
	data, err := s.Encode()
	require.NoError(t, err)
	return data
}

func TestSummaryComesBack(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 3))
	for range 2000 {
		s := random(r)
		data := encoded(t, s)
		back, err := DecodeSummary(data)
		require.NoError(t, err)
		require.Equal(t, s, back)

		// Without its end the JSON is refused; a changed byte never panics.
		head := len(data) - len(s.Scene)
		_, err = DecodeSummary(data[:r.IntN(head)])
		require.Error(t, err)
		data[r.IntN(len(data))] ^= byte(1 + r.IntN(255))
		_, _ = DecodeSummary(data)
	}
}

func FuzzDecodeSummary(f *testing.F) {
	r := rand.New(rand.NewPCG(2, 3))
	for range 5 {
		f.Add(encoded(f, random(r)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if s, err := DecodeSummary(data); err == nil {
			again, err := DecodeSummary(encoded(t, s))
			require.NoError(t, err)
			require.Equal(t, encoded(t, s), encoded(t, again))
		}
	})
}

func FuzzDecodeRequest(f *testing.F) {
	data, err := first().Encode()
	require.NoError(f, err)
	f.Add(data)
	f.Fuzz(func(t *testing.T, data []byte) {
		if r, err := DecodeRequest(data); err == nil {
			_ = new(Store).Take(r)
		}
	})
}

func drawing(name, rows string, w int) project.Sprite {
	return project.Sprite{
		Name: name, Copies: 1, Cell: 3000, W: w, H: len(rows) / w,
		Frames: []project.Frame{{Cells: []byte(rows)}},
		Stack:  project.Stack{Style: project.Fewest, ExtraHeights: 3, Under: []project.Under{{Under: 'a', Over: 'b'}}},
	}
}

func first() Request {
	kerf := shape.Um(120)
	return Request{
		Revision: 7, Open: 2, Order: []int{1, 2},
		Common: &project.Project{
			Name:     "Harbour",
			Palette:  []project.Colour{{Key: 'a', Name: "Ink", RGB: project.RGB{R: 1, G: 2, B: 3}, Stock: "card-010203"}},
			Stocks:   []project.Stock{{ID: "card-010203", Kind: project.Card, Thickness: 300, Typical: true}},
			Settings: project.Settings{Corners: project.Join, Kerf: &kerf, Effort: 3},
		},
		Sprites: []Sprite{{1, drawing("gull", "aaa..a", 3)}, {2, drawing("crab", "aaaa", 2)}},
	}
}

func TestRequestComesBack(t *testing.T) {
	r := first()
	data, err := r.Encode()
	require.NoError(t, err)
	back, err := DecodeRequest(data)
	require.NoError(t, err)
	assert.Equal(t, r, back)
	_, err = DecodeRequest([]byte(`{"Revision":"x"}`))
	assert.Error(t, err)
}

func TestStoreKeepsUp(t *testing.T) {
	var s Store
	assert.Error(t, s.Take(Request{Revision: 1}), "nothing was ever sent")
	require.NoError(t, s.Take(first()))
	assert.Equal(t, []int{2, 1}, s.Waiting(), "the open one first")
	assert.Equal(t, "gull", s.Project().Sprites[0].Name, "in the project's order")
	s.Done(2)
	s.Done(1)
	assert.Empty(t, s.Waiting())

	// One drawing changes, one comes, the order changes.
	require.NoError(t, s.Take(Request{Revision: 8, Open: 3, Order: []int{3, 2, 1},
		Sprites: []Sprite{{1, drawing("gull", "a.a..a", 3)}, {3, drawing("buoy", "aa", 2)}}}))
	assert.Equal(t, []int{3, 1}, s.Waiting())
	assert.Equal(t, uint64(8), s.Revision())
	one, ok := s.One(1)
	assert.True(t, ok)
	assert.Equal(t, "a.a..a", string(one.Sprites[0].Frames[0].Cells))
	assert.Equal(t, "Harbour", one.Name)

	// A stranger or a sprite without cells is refused and changes nothing.
	assert.Error(t, s.Take(Request{Revision: 9, Order: []int{1, 4}}))
	bad := drawing("bad", "aaaa", 2)
	bad.W = 3
	assert.Error(t, s.Take(Request{Revision: 9, Order: []int{5}, Sprites: []Sprite{{5, bad}}}))
	assert.Equal(t, uint64(8), s.Revision())
	assert.Len(t, s.Project().Sprites, 3)

	// What left is forgotten; a new palette means planning all again.
	s.Done(3)
	s.Done(1)
	require.NoError(t, s.Take(Request{Revision: 9, Open: 1, Order: []int{2, 1}, Common: &project.Project{Name: "Quay"}}))
	assert.Equal(t, []int{1, 2}, s.Waiting())
	assert.Error(t, s.Take(Request{Revision: 10, Order: []int{3}}))
}

func contour(points ...shape.Point) shape.Contour {
	var c shape.Contour
	for _, p := range points {
		c = append(c, shape.Vertex{Point: p})
	}
	return c
}

// A red square of 3 × 3 mm with a white cell of 1 mm on its middle, on a backer.
func planned() Planned {
	box := func(x0, y0, x1, y1 shape.Um) outline.Part {
		return outline.Part{
			Outline: shape.Outline{Outer: contour(shape.Point{X: x0, Y: y0}, shape.Point{X: x1, Y: y0}, shape.Point{X: x1, Y: y1}, shape.Point{X: x0, Y: y1})},
			Bounds:  shape.Rect{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}},
		}
	}
	backer := box(0, 0, 5000, 5000)
	backer.On, backer.Tree = -1, -1
	red := box(1000, 1000, 4000, 4000)
	red.Index, red.On, red.Tree = 1, 0, 0
	white := box(2000, 2000, 3000, 3000)
	white.Index, white.On, white.Tree = 2, 1, 1
	sprite := drawing("buoy", "rrrrwrrrr", 3)
	sprite.Cell = 1000
	sprite.Stack.Float, sprite.Stack.FloatBy = 2, 1000
	runs := func(r ...stack.Run) []stack.Run { return r }
	return Planned{
		Sprite:  sprite,
		Palette: []project.Colour{{Key: 'w'}, {Key: 'r'}, {Key: 'x'}},
		Stocks:  []project.Stock{{ID: "red-card", Thickness: 300}, {ID: "white-card", Thickness: 300}, {ID: "board", Thickness: 2000}},
		Patches: 2,
		Forest: stack.Forest{W: 3, H: 3, Heights: 2, Parts: []stack.Part{
			{Colour: 1, Height: 1, On: -1, Shows: runs(stack.Run{Y: 0, X0: 0, X1: 3}, stack.Run{Y: 1, X0: 0, X1: 1}, stack.Run{Y: 1, X0: 2, X1: 3}, stack.Run{Y: 2, X0: 0, X1: 3})},
			{Colour: 2, Height: 2, On: 0, Shows: runs(stack.Run{Y: 1, X0: 1, X1: 2})},
		}},
		Layout: outline.Layout{
			Cell: 1000, Cols: 3, Rows: 3, Grid: shape.Point{X: 1000, Y: 1000}, Size: shape.Point{X: 5000, Y: 5000}, Heights: 3,
			Layers: []outline.Layer{
				{Number: 1, Height: 1, Stock: 2, Parts: []outline.Part{backer}},
				{Number: 2, Height: 2, Stock: 0, Parts: []outline.Part{red}},
				{Number: 3, Height: 3, Stock: 1, Parts: []outline.Part{white}},
			},
		},
	}
}

func TestSummarise(t *testing.T) {
	s := Summarise(planned())
	assert.Equal(t, 3, s.Parts)
	assert.Equal(t, 3, s.Heights)
	assert.Equal(t, 2, s.Patches)
	assert.Equal(t, 2, s.Tweezers, "3 mm and 1 mm")
	assert.Equal(t, 45+2*90, s.Seconds)
	assert.EqualValues(t, 100+2000+1000+300+100+300, s.Top, "tape, board, foam, card, tape, card")
	assert.Equal(t, []Colour{
		{'w', "white-card", []int{3}, 1}, {'r', "red-card", []int{2}, 1}, {0, "board", []int{1}, 1},
	}, s.Colours)
}

func TestColoursOfOneStockCountForEachThatShows(t *testing.T) {
	p := planned()
	p.Sprite.Frames[0].Cells = []byte("xrrrwrrrr") // x is cut from the red card too
	s := Summarise(p)
	assert.Equal(t, []Colour{
		{'w', "white-card", []int{3}, 1}, {'r', "red-card", []int{2}, 1}, {'x', "red-card", []int{2}, 1}, {0, "board", []int{1}, 1},
	}, s.Colours)
}

func TestFindingsOf(t *testing.T) {
	l := planned().Layout
	all := []inspect.Finding{
		{Code: inspect.PartTiny, Severity: inspect.Look, Text: "tiny", Count: 2, Places: []inspect.Place{
			{Sprite: "buoy", Layer: 3, At: shape.Point{X: 2000, Y: 3000}},
			{Sprite: "crab", Layer: 1, At: shape.Point{X: 9000, Y: 9000}},
		}, Remedies: []inspect.Remedy{{Command: inspect.SetCell, Args: map[string]any{"sprite": "buoy", "mm": 3.5}, Text: "Make the cells 3.5 mm.", Sure: true}}},
		{Code: inspect.PartTiny, Text: "elsewhere", Places: []inspect.Place{{Sprite: "crab", Layer: 1}}},
		{Code: inspect.StocksAlike, Text: "alike"},
		{Code: inspect.SpriteEmpty, Text: "empty", Places: []inspect.Place{{Sprite: "buoy"}}},
	}
	got := FindingsOf(all, "buoy", l)
	require.Len(t, got, 3)
	assert.Equal(t, []Place{{1, 1}}, got[0].Places, "the white cell's upper left corner")
	assert.Equal(t, 2, got[0].Count)
	assert.JSONEq(t, `{"sprite":"buoy","mm":3.5}`, string(got[0].Remedies[0].Args))
	assert.Equal(t, "alike", got[1].Text)
	assert.Empty(t, got[2].Places)
}
