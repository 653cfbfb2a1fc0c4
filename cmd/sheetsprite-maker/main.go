//go:build js

// Sheetsprite-maker is the program that lays the sheets and makes the cutting
// files in the page, exactly as the command would. It runs in a worker of its
// own, which is loaded when the first files or sheets are wanted: sheets and
// guide are a third of the code, and nobody needs them to draw. So it does for
// finding the grid in a picture.
package main

import "syscall/js"

func main() {
	m := &maker{}
	orders := make(chan js.Value, 1024)
	js.Global().Call("sheetspriteWorker", js.FuncOf(func(_ js.Value, args []js.Value) any {
		orders <- args[0]
		return nil
	}))
	for {
		if m.going == 0 {
			m.obey(<-orders)
			continue
		}
		select {
		case order := <-orders:
			m.obey(order)
		default:
			m.goOn()
			breathe()
		}
	}
}

// breathe gives the browser its turn: it brings new orders.
func breathe() {
	done := make(chan struct{})
	turn := js.FuncOf(func(js.Value, []js.Value) any {
		close(done)
		return nil
	})
	defer turn.Release()
	js.Global().Call("setTimeout", turn, 0)
	<-done
}

// obey carries out an order and answers it.
func (m *maker) obey(order js.Value) {
	bytes := func(name string) []byte {
		v := order.Get(name)
		data := make([]byte, v.Get("length").Int())
		js.CopyBytesToGo(data, v)
		return data
	}
	var answer map[string]any
	var err error
	switch order.Get("kind").String() {
	case "picture":
		m.pictures.take(order)
		return
	case "regrid":
		m.regrid(order)
		return
	case "straightened":
		answer = map[string]any{}
		if r := m.pictures.straightened(); r != nil {
			answer = map[string]any{"pixels": r.Pix, "width": r.W, "height": r.H}
		}
	case "bundle":
		answer, err = m.bundle(bytes("project"))
	case "file":
		answer, err = m.file(bytes("project"), order.Get("path").String())
	case "tests":
		answer, err = m.testPieces(bytes("project"), order.Get("power"), order.Get("speed"))
	case "sheets":
		m.going = 0
		on := order.Get("on").Truthy()
		if answer, err = m.sheets(bytes("project"), uint64(order.Get("revision").Float()), looseness(on)); err == nil && on {
			m.going = order.Get("id").Int()
		}
	case "assembly":
		answer, err = m.assembly(bytes("project"), uint64(order.Get("revision").Float()), haste(order.Get("quick").Truthy()))
	case "enough":
		m.going = 0
		answer = map[string]any{}
	case "snap":
		answer, err = m.snap(bytes("project"), bytes("want"))
	case "starters":
		answer, err = starters()
	case "stockList":
		answer, err = stockList(order.Get("starter"), order.Get("list"))
	case "match":
		answer, err = match(bytes("project"), bytes("shelf"), order.Get("rules").String())
	case "cardColour":
		answer, err = cardColour(bytes("card"), bytes("white"))
	case "frames":
		answer, err = frames(bytes("data"))
	case "decoded":
		answer, err = decoded(bytes("data"))
	default:
		return
	}
	if err == nil && m.names != nil {
		answer["numbers"] = m.names
	}
	if err != nil {
		answer = map[string]any{"refused": err.Error()}
	}
	post(order.Get("id").Int(), answer)
}

// regrid answers an order to find the grid of the picture that was taken.
func (m *maker) regrid(order js.Value) {
	found, err := m.pictures.answer(order.Get("options").String())
	answer := map[string]any{"kind": "regrid", "id": order.Get("id"), "found": found}
	if err != nil {
		answer["kind"], answer["words"] = "refused", err.Error()
	}
	js.Global().Call("postMessage", answer)
}

// post sends an answer; bytes go as an Uint8Array.
func post(id int, answer map[string]any) {
	for name, v := range answer {
		if data, ok := v.([]byte); ok {
			array := js.Global().Get("Uint8Array").New(len(data))
			js.CopyBytesToJS(array, data)
			answer[name] = array
		}
	}
	answer["kind"], answer["id"] = "answer", id
	js.Global().Call("postMessage", answer)
}
