package editor

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/plan"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

func TestOutlineRoundEverything(t *testing.T) {
	e := small(t, "5", "4")
	run(t, e, "paintCells", `{"cells":[[1,1,"B"],[2,1,"B"],[2,2,"B"]]}`)
	run(t, e, "outline", `{"side":"outside","corners":"without"}`)
	assert.Equal(t, grid(".AA.. ABBA. .ABA. ..A.."), rows(e))
	run(t, e, "undo", "")
	run(t, e, "outline", `{"side":"outside","corners":"with"}`)
	assert.Equal(t, grid("AAAA. ABBA. AABA. .AAA."), rows(e))
	run(t, e, "undo", "")
	run(t, e, "outline", `{"side":"inside"}`)
	assert.Equal(t, grid("..... .AA.. ..A.. ....."), rows(e))

	// Where the drawing reaches the edge, the grid makes room; one step all the same.
	run(t, e, "new", `{"width":2,"height":2}`)
	run(t, e, "paintCells", `{"cells":[[0,0,"B"]]}`)
	run(t, e, "outline", `{"side":"outside","corners":"with"}`)
	assert.Equal(t, grid("AAA ABA AAA"), rows(e))
	run(t, e, "undo", "")
	assert.Equal(t, grid("B. .."), rows(e))
	run(t, e, "outline", `{"side":"outside","corners":"with","room":"keep"}`)
	assert.Equal(t, grid("BA AA"), rows(e))
}

func TestWhatFloatsUncoversWhatLiesUnderIt(t *testing.T) {
	e := small(t, "6", "3")
	run(t, e, "paintCells", `{"cells":[[0,1,"A"],[1,1,"A"],[3,1,"B"],[4,1,"B"]]}`)
	run(t, e, "mark", `{"x":0,"y":1,"width":2,"height":1}`)
	run(t, e, "move", `{"dx":3,"dy":0}`)
	assert.Equal(t, grid("...... ...AA. ......"), rows(e))
	run(t, e, "move", `{"dx":0,"dy":1}`)
	assert.Equal(t, grid("...... ...BB. ...AA."), rows(e), "what was under it is back")
	run(t, e, "turn", `{"way":"right"}`)
	assert.Equal(t, grid("...... ...BB. ...A.."), rows(e), "turned about its middle, a part of it below the grid")
	run(t, e, "move", `{"dx":0,"dy":-1}`)
	assert.Equal(t, grid("...... ...AB. ...A.."), rows(e), "which comes back")
	assert.Equal(t, &BoxState{3, 1, 1, 2, "floating"}, e.State().Selection)

	run(t, e, "undo", "")
	run(t, e, "undo", "")
	assert.Equal(t, grid("...... ...BB. ...AA."), rows(e))
	run(t, e, "move", `{"dx":1,"dy":0}`)
	assert.Equal(t, grid("...... ...BB. ....AA"), rows(e), "it floats again after undo")
	run(t, e, "letGo", "")
	assert.Nil(t, e.State().Selection)
	for e.State().Undo > 1 {
		run(t, e, "undo", "")
	}
	assert.Equal(t, grid("...... AA.BB. ......"), rows(e))
}

func TestDraggingWhatIsMarked(t *testing.T) {
	e := small(t, "5", "2")
	run(t, e, "paintCells", `{"cells":[[0,0,"A"],[1,0,"A"],[4,1,"B"]]}`)
	run(t, e, "tool", `{"tool":"move"}`)
	require.NoError(t, e.Begin([]float64{0.5, 0.5}))
	e.Extend([]float64{1.5, 0.9})
	e.End()
	assert.Equal(t, &BoxState{0, 0, 2, 1, ""}, e.State().Selection)
	assert.Equal(t, 1, e.State().Undo, "marking is no step")
	require.NoError(t, e.Begin([]float64{1.5, 0.5}))
	e.Extend([]float64{2.5, 0.5, 4.5, 1.5})
	assert.Equal(t, grid("..... ...AA"), rows(e))
	e.Cancel()
	assert.Equal(t, grid("AA... ....B"), rows(e))
	require.NoError(t, e.Begin([]float64{1.5, 0.5}))
	e.Extend([]float64{3.5, 1.5})
	e.End()
	assert.Equal(t, grid("..... ..AAB"), rows(e))
	require.NoError(t, e.Begin([]float64{2.5, 1.5}))
	e.Extend([]float64{1.5, 0.5})
	e.End()
	assert.Equal(t, grid(".AA.. ....B"), rows(e))
	assert.Equal(t, 3, e.State().Undo)
}

