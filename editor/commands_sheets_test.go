package editor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/engine/project"
)

// laidBuoy is the quay with two parts of a buoy laid on a sheet.
func laidBuoy(t *testing.T) *Editor {
	e := quay(t)
	stock := e.doc.Project.Stocks[0].ID
	at := func(part string, x int) project.Placement {
		return project.Placement{Sprite: "Buoy", Copy: 1, Part: part, Stock: stock, Sheet: 1, X: um(float64(x)), Held: project.Found}
	}
	e.LaidArrived(&plan.Laid{Revision: e.Revision(), Places: []project.Placement{at("A1-1", 5), at("A2-1", 50)}})
	return e
}

func TestMovingAPartKeepsAllOthersWhereTheyLie(t *testing.T) {
	e := laidBuoy(t)
	was := print(e)
	run(t, e, "movePart", `{"sprite":"Buoy","copy":1,"part":"A2-1","sheet":1,"x_mm":80.5,"y_mm":9,"turn":3}`)
	q := e.doc.Project.Places
	require.Len(t, q, 2)
	assert.Equal(t, project.Found, q[0].Held)
	assert.Equal(t, um(5), q[0].X)
	assert.Equal(t, project.Moved, q[1].Held)
	assert.Equal(t, []any{um(80.5), um(9), 3}, []any{q[1].X, q[1].Y, q[1].Turn})
	_, stale := e.Plan()
	assert.True(t, stale)
	assert.Contains(t, refused(t, e, "lockPart", `{"sprite":"Buoy","copy":1,"part":"A2-1","held":"locked"}`), "still being laid")
	run(t, e, "undo", ``)
	assert.Equal(t, was, print(e))
}

// Sheets have no part in the stack's plan: nothing is planned again for them.
func TestPlacesAndChoicesLeaveThePlanAlone(t *testing.T) {
	e := laidBuoy(t)
	require.NotNil(t, e.PlanRequest())
	run(t, e, "lockPart", `{"sprite":"Buoy","copy":1,"part":"A1-1","held":"locked"}`)
	run(t, e, "cutTonight", `{"copies":[0,2]}`)
	r := e.PlanRequest()
	require.NotNil(t, r)
	assert.Nil(t, r.Common)
	assert.Empty(t, r.Sprites)
	run(t, e, "setGap", `{"mm":2}`)
	r = e.PlanRequest()
	require.NotNil(t, r.Common)
	assert.Empty(t, r.Common.Choice.Sprites, "every sprite is planned, whatever is cut tonight")
}

func TestPlacesAndChoicesFollowTheirSprites(t *testing.T) {
	e := laidBuoy(t)
	run(t, e, "lockPart", `{"sprite":"Buoy","copy":1,"part":"A1-1","held":"locked"}`)
	run(t, e, "cutTonight", `{"copies":[2,1]}`)
	was := print(e)
	run(t, e, "renameSprite", `{"to":"Bell buoy"}`)
	assert.Equal(t, "Bell buoy", e.doc.Project.Places[0].Sprite)
	assert.Equal(t, "Bell buoy", e.doc.Project.Choice.Sprites[0].Sprite)
	run(t, e, "undo", ``)
	require.Equal(t, was, print(e))
	run(t, e, "removeSprite", `{"sprite":"Buoy"}`)
	assert.Empty(t, e.doc.Project.Places)
	assert.Equal(t, []project.Chosen{{Sprite: "Anchor", Copies: 1}}, e.doc.Project.Choice.Sprites)
	run(t, e, "undo", ``)
	require.Equal(t, was, print(e))
}

func TestLayAnewLeavesLockedPartsAlone(t *testing.T) {
	e := laidBuoy(t)
	run(t, e, "lockPart", `{"sprite":"Buoy","copy":1,"part":"A1-1","held":"locked"}`)
	run(t, e, "layAnew", ``)
	require.Len(t, e.doc.Project.Places, 1)
	assert.Equal(t, LaidState{Locked: 1}, e.State().Laid)
}

func TestTheGaugesReadingGivesTheKerf(t *testing.T) {
	e := quay(t)
	stock := e.doc.Project.Stocks[0].ID
	run(t, e, "kerfReading", `{"stock":"`+stock+`","mm":2.3}`)
	assert.Equal(t, um(0.115), e.doc.Project.Stocks[0].Kerf) // 2.3 mm over twenty cuts
	b := e.Bench()
	assert.Equal(t, 0.115, b.Stocks[0].Kerf)
	assert.Equal(t, "measured", b.Stocks[0].Measured)
	run(t, e, "undo", ``)
	assert.Nil(t, e.doc.Project.Bench)
}

func TestAKnifeHasNoKerfUntilItIsMeasured(t *testing.T) {
	e := quay(t)
	stock := e.doc.Project.Stocks[0].ID
	was := e.doc.Project.Stocks[0].Kerf
	run(t, e, "setUse", `{"stock":"`+stock+`","power":30,"speed":20}`)
	run(t, e, "setMachine", `{"kind":"knife"}`)
	assert.Equal(t, "Knife plotter", e.doc.Project.Machine().Name)
	assert.Zero(t, e.doc.Project.Stocks[0].Kerf)
	run(t, e, "setMachine", `{"kind":"laser"}`)
	assert.Equal(t, was, e.doc.Project.Stocks[0].Kerf)
	assert.Equal(t, 30, e.Bench().Stocks[0].Power)
	run(t, e, "setMachine", `{"unit":"mm/min"}`)
	assert.Equal(t, 1200, e.Bench().Stocks[0].Speed)
}

func TestTheShelfIsCounted(t *testing.T) {
	e := quay(t)
	stock := e.doc.Project.Stocks[0].ID
	run(t, e, "setOnShelf", `{"stock":"`+stock+`","count":2,"w_mm":0,"h_mm":0}`)
	run(t, e, "setOffcut", `{"stock":"`+stock+`","w_mm":120,"h_mm":80,"do":"add"}`)
	assert.Equal(t, []ShelfSheet{{210, 297, 2}}, e.Bench().Stocks[0].Sheets)
	assert.Equal(t, []ShelfSheet{{120, 80, 1}}, e.Bench().Stocks[0].Offcuts)
	saved := run(t, e, "saveBench", ``).(map[string]string)
	b, err := project.ReadBench(strings.NewReader(saved["text"]))
	require.NoError(t, err)
	n, ok := b.Counted(stock)
	assert.True(t, ok)
	assert.Equal(t, 2, n)
}
