package editor

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
)

// stepsOf is what the maker's program might say of the quay: a buoy of three
// parts in two steps, cut twice, and an anchor of one.
func stepsOf(e *Editor) *plan.Assembly {
	return &plan.Assembly{Revision: e.revision, Sprites: []plan.AssemblySprite{
		{Name: "Buoy", Copies: 2, Parts: []plan.AssemblyPart{{Number: "A1-1", Print: "hull", Seconds: 45}, {Number: "A2-1", Print: "mast", Seconds: 45}, {Number: "A2-2", Print: "lamp", Seconds: 90}}, Steps: [][]int{{0}, {1, 2}}},
		{Name: "Anchor", Copies: 1, Parts: []plan.AssemblyPart{{Number: "B1-1", Print: "anchor", Seconds: 45}}, Steps: [][]int{{0}}},
	}}
}

func building(t *testing.T) *Editor {
	e := quay(t)
	e.AssemblyArrived(stepsOf(e))
	run(t, e, "showView", `{"view":"Assemble"}`)
	return e
}

func TestGoingFromStepToStep(t *testing.T) {
	e := building(t)
	s := e.Panels().Assembly
	assert.Equal(t, []any{"Buoy", 1, 1, 2, []string{"", "", ""}, 180, 405}, []any{s.Sprite, s.Copy, s.Step, s.Steps, s.Parts, s.Left, s.All})
	run(t, e, "goOn", `{"way":"on"}`)
	run(t, e, "goOn", `{"way":"on"}`)
	s = e.Panels().Assembly
	assert.Equal(t, []any{"Buoy", 1, 3, []string{"stuck", "stuck", "stuck"}, 0}, []any{s.Sprite, s.Copy, s.Step, s.Parts, s.Left}, "it stays in view when it is done")
	run(t, e, "goOn", `{"way":"back"}`)
	assert.Equal(t, []string{"stuck", "", ""}, e.Panels().Assembly.Parts)
	run(t, e, "putTogether", `{"sprite":"Anchor","copy":1}`)
	assert.Equal(t, "Anchor", e.Panels().Assembly.Sprite)
	run(t, e, "pointAt", `{"sprite":"Anchor","copy":1,"part":"B1-1"}`)
	run(t, e, "goToStep", `{"step":2}`)
	assert.Empty(t, e.Panels().Hand.Sheets.Part, "the step's own part is lit")
	assert.Equal(t, 2, e.Panels().Assembly.Step)
	assert.Contains(t, refused(t, e, "goToStep", `{"step":3}`), "1 steps")
	assert.Contains(t, refused(t, e, "goOn", `{"way":"up"}`), "on, back")
	assert.Contains(t, refused(t, e, "putTogether", `{"sprite":"Buoy","copy":3}`), "2 copies")
	assert.Contains(t, refused(t, e, "markParts", `{"sprite":"Buoy","copy":1,"parts":"A9-9","is":"out"}`), `no part "A9-9"`)
	assert.Zero(t, e.past.done, "none of it is a step of undo")
}

func TestWhatIsLostIsCutAgain(t *testing.T) {
	e := building(t)
	lost := func(copy int) string {
		return `{"sprite":"Buoy","copy":` + string(rune('0'+copy)) + `,"parts":"A2-1","is":"lost"}`
	}
	run(t, e, "markParts", lost(1))
	assert.Equal(t, []string{"A2-1"}, e.Panels().Choice.Parts)
	run(t, e, "markParts", lost(2))
	assert.Equal(t, []string{"A2-1"}, e.Panels().Choice.Parts)
	run(t, e, "markParts", `{"sprite":"Buoy","copy":1,"parts":"A2-1","is":"out"}`)
	assert.Equal(t, []string{"A2-1"}, e.Panels().Choice.Parts, "the other copy still lacks it")
	run(t, e, "markParts", `{"sprite":"Buoy","copy":2,"parts":"A2-1 A2-2","is":"stuck"}`)
	assert.Empty(t, e.Panels().Choice.Parts)
	// What was chosen to be cut again for another reason stays chosen.
	run(t, e, "cutAgain", `{"parts":"A1-1"}`)
	run(t, e, "markParts", `{"sprite":"Buoy","copy":1,"parts":"","is":"out"}`)
	assert.Equal(t, []string{"A1-1"}, e.Panels().Choice.Parts)
	assert.Equal(t, []string{"out", "out", "out"}, e.Panels().Assembly.Parts)
}

// How far one is is kept beside the project: by the sprite, however it is called
// and wherever it stands; another project has its own.
func TestProgressIsKept(t *testing.T) {
	e := building(t)
	run(t, e, "putTogether", `{"sprite":"Buoy","copy":2}`)
	run(t, e, "goOn", `{"way":"on"}`)
	run(t, e, "markParts", `{"sprite":"Buoy","copy":2,"parts":"A2-2","is":"lost"}`)
	run(t, e, "renameSprite", `{"to":"Bell buoy"}`)
	again := func(e *Editor) *AssemblyState {
		a := stepsOf(e)
		a.Sprites[0].Name = "Bell buoy"
		e.AssemblyArrived(a)
		return e.Panels().Assembly
	}
	want := []any{"Bell buoy", 2, 2, []string{"stuck", "", "lost"}}
	got := func(s *AssemblyState) []any { return []any{s.Sprite, s.Copy, s.Step, s.Parts} }
	require.Equal(t, want, got(again(e)))

	// Reloaded.
	file, err := e.ProjectText()
	require.NoError(t, err)
	f := quay(t)
	require.NoError(t, f.Open(file))
	f.RestoreSession(e.SessionText())
	require.Equal(t, want, got(again(f)))

	// Another project is opened between, and a damaged session.
	run(t, f, "new", ``)
	f.AssemblyArrived(stepsOf(f))
	f.session.View = ViewAssemble
	assert.Empty(t, f.Panels().Assembly.Sprite)
	run(t, f, "reopen", ``)
	f.session.View = ViewAssemble
	f.session.Build = BuildLook{f.doc.IDs[0], 2}
	require.Equal(t, want, got(again(f)))
	f.RestoreSession([]byte(`{"progress":{"marks":[{"sprite":"Bell buoy","copy":-1,"is":"eaten"}]},"learnt":{"typical":-5}}`))
	assert.Equal(t, []string{"", "", ""}, again(f).Parts)
}

func TestTimeLeftAtOnesOwnPace(t *testing.T) {
	e := building(t)
	run(t, e, "goOn", `{"way":"on","seconds":90}`)
	run(t, e, "goOn", `{"way":"on","seconds":270}`)
	assert.Equal(t, 225, e.Panels().Assembly.All, "typical, unless one asks")
	run(t, e, "setPace", `{"pace":"mine"}`)
	s := e.Panels().Assembly
	assert.Equal(t, []any{450, "learnt", 90}, []any{s.All, s.Learnt, s.Mine}, "twice as long as typical")
}
