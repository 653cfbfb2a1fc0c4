package export

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// Whatever is drawn and set, the finished files show it.
func TestBundlesShowTheDrawing(t *testing.T) {
	seeds := 4
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		for _, cell := range []shape.Um{3000, 500 + shape.Um(seed)*1367} {
			for _, v := range variants {
				t.Run(fmt.Sprintf("%d/%d/%s", seed, cell, v.name), func(t *testing.T) {
					p := drawn(cell, samples(seed)...)
					v.change(p)
					assert.NoError(t, readback.Check(unpainted(t, planned(t, p)), p))
				})
			}
		}
	}
}

func TestBundleIsTheSameEachTime(t *testing.T) {
	p := harbour(t)
	a, err := Build(planned(t, p))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "harbour.zip")
	size, err := BundleFile(path, planned(t, harbour(t)))
	require.NoError(t, err)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(a, b))
	assert.EqualValues(t, len(b), size)
}

// What doesn't show the drawing never takes a file's place.
func TestABundleThatDoesntShowTheDrawingReplacesNothing(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.zip")
	require.NoError(t, WriteFile(path, say("old")))
	j := planned(t, drawn(3000, samples(1)...))
	part := &j.Plan.Sprites[0].Layout.Layers[0].Parts[0]
	part.Outline = part.Outline.Moved(shape.Point{X: 1})
	_, err := BundleFile(path, j)
	assert.ErrorContains(t, err, "the cutting files would not show the drawing, so none were written: ")
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "old", string(got))
	assert.Equal(t, []string{"out.zip"}, listed(t, folder))
}
