//go:build js

package main

import (
	"sheetsprite/editor/plan"
	"sheetsprite/editor/relief"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// summarise is what the page shows of a planned sprite of p, but for its relief.
func summarise(p project.Project, s engine.Sprite) *plan.Summary {
	src := p.Sprites[s.Index]
	src.Stack = s.Built
	return plan.Summarise(plan.Planned{
		Sprite: src, Refused: s.Refused(), Palette: p.Palette, Stocks: s.Stocks,
		Forest: *s.Forest, Layout: *s.Layout, Patches: s.PartsByPatch,
	})
}

// sceneOf is the relief of a planned sprite; worth nothing once stop said true.
func sceneOf(p project.Project, s engine.Sprite, stop func() bool) []byte {
	scene := relief.Build(*s.Layout, *s.Forest, s.Built, s.Stocks)
	return relief.Encode(scene, relief.NewShade(scene, stop))
}
