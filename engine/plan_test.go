package engine

import (
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// drawn is a project of pictures in which k and K are cut from one card.
func drawn(pictures ...string) *project.Project {
	p := &project.Project{Name: "test", Settings: project.DefaultSettings()}
	for i, rgb := range []project.RGB{{}, {R: 200}, {R: 255, G: 255, B: 255}} {
		card := project.CardFor(rgb)
		card.ID = "krw"[i : i+1]
		p.Stocks = append(p.Stocks, card)
	}
	for _, key := range []byte("kKrw") {
		p.Palette = append(p.Palette, project.Colour{Key: key, Name: string(key), Stock: strings.ToLower(string(key))})
	}
	for i, picture := range pictures {
		rows := strings.Fields(picture)
		s := project.NewSprite("sprite "+string(rune('a'+i)), len(rows[0]), len(rows))
		copy(s.Frames[0].Cells, strings.Join(rows, ""))
		p.Sprites = append(p.Sprites, s)
	}
	return p
}

func TestPalettesOfOneStockAreOneColour(t *testing.T) {
	p := drawn("kKr")
	plan, err := Plan(p, Options{})
	require.NoError(t, err)
	s := plan.Sprites[0]
	assert.Equal(t, 2, s.Parts())
	assert.Equal(t, 2, s.PartsByPatch)
	assert.Len(t, s.Stocks, 2)
}

func TestEmptySpritesAreSkipped(t *testing.T) {
	plan, err := Plan(drawn("...", "k", "."), Options{})
	require.NoError(t, err)
	require.Len(t, plan.Sprites, 1)
	assert.Equal(t, 1, plan.Sprites[0].Index)

	var bad *project.InputError
	_, err = Plan(drawn("...", "."), Options{})
	assert.ErrorAs(t, err, &bad)
}

func TestErrorsNameTheSprite(t *testing.T) {
	p := drawn("k", "kr", "kr")
	for i := range p.Sprites {
		p.Sprites[i].Stack.Under = []project.Under{{Under: 'k', Over: 'r'}, {Under: 'r', Over: 'k'}}
	}
	_, err := Plan(p, Options{Workers: 3})
	var bad *project.InputError
	require.ErrorAs(t, err, &bad)
	assert.Contains(t, err.Error(), `sprite 2 ("sprite b")`, "the first one, whichever is planned first")
}

func TestSideBySideLiesOnABacker(t *testing.T) {
	p := drawn("kr")
	p.Sprites[0].Stack.Style = project.SideBySide
	plan, err := Plan(p, Options{})
	require.NoError(t, err)
	assert.Equal(t, 3, plan.Sprites[0].Parts())
	assert.Equal(t, 2, plan.Sprites[0].PartsByPatch, "never with a backer")
	assert.Equal(t, -1, plan.Sprites[0].Layout.Layers[0].Parts[0].Tree)
}

// The backer's stock: named, else the first board, else the lowest part's.
func TestBackerStock(t *testing.T) {
	p := drawn("kkk krk kkk")
	p.Sprites[0].Stack.Highest = "r"
	p.Settings.Border = 2000
	backer := func() string {
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		s := plan.Sprites[0]
		return s.Stocks[s.Layout.Layers[0].Stock].ID
	}
	assert.Equal(t, "k", backer())
	for _, s := range project.Starter() {
		p.Stocks = append(p.Stocks, s)
	}
	assert.Equal(t, "mount-board", backer())
	p.Settings.Backer = "felt"
	assert.Equal(t, "felt", backer())
}

func TestPinsReachTheForest(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*project.Stack)
		lowest stack.Colour // of the first part
	}{
		{"lowest", func(s *project.Stack) { s.Lowest = "r" }, 2},
		{"highest", func(s *project.Stack) { s.Highest = "r" }, 1},
		{"spare", func(s *project.Stack) { s.Spare = "k" }, 2},
		{"outline on top", func(s *project.Stack) { s.OutlineOnTop = "k" }, 2},
		{"under", func(s *project.Stack) { s.Under = []project.Under{{Under: 'r', Over: 'k'}} }, 2},
		{"by hand", func(s *project.Stack) { s.Style, s.Order = project.ByHand, "rk" }, 2},
		{"by hand, the other way", func(s *project.Stack) { s.Style, s.Order = project.ByHand, "kr" }, 1},
		{"outline and spare", func(s *project.Stack) { s.OutlineOnTop, s.Spare = "k", "r" }, 2},
	} {
		p := drawn("kkk krk kkk")
		c.change(&p.Sprites[0].Stack)
		plan, err := Plan(p, Options{})
		require.NoError(t, err, c.name)
		assert.Equal(t, c.lowest, plan.Sprites[0].Forest.Parts[0].Colour, c.name)
	}
}

