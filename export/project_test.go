package export

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// harbour is the demo project.
func harbour(t testing.TB) *project.Project {
	t.Helper()
	f, err := os.Open("../testdata/harbour/harbour.json")
	require.NoError(t, err)
	defer f.Close()
	p, err := project.Read(f)
	require.NoError(t, err)
	return p
}

// drawn is a project with the drawings as its sprites: card of as many colours
// as it takes.
func drawn(cell shape.Um, ds ...stack.Drawing) *project.Project {
	p := &project.Project{Name: "Test", Settings: project.DefaultSettings()}
	for i := range stack.MaxColours {
		rgb := project.RGB{R: uint8(40 + 9*i), G: uint8(250 - 10*i), B: uint8(80 + 70*i%170)}
		stock := project.CardFor(rgb)
		p.Stocks = append(p.Stocks, stock)
		p.Palette = append(p.Palette, project.Colour{Key: byte('a' + i), Name: fmt.Sprint("Colour ", i), RGB: rgb, Stock: stock.ID})
	}
	for i, d := range ds {
		s := project.NewSprite(fmt.Sprint("Sprite ", i), d.W, d.H)
		s.Cell = cell
		for k, c := range d.Cells {
			if c > 0 {
				s.Frames[0].Cells[k] = byte('a' + c - 1)
			}
		}
		p.Sprites = append(p.Sprites, s)
	}
	return p
}

// grid is a drawing from rows of text: '.' is empty, a letter a colour.
func grid(rows ...string) stack.Drawing {
	d := stack.Drawing{W: len(rows[0]), H: len(rows)}
	for _, r := range rows {
		for _, c := range []byte(r) {
			if c == '.' {
				c = 'a' - 1
			}
			d.Cells = append(d.Cells, stack.Colour(c-'a'+1))
		}
	}
	return d
}

// planned is the job of a project.
func planned(t testing.TB, p *project.Project) Job {
	t.Helper()
	require.NoError(t, p.Validate())
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	return Job{p, plan}
}

// variants are settings under which every kind of outline comes up.
var variants = []struct {
	name   string
	change func(p *project.Project)
}{
	{"as it comes", func(*project.Project) {}},
	{"in pieces", func(p *project.Project) {
		p.Settings.Large, p.Settings.SheetW, p.Settings.SheetH = project.LargeSplit, 30*shape.Mm, 40*shape.Mm
	}},
	{"side by side on a backer too weak for joins", func(p *project.Project) {
		p.Settings.Backer, p.Stocks[0].LeastStrip = p.Stocks[0].ID, 50*shape.Mm
		for i := range p.Sprites {
			p.Sprites[i].Stack.Style = project.SideBySide
		}
	}},
	{"pins", func(p *project.Project) { p.Settings.Pins = project.LeastPin }},
	{"apart", func(p *project.Project) { p.Settings.Corners = project.Apart }},
	{"wide joins", func(p *project.Project) { p.Settings.Join = p.Sprites[0].Cell / 2 }},
	{"no join fits one stock", func(p *project.Project) { p.Stocks[1].LeastStrip = p.Sprites[0].Cell / 2 }},
	{"narrow setback", func(p *project.Project) {
		for i := range p.Stocks {
			p.Stocks[i].LeastStrip = p.Sprites[0].Cell * 65 / 100
		}
	}},
	{"square border", func(p *project.Project) { p.Settings.Border = 1500 }},
	{"wide border", func(p *project.Project) { p.Settings.Border = 7777; p.Settings.FillIn = true }},
	{"thin border", func(p *project.Project) { p.Settings.Border = 101 }},
	{"chamfered border", func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 2000, project.Chamfered }},
	{"round border", func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 2000, project.Round }},
	{"thin round border", func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 150, project.Round }},
	{"second height floats", floating(2)},
	{"third height floats", floating(3)},
	{"drawing floats on its backer", func(p *project.Project) { floating(2)(p); p.Settings.Border = 1500 }},
	{"narrow and floating", func(p *project.Project) {
		floating(2)(p)
		for i := range p.Stocks {
			p.Stocks[i].LeastStrip = p.Sprites[0].Cell * 65 / 100
		}
	}},
	{"wide kerf", func(p *project.Project) { k := shape.Um(501); p.Settings.Kerf, p.Settings.Corners = &k, project.Apart }},
	{"side by side", sideBySide},
	{"side by side, filled", func(p *project.Project) { sideBySide(p); p.Settings.FillIn = true }},
	{"side by side, apart", func(p *project.Project) { sideBySide(p); p.Settings.Corners = project.Apart }},
	{"side by side, round border", func(p *project.Project) {
		sideBySide(p)
		p.Settings.Border, p.Settings.Edge = 900, project.Round
	}},
	{"by hand", func(p *project.Project) {
		for i := range p.Sprites {
			p.Sprites[i].Stack.Style = project.ByHand
			for _, c := range p.Palette {
				p.Sprites[i].Stack.Order += string(c.Key)
			}
		}
	}},
	{"two colours, one stock", func(p *project.Project) { p.Palette[0].Stock = p.Palette[1].Stock }},
}

func floating(height int) func(*project.Project) {
	return func(p *project.Project) {
		for i := range p.Sprites {
			p.Sprites[i].Stack.Float = height
		}
	}
}

func sideBySide(p *project.Project) {
	for i := range p.Sprites {
		p.Sprites[i].Stack.Style = project.SideBySide
	}
}

// samples are drawings of all kinds.
func samples(seed int) []stack.Drawing {
	return []stack.Drawing{
		stacktest.Sprite32(seed, 2+seed%7),
		stacktest.Noise(3+seed%9, 2+seed%11, 1+seed%5, seed),
		stacktest.Noise(12, 12, 2, seed+1000),
	}
}

// onePixel is a PNG of one pixel.
var onePixel = func() []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewRGBA(image.Rect(0, 0, 1, 1))); err != nil {
		panic(err)
	}
	return b.Bytes()
}()

// unpainted makes the bundle of a job, unchecked and without its pictures, which
// take most of the time.
func unpainted(t testing.TB, j Job) []byte {
	t.Helper()
	data, err := assemble(j, func(*outline.Layout, project.Stack, []project.Stock) ([]byte, error) { return onePixel, nil })
	require.NoError(t, err)
	return data
}
