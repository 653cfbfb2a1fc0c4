package export

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// Whatever is drawn, parts that fit no sheet are cut in pieces that are listed with
// their part, and all is read back.
func TestPiecesAreCut(t *testing.T) {
	rounds := uint64(9)
	if testing.Short() {
		rounds = 3
	}
	split := 0
	for seed := range rounds {
		p := randomSheeted(seed)
		set := &p.Settings
		set.SheetW, set.SheetH = 40*shape.Mm, 46*shape.Mm
		set.Margin, set.Layout, set.Large = 2*shape.Mm, "", project.LargeSplit
		set.Pins = []shape.Um{0, 500}[seed%2]
		if seed%3 > 0 { // slants and arcs that end on lines of the grid
			set.Border, set.Edge = 5000, []project.Edge{project.Chamfered, project.Round}[seed%3-1]
		}
		for i := range p.Sprites {
			p.Sprites[i].Cell = 5000
		}
		j := sheeted(t, p)
		bundle := unpainted(t, j)
		require.NoError(t, readback.Check(bundle, p), "seed %d", seed)
		_, data := contents(t, bundle)
		var m struct {
			Parts []struct {
				Number, Sheet string
				Area          float64 `json:"area_mm2"`
				Pieces        []struct {
					Number, Sheet string
					Area          float64 `json:"area_mm2"`
				}
			}
			Totals struct{ Parts, Spacers int }
		}
		require.NoError(t, json.Unmarshal([]byte(data["job.json"]), &m))
		assert.Len(t, m.Parts, m.Totals.Parts+m.Totals.Spacers)
		for _, part := range m.Parts {
			sum := 0.0
			for _, q := range part.Pieces {
				sum += q.Area
				assert.Equal(t, part.Sheet == "", q.Sheet == "", q.Number) // there may be too few sheets
			}
			if len(part.Pieces) > 0 {
				split++
				assert.InDelta(t, part.Area, sum, 1e-4, part.Number)
				assert.Equal(t, part.Sheet, part.Pieces[0].Sheet)
			}
		}
	}
	assert.GreaterOrEqual(t, split, int(rounds)/2)
}

// ferry is a hull larger than its sheets, with a deck over the seam and a mast.
func ferry() *project.Project {
	p := drawn(3000, grid(
		"aaaaaaaaaaaaaaaaaaaa",
		"aaabbbbbbbbbbbbbbaaa",
		"aaabbbbbbbbbbbbbbaaa",
		"aaabbbbbccbbbbbbbaaa",
		"aaaaaaaaaaaaaaaaaaaa",
	))
	p.Settings.SheetW, p.Settings.SheetH = 50*shape.Mm, 50*shape.Mm
	p.Settings.Large = project.LargeSplit
	return p
}

// Pieces that are missing, named otherwise, cut elsewhere, or not the part's let no
// bundle out.
func TestPiecesAreReadBack(t *testing.T) {
	p := ferry()
	good := sheeted(t, p)
	require.NoError(t, readback.Check(unpainted(t, good), p))
	first := slices.IndexFunc(good.Plan.Sheets.Parts, func(q engine.Part) bool { return q.Piece.Of != "" })
	require.GreaterOrEqual(t, first, 0)
	for what, c := range map[string]struct {
		change func(s *engine.Sheets, part *engine.Part)
		says   string
	}{
		"one twice": {func(s *engine.Sheets, q *engine.Part) { q.Piece.Within = s.Parts[first+1].Piece.Within }, "there is no piece"},
		"another name": {func(s *engine.Sheets, _ *engine.Part) {
			second := *s.Parts[first+1].Piece
			second.Number += "0"
			s.Parts[first+1].Piece = &second
		}, "is called"},
		"a wider box":   {func(_ *engine.Sheets, q *engine.Part) { q.Piece.Within.Max.X += 3000 }, "lies over another"},
		"off the grid":  {func(_ *engine.Sheets, q *engine.Part) { q.Piece.Within.Max.X -= 100 }, "no line of the grid"},
		"a smaller box": {func(_ *engine.Sheets, q *engine.Part) { q.Piece.Within.Max.X -= 3000 }, "don't sum"},
		"nowhere":       {func(_ *engine.Sheets, q *engine.Part) { q.Piece.Within.Min.X = q.Piece.Within.Max.X }, "empty"},
		"another place": {func(_ *engine.Sheets, q *engine.Part) { q.Move.X++ }, ""},
		"turned":        {func(_ *engine.Sheets, q *engine.Part) { q.Turn = (q.Turn + 2) & 3 }, ""},
	} {
		plan, s := *good.Plan, *good.Plan.Sheets
		s.Parts = slices.Clone(s.Parts)
		piece := *s.Parts[first].Piece
		s.Parts[first].Piece = &piece
		c.change(&s, &s.Parts[first])
		plan.Sheets = &s
		err := readback.Check(unpainted(t, Job{p, &plan}), p)
		if assert.Error(t, err, what) {
			assert.Contains(t, err.Error(), c.says, what)
		}
	}
	// A project that wants its parts whole takes no pieces.
	whole := ferry()
	whole.Settings.Large = project.LargeWhole
	assert.ErrorContains(t, readback.Check(unpainted(t, good), whole), "doesn't ask for")
}
