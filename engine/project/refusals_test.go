package project_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
)

const inGull = `sprite 1 ("gull")`

// refusals: what is changed in the gull's file, and the sentence that then says
// what is wrong.
var refusals = []struct{ old, new, message string }{
	// Not a project, or not of this version.
	{gull, ``, `this isn't a project file: it doesn't start with {`},
	{gull, `[]`, `this isn't a project file: it doesn't start with {`},
	{gull, "\x89PNG", `this isn't a project file: it doesn't start with {`},
	{gull, `{}`, `this isn't a project file: its field "format" isn't "sheetsprite-project"`},
	{`"sheetsprite-project"`, `"sheetsprite-job"`, `this is the job.json of a bundle: open the project.json beside it`},
	{`"version": 1`, `"version": 2`, `the project file is of version 2, but this program knows versions up to 1: open it with a newer sheetsprite`},
	{gull, `{"palette": 7, "version": 99999999999999999999999999, "format": "sheetsprite-project"}`, `the project file is of version 99999999999999999999…, but this program knows versions up to 1: open it with a newer sheetsprite`},
	{`"version": 1`, `"version": 0`, `the field "version" is 0, but must be a whole number from 1`},
	{`"version": 1`, `"version": 1.5`, `the field "version" is 1.5, but must be a whole number from 1`},
	{`"version": 1`, `"version": -1`, `the field "version" is -1, but must be a whole number from 1`},
	{`"version": 1`, `"version": "1"`, `the field "version" is missing or isn't a number: this program writes 1`},

	// Not strict JSON.
	{`"copies": 1,`, `"copies": 1`, `line 39, column 7: '"' isn't expected here`},
	{"\n}\n", "", `line 57, column 4: the data ends too early`},
	{"\n}\n", "\n}\n{}", `line 59, column 1: there is something after the end`},
	{`"copies": 1,`, `"copies": 1, "copies": 2,`, `line 38, column 20: the field "copies" stands twice in one object; take one of them out`},
	{`"name": "gull"`, "\"name\": \"gu\xffll\"", `line 37, column 18: this isn't UTF-8 text`},
	{`"copies": 1,`, `"x": ` + strings.Repeat("[", 5000), `line 38, column 73: objects and lists are nested more than 64 deep`},
	{`"copies": 1,`, `"x": ` + strings.Repeat("[", 56) + strings.Repeat("]", 56) + ",", inGull + `: the unknown field "x" is nested more than 54 deep`},

	// Wrong types and numbers.
	{`"copies": 1`, `"copies": "1"`, inGull + `: the field "copies" must be a number, but it is a text`},
	{`"copies": 1`, `"copies": 1.5`, inGull + `: the field "copies" is 1.5, but must be a whole number of at most 9 digits`},
	{`"copies": 1`, `"copies": 1e400`, inGull + `: the field "copies" is 1e400, but must be a whole number of at most 9 digits`},
	{`"copies": 1`, `"copies": ` + strings.Repeat("9", 5000), inGull + `: the field "copies" is 99999999999999999999…, but must be a whole number of at most 9 digits`},
	{`"copies": 1`, `"copies": 0`, inGull + `: copies is 0, but must be 1 to 1000`},
	{`"cell_mm": 3.001`, `"cell_mm": null`, inGull + `: the field "cell_mm" must be a number, but it is null`},
	{`"cell_mm": 3.001`, `"cell_mm": 3.0001`, inGull + `, the field "cell_mm": "3.0001" has more than 3 decimals: lengths are in mm, to 0.001`},
	{`"cell_mm": 3.001`, `"cell_mm": 3e0`, inGull + `, the field "cell_mm": "3e0" isn't a length: write millimetres in plain digits, such as 3 or 0.25`},
	{`"cell_mm": 3.001`, `"cell_mm": 1000000000`, inGull + `, the field "cell_mm": "1000000000" mm is too long: at most 1000000 mm`},
	{`"cell_mm": 3.001`, `"cell_mm": 0`, inGull + `: cell_mm is 0, but must be 0.5 to 50 mm`},
	{`"cell_mm": 3.001`, `"cell_mm": -3`, inGull + `: cell_mm is -3, but must be 0.5 to 50 mm`},
	{`"cell_mm": 3.001`, `"cell_mm": 50.001`, inGull + `: cell_mm is 50.001, but must be 0.5 to 50 mm`},
	{`"palette": [`, `"palette": {}, "x": [`, `the field "palette" must be a list […], but it is an object {…}`},
	{`"palette": [`, `"palette": [7,`, `palette, colour 1: this must be an object {…}, but it is a number`},
	{`"sprites": [`, `"sprites": ["gull",`, `sprite 1: this must be an object {…}, but it is a text`},
	{`"settings": {`, `"settings": [], "x": {`, `the field "settings" must be an object {…}, but it is a list […]`},
	{`"fill_in": false`, `"fill_in": 0`, `settings: the field "fill_in" must be true or false, but it is a number`},
	{`[210, 297]`, `[210]`, `settings: the field "sheet_mm" must be [width, height], but has 1 of the two numbers`},
	{`[210, 297]`, `[210, 297, 1]`, `settings: the field "sheet_mm" must be [width, height], but has more than two numbers`},
	{`[210, 297]`, `[210, 5]`, `settings: sheet_mm is 5, but must be 10 to 10000 mm`},

	// Settings.
	{`"corners": "join"`, `"corners": "Join"`, `settings: corners is "Join", but must be one of join, apart`},
	{`"edge": "square"`, `"edge": ""`, `settings: edge is "", but must be one of square, chamfered, round`},
	{`"hold": "tabs"`, `"hold": "glue"`, `settings: hold is "glue", but must be one of tabs, light`},
	{`"effort": 3`, `"effort": 10`, `settings: effort is 10, but must be 0 to 9`},
	{`"border_mm": 2.5`, `"border_mm": -1`, `settings: border_mm is -1, but must be 0 to 100 mm`},
	{`"kerf_mm": 0.125`, `"kerf_mm": 11`, `settings: kerf_mm is 11, but must be 0 to 10 mm`},
	{`"margin_mm": 5`, `"margin_mm": 105`, `settings: the margin of 105 mm leaves nothing of the sheet of 210 × 297 mm: make it smaller`},
	{`"hold": "tabs"`, `"hold": "tabs", "backer": "tin"`, `settings: the backer is cut from "tin", which isn't among the stocks: add that stock or choose another`},

	// Palette and stocks.
	{`"key": "A"`, `"key": "."`, `palette, colour 1: the field "key" is ".", but a key is one printable ASCII character other than '.', '"', '\' and space`},
	{`"key": "A"`, `"key": "é"`, `palette, colour 1: the field "key" is "é", but a key is one printable ASCII character other than '.', '"', '\' and space`},
	{`"key": "A"`, `"key": "AB"`, `palette, colour 1: the field "key" is "AB", but a key is one printable ASCII character other than '.', '"', '\' and space`},
	{`"key": "B"`, `"key": "A"`, `palette, colour 2 ("white"): has the key 'A', as a colour before it has: give each its own`},
	{`"colour": "#f4f4f4"`, `"colour": "white"`, `palette, colour 2 ("white"): the field "colour" is "white", but a colour is # and six hexadecimal digits, such as #1a2b3c`},
	{`"#f4f4f4", "stock": "card-1a1c2c"`, `"#f4f4f4", "stock": "tin"`, `palette, colour 2 ("white"): is cut from "tin", which isn't among the stocks: add that stock or choose another`},
	{`"kind": "card"`, `"kind": "tin"`, `stock 1 ("card-1a1c2c"): kind is "tin", but must be one of paper, card, mount-board, grey-board, craft-foam, felt, plywood, acrylic, other`},
	{`"laser": "fine"`, `"laser": "yes"`, `stock 1 ("card-1a1c2c"): laser is "yes", but must be one of fine, unknown, never`},
	{`"thickness_mm": 0.3`, `"thickness_mm": 0`, `stock 1 ("card-1a1c2c"): thickness_mm is 0, but must be 0.01 to 100 mm`},
	{`"stocks": [`, `"stocks": [{"id":"card-1a1c2c","colour":"#ffffff"},`, `stock 2 ("card-1a1c2c"): has the same id as a stock before it: give each its own`},
	{`"stocks": [`, `"stocks": [{"id":"../x","colour":"#ffffff"},`, `stock 1 ("../x"): the id must be 1 to 64 of a-z, 0-9 and '-'`},

	// Sprites.
	{`"name": "gull"`, `"name": ""`, `sprite 1: has no name: give it one`},
	{`"sprites": [`, `"sprites": [], "x": [`, `the project has no sprite: add one`},
	{`"sprites": [`, `"sprites": [{"name":"gull","frames":[{"rows":["A"]}]},`, `sprite 2 ("gull"): sprite 1 has the same name: give each its own`},
	{`"name": "gull"`, `"name": "` + strings.Repeat("x", project.MaxName+1) + `"`, `sprite 1 ("` + strings.Repeat("x", 40) + `…"): the name has 16385 characters, but may have 16384`},
	{`"A.."`, `"A."`, inGull + `, frame 1, row 2: has 2 cells, but the rows above have 3: make all rows equally long`},
	{`"A.."`, `"A.Z"`, inGull + `, frame 1, row 2, column 3: 'Z' isn't the key of a palette colour: add that colour or change the cell`},
	{`"A.."`, `"A é"`, inGull + `, frame 1, row 2, column 2: ' ' can't be a key: write '.' for an empty cell or the key of a palette colour`},
	{`"A.."`, `"éA"`, inGull + `, frame 1, row 2, column 1: 'é' can't be a key: write '.' for an empty cell or the key of a palette colour`},
	{`"A.."`, `3`, inGull + `, frame 1, row 2: this must be a text, but it is a number`},
	{`".AB"`, `""`, inGull + `, frame 1, row 1: is empty: write '.' for an empty cell`},
	{`".AB"`, `"` + strings.Repeat("A", 257) + `"`, inGull + `, frame 1, row 1: has 257 cells, but a sprite is at most 256 cells wide`},
	{`"A.."`, strings.Repeat(`"A..",`, 256) + `"A.."`, inGull + `, frame 1, row 257: is one too many: a sprite has at most 256 rows`},
	{`"rows": [`, `"rows": [], "x": [`, inGull + `, frame 1: has no rows: a sprite has 1 to 256 of them, each of 1 to 256 cells`},
	{`"rows": [`, `"Rows": [`, inGull + `, frame 1: has no rows: a sprite has 1 to 256 of them, each of 1 to 256 cells`},
	{`"frames": [`, `"frames": [], "x": [`, inGull + `: has no frames: give it at least one, with rows`},
	{`"frames": [`, `"frames": [{"rows":["AB"]},`, inGull + `, frame 2: is 3 × 2 cells, but the first frame is 2 × 1: make all frames equally large`},
	{`"style": "fewest"`, `"style": "most"`, inGull + `, stack: style is "most", but must be one of fewest, side-by-side, by-hand`},
	{`"extra_heights": 3`, `"extra_heights": 91`, inGull + `, stack: extra_heights is 91, but must be 0 to 90`},
	{`"lowest": "B"`, `"lowest": "BZ"`, inGull + `, stack: lowest names the key 'Z', which the palette doesn't have`},
	{`"lowest": "B"`, `"lowest": "BB"`, inGull + `, stack: lowest names the key 'B' twice`},
	{`"lowest": "B"`, `"lowest": "B", "highest": "AB"`, inGull + `, stack: 'B' is both lowest and highest: choose one`},
	{`"lowest": "B"`, `"outline_on_top": "AB"`, inGull + `, stack: outline_on_top is "AB", but must be one key`},
	{`"over": "A"`, `"over": "B"`, inGull + `, stack, under 1: 'B' can't lie under itself: take the pair out`},
	{`"over": "A"`, `"over": "Z"`, inGull + `, stack, under 1: 'B' under 'Z' names a key that the palette doesn't have`},
}

