package editor

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/editor/viewport"
)

// What the automation surface promises, as a script in the page sees it.
func TestStateHasTheContractsFields(t *testing.T) {
	e := quay(t)
	e.SetPreview(Preview{10, 20, 270, 210, 10})
	require.True(t, e.PlanArrived(&plan.Summary{
		Revision: e.Revision(), Sprite: e.SpriteID(), Final: true, Parts: 4, Heights: 3,
		Colours:  []plan.Colour{{Key: 'B', Stock: "card-f7f3e8", Heights: []int{3}, Parts: 1}},
		Findings: []plan.Finding{{Code: "part-tiny", Text: "A part is tiny.", Places: []plan.Place{{X: 1, Y: 2}}}},
	}))
	data, err := json.Marshal(e.State())
	require.NoError(t, err)
	var s map[string]any
	require.NoError(t, json.Unmarshal(data, &s))
	at := func(path string) any {
		var v any = s
		for _, name := range strings.Split(path, ".") {
			m, ok := v.(map[string]any)
			require.True(t, ok, path)
			v, ok = m[name]
			require.True(t, ok, path)
		}
		return v
	}
	assert.Equal(t, "Draw", at("view"))
	assert.Equal(t, []any{"Buoy", "Anchor"}, at("sprites"))
	assert.Equal(t, "Buoy", at("sprite.name"))
	assert.Equal(t, 9.0, at("sprite.width"))
	assert.Equal(t, 7.0, at("sprite.height"))
	assert.Equal(t, 3.0, at("sprite.cell"))
	assert.Equal(t, "....A....", at("sprite.rows").([]any)[0])
	for _, p := range []string{"grid.x", "grid.y", "grid.cell"} {
		assert.Positive(t, at(p), p)
	}
	assert.Equal(t, 270.0, at("preview.width"))
	for _, p := range []string{"preview.x", "preview.y", "preview.height", "preview.pxPerMm"} {
		assert.Positive(t, at(p), p)
	}
	first := at("palette").([]any)[0].(map[string]any)
	assert.Equal(t, []any{"A", "#20262b", "card-20262b"}, []any{first["key"], first["colour"], first["stock"]})
	top := at("stack").([]any)[0].(map[string]any)
	assert.Equal(t, []any{"B", []any{3.0}, 1.0, ""}, []any{top["key"], top["heights"], top["parts"], top["pinned"]})
	assert.Equal(t, false, at("plan.stale"))
	assert.Equal(t, 4.0, at("plan.parts"))
	assert.Equal(t, 3.0, at("plan.heights"))
	assert.Len(t, at("plan.findings"), 1)
	assert.Equal(t, 0.0, at("calibration.pxPerMm"))
	assert.Equal(t, 0.0, at("undo"))
	assert.Equal(t, 0.0, at("redo"))
	assert.Equal(t, false, at("saved"))
	assert.Equal(t, "pencil", at("hand.tool"))
	assert.Equal(t, "off", at("hand.bothSides"))
	assert.Equal(t, "A", at("hand.key"))

	// Without rows, and steps that nobody looks at, it is the same.
	full, panels := e.State(), e.Panels()
	full.Sprite.Rows, full.Assembly = nil, nil
	assert.Equal(t, full, panels)
}

func TestTheDemoOpensReadyToDraw(t *testing.T) {
	e, err := NewDemo(quay(t).Project())
	require.NoError(t, err)
	e.SetArea(viewport.Area{X: 12, Y: 68, W: 800, H: 640})
	s := e.State()
	assert.Equal(t, ViewDraw, s.View)
	assert.Equal(t, "Buoy", s.Sprite.Name)
	assert.Equal(t, Pencil, s.Hand.Tool)
	assert.NotEmpty(t, s.Hand.Key)
	assert.Equal(t, "off", string(s.Hand.Sides))
	assert.Equal(t, 1, s.Hand.Intro)
	assert.GreaterOrEqual(t, s.Grid.X, 12.0)
	assert.LessOrEqual(t, s.Grid.X+9*s.Grid.Cell, 812.0)
	run(t, e, "showStep", `{"step":0}`)
	assert.Zero(t, e.State().Hand.Intro)
	refused(t, e, "showStep", `{"step":4}`)
}