func TestCopyAndPasteBetweenSprites(t *testing.T) {
	e := quay(t)
	assert.Contains(t, refused(t, e, "paste", ""), "nothing was copied")
	run(t, e, "mark", `{"x":3,"y":0,"width":3,"height":3}`)
	run(t, e, "copy", "")
	run(t, e, "showSprite", `{"name":"Anchor"}`)
	run(t, e, "paste", `{"x":0,"y":0}`)
	assert.Equal(t, grid(".AGG.. ACAG.. ACAGGG ..GG.. G.GG.G GGGGGG"), rows(e), "empty cells of a copy cover nothing")
	run(t, e, "cut", "")
	assert.Equal(t, grid("..GG.. ..GG.. GGGGGG ..GG.. G.GG.G GGGGGG"), rows(e))
	run(t, e, "clear", "")
	assert.Contains(t, refused(t, e, "copy", ""), "nothing drawn")
	assert.Contains(t, refused(t, e, "rubMarked", ""), "nothing drawn")
}

func TestShiftFlipTurnResizeCropTrim(t *testing.T) {
	e := small(t, "4", "3")
	run(t, e, "paintCells", `{"cells":[[1,1,"A"],[2,1,"B"]]}`)
	run(t, e, "shift", `{"dx":2,"dy":-1}`)
	assert.Equal(t, grid("B..A .... ...."), rows(e))
	run(t, e, "flip", `{"over":"upside-down"}`)
	assert.Equal(t, grid(".... .... B..A"), rows(e))
	run(t, e, "turn", `{"way":"left"}`)
	assert.Equal(t, grid("..A ... ... ..B"), rows(e))
	run(t, e, "resize", `{"width":4,"height":5,"keep":"top-left"}`)
	assert.Equal(t, grid("..A. .... .... ..B. ...."), rows(e))
	run(t, e, "resize", `{"width":6,"height":5,"keep":"right"}`)
	assert.Equal(t, grid("....A. ...... ...... ....B. ......"), rows(e))
	run(t, e, "trim", "")
	assert.Equal(t, grid("A . . B"), rows(e))
	assert.Contains(t, refused(t, e, "crop", ""), "mark")
	run(t, e, "mark", `{"x":0,"y":2,"width":1,"height":9}`)
	run(t, e, "crop", "")
	assert.Equal(t, grid(". B"), rows(e))
	assert.Contains(t, refused(t, e, "resize", `{"width":257,"height":1}`), "1 to 256")
	for e.State().Undo > 1 {
		run(t, e, "undo", "")
	}
	assert.Equal(t, grid(".... .AB. ...."), rows(e))
}

func TestEitherSizeFollowsTheOther(t *testing.T) {
	e := quay(t) // 9 × 7 cells of 3 mm
	assert.Equal(t, [2]float64{27, 21}, e.State().Sprite.Size)
	run(t, e, "setSize", `{"width":45}`)
	s := e.State().Sprite
	assert.Equal(t, 5.0, s.Cell)
	assert.Equal(t, [2]float64{45, 35}, s.Size)
	run(t, e, "setSize", `{"height":10}`)
	assert.Equal(t, 1.429, e.State().Sprite.Cell, "to the nearest µm")
	run(t, e, "setCell", `{"mm":2.5}`)
	assert.Equal(t, [2]float64{22.5, 17.5}, e.State().Sprite.Size)
	assert.Equal(t, "with 9 cells it can be 4.5 to 450 mm: cells are 0.5 to 50 mm", refused(t, e, "setSize", `{"width":4}`))
	assert.Equal(t, "a cell is 0.5 to 50 mm a side: 60 mm can't be", refused(t, e, "setCell", `{"mm":60}`))
	refused(t, e, "setSize", `{"width":40,"height":30}`)
	run(t, e, "setCell", `{"sprite":"Anchor","mm":4}`) // a remedy's way to say it
	assert.Equal(t, 2.5, e.State().Sprite.Cell)
	run(t, e, "setCopies", `{"copies":3}`)
	assert.Equal(t, 3, e.State().Sprite.Copies)
}

