package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTogether(t *testing.T) {
	var s Store
	require.NoError(t, s.Take(Request{Revision: 1, Open: 2, Order: []int{1, 2, 3, 4}, Common: first().Common,
		Sprites: []Sprite{{1, drawing("gull", "aa", 2)}, {2, drawing("crab", "aa", 2)}, {3, drawing("buoy", "aa", 2)}, {4, drawing("boot", "aa", 2)}}}))
	all := func(int) bool { return true }
	p, at := s.Together(2, all)
	assert.Equal(t, 0, at, "the others still wait")
	assert.Len(t, p.Sprites, 1)
	s.Done(1)
	s.Done(3)
	s.Done(4)
	p, at = s.Together(2, func(id int) bool { return id != 4 })
	assert.Equal(t, 1, at)
	var names []string
	for _, sp := range p.Sprites {
		names = append(names, sp.Name)
	}
	assert.Equal(t, []string{"gull", "crab", "buoy"}, names)
	_, at = s.Together(9, all)
	assert.Equal(t, -1, at)
}
