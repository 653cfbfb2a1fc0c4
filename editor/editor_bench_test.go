package editor

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// An edit's own share of a frame: pointer points in, cells and history changed,
// the page's panels and the worker's request made. The target is 4 ms in a browser.
func BenchmarkStroke(b *testing.B) {
	for _, n := range []int{32, 64, 256} {
		b.Run(fmt.Sprintf("%dx%d", n, n), func(b *testing.B) {
			e := canvasOf(b, n)
			r := rand.New(rand.NewPCG(1, 1))
			points := make([]float64, 40)
			for b.Loop() {
				for i := range points {
					points[i] = r.Float64() * float64(n)
				}
				if err := e.Begin(points); err != nil {
					b.Fatal(err)
				}
				e.End()
				_ = e.Panels()
				_ = e.PlanRequest()
			}
		})
	}
}

func BenchmarkFigure(b *testing.B) {
	for _, n := range []int{32, 256} {
		b.Run(fmt.Sprintf("%dx%d", n, n), func(b *testing.B) {
			e := canvasOf(b, n)
			e.session.Tool, e.session.Body = OvalTool, "filled"
			if err := e.Begin([]float64{0, 0}); err != nil {
				b.Fatal(err)
			}
			i := 0
			for b.Loop() {
				e.Extend([]float64{float64(n - i%3), float64(n)})
				i++
			}
		})
	}
}

func BenchmarkState(b *testing.B) {
	for _, n := range []int{32, 256} {
		b.Run(fmt.Sprintf("%dx%d", n, n), func(b *testing.B) {
			e := canvasOf(b, n)
			for b.Loop() {
				_ = e.State()
			}
		})
	}
}
