//go:build js

// Sheetsprite-maker is the program that makes the cutting files in the page,
// exactly as the command would. It runs in a worker of its own, which is loaded
// when the first files are wanted: sheets and guide are a third of the code, and
// nobody needs them to draw. So it does for finding the grid in a picture.
package main

import (
	"bytes"
	"syscall/js"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/export"
)

func main() {
	orders := make(chan js.Value, 1024)
	js.Global().Call("sheetspriteWorker", js.FuncOf(func(_ js.Value, args []js.Value) any {
		orders <- args[0]
		return nil
	}))
	var cache engine.Cache
	var pictures finder
	for order := range orders {
		switch order.Get("kind").String() {
		case "picture":
			pictures.take(order)
			continue
		case "regrid":
			found, err := pictures.answer(order.Get("options").String())
			answer := map[string]any{"kind": "regrid", "id": order.Get("id"), "found": found}
			if err != nil {
				answer["kind"], answer["words"] = "refused", err.Error()
			}
			js.Global().Call("postMessage", answer)
			continue
		case "bundle":
		default:
			continue
		}
		file := order.Get("project")
		data := make([]byte, file.Get("length").Int())
		js.CopyBytesToGo(data, file)
		answer := map[string]any{"kind": "bundle", "id": order.Get("id")}
		bundle, err := makeBundle(data, &cache)
		if err != nil {
			answer["kind"], answer["words"] = "refused", err.Error()
		} else {
			array := js.Global().Get("Uint8Array").New(len(bundle))
			js.CopyBytesToJS(array, bundle)
			answer["data"] = array
		}
		js.Global().Call("postMessage", answer)
	}
}

// makeBundle is the cutting files of a project file.
func makeBundle(file []byte, cache *engine.Cache) ([]byte, error) {
	p, err := project.Read(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	plan, err := engine.Plan(p, engine.Options{Cache: cache})
	if err != nil {
		return nil, err
	}
	if err := engine.PlanSheets(p, plan, engine.Options{}); err != nil {
		return nil, err
	}
	engine.PlanAssembly(p, plan, engine.Options{})
	return export.Build(export.Job{Project: p, Plan: plan})
}
