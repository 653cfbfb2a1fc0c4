package project_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
)

// lagoon is a drawing of four blues and a lamp: a and b touch, c and d touch.
func lagoon(copies int) *project.Project {
	p := &project.Project{Settings: project.DefaultSettings()}
	for i, c := range []project.RGB{{R: 40, G: 90, B: 160}, {R: 50, G: 100, B: 170}, {R: 44, G: 95, B: 166}, {R: 240, G: 200, B: 50}} {
		card := project.CardFor(c)
		p.Stocks = append(p.Stocks, card)
		p.Palette = append(p.Palette, project.Colour{Key: 'a' + byte(i), RGB: c, Stock: card.ID})
	}
	s := project.NewSprite("lagoon", 6, 3)
	s.Copies = copies
	copy(s.Frames[0].Cells, "aaabbb"+"......"+"cccddd")
	p.Sprites = append(p.Sprites, s)
	return p
}

func shelfOf(colours ...project.RGB) (list []project.Shelf) {
	for _, c := range colours {
		list = append(list, project.Shelf{Stock: project.CardFor(c)})
	}
	return list
}

func TestMatchToShelf(t *testing.T) {
	blue, green, yellow, red := project.RGB{R: 45, G: 95, B: 165}, project.RGB{R: 30, G: 160, B: 90}, project.RGB{R: 250, G: 210, B: 60}, project.RGB{R: 200, G: 30, B: 30}
	shelf := shelfOf(blue, green, yellow, red)
	p := lagoon(2)
	m, err := p.MatchToShelf(shelf, project.MatchRules{})
	require.NoError(t, err)
	assert.True(t, m.Proven)
	require.Len(t, m.Colours, 4)
	to := map[byte]string{}
	for _, c := range m.Colours {
		to[c.Key] = c.To
		assert.EqualValues(t, 6, c.Cells, "two copies of three cells")
	}
	assert.NotEqual(t, to['a'], to['b'], "they touch")
	assert.Equal(t, project.CardFor(blue).ID, to['c'])
	assert.Equal(t, project.CardFor(yellow).ID, to['d'])
	assert.Equal(t, "card-285aa0", p.Palette[0].Stock, "nothing is changed yet")

	merged, err := p.MatchToShelf(shelf, project.MatchRules{Touching: project.TouchingMayMerge})
	require.NoError(t, err)
	assert.Equal(t, 2, merged.Stocks)
	assert.Less(t, merged.Mean, m.Mean)
	sum := 0.0
	for _, c := range merged.Colours {
		sum += c.Difference
	}
	assert.InDelta(t, sum/4, merged.Mean, 1e-6)

	each, err := p.MatchToShelf(shelf, project.MatchRules{Sharing: colour.OneEach})
	require.NoError(t, err)
	assert.Equal(t, 4, each.Stocks)
	_, err = p.MatchToShelf(shelf[:3], project.MatchRules{Sharing: colour.OneEach})
	assert.EqualError(t, err, "the drawing's colours can't be matched to the shelf: 4 colours must each get a stock of their own, but the shelf has 3: add stocks, or let touching colours become the same")

	p.UseMatch(m, shelf)
	require.NoError(t, p.Validate())
	assert.Equal(t, to['a'], p.Palette[0].Stock)
	assert.Equal(t, project.RGB{R: 40, G: 90, B: 160}, p.Palette[0].RGB, "the drawing stays as it was drawn")
	assert.Len(t, p.Stocks, m.Stocks, "what is not used goes")
}

// Stocks that look alike don't keep touching colours apart.
func TestMatchToShelfLooks(t *testing.T) {
	blue := project.RGB{R: 45, G: 95, B: 165}
	shelf := shelfOf(blue, blue, project.RGB{R: 60, G: 60, B: 60})
	shelf[1].Stock.ID = "thicker"
	p := lagoon(1)
	m, err := p.MatchToShelf(shelf, project.MatchRules{})
	require.NoError(t, err)
	for _, c := range m.Colours {
		assert.NotEqual(t, "thicker", c.To)
	}
}

func TestMatchToShelfEmpty(t *testing.T) {
	p := &project.Project{Settings: project.DefaultSettings()}
	m, err := p.MatchToShelf(shelfOf(project.RGB{}), project.MatchRules{})
	require.NoError(t, err)
	assert.Empty(t, m.Colours)
	_, err = lagoon(1).MatchToShelf(nil, project.MatchRules{})
	assert.EqualError(t, err, "the drawing's colours can't be matched to the shelf: the shelf is empty: put stocks on it first")
}
