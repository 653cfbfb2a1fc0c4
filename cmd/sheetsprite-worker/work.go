//go:build js

package main

import (
	"syscall/js"

	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// worker does one thing at a time, and between two things lets the browser
// bring new messages: what they make stale is never begun.
type worker struct {
	store    plan.Store
	firsts   map[int]uint64 // revision of the last quick answer of each sprite
	planned  map[int]bool   // sprites with a final plan, some stale
	cache    engine.Cache
	knock    chan struct{} // something came
	breath   chan struct{} // the browser has had its turn
	setTimer js.Value
	onTimer  js.Func
}

func newWorker() *worker {
	w := &worker{firsts: map[int]uint64{}, planned: map[int]bool{}, knock: make(chan struct{}, 1), breath: make(chan struct{}, 1)}
	w.setTimer = js.Global().Get("setTimeout")
	w.onTimer = js.FuncOf(func(js.Value, []js.Value) any {
		w.breath <- struct{}{}
		return nil
	})
	return w
}

// hear takes a message; it must not block.
func (w *worker) hear(message js.Value) {
	switch message.Get("kind").String() {
	case "plan":
		r, err := plan.DecodeRequest(fromJS(message.Get("request")))
		if err == nil {
			err = w.store.Take(r)
		}
		if err != nil { // page and worker don't agree: begin anew
			post(map[string]any{"kind": "fell", "words": err.Error()})
			return
		}
	}
	select {
	case w.knock <- struct{}{}:
	default:
	}
}

// work goes on for as long as the page lives: first the quick plan of the open
// sprite, then final plans.
func (w *worker) work() {
	for {
		waiting := w.store.Waiting()
		switch {
		case len(waiting) > 0 && w.firsts[waiting[0]] != w.store.Revision():
			w.firsts[waiting[0]] = w.store.Revision()
			w.first(waiting[0])
		case len(waiting) > 0:
			w.final(waiting[0])
		default:
			<-w.knock
			continue
		}
		w.setTimer.Invoke(w.onTimer, 0)
		<-w.breath
	}
}

// first sends the plan of a sprite after the search's first step.
func (w *worker) first(id int) {
	one, ok := w.store.One(id)
	if !ok {
		return
	}
	s, err := engine.PlanFirst(&one, 0)
	if err != nil {
		return // the final plan says why
	}
	summary := summarise(one, s)
	summary.Revision, summary.Sprite = w.store.Revision(), id
	postPlan(summary)
}

// final sends the final plan of a sprite, and then again with its relief, whose
// shadows take a while. It is planned together with those
// that were planned before, so that what concerns several sprites is found.
func (w *worker) final(id int) {
	defer w.store.Done(id)
	w.planned[id] = true
	p, at := w.store.Together(id, func(other int) bool { return w.planned[other] })
	if at < 0 {
		return
	}
	summary := &plan.Summary{}
	var scene func() []byte
	planned, err := engine.Plan(&p, engine.Options{Cache: &w.cache})
	if err != nil { // its own fault, or another's: alone it will tell
		p, _ = w.store.One(id)
		at = 0
		planned, err = engine.Plan(&p, engine.Options{})
	}
	if err != nil {
		w.planned[id] = false
		summary.Problem = problem(p, err)
	} else if s, ok := spriteOf(planned, at); ok {
		summary = summarise(p, s)
		summary.Findings = plan.FindingsOf(planned.Findings, p.Sprites[at].Name, *s.Layout)
		scene = func() []byte { return sceneOf(p, s) }
	} else {
		w.planned[id] = false
		summary.Problem = nothingDrawn
	}
	summary.Revision, summary.Sprite, summary.Final = w.store.Revision(), id, true
	postPlan(summary)
	if scene != nil {
		summary.Scene = scene()
		postPlan(summary)
	}
}

func spriteOf(p *engine.Planned, index int) (engine.Sprite, bool) {
	for _, s := range p.Sprites {
		if s.Index == index {
			return s, true
		}
	}
	return engine.Sprite{}, false
}

const nothingDrawn = "Nothing is drawn here yet."

// problem says why a sprite can't be planned, without its name: it is the one
// in view.
func problem(p project.Project, err error) string {
	if p.Sprites[0].IsEmpty() {
		return nothingDrawn
	}
	return err.Error()
}

func postPlan(s *plan.Summary) {
	data, err := s.Encode()
	if err != nil {
		panic("the plan is no message: " + err.Error())
	}
	post(map[string]any{"kind": "plan", "summary": toJS(data)})
}

func post(message map[string]any) { js.Global().Call("postMessage", message) }

func toJS(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

func fromJS(v js.Value) []byte {
	data := make([]byte, v.Get("length").Int())
	js.CopyBytesToGo(data, v)
	return data
}
