package engine

import (
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

// PlanFirst is one sprite of p after the first step of the search: what can be
// shown at once while Plan looks for fewer parts; with the same cache, unless it
// is nil, Plan goes on from there. Its findings are unknown, and so are its
// outlines where there is no backer: see outline.Rough.
//
// Errors: a *project.InputError where nothing is drawn; an error of the stack's
// rules as Plan gives it.
func PlanFirst(p *project.Project, index int, cache *Cache) (Sprite, error) {
	s := &p.Sprites[index]
	if s.IsEmpty() {
		return Sprite{}, p.CanCut()
	}
	d, err := newDrawing(p, s)
	if err != nil {
		return Sprite{}, err
	}
	begun := &stack.Begun{}
	forest, err := d.first(s, p.Settings, begun)
	if err != nil {
		return Sprite{}, d.explain(err)
	}
	cache.begins(begun)
	layout, stocks, err := d.outline(p, s, forest, outline.Rough)
	if err != nil {
		return Sprite{}, err
	}
	built := s.Stack.AsBuilt(nil, p.Stocks)
	return Sprite{Built: built, Index: index, Forest: forest, Layout: layout, Stocks: stocks, PartsByPatch: d.byPatch()}, nil
}
