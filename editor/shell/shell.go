//go:build js

// Package shell is the bridge between the page and the editor: the page's
// scripts call its functions with plain data, it tells them when something has
// changed, and it keeps the canvas in step with the model.
package shell

import (
	"encoding/json"
	"fmt"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/editor/canvas"
	"sheetsprite/editor/gesture"
	"sheetsprite/editor/plan"
)

// Shell connects one editor with one page.
type Shell struct {
	editor *editor.Editor
	demo   []byte // the project file of a first visit
	glass  *canvas.Glass
	host   js.Value

	hands   gesture.Hands
	turners []turner // pointers on the relief
	actions []gesture.Action
	points  []float64 // of the stroke, not yet given to the editor
	layout  layout
	shown   shown
	pan     [2]float64 // of the preview at its real size, CSS pixels
	pointed int        // part that is pointed at, -1 for none
	state   js.Value   // the view model as last read; undefined once it may have changed
}

// New is a shell around the demo project, a project file. The page opens
// another project if it has kept one.
func New(demo []byte) (*Shell, error) {
	s := &Shell{demo: demo, glass: canvas.NewGlass(), host: js.Global().Get("sheetspriteHost"), pointed: -1}
	if !s.host.Truthy() {
		return nil, fmt.Errorf("the page has no sheetspriteHost to talk to")
	}
	s.glass.Wake = s.wake
	p, err := readProject(demo)
	if err != nil {
		return nil, fmt.Errorf("the demo project: %w", err)
	}
	s.editor, err = editor.NewDemo(p)
	return s, err
}

// Run hands the functions to the page and draws until the page goes away.
func (s *Shell) Run() error {
	core := js.Global().Get("Object").New()
	for name, f := range s.functions() {
		core.Set(name, s.guarded(name, f))
	}
	s.show()
	s.host.Call("attach", core)
	return s.glass.Run()
}

// function is called by the page; what it returns is given to the page.
type function func(args []js.Value) any

// guarded keeps a fault in one function from ending the program: the page
// hears of it, and the drawing is still there to be saved.
func (s *Shell) guarded(name string, f function) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) (result any) {
		defer func() {
			if fault := recover(); fault != nil {
				js.Global().Get("console").Call("error", fmt.Sprintf("sheetsprite: %s: %v", name, fault))
				s.say("Something went wrong inside the program; the drawing is as it was.")
			}
		}()
		if !readers[name] {
			s.state = js.Undefined()
		}
		return f(args)
	})
}

func (s *Shell) functions() map[string]function {
	return map[string]function{
		"run":         s.run,
		"panels":      func([]js.Value) any { return text(s.editor.Panels()) },
		"state":       s.readState,
		"side":        func([]js.Value) any { return text(s.side()) },
		"layers":      func([]js.Value) any { return text(s.layers()) },
		"pointPart":   s.pointPart,
		"pointed":     func([]js.Value) any { return text(s.pointedAt()) },
		"input":       s.input,
		"wheel":       s.wheel,
		"arrange":     s.arrange,
		"planRequest": s.planRequest,
		"planArrived": s.planArrived,
		"weighing":    s.weighing,
		"weighed":     s.weighed,
		"sheetsArrived": func(args []js.Value) any {
			if l, err := plan.DecodeLaid(bytesFromJS(args[0])); err == nil {
				s.editor.LaidArrived(l)
			}
			return nil
		},
		"assemblyArrived": func(args []js.Value) any {
			a, err := plan.DecodeAssembly(bytesFromJS(args[0]))
			if err != nil {
				panic("shell: " + err.Error())
			}
			s.editor.AssemblyArrived(a)
			return nil
		},
		"numbersArrived": func(args []js.Value) any {
			if n, err := plan.DecodeNamed(bytesFromJS(args[0])); err == nil {
				s.editor.NumbersArrived(n)
				s.changed()
			}
			return nil
		},
		"forgetWorker": func([]js.Value) any { s.editor.ForgetWorker(); return nil },
		"open":         s.open,
		"projectFile":  s.projectFile,
		"session":      func([]js.Value) any { return bytesToJS(s.editor.SessionText()) },
		"saved": func(args []js.Value) any {
			s.editor.MarkSaved(uint64(args[0].Float()))
			s.host.Call("changed")
			return nil
		},
		"pictures":        s.pictures,
		"restorePictures": s.restorePictures,
		"shelf":           s.shelf,
		"restoreShelf":    s.restoreShelf,
		"machines":        s.machines,
		"restoreMachines": s.restoreMachines,
		"kept":            func([]js.Value) any { return float64(s.editor.Kept()) },
		"revision":        func([]js.Value) any { return float64(s.editor.Revision()) },
		"thumbnail":       s.thumbnail,
		"frames":          func([]js.Value) any { return s.glass.Frames() },
	}
}

// readers are the functions that leave the model as it is.
var readers = map[string]bool{
	"state": true, "panels": true, "side": true, "layers": true, "pointed": true,
	"weighing": true, "weighed": true, "kept": true, "revision": true, "thumbnail": true, "frames": true,
}

// readState is the view model as JSON. Whoever waits for something reads it
// again and again: it is written once for each change.
func (s *Shell) readState([]js.Value) any {
	if s.state.IsUndefined() {
		s.state = js.ValueOf(text(s.editor.State()))
	}
	return s.state
}

// run carries out an editor command: its name, its arguments as JSON ("" for
// none). It returns {"result": …} or {"error": "…"} as JSON.
func (s *Shell) run(args []js.Value) any {
	var given json.RawMessage
	if t := args[1].String(); t != "" {
		given = json.RawMessage(t)
	}
	result, err := s.editor.Run(args[0].String(), given)
	s.changed()
	if err != nil {
		return text(map[string]string{"error": err.Error()})
	}
	return text(map[string]any{"result": result})
}

// changed brings the canvas in step and has the page read the view model again.
func (s *Shell) changed() {
	s.show()
	s.host.Call("changed")
}

// wake has a frame drawn.
func (s *Shell) wake() { s.host.Call("wake") }

// say has the page show a sentence.
func (s *Shell) say(words string) { s.host.Call("say", words) }

// text is v as JSON.
func text(v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		panic(fmt.Sprintf("shell: %T is no JSON: %v", v, err))
	}
	return string(data)
}

func bytesToJS(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// bytesFromJS copies a Uint8Array; nil where there is none.
func bytesFromJS(v js.Value) []byte {
	if !v.Truthy() {
		return nil
	}
	data := make([]byte, v.Get("length").Int())
	js.CopyBytesToGo(data, v)
	return data
}
