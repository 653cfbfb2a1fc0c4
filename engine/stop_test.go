package engine_test

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// However far the planning had come, stopping it loses nothing: what is planned
// afterwards is what would have been planned at once.
func TestStoppedPlansLeaveNoTrace(t *testing.T) {
	data, err := os.ReadFile("../testdata/harbour/harbour.json")
	require.NoError(t, err)
	p, err := project.Read(bytes.NewReader(data))
	require.NoError(t, err)
	p.Sprites = p.Sprites[:2]
	want, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	for _, after := range []int{0, 1, 10, 60} {
		var cache engine.Cache
		asked := 0
		_, err := engine.Plan(p, engine.Options{Cache: &cache, Stop: func() bool { asked++; return asked > after }})
		require.ErrorIs(t, err, engine.ErrStopped, "after %d", after)
		got, err := engine.Plan(p, engine.Options{Cache: &cache, Stop: func() bool { return false }})
		require.NoError(t, err)
		require.Len(t, got.Sprites, len(want.Sprites))
		for i := range want.Sprites {
			assert.Equal(t, want.Sprites[i].Forest, got.Sprites[i].Forest, "after %d, sprite %d", after, i)
		}
	}
}
