package engine

import (
	"fmt"
	"maps"
	"slices"
	"sync"

	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

// Cache keeps the planned sprites of the last project that was planned with it,
// so that an edit of one sprite plans only that one anew, and likewise what was found
// for stocks and sheets lately. The zero value is
// empty and ready; a Cache may be shared by plans at the same time.
type Cache struct {
	mu     sync.Mutex
	kept   map[string]Sprite
	wanted map[string]Sprite // of the plan in hand
	begun  *stack.Begun      // by PlanFirst; nil: none
	sheets sheetCache
}

// begunSearch is what the search may go on from; nil: nothing.
func (c *Cache) begunSearch() *stack.Begun {
	if c == nil {
		return nil
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.begun
}

// begins notes the first step of a search.
func (c *Cache) begins(b *stack.Begun) {
	if c == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.begun = b
}

// sprite plans a sprite, or takes it from the cache. A nil Cache keeps nothing.
func (c *Cache) sprite(p *project.Project, index int, o Options) (Sprite, error) {
	if c == nil {
		s, err := planSprite(p, index, o)
		if err == nil {
			s.build(p)
		}
		return s, err
	}
	key := cacheKey(p, index)
	c.mu.Lock()
	s, known := c.kept[key]
	c.mu.Unlock()
	if !known {
		var err error
		if s, err = planSprite(p, index, o); err != nil {
			return s, err
		}
	}
	// The same drawing may stand elsewhere and bear another name by now.
	s.Index = index
	s.build(p)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.wanted == nil {
		c.wanted = map[string]Sprite{}
	}
	c.wanted[key] = s
	return s, nil
}

// forget drops what the last plan didn't want.
func (c *Cache) forget() {
	if c == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.kept, c.wanted = c.wanted, nil
}

// keepAll ends a plan that was stopped: all that was ever planned may be wanted.
func (c *Cache) keepAll() {
	if c == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.kept == nil {
		c.kept = map[string]Sprite{}
	}
	maps.Copy(c.kept, c.wanted)
	c.wanted = nil
}

// cacheKey holds all that planSprite's result depends on.
func cacheKey(p *project.Project, index int) string {
	s := &p.Sprites[index]
	stack := s.Stack
	stack.Extra = nil
	stack.Under = slices.Clone(stack.Under)
	for i := range stack.Under {
		stack.Under[i].Extra = nil
	}
	set := p.Settings
	kerf := "as the stock says"
	if set.Kerf != nil {
		kerf = project.FormatMm(*set.Kerf)
	}
	set.Kerf, set.Extra = nil, nil
	set.Gap, set.Hold, set.Effort, set.Cover = 0, "", 0, 0 // of later steps
	set.Pins = 0                                           // in the outlines' hidden parts, and soon found
	set.Layout, set.Group, set.Paper, set.Units = "", "", "", ""
	stack.Foam, stack.FloatBy, stack.FoamStock, stack.FloatStock = 0, 0, "", "" // no shape depends on what lifts it
	stack.Whole, stack.Jigs, set.JigClear = nil, nil, 0                         // nor on how they lie on sheets
	palette := make([]string, len(p.Palette))
	for i, c := range p.Palette {
		palette[i] = fmt.Sprintf("%c %q", c.Key, c.Stock)
	}
	stocks := make([]project.Stock, len(p.Stocks))
	for i, st := range p.Stocks {
		st.Extra = nil
		stocks[i] = st
	}
	return fmt.Sprintf("%d %d %q\n%v\n%v %v\n%q\n%v", s.W, s.Cell, s.Frames[0].Cells, stack, set, kerf, palette, stocks)
}
