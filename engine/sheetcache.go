package engine

import (
	"reflect"
	"slices"
	"sync"

	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// sheetCache keeps what was found lately for stocks and sheets, whole questions
// with their answers: after an edit only what it touches is nested and put in order
// anew, and all comes out as if nothing had been kept.
type sheetCache struct {
	mu     sync.Mutex
	nests  []keptNest // last used last
	routes []keptRoute
}

// How much is kept: the stocks and sheets of some projects like the demo.
const (
	mostNests  = 32
	mostRoutes = 96
)

// keptNest is what Run found for a stock.
type keptNest struct {
	job    nest.Job
	effort int
	found  nest.Nesting
	done   bool // going on is no use
}

// keptRoute is a sheet's order of cuts.
type keptRoute struct {
	of      routeOf
	route   route.Route
	seconds int
}

// routeOf is all that a sheet's order of cuts depends on.
type routeOf struct {
	lines   route.Sheet
	machine project.Machine
	use     project.Use
	stock   project.Stock
	kerf    shape.Um
	inner   shape.Rect
	size    nest.Size
}

// recall moves what is asked for to the list's end; nil where it isn't there.
func recall[T any](list []T, is func(*T) bool) *T {
	for i := len(list) - 1; i >= 0; i-- {
		if is(&list[i]) {
			found := list[i]
			copy(list[i:], list[i+1:])
			list[len(list)-1] = found
			return &found
		}
	}
	return nil
}

// add adds to a list of at most so many, the last used ones.
func add[T any](list []T, most int, v T) []T {
	if len(list) >= most {
		list = slices.Delete(list, 0, len(list)-most+1)
	}
	return append(list, v)
}

// nested is what was found for a job with an effort; nil where nobody asked lately.
func (c *Cache) nested(job nest.Job, effort int) *keptNest {
	if c == nil {
		return nil
	}
	c.sheets.mu.Lock()
	defer c.sheets.mu.Unlock()
	return recall(c.sheets.nests, func(k *keptNest) bool {
		return k.effort == effort && len(k.job.Pieces) == len(job.Pieces) && reflect.DeepEqual(k.job, job)
	})
}

func (c *Cache) keepNest(k keptNest) {
	if c == nil {
		return
	}
	c.sheets.mu.Lock()
	defer c.sheets.mu.Unlock()
	c.sheets.nests = add(c.sheets.nests, mostNests, k)
}

// routed is the order of a sheet's cuts; nil where nobody asked lately.
func (c *Cache) routed(of *routeOf) *keptRoute {
	if c == nil {
		return nil
	}
	c.sheets.mu.Lock()
	defer c.sheets.mu.Unlock()
	return recall(c.sheets.routes, func(k *keptRoute) bool {
		return len(k.of.lines.Loops) == len(of.lines.Loops) && reflect.DeepEqual(&k.of, of)
	})
}

func (c *Cache) keepRoute(k keptRoute) {
	if c == nil {
		return
	}
	c.sheets.mu.Lock()
	defer c.sheets.mu.Unlock()
	c.sheets.routes = add(c.sheets.routes, mostRoutes, k)
}