func TestSprites(t *testing.T) {
	e := quay(t)
	run(t, e, "addSprite", `{"name":"Crab","width":5,"height":4}`)
	assert.Equal(t, []string{"Buoy", "Crab", "Anchor"}, e.State().Sprites)
	assert.Equal(t, "Crab", e.State().Sprite.Name)
	run(t, e, "copySprite", `{"name":"Buoy"}`)
	assert.Equal(t, []string{"Buoy", "Buoy 2", "Crab", "Anchor"}, e.State().Sprites)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	run(t, e, "showSprite", `{"name":"Buoy"}`)
	assert.Equal(t, "....A....", e.State().Sprite.Rows[0], "the copy has cells of its own")
	run(t, e, "moveSprite", `{"to":2}`)
	assert.Equal(t, []string{"Buoy 2", "Crab", "Buoy", "Anchor"}, e.State().Sprites)
	assert.Equal(t, "Buoy", e.State().Sprite.Name)
	run(t, e, "renameSprite", `{"to":"Bell buoy"}`)
	assert.Contains(t, refused(t, e, "renameSprite", `{"to":"Crab"}`), "already")
	assert.Contains(t, refused(t, e, "renameSprite", `{"to":""}`), "needs a name")
	run(t, e, "removeSprite", `{"sprite":"Crab"}`)
	assert.Equal(t, "Bell buoy", e.State().Sprite.Name, "what is on the bench stays there")
	run(t, e, "removeSprite", "")
	run(t, e, "removeSprite", "")
	assert.Contains(t, refused(t, e, "removeSprite", ""), "only sprite")
	for e.State().Undo > 0 {
		run(t, e, "undo", "")
	}
	assert.Equal(t, []string{"Buoy", "Anchor"}, e.State().Sprites)

	// Undo shows what it changed.
	run(t, e, "showSprite", `{"name":"Buoy"}`)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	run(t, e, "showSprite", `{"name":"Anchor"}`)
	run(t, e, "undo", "")
	assert.Equal(t, "Buoy", e.State().Sprite.Name)
}

func TestFrames(t *testing.T) {
	e := quay(t)
	run(t, e, "copyFrame", "")
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	assert.Equal(t, 2, e.State().Sprite.Frame)
	assert.Equal(t, "A...A....", e.State().Sprite.Rows[0])
	run(t, e, "showFrame", `{"frame":1}`)
	assert.Equal(t, "....A....", e.State().Sprite.Rows[0])
	run(t, e, "undo", "")
	assert.Equal(t, 2, e.State().Sprite.Frame, "undo shows the frame that it changes")
	run(t, e, "turn", `{"way":"right"}`) // all frames are of one size
	require.NoError(t, e.Project().Validate())
	run(t, e, "removeFrame", "")
	assert.Contains(t, refused(t, e, "removeFrame", ""), "only frame")
	refused(t, e, "showFrame", `{"frame":2}`)
}

func TestPalette(t *testing.T) {
	e := quay(t)
	got := run(t, e, "addColour", `{"colour":"#80ff00","name":"Lime"}`)
	assert.Equal(t, map[string]string{"key": "I"}, got)
	s := e.State()
	last := s.Palette[len(s.Palette)-1]
	assert.Equal(t, "card-80ff00", last.Stock)
	assert.Equal(t, "I", s.Hand.Key, "it is in hand at once")
	run(t, e, "changeColour", `{"key":"I","colour":"#80ff80"}`)
	s = e.State()
	assert.Equal(t, "card-80ff80", s.Palette[8].Stock, "its card changes with it")
	assert.Len(t, e.Project().Stocks, 9, "the old one is gone")

	assert.Contains(t, refused(t, e, "removeColour", `{"key":"B"}`), "Buoy")
	run(t, e, "under", `{"under":"C","over":"B"}`)
	run(t, e, "pin", `{"key":"B","place":"highest"}`)
	run(t, e, "mergeColours", `{"from":"B","into":"D"}`)
	s = e.State()
	assert.Equal(t, "..ADDDA..", s.Sprite.Rows[3])
	assert.Len(t, s.Palette, 8)
	for _, c := range s.Stack {
		if c.Key == "D" {
			assert.Equal(t, []string{"C"}, c.Over, "what was wished of it")
			assert.Empty(t, c.Pinned, "pins don't go over")
		}
	}
	run(t, e, "removeColour", `{"key":"D","cells":"rub out"}`)
	assert.Equal(t, "..A...A..", e.State().Sprite.Rows[3])
	run(t, e, "moveColour", `{"key":"C","to":0}`)
	assert.Equal(t, "C", e.State().Palette[0].Key)
	assert.Equal(t, "A", e.State().Palette[1].Key)
	run(t, e, "replaceColour", `{"from":"C","to":"E"}`)
	assert.Equal(t, "...AEA...", e.State().Sprite.Rows[1])
	assert.Contains(t, refused(t, e, "addColour", `{"colour":"lime"}`), "#rrggbb")
	for e.State().Undo > 0 {
		run(t, e, "undo", "")
	}
	assert.Equal(t, print(quay(t)), print(e))
}

