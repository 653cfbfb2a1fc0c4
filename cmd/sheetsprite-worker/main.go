//go:build js

// Sheetsprite-worker is the program of the page's worker: it plans, off the
// thread that draws. It has no canvas in it.
package main

import (
	"runtime/debug"
	"syscall/js"
)

func main() {
	// One thread only: garbage is let lie a little longer, as every collection
	// makes an answer come later.
	debug.SetGCPercent(400)
	w := newWorker()
	js.Global().Call("sheetspriteWorker", js.FuncOf(func(_ js.Value, args []js.Value) any {
		w.hear(args[0])
		return nil
	}))
	w.work()
}
