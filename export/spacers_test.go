package export

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// onSpacers lifts heights of p's sprites by spacers of its thickest stock.
func onSpacers(r *rand.Rand, p *project.Project) {
	last := &p.Stocks[len(p.Stocks)-1]
	last.Thickness = []shape.Um{300, 1400, 2000}[r.IntN(3)]
	for i := range p.Sprites {
		s := &p.Sprites[i]
		s.Cell = 6000 + shape.Um(r.IntN(9000))
		s.Stack.FoamStock = []string{"", last.ID}[r.IntN(2)]
		s.Stack.Float, s.Stack.FloatStock = 2, []string{"", last.ID}[r.IntN(2)]
	}
}

// Spacers are parts of the job like any other: nested, cut, numbered and listed,
// all read back; they lift the parts above to the micrometre.
func TestSpacersAreCut(t *testing.T) {
	rounds := uint64(24)
	if testing.Short() {
		rounds = 6
	}
	spacers, onPart := 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 31))
		p := randomSheeted(seed)
		p.Settings.SheetW, p.Settings.SheetH = 300*shape.Mm, 300*shape.Mm
		onSpacers(r, p)
		require.NoError(t, p.Validate())
		j := sheeted(t, p)
		bundle := unpainted(t, j)
		require.NoError(t, readback.Check(bundle, p), "seed %d", seed)
		_, data := contents(t, bundle)
		var m struct {
			Totals struct{ Spacers int }
			Parts  []struct {
				Number, Lifts, Stock string
				Copy                 int
				RestsOn              string  `json:"rests_on"`
				Under                float64 `json:"underside_mm"`
			}
		}
		require.NoError(t, json.Unmarshal([]byte(data["job.json"]), &m))
		listed, numbers := 0, map[string]bool{}
		under := map[string]float64{} // by number, the first copy's
		for _, q := range m.Parts {
			if q.Copy == 1 {
				require.False(t, numbers[q.Number], q.Number)
				numbers[q.Number] = true
				under[q.Number] = q.Under
			}
		}
		for _, q := range m.Parts {
			if q.Lifts == "" {
				continue
			}
			listed++
			if q.RestsOn != "" {
				onPart++
			}
			stock, _ := p.StockByID(q.Stock)
			lifted := q.Under + float64(stock.Thickness+project.Tape)/1000
			require.InDelta(t, under[q.Lifts], lifted, 1e-9, q.Number)
		}
		require.Equal(t, m.Totals.Spacers, listed)
		spacers += listed
		for i, s := range j.Plan.Sprites {
			for h, lift := range j.Plan.Assembly[i].Lifts {
				wanted := p.Sprites[s.Index].Stack.SpacerStock(h+1) != ""
				refused := slices.Contains(j.Plan.Assembly[i].Refused, h+1)
				require.Equal(t, wanted && !refused, len(spacersUnder(s, h+1)) > 0, "seed %d", seed)
				if refused {
					require.Equal(t, project.Tape, s.Built.Gap(h+1))
					require.True(t, slices.ContainsFunc(j.Plan.Findings, func(f inspect.Finding) bool { return f.Code == inspect.FloatTooSmall }))
				}
				_ = lift
			}
			// The height of the whole is the same truth everywhere.
			require.Equal(t, j.Plan.Assembly[i].Total, s.Layout.Top(s.Built, s.Stocks))
		}
		// Planned again from the bundle's project all is the same, numbers too.
		again, err := project.Read(strings.NewReader(data["project.json"]))
		require.NoError(t, err)
		require.Equal(t, bundle, unpainted(t, sheeted(t, again)), "seed %d", seed)
	}
	assert.Greater(t, spacers, 5*int(rounds))
	assert.Greater(t, onPart, int(rounds))
}

func spacersUnder(s engine.Sprite, height int) (out []outline.Part) {
	for _, l := range s.Spacers {
		if l.Height == height {
			out = append(out, l.Parts...)
		}
	}
	return out
}

// A spacer that would show, or that hangs in the air, lets no bundle out.
func TestSpacersAreReadBack(t *testing.T) {
	p := drawn(8000, grid("aaaaaaaa", "aaaaaaaa", "aabbbbaa", "aabbbbaa", "aabbbbaa", "aaaaaaaa", "aaaaaaaa"))
	p.Sprites[0].Stack.Float, p.Sprites[0].Stack.FloatStock = 2, p.Stocks[2].ID
	p.Stocks[2].Thickness = 1400
	good := sheeted(t, p)
	require.NoError(t, readback.Check(unpainted(t, good), p))
	require.Len(t, good.Plan.Sprites[0].Spacers, 1)
	for what, by := range map[string]shape.Point{"shows": {X: 200}, "is beside": {Y: -20000}} {
		j := copied(sheeted(t, p))
		s := &j.Plan.Sprites[0]
		s.Spacers = slices.Clone(s.Spacers)
		s.Spacers[0].Parts = slices.Clone(s.Spacers[0].Parts)
		part := &s.Spacers[0].Parts[0]
		part.Outline = part.Outline.Moved(by)
		j.Plan.Sheets = nil // what is cut is another matter
		err := readback.Check(unpainted(t, j), p)
		if assert.Error(t, err, what) {
			assert.Contains(t, err.Error(), "spacer", what)
		}
	}
}
