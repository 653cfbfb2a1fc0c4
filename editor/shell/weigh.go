//go:build js

package shell

import (
	"encoding/json"
	"syscall/js"

	"sheetsprite/editor/plan"
)

// weighing is what the worker is to plan to tell what a command would cost, a
// Uint8Array, or {"error": "…"} as JSON: why the command can't be run.
func (s *Shell) weighing(args []js.Value) any {
	r, err := s.editor.Weighing(args[0].String(), json.RawMessage(args[1].String()))
	if err != nil {
		return text(map[string]string{"error": err.Error()})
	}
	return requestBytes(r)
}

// weighed is what a plan that was only asked for comes to, as JSON.
func (s *Shell) weighed(args []js.Value) any {
	p, err := plan.DecodeSummary(bytesFromJS(args[0]))
	if err != nil {
		panic("shell: " + err.Error())
	}
	return text(map[string]any{"parts": p.Parts, "seconds": p.Seconds, "top": float64(p.Top) / 1000, "problem": p.Problem})
}
