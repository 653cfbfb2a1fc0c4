package editor

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
)

func summary(e *Editor, parts int, final bool) *plan.Summary {
	return &plan.Summary{Revision: e.Revision(), Sprite: e.SpriteID(), Parts: parts, Final: final}
}

func TestPlansThatComeTooLateAreDropped(t *testing.T) {
	e := quay(t)
	p := func() PlanState { return e.State().Plan }
	assert.True(t, p().Stale)
	assert.True(t, e.PlanArrived(summary(e, 5, false)))
	assert.Equal(t, [2]any{true, 5}, [2]any{p().Stale, p().Parts}, "the quick answer shows, but more is to come")
	assert.True(t, e.PlanArrived(summary(e, 4, true)))
	assert.Equal(t, [2]any{false, 4}, [2]any{p().Stale, p().Parts})
	assert.False(t, e.PlanArrived(summary(e, 5, false)), "a quick answer after the final one")

	late := summary(e, 9, true)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	assert.Equal(t, [2]any{true, 4}, [2]any{p().Stale, p().Parts}, "the last good one stays")
	assert.False(t, e.PlanArrived(late))
	assert.Equal(t, 4, p().Parts)
	assert.True(t, e.PlanArrived(summary(e, 6, false)))
	assert.True(t, e.PlanArrived(summary(e, 6, true)))
	assert.False(t, p().Stale)

	// An edit of another sprite leaves this one's plan as it is.
	buoy := summary(e, 6, true)
	run(t, e, "showSprite", `{"name":"Anchor"}`)
	assert.True(t, p().Stale)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	assert.True(t, e.PlanArrived(buoy), "made before that edit, and still right")
	run(t, e, "showSprite", `{"name":"Buoy"}`)
	assert.False(t, p().Stale)

	// Palette, cards and settings touch every sprite; undo is an edit too.
	run(t, e, "setBorder", `{"mm":3}`)
	assert.True(t, p().Stale)
	assert.True(t, e.PlanArrived(summary(e, 7, true)))
	run(t, e, "undo", "")
	assert.True(t, p().Stale)

	// Names don't, nor does looking.
	assert.True(t, e.PlanArrived(summary(e, 6, true)))
	run(t, e, "renameProject", `{"name":"Harbour wall"}`)
	run(t, e, "zoom", `{"factor":2}`)
	assert.False(t, p().Stale)

	gone := summary(e, 1, true)
	run(t, e, "removeSprite", "")
	assert.False(t, e.PlanArrived(gone))
	ahead := summary(e, 1, true)
	ahead.Revision += 10
	assert.False(t, e.PlanArrived(ahead))
}

func TestAStrokeIsPlannedWhileItIsDrawn(t *testing.T) {
	e := quay(t)
	require.True(t, e.PlanArrived(summary(e, 4, true)))
	_ = e.PlanRequest()
	require.NoError(t, e.Begin([]float64{0.5, 0.5}))
	r := e.PlanRequest()
	require.NotNil(t, r)
	require.Len(t, r.Sprites, 1)
	assert.Equal(t, byte('A'), r.Sprites[0].Sprite.Frames[0].Cells[0])
	assert.True(t, e.State().Plan.Stale)
	e.Cancel()
	assert.Equal(t, byte('.'), e.PlanRequest().Sprites[0].Sprite.Frames[0].Cells[0])
	assert.Nil(t, e.PlanRequest())
}

// The worker's copy is the document, whatever is done.
func TestRequestsKeepTheWorkerUpToDate(t *testing.T) {
	e := quay(t)
	var worker plan.Store
	tell := func() (sprites int, common bool) {
		r := e.PlanRequest()
		require.NotNil(t, r)
		data, err := r.Encode()
		require.NoError(t, err)
		back, err := plan.DecodeRequest(data)
		require.NoError(t, err)
		require.NoError(t, worker.Take(back))
		got := worker.Project()
		require.Len(t, got.Sprites, len(e.Project().Sprites))
		for i, s := range e.Project().Sprites {
			assert.Equal(t, s.Name, got.Sprites[i].Name)
			assert.Equal(t, s.Stack, got.Sprites[i].Stack)
			assert.Equal(t, s.Frames[0].Cells, got.Sprites[i].Frames[0].Cells)
		}
		assert.Equal(t, e.Project().Palette, got.Palette)
		assert.Equal(t, e.Project().Settings, got.Settings)
		return len(r.Sprites), r.Common != nil
	}
	check := func(sprites int, common bool) {
		t.Helper()
		n, c := tell()
		assert.Equal(t, [2]any{sprites, common}, [2]any{n, c})
	}
	check(2, true)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	check(1, false)
	run(t, e, "setMargin", `{"mm":7}`)
	check(0, true)
	run(t, e, "copySprite", "")
	check(1, false)
	run(t, e, "moveSprite", `{"to":0}`)
	check(0, false)
	run(t, e, "removeSprite", "")
	check(0, false)
	run(t, e, "undo", "")
	check(1, false) // the worker has forgotten it
	run(t, e, "mergeColours", `{"from":"A","into":"B"}`)
	_, common := tell()
	assert.True(t, common)
	e.ForgetWorker()
	worker = plan.Store{}
	check(3, true)
	run(t, e, "new", "")
	check(1, true)
}

func TestTheWorkerHearsWhatIsOnTheBench(t *testing.T) {
	e := quay(t)
	_ = e.PlanRequest()
	anchor := e.doc.IDs[1]
	require.True(t, e.PlanArrived(summary(e, 4, true)))
	require.True(t, e.PlanArrived(&plan.Summary{Revision: e.Revision(), Sprite: anchor, Final: true, Scene: make([]byte, 100)}))
	run(t, e, "showSprite", `{"name":"Anchor"}`)
	r := e.PlanRequest()
	require.NotNil(t, r)
	assert.Equal(t, anchor, r.Open)
	assert.Empty(t, r.Sprites, "it is planned already")
	assert.Nil(t, e.PlanRequest())

	// Plans that take too much room go, but never the open sprite's; they are
	// made again when they are looked at.
	run(t, e, "showSprite", `{"name":"Buoy"}`)
	_ = e.PlanRequest()
	e.letGo(50)
	assert.Nil(t, e.plans.got[anchor])
	assert.NotNil(t, e.plans.got[e.SpriteID()])
	run(t, e, "showSprite", `{"name":"Anchor"}`)
	r = e.PlanRequest()
	require.Len(t, r.Sprites, 1)
	assert.Equal(t, anchor, r.Sprites[0].ID)
	assert.Nil(t, e.PlanRequest())
}
