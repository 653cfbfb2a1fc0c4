package editor

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// named plans the project as the maker does: what its parts are called, and what
// the editor then hears.
func seen(t *testing.T, e *Editor) (map[string][]string, *plan.Named) {
	t.Helper()
	text, err := e.ProjectText()
	require.NoError(t, err)
	p, err := project.Read(bytes.NewReader(text))
	require.NoError(t, err)
	planned, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	numbers := map[string][]string{}
	for _, s := range planned.Sprites {
		numbers[p.Sprites[s.Index].Name] = s.Numbers
	}
	data, err := plan.NamedOf(planned.Remembered(p)).Encode()
	require.NoError(t, err)
	n, err := plan.DecodeNamed(data)
	require.NoError(t, err)
	return numbers, n
}

func TestNumbersAreKeptWithoutAStep(t *testing.T) {
	e := quay(t)
	see := func() map[string][]string {
		numbers, n := seen(t, e)
		e.NumbersArrived(n)
		return numbers
	}
	revision, steps := e.Revision(), e.past.done
	e.MarkSaved(e.Kept())
	first := see()
	assert.Equal(t, revision, e.Revision(), "nothing has to be planned again")
	assert.Equal(t, steps, e.past.done, "no step of undo")
	assert.Equal(t, false, e.State().Saved, "but it has to be kept")
	e.MarkSaved(e.Kept())
	assert.True(t, e.State().Saved)
	assert.Equal(t, first, see())
	assert.True(t, e.State().Saved, "the same once more is nothing new")
	require.NotEmpty(t, e.doc.sprite().Numbers.Parts)

	// A part more gets a new number; undo brings back all as they were, redo too.
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	second := see()
	assert.NotEqual(t, first["Buoy"], second["Buoy"])
	assert.Equal(t, first["Anchor"], second["Anchor"])
	run(t, e, "undo", "")
	assert.Equal(t, first, see())
	run(t, e, "redo", "")
	assert.Equal(t, second, see())
	run(t, e, "undo", "")

	// Whatever its place or name, a sprite keeps its letters; a copy has its own.
	run(t, e, "moveSprite", `{"name":"Anchor","to":0}`)
	run(t, e, "renameSprite", `{"name":"Anchor","to":"Hook"}`)
	run(t, e, "copySprite", `{"name":"Buoy"}`)
	third := see()
	assert.Equal(t, first["Anchor"], third["Hook"])
	assert.Equal(t, first["Buoy"], third["Buoy"])
	letters := map[string]bool{}
	for i := range e.doc.Project.Sprites {
		l := e.doc.Project.Sprites[i].Numbers.Letters
		assert.False(t, letters[l], l)
		letters[l] = true
	}
	assert.True(t, letters["C"])
}

// What was made before an edit may arrive after what was made of it: no number
// then stands for two things.
func TestLateNumbersNameNothingOtherwise(t *testing.T) {
	e := quay(t)
	_, early := seen(t, e)
	run(t, e, "draw", `{"points":[0.5,0.5,3.5,0.5]}`)
	_, now := seen(t, e)
	e.NumbersArrived(now)
	kept := e.doc.sprite().Numbers
	e.NumbersArrived(early)
	assert.Equal(t, kept, e.doc.sprite().Numbers)
	numbers, again := seen(t, e)
	assert.Equal(t, now, again)
	assert.NotEmpty(t, numbers)
}
