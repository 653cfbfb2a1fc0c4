package export

import (
	"bytes"
	"fmt"
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
	b, err := Build(planned(t, harbour(t)))
	require.NoError(t, err)
	assert.True(t, bytes.Equal(a, b))
}