func TestRefusals(t *testing.T) {
	for _, c := range refusals {
		require.Contains(t, gull, c.old)
		_, err := read(strings.Replace(gull, c.old, c.new, 1))
		assert.EqualError(t, err, c.message)
		assert.NotContains(t, c.message, "\n")
		var input *project.InputError
		assert.ErrorAs(t, err, &input)
	}
}

// Too many of anything.
func TestRefusalsOfCounts(t *testing.T) {
	many := func(old, item string, n int) string {
		return strings.Replace(gull, old, old+strings.Repeat(item+",", n), 1)
	}
	for _, c := range []struct{ text, message string }{
		{many(`"palette": [`, `{"key":"C","colour":"#ffffff"}`, 90), `there are more than 90 colours: take some out`},
		{many(`"stocks": [`, `{"id":"x","colour":"#ffffff"}`, 1000), `there are more than 1000 stocks: take some out`},
		{many(`"sprites": [`, `{"name":"x","frames":[]}`, 1000), `there are more than 1000 sprites: take some out`},
		{many(`"frames": [`, `{"rows":["A"]}`, 256), inGull + `: there are more than 256 frames: take some out`},
		{many(`"under": [`, `{"under":"A","over":"B"}`, 8100), inGull + `, stack: there are more than 8100 pairs: take some out`},
	} {
		_, err := read(c.text)
		assert.EqualError(t, err, c.message)
	}
}

