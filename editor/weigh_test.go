package editor

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// What a command would cost is worked out on a copy: it is what the command
// makes, and nothing changes here.
func TestWeighingRunsNoCommand(t *testing.T) {
	e := quay(t)
	run(t, e, "copySprite", "")
	e.PlanRequest()
	was, revision := e.State(), e.Revision()
	args := json.RawMessage(`{"under":"A","over":"C"}`)
	r, err := e.Weighing("under", args)
	require.NoError(t, err)
	assert.Equal(t, was, e.State())
	assert.Equal(t, revision, e.Revision())
	assert.Nil(t, e.PlanRequest(), "the worker has nothing to hear of the project")

	require.Len(t, r.Sprites, 1)
	assert.Equal(t, []project.Under{{Under: 'A', Over: 'C'}}, r.Sprites[0].Sprite.Stack.Under)
	run(t, e, "under", string(args))
	open := e.Project().Sprites[1]
	assert.Equal(t, open.Stack, r.Sprites[0].Sprite.Stack)
	assert.Equal(t, open.Frames[0].Cells, r.Sprites[0].Sprite.Frames[0].Cells)
	assert.Equal(t, e.Project().Palette, r.Common.Palette)

	run(t, e, "under", `{"under":"C","over":"B"}`)
	_, err = e.Weighing("under", json.RawMessage(`{"under":"B","over":"A"}`))
	require.Error(t, err)
	assert.Equal(t, refused(t, e, "under", `{"under":"B","over":"A"}`), err.Error())
}
