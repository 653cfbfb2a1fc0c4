package project_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// bench is a file as a maker might have it, written as we write it.
const bench = `{
  "format": "sheetsprite-bench",
  "version": 1,
  "machines": [
    {
      "name": "Boathouse laser",
      "kind": "laser",
      "bed_mm": [400, 300],
      "left_mm": 0,
      "right_mm": 0,
      "bottom_mm": 12.5,
      "top_mm": 0,
      "origin": "upper-left",
      "thickest_mm": 4,
      "speed_unit": "mm/min",
      "full_power_s": 255,
      "acceleration_mm_s2": 800,
      "travel_mm_s": 150,
      "beam": "M3",
      "blade_offset_mm": 0,
      "overcut_mm": 0,
      "marks": "draw",
      "lens": "short"
    }
  ],
  "shelf": [
    {
      "stock": {
        "id": "sea-blue",
        "name": "Sea blue",
        "kind": "card",
        "colour": "#2040a0",
        "thickness_mm": 0.4,
        "kerf_mm": 0.12,
        "least_strip_mm": 0.6,
        "laser": "fine",
        "face": "down",
        "typical": false
      },
      "sheets": [
        {
          "size_mm": [297, 210],
          "count": 2
        }
      ],
      "offcuts": [
        {
          "size_mm": [80, 60.5]
        }
      ]
    }
  ],
  "uses": [
    {
      "machine": "Boathouse laser",
      "stock": "sea-blue",
      "power_percent": 35,
      "speed": 1200,
      "mark_power_percent": 8,
      "mark_speed": 3000,
      "passes": 1,
      "pass_order": "contour",
      "kerf_mm": 0.14
    }
  ],
  "notes": {"moved":true}
}
`

func TestBenchIsSavedAsItWasRead(t *testing.T) {
	b, err := project.ReadBench(strings.NewReader(bench))
	require.NoError(t, err)
	assert.Equal(t, 800, b.Machines[0].Acceleration)
	assert.Equal(t, shape.Um(60500), b.Shelf[0].Offcuts[0].H)
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	assert.Equal(t, bench, out.String(), "unknown fields are kept")
}

func TestStarterBenchIsWithinTheRules(t *testing.T) {
	b := project.StarterBench()
	var out bytes.Buffer
	require.NoError(t, b.Write(&out))
	again, err := project.ReadBench(&out)
	require.NoError(t, err)
	assert.Equal(t, b.Machines, again.Machines)
}

func TestBenchRefusals(t *testing.T) {
	for _, c := range []struct{ old, new, message string }{
		{`"sheetsprite-bench"`, `"sheetsprite-project"`, `this isn't a bench file: its field "format" isn't "sheetsprite-bench"`},
		{`"version": 1`, `"version": 2`, `the bench file is of version 2, but this program knows versions up to 1: open it with a newer sheetsprite`},
		{`"kind": "laser"`, `"kind": "saw"`, `machine 1 ("Boathouse laser"): kind is "saw", but must be one of laser, knife, hand`},
		{`"full_power_s": 255`, `"full_power_s": 0`, `machine 1 ("Boathouse laser"): full_power_s is 0, but must be 1 to 1000000`},
		{`"bed_mm": [400, 300]`, `"bed_mm": [400, 0]`, `machine 1 ("Boathouse laser"): bed_mm must be [width, height], both above 0, or left out`},
		{`"blade_offset_mm": 0`, `"blade_offset_mm": 5.001`, `machine 1 ("Boathouse laser"): blade_offset_mm is 5.001, but must be 0 to 5 mm`},
		{`"overcut_mm": 0`, `"overcut_mm": -0.1`, `machine 1 ("Boathouse laser"): overcut_mm is -0.1, but must be 0 to 5 mm`},
		{`"power_percent": 35`, `"power_percent": 101`, `use 1 ("sea-blue"): power_percent is 101, but must be 0 to 100`},
		{`"stock": "sea-blue"`, `"stock": "red"`, `use 1 ("red"): is of the stock "red", which isn't on the shelf: add it or take this out`},
		{`"machine": "Boathouse laser"`, `"machine": "x"`, `use 1 ("sea-blue"): is of the machine "x", which isn't on the bench: add it or take this out`},
		{`[80, 60.5]`, `[80, 6]`, `stock on the shelf 1 ("sea-blue"), offcut 1: size_mm is 6, but must be 10 to 10000 mm`},
		{`"face": "down"`, `"face": "left"`, `stock on the shelf 1 ("sea-blue"): face is "left", but must be one of up, down`},
	} {
		text := strings.Replace(bench, c.old, c.new, 1)
		require.NotEqual(t, bench, text)
		_, err := project.ReadBench(strings.NewReader(text))
		var bad *project.InputError
		require.ErrorAs(t, err, &bad)
		assert.Equal(t, c.message, err.Error())
	}
}

// The exact colour is taken from the shelf, a near one isn't.
func TestPlanOnTakesTheShelfsStock(t *testing.T) {
	b, err := project.ReadBench(strings.NewReader(bench))
	require.NoError(t, err)
	for _, c := range []struct {
		colour project.RGB
		stock  string
		kerf   shape.Um
	}{
		{project.RGB{R: 0x20, G: 0x40, B: 0xa0}, "sea-blue", 140},
		{project.RGB{R: 0x20, G: 0x40, B: 0xa1}, "card-2040a1", 100},
	} {
		card := project.CardFor(c.colour)
		p := &project.Project{
			Settings: project.DefaultSettings(), Stocks: []project.Stock{card},
			Palette: []project.Colour{{Key: 'a', RGB: c.colour, Stock: card.ID}},
			Sprites: []project.Sprite{project.NewSprite("wave", 1, 1)},
		}
		require.NoError(t, p.PlanOn(b, ""))
		require.NoError(t, p.Validate())
		assert.Equal(t, c.stock, p.Palette[0].Stock)
		require.Len(t, p.Stocks, 1)
		assert.Equal(t, c.kerf, p.Stocks[0].Kerf, "machine and stock together say so")
		assert.Equal(t, "Boathouse laser", p.Machine().Name)

		var saved bytes.Buffer
		require.NoError(t, p.Write(&saved))
		again, err := project.Read(bytes.NewReader(saved.Bytes()))
		require.NoError(t, err)
		assert.Equal(t, p.Bench, again.Bench, "a project carries what it was planned with")
		require.NoError(t, again.PlanOn(b, ""))
		assert.Equal(t, p.Stocks, again.Stocks, "planning again changes nothing")
	}
}

func TestMachineOfTheBench(t *testing.T) {
	b := project.StarterBench()
	card := project.CardFor(project.RGB{})
	p := &project.Project{Settings: project.DefaultSettings(), Stocks: []project.Stock{card}}
	assert.EqualError(t, p.PlanOn(&b, ""), `the bench has 3 machines: say which one, as in --machine "Laser"`)
	assert.EqualError(t, p.PlanOn(&b, "Saw"), `the bench has no machine "Saw": it has "Laser", "Knife plotter", "By hand"`)
	assert.EqualError(t, p.PlanOn(&project.Bench{}, ""), `the bench has no machine: add one`)
}

func FuzzReadBench(f *testing.F) {
	f.Add([]byte(bench))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := project.ReadBench(bytes.NewReader(data))
		if err != nil {
			return
		}
		var one, two bytes.Buffer
		require.NoError(t, b.Write(&one))
		again, err := project.ReadBench(bytes.NewReader(one.Bytes()))
		require.NoError(t, err)
		require.NoError(t, again.Write(&two))
		require.Equal(t, one.String(), two.String())
	})
}