func TestTooManyColoursInASprite(t *testing.T) {
	p := projecttest.Random(1)
	p.Palette, p.Settings = nil, project.DefaultSettings()
	s := project.NewSprite("fan", 25, 1)
	for i := range 25 {
		key, _ := project.NewKey(p.Palette)
		p.Palette = append(p.Palette, project.Colour{Key: key, Stock: p.Stocks[0].ID})
		s.Frames[0].Cells[i] = key
	}
	p.Sprites = []project.Sprite{s}
	assert.EqualError(t, p.Validate(), `sprite 1 ("fan"): has 25 colours, but a sprite may have 24: use fewer or split it`)
	p.Sprites[0].Frames[0].Cells[24] = project.Empty
	assert.NoError(t, p.Validate())
}

// Nothing is written that couldn't be read again.
func TestWriteRefuses(t *testing.T) {
	for _, c := range []struct {
		breakIt func(p *project.Project)
		message string
	}{
		{func(p *project.Project) { p.Name = "\xff" }, `the name isn't UTF-8 text: type it anew`},
		{func(p *project.Project) { p.Extra = project.Extra{"x": nil} }, `the unknown field "x" doesn't hold JSON (line 1, column 1: the data ends too early)`},
		{func(p *project.Project) { p.Extra = project.Extra{"x": []byte("\ufeff1")} }, `the unknown field "x" doesn't hold JSON`},
		{func(p *project.Project) { p.Extra = project.Extra{"name": []byte("1")} }, `the field "name" is among the unknown ones, but it is known`},
		{func(p *project.Project) { p.Sprites[0].Frames[0].Cells = p.Sprites[0].Frames[0].Cells[1:] }, inGull + `, frame 1: has 5 cells, but 3 × 2 need 6`},
		{func(p *project.Project) { p.Sprites[0].W = 257 }, inGull + `: is 257 × 2 cells, but a sprite has 1 to 256 a side`},
		{func(p *project.Project) { p.Palette = nil }, `the palette is empty: it has 1 to 90 colours`},
	} {
		p, err := read(gull)
		require.NoError(t, err)
		c.breakIt(p)
		var out strings.Builder
		assert.EqualError(t, p.Write(&out), c.message)
		assert.Empty(t, out.String())
	}
}

func TestCanCut(t *testing.T) {
	p, err := read(gull)
	require.NoError(t, err)
	assert.NoError(t, p.CanCut())
	p.Sprites = append([]project.Sprite{project.NewSprite("blank", 4, 4)}, p.Sprites...)
	assert.NoError(t, p.CanCut())
	p.Sprites = p.Sprites[:1]
	assert.NoError(t, p.Validate())
	assert.EqualError(t, p.CanCut(), "nothing is drawn in this project: colour at least one cell of a sprite")
}