func TestThePaletteKeepsACard(t *testing.T) {
	e := quay(t)
	run(t, e, "clear", "")
	run(t, e, "removeSprite", `{"sprite":"Anchor"}`)
	for _, k := range "ABCDEFG" {
		run(t, e, "removeColour", `{"key":"`+string(k)+`"}`)
	}
	assert.Equal(t, "H", e.State().Hand.Key, "one that is left is in hand")
	assert.Contains(t, refused(t, e, "removeColour", `{"key":"H"}`), "last colour")
}

func TestReduceColours(t *testing.T) {
	e := quay(t)
	run(t, e, "reduceColours", `{"colours":2}`)
	used := map[rune]bool{}
	for _, s := range e.Project().Sprites {
		for _, k := range string(s.Frames[0].Cells) {
			used[k] = true
		}
	}
	delete(used, '.')
	assert.Len(t, used, 2)
	refused(t, e, "reduceColours", `{"colours":0}`)
}

func TestCardOfAColour(t *testing.T) {
	e := quay(t)
	run(t, e, "setStock", `{"keys":"AB","stock":"mount-board"}`)
	s := e.State()
	assert.Equal(t, "mount-board", s.Palette[0].Stock)
	assert.Equal(t, 1.4, s.Palette[1].Thickness)
	assert.Len(t, e.Project().Stocks, 7)
	run(t, e, "setThickness", `{"stock":"mount-board","mm":1.6}`)
	assert.False(t, e.State().Palette[0].Typical)
	run(t, e, "setKind", `{"stock":"mount-board","kind":"felt"}`)
	assert.Equal(t, 1.5, e.State().Palette[0].Thickness)
	run(t, e, "setStockSheet", `{"stock":"mount-board","w_mm":300,"h_mm":400}`)
	run(t, e, "setStock", `{"keys":"A"}`)
	assert.Equal(t, "card-20262b", e.State().Palette[0].Stock)
	assert.Contains(t, refused(t, e, "setStock", `{"keys":"A","stock":"gold"}`), "gold")
	assert.Contains(t, refused(t, e, "setThickness", `{"stock":"mount-board","mm":0}`), "0.01 to 100")
	run(t, e, "setBacker", `{"stock":"grey-board"}`)
	run(t, e, "setBacker", `{"stock":""}`)
	assert.Equal(t, -1, e.doc.stock("grey-board"), "gone with the backer")
}

func TestStackWishes(t *testing.T) {
	e := quay(t)
	run(t, e, "under", `{"under":"A","over":"C"}`)
	run(t, e, "under", `{"under":"C","over":"B"}`)
	assert.Contains(t, refused(t, e, "under", `{"under":"B","over":"A"}`), "Black card", "a circle")
	run(t, e, "under", `{"under":"C","over":"A"}`) // the newest wish counts
	assert.Len(t, e.doc.sprite().Stack.Under, 2)
	assert.Contains(t, refused(t, e, "pin", `{"key":"A","place":"lowest"}`), "over", "A is to lie over C")
	run(t, e, "pin", `{"key":"C","place":"lowest"}`)
	run(t, e, "spare", `{"key":"B","how":"spare"}`)
	run(t, e, "outlineOnTop", `{"key":"A"}`)
	for _, c := range e.State().Stack {
		switch c.Key {
		case "A":
			assert.Equal(t, "on top", c.Outline)
			assert.Equal(t, []string{"C"}, c.Over)
		case "B":
			assert.Equal(t, "spare", c.Spare)
		case "C":
			assert.Equal(t, "lowest", c.Pinned)
		}
	}
	run(t, e, "notUnder", `{"under":"C","over":"A"}`)
	run(t, e, "fewest", "")
	st := e.doc.sprite().Stack
	assert.Empty(t, st.Under)
	assert.Empty(t, st.Lowest+st.Spare+st.OutlineOnTop)

	run(t, e, "order", `{"keys":"CAB"}`)
	run(t, e, "under", `{"under":"B","over":"C"}`)
	assert.True(t, strings.HasPrefix(e.State().Style.Order, "ABC"), "by hand it moves in the order")
	refused(t, e, "order", `{"keys":"AA"}`)
	run(t, e, "setStyle", `{"style":"side-by-side"}`)
	run(t, e, "extraHeights", `{"extra":0}`)
	assert.Equal(t, StyleState{Style: "side-by-side", Order: e.State().Style.Order, Foam: 3, FloatBy: 1, FoamLift: 3, Jigs: []WholeState{}, Whole: []WholeState{}, Refused: []int{}}, e.State().Style)

	run(t, e, "setStock", `{"keys":"AB","stock":"felt"}`)
	assert.Contains(t, refused(t, e, "under", `{"under":"A","over":"B"}`), "same card")
	assert.Contains(t, refused(t, e, "under", `{"under":"A","over":"A"}`), "itself")
}

