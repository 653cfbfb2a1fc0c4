package engine

import (
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// laidWith plans a project and its sheets, on and on with one cache or afresh.
func laidWith(t testing.TB, p *project.Project, c *Cache) (*Planned, *SheetSearch) {
	o := Options{Cache: c}
	plan, err := Plan(p, o)
	require.NoError(t, err)
	search, err := StartSheets(p, plan, o)
	require.NoError(t, err)
	search.Run(o)
	plan.Sheets, plan.Findings, err = search.Best(o)
	require.NoError(t, err)
	return plan, search
}

// moveOne moves a part to another free place; false where there is none.
func moveOne(p *project.Project, plan *Planned, r *rand.Rand) bool {
	s := plan.Sheets
	for range 20 {
		if len(s.Parts) == 0 {
			return false
		}
		places := s.Placements(p, plan)
		if len(places) == 0 {
			return false
		}
		i := r.IntN(len(places))
		want := places[i]
		want.X, want.Y = want.X+shape.Um(r.IntN(40000)), want.Y+shape.Um(r.IntN(40000))
		want.Held = project.Moved
		if got, ok := s.Snap(p, plan, want); ok {
			got.Held = project.Moved
			places[i] = got
			p.Places = places
			return true
		}
	}
	return false
}

// Whatever is edited, one edit after the other, sheets that are planned with what is
// known from before are those that are planned afresh, and so are those that a search
// goes on to find.
func TestSheetsWithACacheAreTheSame(t *testing.T) {
	rounds := uint64(6)
	if testing.Short() {
		rounds = 1
	}
	moved, better := 0, 0
	for seed := range rounds {
		p := sheetedProject(seed)
		p.Settings.Effort = int(seed % 3)
		var c Cache
		r := rand.New(rand.NewPCG(seed, 77))
		for step := range 7 {
			q := *p
			with, searched := laidWith(t, &q, &c)
			plain, search := laidWith(t, p, nil)
			require.Equal(t, plain.Sheets, with.Sheets, "seed %d, step %d", seed, step)
			require.Equal(t, plain.Findings, with.Findings, "seed %d, step %d", seed, step)
			require.Equal(t, search.Done(), searched.Done())
			if step == 3 {
				for range 3 {
					b := search.Improve(2, 1)
					require.Equal(t, b, searched.Improve(2, 1))
					if b {
						better++
					}
				}
				a, _, err := search.Best(Options{})
				require.NoError(t, err)
				b, _, err := searched.Best(Options{Cache: &c})
				require.NoError(t, err)
				require.Equal(t, a, b)
			}
			switch step {
			case 0, 1, 4:
				if moveOne(p, plain, r) {
					moved++
				}
			case 2: // as it was but for a cell
				cells := p.Sprites[0].Frames[0].Cells
				cells[r.IntN(len(cells))] = 'k'
			case 5:
				p.Sprites[0].Copies++
			}
		}
	}
	assert.Positive(t, moved)
	t.Log(moved, better)
}

// BenchmarkMoveAPart moves one part of the harbour by hand.
func BenchmarkMoveAPart(b *testing.B) {
	f, err := os.Open("../testdata/harbour/harbour.json")
	require.NoError(b, err)
	defer f.Close()
	p, err := project.Read(f)
	require.NoError(b, err)
	for name, c := range map[string]*Cache{"afresh": nil, "known": {}} {
		b.Run(name, func(b *testing.B) {
			q := *p
			r := rand.New(rand.NewPCG(1, 1))
			plan, _ := laidWith(b, &q, c)
			for b.Loop() {
				b.StopTimer()
				require.True(b, moveOne(&q, plan, r))
				b.StartTimer()
				plan, _ = laidWith(b, &q, c)
			}
		})
	}
}

// BenchmarkFirstAnswer1000 lays the harbour in twelve copies.
func BenchmarkFirstAnswer1000(b *testing.B) {
	f, err := os.Open("../testdata/harbour/harbour.json")
	require.NoError(b, err)
	defer f.Close()
	p, err := project.Read(f)
	require.NoError(b, err)
	for i := range p.Sprites {
		p.Sprites[i].Copies = 12
	}
	o := Options{Workers: 2}
	plan, err := Plan(p, o)
	require.NoError(b, err)
	for b.Loop() {
		_, err := StartSheets(p, plan, o)
		require.NoError(b, err)
	}
}