func TestLooking(t *testing.T) {
	e := quay(t)
	run(t, e, "showView", `{"view":"assemble"}`)
	assert.Equal(t, ViewAssemble, e.State().View)
	refused(t, e, "showView", `{"view":"Elsewhere"}`)
	run(t, e, "calibrate", `{"pxPerMm":5.25}`)
	assert.Equal(t, 5.25, e.State().Calibration.PxPerMm)
	refused(t, e, "calibrate", `{"pxPerMm":-1}`)
	run(t, e, "showSize", `{"size":"real"}`)
	run(t, e, "calibrate", `{"pxPerMm":0}`)
	refused(t, e, "showSize", `{"size":"real"}`)
	run(t, e, "turnReliefBy", `{"turn":200,"tilt":100}`)
	assert.Equal(t, [2]float64{-160, MaxTilt}, [2]float64{e.session.Relief.Turn, e.session.Relief.Tilt})
	was := e.State().Grid
	run(t, e, "zoom", `{"factor":1.5}`)
	assert.Equal(t, 1.5*was.Cell, e.State().Grid.Cell)
	run(t, e, "fit", "")
	assert.Equal(t, was, e.State().Grid)
	refused(t, e, "zoom", `{"factor":0}`)
	looks := e.Looks()
	run(t, e, "pan", `{"dx":3,"dy":4}`)
	assert.Greater(t, e.Looks(), looks, "the page hears of it")
	assert.Zero(t, e.State().Undo, "looking is no step")
}

func TestSaved(t *testing.T) {
	e := quay(t)
	assert.False(t, e.State().Saved)
	r := e.Revision()
	e.MarkSaved(r)
	assert.True(t, e.State().Saved)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	assert.False(t, e.State().Saved)
	e.MarkSaved(r)
	assert.False(t, e.State().Saved, "what was kept is older")
	e.MarkSaved(e.Revision() + 5)
	assert.True(t, e.State().Saved)
	run(t, e, "undo", "")
	assert.False(t, e.State().Saved)
}

func TestTheHandIsKeptBesideTheProject(t *testing.T) {
	e := quay(t)
	for _, c := range []string{
		`showSprite {"name":"Anchor"}`, `copyFrame`, `choose {"key":"G"}`, `tool {"tool":"oval"}`, `bothSides {"sides":"left-right"}`,
		`toolOptions {"body":"filled","outlineSide":"inside"}`, `units {"units":"in"}`, `calibrate {"pxPerMm":4}`, `pullApart {"by":0.5}`,
		`showLayers {"show":"one","layer":2}`, `showSize {"size":"real"}`, `letterKeys {"use":"off"}`, `turnRelief {"turn":30,"tilt":20}`,
	} {
		name, args, _ := strings.Cut(c, " ")
		run(t, e, name, args)
	}
	text, err := e.ProjectText()
	require.NoError(t, err)
	fresh := quay(t)
	require.NoError(t, fresh.Open(text))
	fresh.RestoreSession(e.SessionText())
	assert.Equal(t, string(e.SessionText()), string(fresh.SessionText()))
	assert.Equal(t, "Anchor", fresh.State().Sprite.Name)
	assert.Equal(t, 2, fresh.State().Sprite.Frame)
	assert.Zero(t, fresh.State().Undo)

	// What doesn't fit is left out, nonsense too.
	fresh.RestoreSession([]byte(`{"sprite":"Gone","tool":"spoon","key":"C"}`))
	assert.Equal(t, "C", fresh.State().Hand.Key)
	assert.Equal(t, OvalTool, fresh.State().Hand.Tool)
	fresh.RestoreSession([]byte(`nonsense`))
	fresh.RestoreSession([]byte(`{"pxPerMm":1e300,"frame":-7,"relief":{"apart":9}}`))
	sound(t, fresh, "restored")
}