func TestFloat(t *testing.T) {
	e := quay(t)
	how := func() project.Stack { return e.doc.sprite().Stack }
	run(t, e, "setFloat", `{"height":3}`)
	assert.Equal(t, 3, how().Float)
	assert.Equal(t, shape.Um(1000), how().FloatBy, "as thick as is usual")
	run(t, e, "setFloat", `{"height":2,"mm":2}`)
	assert.Equal(t, 2, how().Float, "one height at most")
	assert.Equal(t, shape.Um(2000), how().FloatBy)
	run(t, e, "setFoam", `{"mm":0}`)
	run(t, e, "setCover", `{"mm":12}`)
	run(t, e, "fewest", "")
	assert.Equal(t, 2, how().Float, "fewest parts is about cards only")
	st := e.State()
	assert.Equal(t, []any{0.0, 2, 2.0, 12.0}, []any{st.Style.Foam, st.Style.Float, st.Style.FloatBy, st.Settings.Cover})
	for range 4 {
		run(t, e, "undo", "")
	}
	assert.Equal(t, project.DefaultStack(), how())
	assert.Contains(t, refused(t, e, "setFloat", `{"height":1}`), "setFoam")
	assert.Contains(t, refused(t, e, "setFloat", `{"height":2,"mm":0}`), "0.2 to 30 mm")
	refused(t, e, "setFloat", `{"height":300}`)
	refused(t, e, "setFoam", `{"mm":0.1}`)
	refused(t, e, "setCover", `{"mm":1001}`)
}

func TestPartsThatFitNoSheet(t *testing.T) {
	e := quay(t)
	run(t, e, "setLarge", `{"large":"split"}`)
	assert.Equal(t, project.LargeSplit, e.Project().Settings.Large)
	assert.Equal(t, "split", e.State().Settings.Large)
	run(t, e, "undo", `{}`)
	assert.NotEqual(t, project.LargeSplit, e.Project().Settings.Large)
	refused(t, e, "setLarge", `{"large":"halved"}`)
	run(t, e, "cutAgain", `{"parts":"A1-1/2 A2-1 A1-1/1"}`)
	assert.Equal(t, []string{"A1-1", "A2-1"}, e.Project().Choice.Parts, "a piece is cut with the others of its part")
}

func TestPins(t *testing.T) {
	e := quay(t)
	run(t, e, "setPins", `{"mm":1}`)
	assert.Equal(t, shape.Um(1000), e.Project().Settings.Pins)
	assert.Equal(t, 1.0, e.State().Settings.Pins)
	run(t, e, "setPins", `{"mm":0}`)
	assert.Zero(t, e.Project().Settings.Pins)
	run(t, e, "undo", "")
	assert.Equal(t, shape.Um(1000), e.Project().Settings.Pins)
	assert.Contains(t, refused(t, e, "setPins", `{"mm":0.4}`), "a pin is 0.5 to 3 mm")
	refused(t, e, "setPins", `{"mm":3.5}`)
}

func TestLayersLeftWhole(t *testing.T) {
	e := quay(t)
	stock := e.Project().Stocks[0].ID
	how := func() []project.Whole { return e.doc.sprite().Stack.Whole }
	run(t, e, "setWhole", `{"height":2,"stock":"`+stock+`","how":"whole"}`)
	assert.Equal(t, []project.Whole{{Height: 2, Stock: stock}}, how())
	assert.Equal(t, []WholeState{{2, stock}}, e.State().Style.Whole)
	steps := e.State().Undo
	run(t, e, "setWhole", `{"height":2,"stock":"`+stock+`","how":"whole"}`)
	assert.Equal(t, steps, e.State().Undo, "it is already")
	run(t, e, "setWhole", `{"height":3,"stock":"`+stock+`","how":"whole"}`)
	run(t, e, "fewest", "")
	assert.Len(t, how(), 2, "fewest parts is about cards only")
	run(t, e, "setWhole", `{"height":2,"stock":"`+stock+`","how":"apart"}`)
	assert.Equal(t, []project.Whole{{Height: 3, Stock: stock}}, how())
	run(t, e, "undo", "")
	assert.Len(t, how(), 2)
	require.NoError(t, e.Project().Validate())
	refused(t, e, "setWhole", `{"height":0,"stock":"`+stock+`","how":"whole"}`)
	refused(t, e, "setWhole", `{"height":1,"stock":"none","how":"whole"}`)
}

