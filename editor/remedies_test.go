package editor

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
)

// What a finding offers is a command of the editor, one step of undo.
func TestRemediesCanBeCarriedOut(t *testing.T) {
	for _, c := range inspect.Commands() {
		assert.NotNil(t, named(string(c)), "no command %s", c)
	}
	tried := map[string]bool{}
	for _, prepare := range [][2]string{
		{"setCell", `{"mm":0.5}`}, {"setCell", `{"mm":50}`}, {"setJoin", `{"mm":0.2}`}, {"setKind", `{"stock":"card-c8372d","kind":"other"}`},
		{"setStyle", `{"style":"side-by-side"}`}, {"changeColour", `{"key":"B","colour":"#c83730"}`}, {"changeStock", `{"stock":"card-c8372d","name":"PVC"}`},
		{"setPins", `{"mm":3}`}, {"addSprite", `{"name":"Empty"}`}, {"setCover", `{"mm":2}`}, {"setThickness", `{"stock":"card-f7f3e8","mm":0.2}`}, {"setKind", `{"stock":"card-20262b","kind":"craft-foam"}`},
	} {
		e := quay(t)
		run(t, e, prepare[0], prepare[1])
		planned, err := engine.Plan(e.Project(), engine.Options{})
		require.NoError(t, err)
		for _, s := range planned.Sprites {
			name := e.Project().Sprites[s.Index].Name
			for _, f := range plan.FindingsOf(planned.Findings, name, *s.Layout) {
				for _, r := range f.Remedies {
					args := map[string]any{}
					require.NoError(t, json.Unmarshal(r.Args, &args))
					for _, a := range r.Asks { // the maker's answer
						args[a] = map[string]any{"stock": "paper", "kind": "card", "colours": 2, "laser": "fine"}[a]
						require.NotNil(t, args[a], "%s asks for %s", r.Command, a)
					}
					data, err := json.Marshal(args)
					require.NoError(t, err)
					steps := e.State().Undo
					run(t, e, r.Command, string(data))
					require.NoError(t, e.Project().Validate())
					tried[r.Command] = true
					for e.State().Undo > steps {
						run(t, e, "undo", "")
					}
				}
			}
		}
	}
	assert.GreaterOrEqual(t, len(tried), 4, "%v", tried)
	t.Log(tried)
}
