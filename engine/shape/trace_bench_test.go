package shape

import (
	"math/rand/v2"
	"testing"
)

// tiled is a raster of side×side cells tiled from different 32×32 drawings of
// six colours, each grown from a few seeds with some noise on top.
func tiled(side int) []uint8 {
	out := make([]uint8, side*side)
	rng := rand.New(rand.NewPCG(1, 2))
	for ty := 0; ty < side; ty += 32 {
		for tx := 0; tx < side; tx += 32 {
			var seeds [26][3]int
			for i := range seeds {
				seeds[i] = [3]int{rng.IntN(32), rng.IntN(32), rng.IntN(6)}
			}
			for y := range 32 {
				for x := range 32 {
					best, label := 1<<30, 0
					for _, s := range seeds {
						if d := (s[0]-x)*(s[0]-x) + (s[1]-y)*(s[1]-y); d < best {
							best, label = d, s[2]
						}
					}
					if rng.IntN(19) == 0 {
						label = rng.IntN(6)
					}
					out[(ty+y)*side+tx+x] = uint8(label + 1)
				}
			}
		}
	}
	return out
}

func BenchmarkTraceLabels(b *testing.B) {
	for _, side := range []int{256, 512, 1024, 2048} {
		raster := tiled(side)
		b.Run(sizeName(side), func(b *testing.B) {
			var patches int
			for b.Loop() {
				t := TraceLabels(raster, side, side, BySides)
				patches = 0
				for _, r := range t.Rings {
					if r.Kind == OuterRing {
						patches++
					}
				}
			}
			b.ReportMetric(float64(patches), "patches")
		})
	}
}

func sizeName(side int) string {
	switch side {
	case 256:
		return "256x256"
	case 512:
		return "512x512"
	case 1024:
		return "1024x1024"
	}
	return "2048x2048"
}
