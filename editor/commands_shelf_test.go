package editor

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ownStock is a stock of the shelf by its ID.
func ownStock(t *testing.T, e *Editor, id string) OwnStock {
	t.Helper()
	for _, s := range e.OwnShelf() {
		if s.ID == id {
			return s
		}
	}
	require.Fail(t, "not on the shelf", id)
	return OwnStock{}
}

func TestAStockIsPutOnTheShelfAndDescribed(t *testing.T) {
	e := quay(t)
	was := print(e)
	got := run(t, e, "putOnShelf", `{"name":"Fog blue","colour":"#8899aa"}`)
	assert.Equal(t, map[string]string{"stock": "fog-blue"}, got)
	s := ownStock(t, e, "fog-blue")
	assert.Equal(t, []any{240, 0.28, "#8899aa", "card", true}, []any{s.Weight, s.Thickness, s.Colour, s.Kind, s.Typical})

	// Weight and thickness each give a typical other; what was measured stays.
	run(t, e, "changeOwnStock", `{"stock":"fog-blue","weight":300}`)
	assert.InDelta(t, 0.35, ownStock(t, e, "fog-blue").Thickness, 1e-9)
	run(t, e, "changeOwnStock", `{"stock":"fog-blue","thickness":0.23}`)
	assert.Equal(t, 200, ownStock(t, e, "fog-blue").Weight)
	assert.False(t, ownStock(t, e, "fog-blue").Typical)
	run(t, e, "changeOwnStock", `{"stock":"fog-blue","thickness":0.4,"weight":310}`)
	s = ownStock(t, e, "fog-blue")
	assert.Equal(t, []any{310, 0.4}, []any{s.Weight, s.Thickness})

	run(t, e, "changeOwnStock", `{"stock":"fog-blue","core":"#ffffff","sides":"one","grain":"long","laser":"unknown","name":"Fog"}`)
	run(t, e, "setOwnSheets", `{"stock":"fog-blue","w_mm":210,"h_mm":297,"count":5}`)
	run(t, e, "setOwnSheets", `{"stock":"fog-blue","w_mm":305,"h_mm":305,"count":2}`)
	run(t, e, "setOwnSheets", `{"stock":"fog-blue","w_mm":210,"h_mm":297,"count":4}`)
	run(t, e, "setOwnOffcut", `{"stock":"fog-blue","w_mm":120,"h_mm":80,"do":"add"}`)
	s = ownStock(t, e, "fog-blue")
	assert.Equal(t, []any{"Fog", "#ffffff", "one", "long", "unknown"}, []any{s.Name, s.Core, s.Sides, s.Grain, s.Laser})
	assert.Equal(t, []ShelfSheet{{210, 297, 4}, {305, 305, 2}}, s.Sheets)
	assert.Equal(t, []ShelfSheet{{120, 80, 1}}, s.Offcuts)
	assert.Equal(t, was, print(e), "the shelf is no part of the drawing")

	// It is kept beside the project, and in the bench's file.
	text, err := e.ShelfText()
	require.NoError(t, err)
	other := quay(t)
	other.RestoreShelf(text)
	assert.Equal(t, e.OwnShelf(), other.OwnShelf())
	other.RestoreShelf([]byte("driftwood"))
	assert.Equal(t, e.OwnShelf(), other.OwnShelf())
	file, _ := run(t, e, "saveBench", "").(map[string]string)
	third := quay(t)
	args, err := json.Marshal(map[string]string{"bench": file["text"]})
	require.NoError(t, err)
	run(t, third, "openBench", string(args))
	assert.Equal(t, s.Sheets, ownStock(t, third, "fog-blue").Sheets)

	assert.Contains(t, refused(t, e, "putOnShelf", `{"name":"Fog","colour":"#112233"}`), "another name")
	assert.Contains(t, refused(t, e, "putOnShelf", `{"name":"","colour":"#112233"}`), "name")
	assert.Contains(t, refused(t, e, "changeOwnStock", `{"stock":"fog-blue","weight":-1}`), "g/m²")
	assert.Contains(t, refused(t, e, "changeOwnStock", `{"stock":"mist","weight":100}`), "no stock")
	assert.Contains(t, refused(t, e, "setOwnSheets", `{"stock":"fog-blue","w_mm":1,"h_mm":297,"count":5}`), "10")
	assert.Contains(t, refused(t, e, "setOwnSheets", `{"stock":"fog-blue","w_mm":11,"h_mm":297,"count":-1}`), "no sheets")
	assert.Contains(t, refused(t, e, "setOwnOffcut", `{"stock":"fog-blue","w_mm":11,"h_mm":297,"do":"remove"}`), "no such offcut")
	assert.Equal(t, s, ownStock(t, e, "fog-blue"), "what was refused changed nothing")
	run(t, e, "takeOffShelf", `{"stock":"fog-blue"}`)
	assert.Empty(t, e.OwnShelf())
}

