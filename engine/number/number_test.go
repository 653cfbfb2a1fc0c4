package number

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/outline"
)

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 7: "H", 8: "J", 12: "N", 13: "P", 23: "Z", 24: "AA", 25: "AB", 47: "AZ", 48: "BA", 24 + 24*24: "AAA"} {
		assert.Equal(t, want, Letters(i), i)
	}
	seen := map[string]bool{}
	for i := range 2000 {
		text := Letters(i)
		assert.NotRegexp(t, "[IO]", text)
		assert.False(t, seen[text], text)
		seen[text] = true
	}
}

func TestPartsAreCountedHeightByHeight(t *testing.T) {
	part := func(index int) outline.Part { return outline.Part{Index: index} }
	l := &outline.Layout{Heights: 2, Layers: []outline.Layer{
		{Height: 1, Parts: []outline.Part{part(1)}},
		{Height: 1, Parts: []outline.Part{part(0)}},
		{Height: 2, Parts: []outline.Part{part(3), part(2)}},
		{Height: 2, Parts: []outline.Part{part(4)}},
	}}
	assert.Equal(t, []string{"B1-1", "B1-2", "B2-1", "B2-2", "B2-3"}, Parts(1, l))
}
