package project_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

func TestGap(t *testing.T) {
	usual := project.DefaultStack()
	lifted := usual
	lifted.Float = 3
	flat := project.Stack{}
	for _, c := range []struct {
		s      project.Stack
		height int
		gap    shape.Um
		floats bool
	}{
		{usual, 1, 3000, true}, {usual, 2, 100, false}, {usual, 9, 100, false},
		{lifted, 1, 3000, true}, {lifted, 2, 100, false}, {lifted, 3, 1000, true}, {lifted, 4, 100, false},
		{flat, 1, 100, false}, {flat, 2, 100, false},
	} {
		assert.Equal(t, c.gap, c.s.Gap(c.height), "%+v, height %d", c.s, c.height)
		assert.Equal(t, c.floats, c.s.Floats(c.height), "%+v, height %d", c.s, c.height)
	}
}

// What is usual isn't written, so that a drawing's file says only what its
// maker chose; all else comes back.
func TestFloatInTheFile(t *testing.T) {
	p, err := read(gull)
	require.NoError(t, err)
	assert.Equal(t, project.UsualFoam, p.Sprites[0].Stack.Foam)
	assert.Equal(t, project.UsualFloat, p.Sprites[0].Stack.FloatBy)
	assert.Zero(t, p.Sprites[0].Stack.Float)
	assert.Zero(t, p.Settings.Cover)
	p.Sprites[0].Stack.Foam, p.Sprites[0].Stack.Float, p.Sprites[0].Stack.FloatBy = 0, 4, 1500
	p.Settings.Cover = 10 * shape.Mm
	text := write(t, p)
	for _, line := range []string{`"foam_mm": 0`, `"float": 4`, `"float_mm": 1.5`, `"cover_mm": 10`} {
		assert.Contains(t, text, line)
	}
	back, err := read(text)
	require.NoError(t, err)
	assert.Equal(t, p, back)
}

func TestFloatRefusals(t *testing.T) {
	for _, c := range []struct{ field, says string }{
		{`"foam_mm": -1`, "foam_mm is -1, but must be 0.2 to 30 mm"},
		{`"foam_mm": 31`, "foam_mm is 31, but must be 0.2 to 30 mm"},
		{`"float": 1`, "float is 1, but height 1 stands on what foam_mm says: give 0 for none, or a height from 2"},
		{`"float": 257`, "float is 257, but must be 0 to 256"},
		{`"float": -2`, "float is -2, but must be 0 to 256"},
		{`"float": 2, "float_mm": 0`, "float_mm is 0, but must be 0.2 to 30 mm"},
	} {
		_, err := read(strings.Replace(gull, `"extra_heights": 3`, `"extra_heights": 3, `+c.field, 1))
		assert.EqualError(t, err, `sprite 1 ("gull"), stack: `+c.says)
	}
	for text, want := range map[string]string{
		"0.4": "settings: pins_mm is 0.4, but must be 0.5 to 3 mm", "3.001": "settings: pins_mm is 3.001, but must be 0.5 to 3 mm", "0": "", "0.5": "",
	} {
		_, err := read(strings.Replace(gull, `"effort": 3`, `"effort": 3, "pins_mm": `+text, 1))
		if want == "" {
			assert.NoError(t, err)
		} else {
			assert.EqualError(t, err, want)
		}
	}
	_, err := read(strings.Replace(gull, `"effort": 3`, `"effort": 3, "cover_mm": 1001`, 1))
	assert.EqualError(t, err, "settings: cover_mm is 1001, but must be 0 to 1000 mm")
}
