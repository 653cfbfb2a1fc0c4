//go:build js

package main

import (
	"slices"
	"syscall/js"

	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// worker does one thing at a time. Now and then, within it too, the browser
// brings new messages: then what they make stale is dropped, or never begun.
type worker struct {
	store   plan.Store
	firsts  map[int]uint64 // revision of the last quick answer of each sprite
	planned map[int]bool   // sprites with a final plan, some stale
	relief  *unshaded      // still to be made; nil: none
	weigh   *weighing      // still to be answered; nil: none
	cache   engine.Cache
	knock   chan struct{} // something came
	turns   *turns
}

// unshaded is a final plan that the page has, but for its shapes and shadows.
type unshaded struct {
	project project.Project
	sprite  engine.Sprite
	summary *plan.Summary
}

// weighing is a project that might be: one sprite, of which only the figures are
// wanted.
type weighing struct {
	ask   js.Value // the page's name for it
	store plan.Store
}

func newWorker() *worker {
	return &worker{firsts: map[int]uint64{}, planned: map[int]bool{}, knock: make(chan struct{}, 1), turns: newTurns()}
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
	case "weigh": // the newest is wanted, no older one
		asked := &weighing{ask: message.Get("ask")}
		r, err := plan.DecodeRequest(fromJS(message.Get("request")))
		if err == nil {
			err = asked.store.Take(r)
		}
		if err != nil {
			post(map[string]any{"kind": "fell", "words": err.Error()})
			return
		}
		w.weigh = asked
	}
	select {
	case w.knock <- struct{}{}:
	default:
	}
}

// work goes on for as long as the page lives: first the quick plan of the open
// sprite, then reliefs and final plans.
func (w *worker) work() {
	for {
		waiting := w.store.Waiting()
		if w.relief != nil && slices.Contains(waiting, w.relief.summary.Sprite) {
			w.relief = nil // drawn on since
		}
		switch {
		case len(waiting) > 0 && w.firsts[waiting[0]] != w.store.Revision():
			w.firsts[waiting[0]] = w.store.Revision()
			w.first(waiting[0])
		case w.weigh != nil && len(waiting) == 0:
			w.figures()
		case w.relief != nil:
			w.shade()
		case len(waiting) > 0:
			w.final(waiting[0])
		default:
			<-w.knock
			continue
		}
		w.turns.give()
	}
}

// untilNews is for what takes long: it gives the browser its turn now and then
// and says true once that has brought a request.
func (w *worker) untilNews() func() bool {
	revision := w.store.Revision()
	return func() bool {
		w.turns.due()
		return w.store.Revision() != revision
	}
}

// figures answers what was only asked for, unless something newer comes.
func (w *worker) figures() {
	asked, revision := w.weigh, w.store.Revision()
	one, _ := asked.store.One(asked.store.Waiting()[0])
	summary := &plan.Summary{}
	planned, err := engine.Plan(&one, engine.Options{Stop: func() bool {
		w.turns.due()
		return w.weigh != asked || w.store.Revision() != revision
	}})
	if err == engine.ErrStopped {
		return // asked again later, or asked no more
	}
	if err != nil {
		summary.Problem = problem(one, err)
	} else if s, ok := spriteOf(planned, 0); ok {
		summary = summarise(one, s)
	}
	if w.weigh != asked {
		return
	}
	w.weigh = nil
	post(map[string]any{"kind": "weighed", "ask": asked.ask, "summary": encoded(summary)})
}

// first sends the plan of a sprite after the search's first step.
func (w *worker) first(id int) {
	one, ok := w.store.One(id)
	if !ok {
		return
	}
	s, err := engine.PlanFirst(&one, 0, &w.cache)
	if err != nil {
		return // the final plan says why
	}
	summary := summarise(one, s)
	summary.Revision, summary.Sprite = w.store.Revision(), id
	postPlan(summary)
}

// final sends the final plan of a sprite; its relief, whose shadows take a
// while, comes later. It is planned together with those that were planned
// before, so that what concerns several sprites is found.
func (w *worker) final(id int) {
	p, at := w.store.Together(id, func(other int) bool { return w.planned[other] })
	if at < 0 {
		w.store.Done(id)
		return
	}
	summary := &plan.Summary{}
	stop := w.untilNews()
	planned, err := engine.Plan(&p, engine.Options{Cache: &w.cache, Stop: stop})
	if err != nil && err != engine.ErrStopped { // its own fault, or another's: alone it will tell
		p, _ = w.store.One(id)
		at = 0
		planned, err = engine.Plan(&p, engine.Options{Stop: stop})
	}
	if err == engine.ErrStopped {
		return // it is still waiting
	}
	w.store.Done(id)
	w.planned[id] = false
	w.relief = nil
	if err != nil {
		summary.Problem = problem(p, err)
	} else if s, ok := spriteOf(planned, at); ok {
		w.planned[id] = true
		summary = summarise(p, s)
		summary.Findings = plan.FindingsOf(planned.Findings, p.Sprites[at].Name, *s.Layout)
		w.relief = &unshaded{p, s, summary}
	} else {
		summary.Problem = nothingDrawn
	}
	summary.Revision, summary.Sprite, summary.Final = w.store.Revision(), id, true
	postPlan(summary)
}

// shade sends the last final plan again with its relief.
func (w *worker) shade() {
	r := w.relief
	stop := w.untilNews()
	r.summary.Scene = sceneOf(r.project, r.sprite, stop)
	if stop() {
		r.summary.Scene = nil
		return
	}
	w.relief = nil
	postPlan(r.summary)
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
	post(map[string]any{"kind": "plan", "summary": encoded(s)})
}

func encoded(s *plan.Summary) js.Value {
	data, err := s.Encode()
	if err != nil {
		panic("the plan is no message: " + err.Error())
	}
	return toJS(data)
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
