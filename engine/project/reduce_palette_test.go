package project_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
)

func TestReduceColours(t *testing.T) {
	p := &project.Project{Settings: project.DefaultSettings()}
	for _, c := range []struct {
		key byte
		rgb project.RGB
	}{{'a', project.RGB{}}, {'b', project.RGB{R: 250}}, {'c', project.RGB{R: 251, G: 1}}, {'d', project.RGB{B: 200}}} {
		card := project.CardFor(c.rgb)
		p.Stocks = append(p.Stocks, card)
		p.Palette = append(p.Palette, project.Colour{Key: c.key, Name: string(c.key), RGB: c.rgb, Stock: card.ID})
	}
	s := project.NewSprite("gull", 6, 2)
	copy(s.Frames[0].Cells, "abbbbbbcadd.")
	s.Stack.Lowest, s.Stack.Highest = "b", "cd"
	s.Stack.Under = []project.Under{{Under: 'b', Over: 'c'}, {Under: 'c', Over: 'a'}}
	p.Sprites = []project.Sprite{s}

	require.NoError(t, p.ReduceColours(3))
	assert.Equal(t, "abbbbbbbadd.", string(p.Sprites[0].Frames[0].Cells))
	assert.Len(t, p.Palette, 3)
	assert.Equal(t, "b", p.Sprites[0].Stack.Lowest)
	assert.Equal(t, "d", p.Sprites[0].Stack.Highest, "pinned lowest wins")
	assert.Equal(t, []project.Under{{Under: 'b', Over: 'a'}}, p.Sprites[0].Stack.Under)
	assert.NoError(t, p.Validate())
}

func TestReduceColoursOutOfRange(t *testing.T) {
	var bad *project.InputError
	for _, n := range []int{-1, 0, project.MaxPalette + 1} {
		assert.ErrorAs(t, projecttest.Random(1).ReduceColours(n), &bad)
	}
}

func TestReduceColoursProperties(t *testing.T) {
	for seed := range uint64(40) {
		p := projecttest.Random(seed)
		n := 1 + int(seed%7)
		require.NoError(t, p.ReduceColours(n))
		require.NoError(t, p.Validate(), "seed %d", seed)
		var used []byte
		for i := range p.Sprites {
			used = append(used, p.Sprites[i].Keys()...)
		}
		slices.Sort(used)
		assert.LessOrEqual(t, len(slices.Compact(used)), n, "seed %d", seed)
		before := fmt.Sprint(p)
		require.NoError(t, p.ReduceColours(n))
		assert.Equal(t, before, fmt.Sprint(p), "twice is once")
	}
}
