package stack_test

import (
	"fmt"
	"testing"

	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

func BenchmarkFirst32x32(b *testing.B)  { bench(b, stacktest.Sprite32(1, 8), -1) }
func BenchmarkFewest32x32(b *testing.B) { bench(b, stacktest.Sprite32(1, 8), 0) }
func BenchmarkNoise64x64(b *testing.B)  { bench(b, stacktest.Noise(64, 64, 24, 1), 0) }

func BenchmarkFirstTiled(b *testing.B) {
	for _, side := range []int{64, 128, 256} {
		b.Run(fmt.Sprintf("%dx%d", side, side), func(b *testing.B) { bench(b, stacktest.Tile(side, 16), -1) })
	}
}

func bench(b *testing.B, d stack.Drawing, rounds int) {
	r := stack.Rules{Joins: d.Colours(), SmallCells: 1, ExtraHeights: 3, Rounds: rounds}
	for b.Loop() {
		must(stack.Fewest(d, r))
	}
}
