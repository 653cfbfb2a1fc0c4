package main

import (
	"fmt"
	"io"
	"sync"
	"time"

	"sheetsprite/engine"
)

// timings adds up how long each stage took. Stages of sprites that are planned
// at once add up to more than the time that passed.
type timings struct {
	clock clock
	mu    sync.Mutex
	names []string
	spent map[string]time.Duration
	start time.Time
}

func newTimings(c clock) *timings {
	return &timings{clock: c, spent: map[string]time.Duration{}, start: c.Now()}
}

// enter starts the watch for a stage; what it returns stops it.
func (t *timings) enter(name string) (leave func()) {
	start := t.clock.Now()
	return func() {
		took := t.clock.Now().Sub(start)
		t.mu.Lock()
		defer t.mu.Unlock()
		if _, known := t.spent[name]; !known {
			t.names = append(t.names, name)
		}
		t.spent[name] += took
	}
}

// print writes a line for each stage, in the order of the pipeline.
func (t *timings) print(w io.Writer) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, name := range []string{"read", string(engine.StageStack), string(engine.StageOutline),
		string(engine.StageInspect),
		string(engine.StageCut), string(engine.StageNest), string(engine.StageRoute), string(engine.StageAssemble), "export"} {
		if took, ok := t.spent[name]; ok {
			fmt.Fprintf(w, "%-8s %8.3f s\n", name, took.Seconds())
		}
	}
	fmt.Fprintf(w, "%-8s %8.3f s\n", "total", t.clock.Now().Sub(t.start).Seconds())
}
