package project_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

// gull is a small project file, each part of it given.
const gull = `{
  "format": "sheetsprite-project",
  "version": 1,
  "name": "Harbour",
  "settings": {
    "corners": "join",
    "join_mm": 0,
    "border_mm": 2.5,
    "edge": "square",
    "fill_in": false,
    "sheet_mm": [210, 297],
    "margin_mm": 5,
    "gap_mm": 1,
    "kerf_mm": 0.125,
    "hold": "tabs",
    "effort": 3
  },
  "palette": [
    {"key": "A", "name": "ink", "colour": "#1a1c2c", "stock": "card-1a1c2c"},
    {"key": "B", "name": "white", "colour": "#f4f4f4", "stock": "card-1a1c2c"}
  ],
  "stocks": [
    {
      "id": "card-1a1c2c",
      "name": "Card #1a1c2c",
      "kind": "card",
      "colour": "#1a1c2c",
      "thickness_mm": 0.3,
      "kerf_mm": 0.1,
      "least_strip_mm": 0.6,
      "laser": "fine",
      "typical": true
    }
  ],
  "sprites": [
    {
      "name": "gull",
      "copies": 1,
      "cell_mm": 3.001,
      "stack": {
        "style": "fewest",
        "extra_heights": 3,
        "lowest": "B",
        "under": [
          {"under": "B", "over": "A"}
        ]
      },
      "frames": [
        {
          "rows": [
            ".AB",
            "A.."
          ]
        }
      ]
    }
  ]
}
`

func read(text string) (*project.Project, error) { return project.Read(strings.NewReader(text)) }

func write(t testing.TB, p *project.Project) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, p.Write(&out))
	return out.String()
}

func TestReadGull(t *testing.T) {
	p, err := read(gull)
	require.NoError(t, err)
	s := p.Sprites[0]
	assert.Equal(t, "Harbour", p.Name)
	assert.Equal(t, "gull", s.Name)
	assert.Equal(t, shape.Um(3001), s.Cell)
	assert.Equal(t, shape.Um(2500), p.Settings.Border)
	assert.Equal(t, shape.Um(125), *p.Settings.Kerf)
	assert.Equal(t, 3, s.W)
	assert.Equal(t, 2, s.H)
	assert.Equal(t, []byte(".ABA.."), s.Frames[0].Cells)
	assert.Equal(t, []project.Under{{Under: 'B', Over: 'A'}}, s.Stack.Under)
	assert.Equal(t, gull, write(t, p), "what stands in the file comes back line by line")
}

// The least that a file may hold; everything else takes its default.
func TestReadLeast(t *testing.T) {
	p, err := read(`{"format":"sheetsprite-project","version":1,
		"palette":[{"key":"A","colour":"#1A1C2C"}],
		"sprites":[{"name":"dot","frames":[{"rows":["A"]}]}]}`)
	require.NoError(t, err)
	want := project.NewSprite("dot", 1, 1)
	want.Frames[0].Cells[0] = 'A'
	rgb := project.RGB{R: 0x1a, G: 0x1c, B: 0x2c}
	assert.Equal(t, &project.Project{
		Palette:  []project.Colour{{Key: 'A', RGB: rgb, Stock: "card-1a1c2c"}},
		Stocks:   []project.Stock{project.CardFor(rgb)},
		Sprites:  []project.Sprite{want},
		Settings: project.DefaultSettings(),
	}, p)
}

// A stock's missing figures are those that are typical of its kind; what is
// known of none is not for the laser.
func TestReadStockDefaults(t *testing.T) {
	p, err := read(strings.Replace(gull, `"stocks": [`, `"stocks": [
		{"id":"foam","kind":"craft-foam","colour":"#ffffff","kerf_mm":0.9},
		{"id":"mystery","colour":"#ffffff"},`, 1))
	require.NoError(t, err)
	foam, _ := p.StockByID("foam")
	assert.Equal(t, project.Stock{ID: "foam", Kind: project.CraftFoam, Colour: project.RGB{R: 255, G: 255, B: 255},
		Thickness: 2000, Kerf: 900, LeastStrip: 3000, Laser: project.LaserUnknown, Typical: true}, foam)
	mystery, _ := p.StockByID("mystery")
	assert.Equal(t, project.Other, mystery.Kind)
	assert.Equal(t, project.LaserUnknown, mystery.Laser)
}

