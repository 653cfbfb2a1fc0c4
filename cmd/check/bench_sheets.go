package main

import (
	"fmt"
	"os"
	"runtime"
	"time"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// How long a thousand parts may take.
const (
	mostToNest  = 2 * time.Second // to a first answer
	mostToRoute = time.Second
)

// benchSheets lays a thousand parts on sheets and puts their cuts in order: the
// demo in twelve copies, on all processors.
func benchSheets(log func(string, ...any)) outcome {
	t := &tally{log: log}
	file, err := os.Open(goldenProject)
	if err != nil {
		return single(err, "")
	}
	defer file.Close()
	p, err := project.Read(file)
	if err != nil {
		return single(err, "")
	}
	for i := range p.Sprites {
		p.Sprites[i].Copies = 12
	}
	o := engine.Options{Workers: runtime.GOMAXPROCS(0)}
	plan, err := engine.Plan(p, o)
	if err != nil {
		return single(err, "")
	}
	var search *engine.SheetSearch
	var sheets *engine.Sheets
	nest := measure(func() { search, err = engine.StartSheets(p, plan, o) })
	if err != nil {
		return single(err, "")
	}
	route := measure(func() { sheets, _, err = search.Best(o) })
	if err != nil {
		return single(err, "")
	}
	parts := fmt.Sprintf("%d parts on %d sheets: ", len(sheets.Parts), len(sheets.List))
	t.within(parts+"first answer", nest, mostToNest)
	t.within(parts+"order of cuts", route, mostToRoute)
	return t.outcome
}
