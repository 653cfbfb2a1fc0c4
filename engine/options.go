package engine

import (
	"errors"
	"sync"
)

// Options say how a plan is made, never what comes out. The zero value plans
// one sprite after the other and reports nothing.
type Options struct {
	Workers int    // sprites planned at once; 0: one
	Cache   *Cache // keeps sprites that don't change; nil: none

	// Stop is asked now and then while sprites are searched, by several at once
	// where there are several workers; once it says true, Plan gives ErrStopped.
	// It may take its time: others go on meanwhile. Nil: never.
	Stop func() bool

	// Done is called after each sprite, one call at a time: n of m are planned.
	Done func(n, m int)
	// Enter is called where a stage begins and what it returns where it ends,
	// by several sprites at once where there are several workers.
	Enter func(Stage) (leave func())
}

// ErrStopped is what Plan gives where Options.Stop said so.
var ErrStopped = errors.New("the planning was stopped")

func (o Options) stopped() bool { return o.Stop != nil && o.Stop() }

// Stage is a step of the plan that can be timed.
type Stage string

// The stages, in their order.
const (
	StageStack    Stage = "stack"
	StageOutline  Stage = "outline"
	StageInspect  Stage = "inspect"
	StageCut      Stage = "cut"
	StageNest     Stage = "nest"
	StageRoute    Stage = "route"
	StageAssemble Stage = "assemble"
)

func (o Options) enter(s Stage) func() {
	if o.Enter == nil {
		return func() {}
	}
	return o.Enter(s)
}

func (o Options) done(n, m int) {
	if o.Done != nil {
		o.Done(n, m)
	}
}

// counter counts what several goroutines finish.
type counter struct {
	mu sync.Mutex
	n  int
}

// add counts one more and tells, one at a time.
func (c *counter) add(tell func(n int)) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.n++
	tell(c.n)
}

// each does job 0 to n−1, several at a time where there are several workers.
func (o Options) each(n int, job func(i int)) {
	next := make(chan int)
	var working sync.WaitGroup
	for range min(max(1, o.Workers), n) {
		working.Go(func() {
			for i := range next {
				job(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	working.Wait()
}