func TestJigs(t *testing.T) {
	e := quay(t)
	how := func() []project.Jig { return e.doc.sprite().Stack.Jigs }
	run(t, e, "setJig", `{"height":2,"stock":"grey-board"}`)
	assert.Equal(t, []project.Jig{{Height: 2, Stock: "grey-board"}}, how())
	assert.GreaterOrEqual(t, e.doc.stock("grey-board"), 0, "it comes into the project")
	assert.Equal(t, []WholeState{{2, "grey-board"}}, e.State().Style.Jigs)
	run(t, e, "setJig", `{"height":3,"stock":"grey-board"}`)
	run(t, e, "setJig", `{"height":2,"stock":""}`)
	assert.Equal(t, []project.Jig{{Height: 3, Stock: "grey-board"}}, how())
	run(t, e, "setJig", `{"height":3,"stock":""}`)
	assert.Empty(t, how())
	assert.Less(t, e.doc.stock("grey-board"), 0, "and goes again")
	run(t, e, "undo", "")
	assert.Len(t, how(), 1)
	require.NoError(t, e.Project().Validate())
	run(t, e, "setJigClear", `{"mm":0.3}`)
	assert.Equal(t, 0.3, e.State().Settings.JigClear)
	refused(t, e, "setJigClear", `{"mm":3}`)
	refused(t, e, "setJig", `{"height":0,"stock":"grey-board"}`)
	refused(t, e, "setJig", `{"height":1,"stock":"no such"}`)
}

func TestSpacers(t *testing.T) {
	e := quay(t)
	has := func(id string) bool { return e.doc.stock(id) >= 0 }
	require.False(t, has("grey-board"))
	run(t, e, "setFloat", `{"height":2,"mm":2,"stock":"grey-board"}`)
	st := e.State().Style
	assert.Equal(t, []any{"grey-board", 2.2, 2.0}, []any{st.FloatStock, st.FloatLift, st.FloatBy}, "2 mm of board, taped on both faces")
	run(t, e, "setFoam", `{"mm":3,"stock":"grey-board"}`)
	assert.Equal(t, 2.2, e.State().Style.FoamLift)
	run(t, e, "setFloat", `{"height":2,"mm":1}`)
	assert.True(t, has("grey-board"), "what lies lowest still stands on it")
	assert.Equal(t, 1.0, e.State().Style.FloatLift)
	assert.True(t, e.PlanArrived(&plan.Summary{Revision: e.Revision(), Sprite: e.SpriteID(), Final: true, Refused: []int{2}}))
	assert.Equal(t, []any{0.0, []int{2}}, []any{e.State().Style.FloatLift, e.State().Style.Refused}, "too small for it")
	run(t, e, "setFoam", `{"mm":0}`)
	assert.False(t, has("grey-board"), "nothing is cut from it any more")
	run(t, e, "undo", "")
	assert.True(t, has("grey-board"))
	refused(t, e, "setFoam", `{"mm":3,"stock":"no-such"}`)
}

func TestCuttingSettings(t *testing.T) {
	e := quay(t)
	for name, args := range map[string]string{
		"setBorder": `{"mm":4}`, "setEdge": `{"edge":"round"}`, "setInside": `{"inside":"filled"}`, "setCorners": `{"corners":"apart"}`,
		"setJoin": `{"mm":1}`, "setSheet": `{"w_mm":305,"h_mm":305}`, "setMargin": `{"mm":3}`, "setGap": `{"mm":0}`,
		"setKerf": `{"mm":0.15}`, "setHold": `{"hold":"light"}`, "setTab": `{"mm":0.6}`, "setEffort": `{"effort":7}`,
	} {
		run(t, e, name, args)
	}
	kerf := 0.15
	assert.Equal(t, Cutting{
		Corners: "apart", Join: 1, Border: 4, Edge: "round", Inside: "filled", SheetW: 305, SheetH: 305,
		Margin: 3, Gap: 0, Kerf: &kerf, Hold: "light", Tab: 0.6, JigClear: 0.2, Effort: 7,
	}, e.State().Settings)
	assert.Equal(t, 12, e.State().Undo)
	run(t, e, "setHold", `{"hold":"light"}`)
	assert.Equal(t, 12, e.State().Undo, "no change, no step")
	run(t, e, "setKerf", `{}`)
	assert.Nil(t, e.State().Settings.Kerf)
	assert.Equal(t, "the border is 0 to 100 mm: 101 mm can't be", refused(t, e, "setBorder", `{"mm":101}`))
	assert.Contains(t, refused(t, e, "setMargin", `{"mm":200}`), "margin")
}

