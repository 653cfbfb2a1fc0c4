package export

import (
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
	"sheetsprite/export/readback"
)

var sizes = []struct {
	name string
	d    func() stack.Drawing
}{
	{"32x32-8", func() stack.Drawing { return stacktest.Sprite32(1, 8) }},
	{"128x128-16", func() stack.Drawing { return stacktest.Tile(128, 16) }},
	{"256x256-16", func() stack.Drawing { return stacktest.Tile(256, 16) }},
}

func BenchmarkBuild(b *testing.B) {
	for _, s := range sizes {
		b.Run(s.name, func(b *testing.B) {
			j := planned(b, drawn(3000, s.d()))
			for b.Loop() {
				_, err := Build(j)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkReadBack(b *testing.B) {
	for _, s := range sizes {
		b.Run(s.name, func(b *testing.B) {
			p := drawn(3000, s.d())
			data := unpainted(b, planned(b, p))
			for b.Loop() {
				require.NoError(b, readback.Check(data, p))
			}
		})
	}
}

func BenchmarkPicture(b *testing.B) {
	for _, s := range sizes {
		b.Run(s.name, func(b *testing.B) {
			sprite := planned(b, drawn(3000, s.d())).Plan.Sprites[0]
			for b.Loop() {
				_, err := encodePicture(sprite.Layout, project.DefaultStack(), sprite.Stocks)
				require.NoError(b, err)
			}
		})
	}
}