// Under a floating height hidden edges are drawn back twice as far; how thick
// the foam is changes no shape.
func TestFloatReachesTheOutlines(t *testing.T) {
	for _, c := range []struct {
		float int
		by, b shape.Um
	}{{0, 1000, 300}, {2, 1000, 600}, {2, 3000, 600}, {3, 1000, 300}} {
		p := drawn("kr")
		p.Sprites[0].Stack.Highest = "r"
		p.Sprites[0].Stack.Float, p.Sprites[0].Stack.FloatBy = c.float, c.by
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		lowest := plan.Sprites[0].Layout.Layers[0].Parts[0]
		// Of two cells of 3 mm the covered one loses a strip on three sides.
		b := shape.Um2(c.b)
		assert.Equal(t, 2*3000*3000-3000*b-2*b*(3000-b), lowest.Outline.Area(), "%v", c)
	}
}

// randomProject has sprites of few cells, some of them equal but for the name.
func randomProject(rng *rand.Rand) *project.Project {
	p := drawn("k", "k", "k", "k", "k")
	for i := range p.Sprites {
		name := p.Sprites[i].Name
		p.Sprites[i] = project.NewSprite(name, 1+rng.IntN(7), 1+rng.IntN(7))
		for j := range p.Sprites[i].Frames[0].Cells {
			p.Sprites[i].Frames[0].Cells[j] = ".kKrw"[rng.IntN(5)]
		}
	}
	p.Sprites[4].Frames, p.Sprites[4].W, p.Sprites[4].H = p.Sprites[0].Frames, p.Sprites[0].W, p.Sprites[0].H
	p.Sprites[0].Frames[0].Cells[0] = 'k'
	p.Settings.Border = shape.Um(rng.IntN(2) * 1500)
	return p
}

// Neither workers nor a cache change the plan.
func TestOptionsChangeNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	cache := &Cache{}
	for range 25 {
		p := randomProject(rng)
		want, err := Plan(p, Options{})
		require.NoError(t, err)
		got, err := Plan(p, Options{Workers: 4})
		require.NoError(t, err)
		require.Equal(t, want, got)
		for range 2 {
			got, err = Plan(p, Options{Workers: 2, Cache: cache})
			require.NoError(t, err)
			require.Equal(t, want, got)
		}
		// An edit of one sprite, and of what all depend on.
		p.Sprites[1].Frames[0].Cells[0] = 'r'
		p.Sprites[2].Name = "renamed"
		p.Settings.Corners = project.Apart
		want, err = Plan(p, Options{})
		require.NoError(t, err)
		got, err = Plan(p, Options{Cache: cache})
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}

func TestCachePlansOnlyWhatChanged(t *testing.T) {
	p := drawn("kr", "kw", "rw")
	cache := &Cache{}
	stacked := 0
	o := Options{Cache: cache, Enter: func(s Stage) func() {
		if s == StageStack {
			stacked++
		}
		return func() {}
	}}
	for _, want := range []int{3, 0, 1} {
		stacked = 0
		_, err := Plan(p, o)
		require.NoError(t, err)
		assert.Equal(t, want, stacked)
		if want == 0 { // the next round has an edit
			p.Sprites[1].Frames[0].Cells[0] = 'w'
		}
	}
}

func TestDoneCounts(t *testing.T) {
	var mu sync.Mutex
	var seen []int
	_, err := Plan(drawn("k", ".", "r", "w"), Options{Workers: 3, Done: func(n, m int) {
		mu.Lock()
		defer mu.Unlock()
		assert.Equal(t, 3, m)
		seen = append(seen, n)
	}})
	require.NoError(t, err)
	assert.Equal(t, []int{1, 2, 3}, seen)
}

// With a cache in which the first step was kept the plan is the same.
func TestAPlanGoesOnFromTheFirstStep(t *testing.T) {
	p := drawn("kKrw rrwk kwkr", "rkw wwr")
	var cache Cache
	_, err := PlanFirst(p, 0, &cache)
	require.NoError(t, err)
	require.NotNil(t, cache.begunSearch())
	want, err := Plan(p, Options{})
	require.NoError(t, err)
	got, err := Plan(p, Options{Cache: &cache})
	require.NoError(t, err)
	for i := range want.Sprites {
		assert.Equal(t, want.Sprites[i].Forest, got.Sprites[i].Forest)
		assert.Equal(t, want.Sprites[i].Layout, got.Sprites[i].Layout)
	}
}