// pixels is a PNG of w pixels a row.
func pixels(t testing.TB, w int, c ...color.NRGBA) []byte {
	img := image.NewNRGBA(image.Rect(0, 0, w, len(c)/w))
	for i, p := range c {
		img.SetNRGBA(i%w, i/w, p)
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return b.Bytes()
}

func TestPicturesInAndOut(t *testing.T) {
	e := quay(t)
	red, odd := color.NRGBA{0xc8, 0x37, 0x2d, 255}, color.NRGBA{1, 2, 3, 255}
	data := pixels(t, 2, red, odd, color.NRGBA{}, red)
	require.NoError(t, e.ImportSprite("crab.png", data, 0))
	s := e.State()
	assert.Equal(t, "crab", s.Sprite.Name)
	assert.Equal(t, []string{"CI", ".C"}, s.Sprite.Rows, "a colour that the palette has, and a new one")
	assert.Equal(t, "card-010203", s.Palette[8].Stock)
	out := run(t, e, "exportPicture", "").(PictureFile)
	assert.Equal(t, "crab.png", out.Name)
	img, err := png.Decode(bytes.NewReader(out.PNG))
	require.NoError(t, err)
	assert.Equal(t, odd, color.NRGBAModel.Convert(img.At(1, 0)))
	assert.Equal(t, color.NRGBA{}, color.NRGBAModel.Convert(img.At(0, 1)))
	big := run(t, e, "exportPicture", `{"scale":3}`).(PictureFile)
	img, err = png.Decode(bytes.NewReader(big.PNG))
	require.NoError(t, err)
	assert.Equal(t, image.Rect(0, 0, 6, 6), img.Bounds())
	assert.Equal(t, odd, color.NRGBAModel.Convert(img.At(5, 2)))

	require.Error(t, e.ImportSprite("x.png", []byte("no picture"), 0))
	args, err := json.Marshal(importArgs{Name: "crab.png", PNG: data, Colours: 1})
	require.NoError(t, err)
	run(t, e, "importSprite", string(args))
	assert.Equal(t, "crab 2", e.State().Sprite.Name)
	run(t, e, "undo", "")
	run(t, e, "undo", "")
	assert.Equal(t, print(quay(t)), print(e))
}

func TestThePictureUnderTheGridIsNotDrawn(t *testing.T) {
	e := quay(t)
	was := print(e)
	require.NoError(t, e.LayPicture("sketch.png", pixels(t, 2, color.NRGBA{1, 1, 1, 255}, color.NRGBA{})))
	p := e.State().Picture
	assert.Equal(t, &Placement{"sketch.png", 2, 1, 0, 1.25, 4.5, 0.5}, p)
	run(t, e, "placePicture", `{"opacity":0.25,"x":-1.5}`)
	assert.Equal(t, 0.25, e.State().Picture.Opacity)
	refused(t, e, "placePicture", `{"opacity":2}`)
	assert.Equal(t, was, print(e))
	assert.Zero(t, e.State().Undo)
	run(t, e, "renameSprite", `{"to":"Bell"}`)
	kept := e.Pictures()
	require.Len(t, kept, 1)
	assert.Equal(t, "Bell", kept[0].Sprite)
	run(t, e, "takePicture", "")
	assert.Nil(t, e.State().Picture)
	refused(t, e, "takePicture", "")
	e.RestorePictures(kept)
	assert.Equal(t, -1.5, e.State().Picture.X)
	require.Error(t, e.LayPicture("x", []byte("nothing")))
}

func TestOpenSaveAndBack(t *testing.T) {
	e := quay(t)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	file := run(t, e, "save", "").(File)
	assert.Equal(t, "quay.json", file.Name)
	drawn := rows(e)
	run(t, e, "new", `{"name":"Other","width":5,"height":6,"cell":2}`)
	s := e.State()
	assert.Equal(t, "Other", s.Project)
	assert.Equal(t, [3]any{5, 6, 2.0}, [3]any{s.Sprite.Width, s.Sprite.Height, s.Sprite.Cell})
	assert.Zero(t, s.Undo)
	assert.Equal(t, "Quay", s.Former)

	for _, args := range []any{map[string]any{"project": file.Text}, map[string]any{"project": json.RawMessage(file.Text)}} {
		data, err := json.Marshal(args)
		require.NoError(t, err)
		run(t, e, "open", string(data))
		assert.Equal(t, drawn, rows(e))
		again, err := e.ProjectText()
		require.NoError(t, err)
		assert.Equal(t, file.Text, string(again))
	}
	run(t, e, "new", "")
	run(t, e, "reopen", "")
	assert.Equal(t, drawn, rows(e))
	run(t, e, "reopen", "")
	assert.Equal(t, "My sprites", e.State().Project)
	assert.Contains(t, refused(t, e, "open", `{"project":"{\"format\":\"other\"}"}`), "can't be opened")
	refused(t, e, "open", `{"project":17}`)
	refused(t, e, "new", `{"width":300}`)
	refused(t, e, "new", `{"cell":0.1}`)
}

func TestAMovingPictureBecomesASpriteWithFrames(t *testing.T) {
	e := quay(t)
	red, blue := color.NRGBA{200, 10, 10, 255}, color.NRGBA{10, 10, 200, 255}
	was, steps := print(e), e.past.done
	require.NoError(t, e.ImportFrames("ferry.gif", [][]byte{pixels(t, 3, red, blue, color.NRGBA{}), pixels(t, 3, color.NRGBA{}, red, blue)}))
	assert.Equal(t, steps+1, e.past.done)
	s := e.doc.sprite()
	require.Len(t, s.Frames, 2)
	r, b := s.Frames[0].Cells[0], s.Frames[0].Cells[1]
	assert.Equal(t, []byte{project.Empty, r, b}, s.Frames[1].Cells, "one palette for all frames")
	run(t, e, "undo", "")
	assert.Equal(t, was, print(e))
	assert.ErrorContains(t, e.ImportFrames("ferry.gif", [][]byte{pixels(t, 3, red, color.NRGBA{}, color.NRGBA{}), pixels(t, 2, red, color.NRGBA{})}), "frame 2 is 2 × 1 cells")
	assert.ErrorContains(t, e.ImportFrames("ferry.gif", nil), "1 to 256 frames")
	assert.ErrorContains(t, e.ImportFrames("ferry.gif", [][]byte{pixels(t, 3, red, color.NRGBA{}, color.NRGBA{}), []byte("x")}), "frame 2")
	assert.Equal(t, was, print(e))
}

func TestASheetBecomesSprites(t *testing.T) {
	e := quay(t)
	red, blue := color.NRGBA{200, 10, 10, 255}, color.NRGBA{10, 10, 200, 255}
	was, steps, sprites, open := print(e), e.past.done, len(e.doc.IDs), e.doc.Open
	require.NoError(t, e.ImportSprites("quay.png", [][]byte{pixels(t, 3, red, blue, color.NRGBA{}), pixels(t, 2, blue, red), pixels(t, 1, red)}))
	assert.Equal(t, steps+1, e.past.done)
	require.Len(t, e.doc.IDs, sprites+3)
	assert.Equal(t, open+1, e.doc.Open, "the first one is on the bench")
	r, b := e.doc.sprite().Frames[0].Cells[0], e.doc.sprite().Frames[0].Cells[1]
	for i, want := range [][]byte{{r, b, project.Empty}, {b, r}, {r}} {
		s := e.doc.Project.Sprites[open+1+i]
		assert.Equal(t, fmt.Sprintf("quay %d", i+1), s.Name)
		assert.Equal(t, want, s.Frames[0].Cells, "one palette for all")
	}
	require.NoError(t, e.ImportSprites("quay.png", [][]byte{pixels(t, 1, blue)}))
	assert.Equal(t, "quay 1 2", e.doc.sprite().Name)
	run(t, e, "undo", "")
	run(t, e, "undo", "")
	assert.Equal(t, was, print(e))
	assert.Error(t, e.ImportSprites("quay.png", nil))
	assert.ErrorContains(t, e.ImportSprites("quay.png", [][]byte{pixels(t, 3, red, color.NRGBA{}, color.NRGBA{}), []byte("x")}), "quay 2.png")
	assert.Equal(t, was, print(e))
}
