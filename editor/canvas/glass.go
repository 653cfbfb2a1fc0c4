//go:build js

// Package canvas draws what lies on the page's one canvas: the grid that the
// maker draws on, and the relief beside it. It shows what it is told and
// decides nothing; whoever changes something wakes a frame.
package canvas

import (
	"errors"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"sheetsprite/editor/viewport"
)

// Theme is the colours of the page's roles, so that canvas and page look as if
// from one hand.
type Theme struct {
	Bench, Card, Edge, Ink, Signal, Chosen Paint
	Sheet                                  Paint // what is drawn on, and the relief's board
}

// Glass is the whole canvas. Lengths are CSS pixels but where a comment says
// device pixels. Its fields may be changed between frames.
type Glass struct {
	Theme  Theme
	Ratio  float64 // device pixels in a CSS pixel
	View   viewport.View
	Grid   Grid
	Relief Relief
	Wake   func() // has another frame drawn

	width, height int // device pixels
	mesh          mesh
	frames        int
	last          scenery // what the screen shows
}

// scenery is what the whole screen follows from: as long as it stays, a frame
// draws only what changed on it, since filling pixels is what a frame costs.
type scenery struct {
	theme         Theme
	ratio         float64
	view          viewport.View
	relief        viewport.Area
	gridW, gridH  int
	width, height int
}

func (g *Glass) scenery() scenery {
	return scenery{g.Theme, g.Ratio, g.View, g.Relief.Area, g.Grid.W, g.Grid.H, g.width, g.height}
}

// NewGlass is an empty glass.
func NewGlass() *Glass { return &Glass{Ratio: 1} }

// Run starts Ebiten and returns only when it ends.
func (g *Glass) Run() error {
	ebiten.SetVsyncEnabled(true)
	ebiten.SetTPS(ebiten.SyncWithFPS)
	ebiten.SetScreenClearedEveryFrame(false)
	err := ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{InitUnfocused: true, DisableHiDPI: true})
	if err == nil {
		err = errors.New("the canvas stopped")
	}
	return err
}

// Frames is how many frames were drawn so far.
func (g *Glass) Frames() int { return g.frames }

// Update does nothing: whatever changes is changed from outside.
func (g *Glass) Update() error { return nil }

// Layout takes the canvas as it is: the page gives its size in device pixels.
func (g *Glass) Layout(width, height int) (int, int) {
	g.width, g.height = max(width, 1), max(height, 1)
	return g.width, g.height
}

// Draw draws a frame: what changed since the last one.
func (g *Glass) Draw(screen *ebiten.Image) {
	g.frames++
	now := g.scenery()
	whole := now != g.last
	g.last = now
	dirty := g.dirty()
	if whole {
		dirty = screen.Bounds()
	}
	if dirty = dirty.Intersect(screen.Bounds()); !dirty.Empty() {
		part := screen.SubImage(dirty).(*ebiten.Image)
		part.Fill(g.Theme.Bench.color())
		g.drawGrid(part)
	}
	if whole || g.Relief.waits() || dirty.Overlaps(g.reliefBounds()) {
		g.drawRelief(screen)
		if g.Relief.waits() {
			g.Wake() // there is more to paint
		}
	}
}

// px is a CSS length on the device, whole.
func (g *Glass) px(css float64) float32 { return float32(math.Round(css * g.Ratio)) }

// hair is a thin line's width on the device.
func (g *Glass) hair() float32 { return float32(math.Max(1, math.Round(g.Ratio))) }
