//go:build js

package main

import "syscall/js"

// turns give the browser its turn, so that it brings new messages: a message to
// oneself, since a timer may be held back by milliseconds.
type turns struct {
	port js.Value
	back chan struct{} // the browser has had its turn
	now  js.Value      // performance.now
	last float64       // when it had its turn, ms
}

// slice is how long the worker goes on before the browser has its turn, ms.
const slice = 6

func newTurns() *turns {
	t := &turns{back: make(chan struct{}, 1)}
	channel := js.Global().Get("MessageChannel").New()
	t.port = channel.Get("port1")
	channel.Get("port2").Set("onmessage", js.FuncOf(func(js.Value, []js.Value) any {
		t.back <- struct{}{}
		return nil
	}))
	clock := js.Global().Get("performance")
	t.now = clock.Get("now").Call("bind", clock)
	return t
}

// give gives the browser its turn.
func (t *turns) give() {
	t.port.Call("postMessage", 0)
	<-t.back
	t.last = t.now.Invoke().Float()
}

// due gives the browser its turn where it hasn't had it for a slice.
func (t *turns) due() {
	if t.now.Invoke().Float()-t.last > slice {
		t.give()
	}
}
