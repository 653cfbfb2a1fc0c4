package main

import (
	"io"
	"runtime"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// job is one call of cut or inspect.
type job struct {
	settings *settings
	clock    clock
	out, err io.Writer
	told     io.Writer // where the match to the shelf is told
	times    *timings
	thrift   thrift
}

// plan reads the inputs, applies the options and plans.
func (j *job) plan(inputs []string) (*project.Project, *engine.Planned, error) {
	if err := j.settings.check(); err != nil {
		return nil, nil, err
	}
	bench, err := j.settings.readBench()
	if err != nil {
		return nil, nil, err
	}
	colours, err := j.settings.reduceTo()
	if err != nil {
		return nil, nil, err
	}
	steps := progress{out: j.err, clock: j.clock}
	defer steps.end()
	steps.begin("reading", 1)
	leave := j.times.enter("read")
	p, err := load(inputs, colours)
	if err == nil {
		err = j.settings.apply(p)
	}
	if err == nil && bench != nil {
		err = j.settings.matched(p, bench, j.told)
	}
	if err == nil && bench != nil {
		err = p.PlanOn(bench, j.settings.machine.text)
	}
	if err == nil && bench != nil {
		err = p.Validate()
	}
	leave()
	if err != nil {
		return nil, nil, err
	}
	if err := p.CanCut(); err != nil {
		return nil, nil, err
	}
	steps.begin("planning sprites", drawn(p))
	o := engine.Options{
		Workers: runtime.GOMAXPROCS(0),
		Done:    func(n, _ int) { steps.done(n) },
		Enter: func(s engine.Stage) func() {
			j.thrift.look()
			return j.times.enter(string(s))
		},
	}
	plan, err := engine.Plan(p, o)
	if err != nil {
		return nil, nil, err
	}
	steps.begin("laying out sheets", 1)
	if err := engine.PlanSheets(p, plan, o); err != nil {
		return nil, nil, err
	}
	engine.PlanAssembly(p, plan, o)
	return p, plan, nil
}

// drawn is how many sprites have a cell.
func drawn(p *project.Project) int {
	n := 0
	for i := range p.Sprites {
		if !p.Sprites[i].IsEmpty() && p.CopiesOf(i) > 0 {
			n++
		}
	}
	return n
}
