package inspect_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// carryOut does what a remedy says, as an editor would. Arguments that only the
// maker can give are made up.
func carryOut(t *testing.T, p *project.Project, r inspect.Remedy) {
	t.Helper()
	um := func(name string) shape.Um {
		v, err := project.ParseMm(fmt.Sprint(r.Args[name]))
		require.NoError(t, err, "%s of %v", name, r)
		return v
	}
	var sprite *project.Sprite
	if name, ok := r.Args["sprite"]; ok {
		i := slices.IndexFunc(p.Sprites, func(s project.Sprite) bool { return s.Name == name })
		require.GreaterOrEqual(t, i, 0)
		sprite = &p.Sprites[i]
	}
	var stock *project.Stock
	if id, ok := r.Args["stock"]; ok {
		i := slices.IndexFunc(p.Stocks, func(s project.Stock) bool { return s.ID == id })
		require.GreaterOrEqual(t, i, 0)
		stock = &p.Stocks[i]
	}
	switch r.Command {
	case inspect.SetCell:
		sprite.Cell = um("mm")
	case inspect.SetJoin:
		p.Settings.Join = um("mm")
	case inspect.SetCorners:
		p.Settings.Corners = project.Corners(r.Args["corners"].(string))
	case inspect.SetBorder:
		p.Settings.Border = um("mm")
	case inspect.SetStyle:
		sprite.Stack.Style = project.Style(r.Args["style"].(string))
	case inspect.SetSheet:
		p.Settings.SheetW, p.Settings.SheetH = um("w_mm"), um("h_mm")
	case inspect.SetStockSheet:
		stock.SheetW, stock.SheetH = um("w_mm"), um("h_mm")
	case inspect.SetThickness:
		stock.Thickness = um("mm")
	case inspect.SetStock:
		if slices.Contains(r.Asks, "stock") {
			p.Stocks = append(p.Stocks, project.CardFor(project.RGB{G: 200}))
			stock = &p.Stocks[len(p.Stocks)-1]
		}
		for _, key := range []byte(r.Args["keys"].(string)) {
			i := slices.IndexFunc(p.Palette, func(c project.Colour) bool { return c.Key == key })
			p.Palette[i].Stock = stock.ID
		}
	case inspect.SetLaser:
		stock.Laser = project.LaserFine
	case inspect.PaintCells:
		for _, c := range r.Args["cells"].([]any) {
			cell := c.([]any)
			sprite.Frames[0].Cells[cell[1].(int)*sprite.W+cell[0].(int)] = cell[2].(string)[0]
		}
	case inspect.RemoveSprite:
		p.Sprites = slices.DeleteFunc(p.Sprites, func(s project.Sprite) bool { return s.Name == r.Args["sprite"] })
	case inspect.ReduceColours:
		require.NoError(t, p.ReduceColours(2))
	case inspect.SetFoam:
		sprite.Stack.Foam = um("mm")
	case inspect.SetFloat:
		sprite.Stack.Float = r.Args["height"].(int)
	case inspect.SetPins:
		p.Settings.Pins = um("mm")
	case inspect.SetCover:
		p.Settings.Cover = um("mm")
	case inspect.SetLarge:
		p.Settings.Large = project.Large(r.Args["large"].(string))
	default:
		t.Fatalf("nobody can carry out %s", r.Command)
	}
}

// randomProject has cells, stocks and settings that bring findings about.
func randomProject(rng *rand.Rand) *project.Project {
	p := drawnProject("k")
	for i := range p.Stocks {
		p.Stocks[i].LeastStrip = shape.Um(200 + rng.IntN(40)*100)
		p.Stocks[i].Kerf = shape.Um(rng.IntN(10) * 50)
	}
	if rng.IntN(4) == 0 {
		p.Settings.Corners = project.Apart
	}
	if rng.IntN(4) == 0 {
		p.Settings.Join = shape.Um(100 + rng.IntN(20)*100)
	}
	if rng.IntN(4) == 0 {
		p.Settings.Border = shape.Um(rng.IntN(30) * 100)
		p.Settings.Edge = []project.Edge{project.Square, project.Chamfered, project.Round}[rng.IntN(3)]
	}
	p.Settings.SheetW, p.Settings.SheetH = 40*shape.Mm, 30*shape.Mm
	p.Settings.Pins = []shape.Um{0, project.UsualPin}[rng.IntN(2)]
	s := &p.Sprites[0]
	*s = project.NewSprite("a", 1+rng.IntN(9), 1+rng.IntN(9))
	s.Cell = shape.Um(500 + rng.IntN(60)*100)
	if rng.IntN(3) == 0 {
		s.Stack.Style = project.SideBySide
	}
	inks := []byte(".kwrb")[rng.IntN(2):]
	last := inks[rng.IntN(len(inks))]
	for i := range s.Frames[0].Cells {
		if rng.IntN(2) == 0 {
			last = inks[rng.IntN(len(inks))]
		}
		s.Frames[0].Cells[i] = last
	}
	s.Frames[0].Cells[0] = 'k'
	return p
}

// What a remedy that calls itself sure promises holds: the finding is gone, for
// that sprite and stock. That includes the least cell that a finding names.
func TestSureRemediesClear(t *testing.T) {
	seen := map[inspect.Code]int{}
	for seed := range uint64(150) {
		p := randomProject(rand.New(rand.NewPCG(seed, 1)))
		for _, f := range findings(t, p) {
			for _, r := range f.Remedies {
				q := randomProject(rand.New(rand.NewPCG(seed, 1)))
				carryOut(t, q, r)
				require.NoError(t, q.Validate(), "seed %d: %v", seed, r)
				if !r.Sure {
					continue
				}
				seen[f.Code]++
				plan, err := engine.Plan(q, engine.Options{})
				require.NoError(t, err)
				for _, g := range plan.Findings {
					same := g.Code == f.Code && g.Sprite == f.Sprite && subject(p, g.Text) == subject(p, f.Text)
					require.False(t, same, "seed %d: %q: %s %v leaves %q", seed, f.Text, r.Command, r.Args, g.Text)
				}
			}
		}
	}
	for _, code := range []inspect.Code{inspect.StripNarrow, inspect.JoinWeak, inspect.CornerApart, inspect.PartTiny,
		inspect.PartTweezers, inspect.PartTooLarge, inspect.LightOverDark} {
		require.Greater(t, seen[code], 5, "the drawings bring %s about", code)
	}
}

// subject is the stock that a finding's text names, if any.
func subject(p *project.Project, text string) string {
	for _, s := range p.Stocks {
		if strings.Contains(text, s.Name) {
			return s.ID
		}
	}
	return ""
}

// Giving small parts their neighbours' colour mostly helps: over many drawings
// fewer small parts are left than there were. (Not in each: see mergeCells.)
func TestMergedCellsLeaveFewerSmallParts(t *testing.T) {
	before, after := 0, 0
	for seed := range uint64(60) {
		p := randomProject(rand.New(rand.NewPCG(seed, 2)))
		p.Sprites[0].Cell = 2000
		f, ok := find(findings(t, p), inspect.PartTiny)
		i := slices.IndexFunc(f.Remedies, func(r inspect.Remedy) bool { return r.Command == inspect.PaintCells })
		if !ok || i < 0 {
			continue
		}
		before += f.Count
		carryOut(t, p, f.Remedies[i])
		left, _ := find(findings(t, p), inspect.PartTiny)
		after += left.Count
	}
	require.Greater(t, before, 50)
	require.Less(t, after*3, before, "%d of %d are left", after, before)
}