func TestColoursAreCutFromTheShelfInOneStep(t *testing.T) {
	e := quay(t)
	run(t, e, "putOnShelf", `{"name":"Fog blue","colour":"#8899aa"}`)
	run(t, e, "putOnShelf", `{"name":"Rust","colour":"#aa4422"}`)
	run(t, e, "setOwnSheets", `{"stock":"rust","w_mm":200,"h_mm":100,"count":3}`)
	was, steps := print(e), e.past.done
	run(t, e, "useShelf", `{"keys":"ABC","stocks":["fog-blue","rust","fog-blue"]}`)
	assert.Equal(t, steps+1, e.past.done)
	stock := map[string]string{}
	for _, c := range e.State().Palette {
		stock[c.Key] = c.Stock
	}
	assert.Equal(t, []string{"fog-blue", "rust", "fog-blue"}, []string{stock["A"], stock["B"], stock["C"]})
	var rust BenchStock
	for _, s := range e.Bench().Stocks {
		if s.ID == "rust" {
			rust = s
		}
	}
	assert.Equal(t, []ShelfSheet{{200, 100, 3}}, rust.Sheets, "the sheets are laid on what there is")

	// What is said of a stock on the shelf is said of the project's copy, and the
	// other way round.
	run(t, e, "changeOwnStock", `{"stock":"rust","thickness":0.5}`)
	i := e.doc.stock("rust")
	assert.EqualValues(t, 500, e.doc.Project.Stocks[i].Thickness)
	run(t, e, "setOnShelf", `{"stock":"rust","count":9,"w_mm":200,"h_mm":100}`)
	assert.Equal(t, []ShelfSheet{{200, 100, 9}}, ownStock(t, e, "rust").Sheets)

	for e.past.done > steps {
		run(t, e, "undo", "")
	}
	assert.Equal(t, was, print(e))

	assert.Contains(t, refused(t, e, "useShelf", `{"keys":"AB","stocks":["rust"]}`), "a stock for each")
	assert.Contains(t, refused(t, e, "useShelf", `{"keys":"A","stocks":["mist"]}`), "no stock")
	assert.Contains(t, refused(t, e, "useShelf", `{"keys":"~","stocks":["rust"]}`), "~")

	// A card chosen for one colour brings its sheets along.
	run(t, e, "setStock", `{"keys":"A","stock":"rust"}`)
	b := e.doc.Project.Bench
	require.NotNil(t, b)
	s, _ := b.ShelfOf("rust")
	assert.Equal(t, 9, s.Sheets[0].Count)
}

func TestAListFillsTheShelf(t *testing.T) {
	e := quay(t)
	list := func(how string) string {
		args, err := json.Marshal(map[string]string{"how": how, "bench": `{"format":"sheetsprite-bench","version":1,"shelf":[{"stock":` +
			`{"id":"rust","name":"Rust","kind":"card","colour":"#aa4422","thickness_mm":0.3,"kerf_mm":0.1,"least_strip_mm":0.6,"laser":"fine","typical":true}}]}`})
		require.NoError(t, err)
		return string(args)
	}
	run(t, e, "putOnShelf", `{"name":"Fog blue","colour":"#8899aa"}`)
	run(t, e, "fillShelf", list("add"))
	assert.Equal(t, ShelfState{Stocks: 2, Edition: 2}, e.State().Shelf)
	run(t, e, "fillShelf", list("instead"))
	assert.Equal(t, "rust", e.OwnShelf()[0].ID)
	assert.Len(t, e.OwnShelf(), 1)
	assert.Contains(t, refused(t, e, "fillShelf", `{"how":"add","bench":"{"}`), "can't be opened")
}
