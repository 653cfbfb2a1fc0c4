// Package engine turns a project into finished shapes, step by step in one
// direction: each sprite by itself from drawing to forest to outlines, then all
// together, and inspect looks over every step.
package engine

import (
	"fmt"
	"slices"
	"sync"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

// Planned is what the steps made of a project.
type Planned struct {
	Sprites  []Sprite          // those with a coloured cell, in the project's order
	Findings []inspect.Finding // gravest first
	Sheets   *Sheets           // nil before PlanSheets
	Assembly []assemble.Plan   // of one copy of each of Sprites; nil before PlanAssembly
	letters  []string          // of all of the project's sprites
	given    int               // how many letters are given by now
}

// Sprite is what the steps made of one drawing.
type Sprite struct {
	Index        int // into Project.Sprites
	Forest       *stack.Forest
	Layout       *outline.Layout
	Stocks       []project.Stock // what Layer.Stock points into
	PartsByPatch int             // parts if each patch were one, without a backer
	Letters      string          // what the sprite is called by
	Numbers      []string        // of the parts, by Index
	Built        project.Stack   // how its stack is made: tape where a height can't float, what spacers lift
	Spacers      []outline.Layer // pieces under the heights that stand on spacers, see assemble.Plan.SpacerLayers
	Lifted       []int           // Index of the part above each of them, in their order
	Pins         []assemble.Pin  // two, or none where there is no place or nobody wants them; Layout has their holes
	measured     inspect.Measured
	bare         *outline.Layout // without pins
	layered      int             // how many of Stocks the layout has
	builtLike    string          // what assembly was made for
	assembly     *assemble.Plan
	remembers    project.Numbers
}

// Parts is how many parts one copy has, the backer included.
func (s Sprite) Parts() int {
	n := 0
	for _, l := range s.Layout.Layers {
		n += len(l.Parts)
	}
	return n
}

// Plan takes p through the steps that need one sprite only, and PlanSheets
// through those that need all of them; what is only looked at needs no sheets.
// The same project always gives the same plan, whatever the options.
//
// Errors: a *project.InputError where nothing is drawn or a sprite's rules
// contradict one another; it names the sprite. ErrStopped where o.Stop said so.
func Plan(p *project.Project, o Options) (*Planned, error) {
	if err := p.CanCut(); err != nil {
		return nil, err
	}
	var drawn []int
	for i := range p.Sprites {
		if !p.Sprites[i].IsEmpty() && p.CopiesOf(i) > 0 {
			drawn = append(drawn, i)
		}
	}
	sprites, err := eachSprite(p, drawn, o)
	if err != nil {
		return nil, err
	}
	defer o.enter(StageInspect)()
	plan := &Planned{Sprites: sprites}
	plan.name(p) // findings call parts by their numbers
	measured := make([]inspect.Measured, len(sprites))
	for i := range sprites {
		measured[i] = sprites[i].measured
		measured[i].Numbers = sprites[i].Numbers
	}
	plan.Findings = inspect.Project(p, measured)
	return plan, nil
}

// planSprite takes one drawing through the steps that need no other.
func planSprite(p *project.Project, index int, o Options) (Sprite, error) {
	s := &p.Sprites[index]
	d, err := newDrawing(p, s)
	if err != nil {
		return Sprite{}, err
	}
	leave := o.enter(StageStack)
	forest, err := d.stack(s, p.Settings, o.Stop, o.Cache.begunSearch())
	leave()
	if err != nil {
		return Sprite{}, d.explain(err)
	}
	if o.stopped() {
		return Sprite{}, ErrStopped
	}
	leave = o.enter(StageOutline)
	layout, stocks, err := d.outline(p, s, forest, outline.Build)
	leave()
	if err != nil {
		return Sprite{}, err
	}
	if o.stopped() {
		return Sprite{}, ErrStopped
	}
	defer o.enter(StageInspect)()
	return Sprite{
		Index: index, Forest: forest, Layout: layout, bare: layout, Stocks: stocks, PartsByPatch: d.byPatch(), layered: len(stocks),
		measured: inspect.Measure(inspect.Sprite{Source: s, Forest: forest, Layout: layout, Stocks: stocks}),
	}, nil
}

// eachSprite plans the sprites, several at a time, and merges by index.
func eachSprite(p *project.Project, drawn []int, o Options) ([]Sprite, error) {
	sprites, errs := make([]Sprite, len(drawn)), make([]error, len(drawn))
	next := make(chan int)
	var working sync.WaitGroup
	var done counter
	for range min(max(1, o.Workers), len(drawn)) {
		working.Go(func() {
			for i := range next {
				sprites[i], errs[i] = o.Cache.sprite(p, drawn[i], o)
				done.add(func(n int) { o.done(n, len(drawn)) })
			}
		})
	}
	for i := range drawn {
		next <- i
	}
	close(next)
	working.Wait()
	if slices.Contains(errs, ErrStopped) {
		o.Cache.keepAll()
		return nil, ErrStopped
	}
	o.Cache.forget()
	for i, err := range errs {
		if err != nil {
			name := p.Sprites[drawn[i]].Name
			return nil, &project.InputError{Where: fmt.Sprintf("sprite %d (%q)", drawn[i]+1, name), What: err.Error()}
		}
	}
	return sprites, nil
}
