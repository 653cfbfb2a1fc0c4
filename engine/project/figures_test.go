package project_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

func TestParseMm(t *testing.T) {
	for text, want := range map[string]shape.Um{
		"0": 0, "3": 3000, "0.25": 250, "-1.5": -1500, "00.5": 500, "3.000": 3000, "3.1000000": 3100,
		"0.001": 1, "-0.001": -1, "1000000": 1000000000, "-0": 0, "0000000000000000001": 1000,
	} {
		got, err := project.ParseMm(text)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", "-", ".", ".5", "3.", "+3", " 3", "3 ", "3,5", "1e3", "NaN", "Inf", "0x10", "3mm", "--3", "3.-1", "1.2.3", "٣",
		"0.0001", "1000000.001", "1e9", "1000000000", "99999999999999999999999999",
	} {
		_, err := project.ParseMm(text)
		var input *project.InputError
		assert.ErrorAs(t, err, &input, "%q", text)
	}
}

func TestFormatMm(t *testing.T) {
	for u := shape.Um(-3100); u <= 3100; u++ {
		text := project.FormatMm(u)
		back, err := project.ParseMm(text)
		require.NoError(t, err)
		require.Equal(t, u, back)
	}
	assert.Equal(t, []string{"0", "3", "0.3", "-0.005", "12.34"}, []string{project.FormatMm(0), project.FormatMm(3000),
		project.FormatMm(300), project.FormatMm(-5), project.FormatMm(12340)})
}

func TestNewKey(t *testing.T) {
	var palette []project.Colour
	seen := map[byte]bool{}
	for {
		key, ok := project.NewKey(palette)
		if !ok {
			break
		}
		assert.True(t, project.GoodKey(key))
		assert.False(t, seen[key])
		seen[key] = true
		palette = append(palette, project.Colour{Key: key})
	}
	assert.GreaterOrEqual(t, len(palette), project.MaxPalette)
	assert.Equal(t, byte('A'), palette[0].Key)
	key, _ := project.NewKey(append(palette[:3:3], palette[4:]...))
	assert.Equal(t, palette[3].Key, key, "a gap is filled")
	good := 0
	for b := range 256 {
		if project.GoodKey(byte(b)) {
			good++
			assert.True(t, b > ' ' && b < 0x7f)
		}
	}
	assert.Equal(t, 91, good, "all printable ASCII but space, dot, quote and backslash")
	for _, b := range []byte(" .\"\\\x00\x7f\xff") {
		assert.False(t, project.GoodKey(b))
	}
}

// The starter shelf is within the rules, and nothing of doubtful make may be
// lasered without a thought.
func TestStarter(t *testing.T) {
	shelf := project.Starter()
	p := projecttest.Random(3)
	p.Stocks = append(p.Stocks, shelf...)
	require.NoError(t, p.Validate())
	for _, s := range shelf {
		assert.True(t, s.Typical, s.ID)
		assert.GreaterOrEqual(t, s.LeastStrip, s.Thickness/2, s.ID)
		assert.Less(t, s.Kerf, s.LeastStrip, s.ID)
		if s.Kind == project.CraftFoam {
			assert.Equal(t, project.LaserUnknown, s.Laser)
		}
	}
	shelf[0].Name = "changed"
	assert.NotEqual(t, "changed", project.Starter()[0].Name)
}

func ExampleStarter() {
	for _, s := range project.Starter() {
		fmt.Println(s.ID, project.FormatMm(s.Thickness), "mm, kerf", project.FormatMm(s.Kerf), "mm, laser", s.Laser)
	}
	// Output:
	// card 0.3 mm, kerf 0.1 mm, laser fine
	// paper 0.15 mm, kerf 0.08 mm, laser fine
	// mount-board 1.4 mm, kerf 0.15 mm, laser fine
	// grey-board 2 mm, kerf 0.18 mm, laser fine
	// craft-foam 2 mm, kerf 0.75 mm, laser unknown
	// felt 1.5 mm, kerf 0.2 mm, laser fine
	// plywood 3 mm, kerf 0.2 mm, laser fine
	// acrylic 3 mm, kerf 0.165 mm, laser fine
}

func ExampleCardFor() {
	s := project.CardFor(project.RGB{R: 0x1a, G: 0x2b, B: 0x3c})
	fmt.Println(s.ID, s.Name, project.FormatMm(s.Thickness), s.Typical)
	// Output: card-1a2b3c Card #1a2b3c 0.3 true
}

// A new project's defaults are within the rules; A4 is 210 × 297 mm (ISO 216).
func TestDefaults(t *testing.T) {
	s := project.DefaultSettings()
	assert.Equal(t, [2]shape.Um{210000, 297000}, [2]shape.Um{s.SheetW, s.SheetH})
	assert.Equal(t, shape.Um(5000), s.Margin)
	assert.Equal(t, shape.Um(1000), s.Gap)
	assert.Equal(t, 3, s.Effort)
	assert.Nil(t, s.Kerf)
	n := project.NewSprite("gull", 5, 4)
	assert.True(t, n.IsEmpty())
	assert.Equal(t, shape.Um(3000), n.Cell)
	assert.Equal(t, 1, n.Copies)
	assert.Equal(t, project.Stack{Style: project.Fewest, ExtraHeights: 3, Foam: 3000, FloatBy: 1000}, n.Stack)
	p := project.Project{Settings: s, Stocks: project.Starter(), Sprites: []project.Sprite{n},
		Palette: []project.Colour{{Key: 'A', Stock: "card"}}}
	assert.NoError(t, p.Validate())
}

func TestSpriteAccessors(t *testing.T) {
	s := project.NewSprite("x", 3, 2)
	copy(s.Frames[0].Cells, ".AB"+"BA.")
	s.Frames = append(s.Frames, project.Frame{Cells: []byte("CC....")})
	assert.Equal(t, "ABC", string(s.Keys()))
	assert.Equal(t, byte('B'), s.At(2, 0))
	assert.Equal(t, byte('A'), s.At(1, 1))
	for _, out := range [][2]int{{-1, 0}, {0, -1}, {3, 0}, {0, 2}} {
		assert.Equal(t, project.Empty, s.At(out[0], out[1]))
	}
	none := project.Sprite{W: 2, H: 2}
	assert.Equal(t, project.Empty, none.At(0, 0))
	assert.True(t, none.IsEmpty())
	assert.Len(t, none.Image(nil).Pix, 16)
}