func TestRandomProjectsComeBack(t *testing.T) {
	for seed := range uint64(100) {
		p := projecttest.Random(seed)
		text := write(t, p)
		back, err := read(text)
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, p, back, "seed %d", seed)
		require.Equal(t, text, write(t, back), "seed %d", seed)
	}
}

// One row a line: one changed cell changes one line of the file.
func TestOneCellIsOneLine(t *testing.T) {
	p, err := read(gull)
	require.NoError(t, err)
	p.Sprites[0].Frames[0].Cells[4] = 'B'
	before, after := strings.Split(gull, "\n"), strings.Split(write(t, p), "\n")
	require.Len(t, after, len(before))
	var changed []string
	for i := range before {
		if before[i] != after[i] {
			changed = append(changed, strings.TrimSpace(after[i]))
		}
	}
	assert.Equal(t, []string{`"AB."`}, changed)
}

func TestUnknownFieldsStay(t *testing.T) {
	text := gull
	for i, place := range []string{`"format":`, `"corners":`, `"key": "A"`, `"id":`, `"copies":`, `"style":`, `"under": "B"`, `"rows":`} {
		require.Contains(t, text, place)
		text = strings.Replace(text, place, fmt.Sprintf(`"new%d": {"z":[1.50,"é",null],"a":{"deep":[[{}]]}}, %s`, i, place), 1)
	}
	p, err := read(text)
	require.NoError(t, err)
	out := write(t, p)
	for i := range 8 {
		assert.Contains(t, out, fmt.Sprintf(`"new%d": {"z":[1.50,"é",null],"a":{"deep":[[{}]]}}`, i))
	}
	again, err := read(out)
	require.NoError(t, err)
	assert.Equal(t, p, again)
}

func TestHostileNamesStay(t *testing.T) {
	names := projecttest.HostileNames()
	p, err := read(gull)
	require.NoError(t, err)
	p.Sprites = nil
	for _, name := range names {
		s := project.NewSprite(name, 1, 1)
		p.Sprites = append(p.Sprites, s)
	}
	text := write(t, p)
	for _, hidden := range []string{"\u202e", "\u200b", "\x1b", "\u2028", "\ufeff", "\x7f"} {
		assert.NotContains(t, text, hidden)
	}
	back, err := read(text)
	require.NoError(t, err)
	for i, name := range names {
		assert.Equal(t, name, back.Sprites[i].Name)
	}
	for _, name := range names {
		p.Name, p.Palette[0].Name, p.Stocks[0].Name = name, name, name
		back, err := read(write(t, p))
		require.NoError(t, err, "%.40q", name)
		assert.Equal(t, p, back)
	}
}

// Errors of the reader and the writer come back as they are, not as a fault of
// the file.
func TestInputAndOutputErrors(t *testing.T) {
	broken := errors.New("the cable is out")
	_, err := project.Read(iotest.ErrReader(broken))
	assert.Equal(t, broken, err)
	p, err := read(gull)
	require.NoError(t, err)
	assert.Equal(t, broken, p.Write(failing{broken}))
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

func TestTooLarge(t *testing.T) {
	_, err := project.Read(spaces{})
	assert.EqualError(t, err, "the project file is larger than 64 MiB: split it into several projects")
}

var blanks = strings.Repeat(" ", 1<<16)

// spaces never ends.
type spaces struct{}

func (spaces) Read(p []byte) (int, error) {
	return copy(p, blanks), nil
}

// What is read is within the rules, and written and read again it is the same.
func FuzzRead(f *testing.F) {
	f.Add([]byte(gull))
	for seed := range uint64(4) {
		var out bytes.Buffer
		require.NoError(f, projecttest.Random(seed).Write(&out))
		if out.Len() < 20000 {
			f.Add(out.Bytes())
		}
	}
	for _, c := range refusals {
		f.Add([]byte(strings.Replace(gull, c.old, c.new, 1)))
	}
	if demo, err := os.ReadFile("../../testdata/harbour/harbour.json"); err == nil {
		f.Add(demo)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := project.Read(bytes.NewReader(data))
		if err != nil {
			var input *project.InputError
			require.ErrorAs(t, err, &input)
			require.NotContains(t, err.Error(), "%!")
			require.Less(t, len(err.Error()), 2000)
			return
		}
		text := write(t, p)
		back, err := read(text)
		require.NoError(t, err)
		require.Equal(t, p, back)
		require.Equal(t, text, write(t, back))
	})
}
