package inspect_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// k dark grey, K nearly the same, w white, r red, b blue.
var inks = map[byte]project.RGB{
	'k': {R: 32, G: 32, B: 36}, 'K': {R: 33, G: 32, B: 36}, 'w': {R: 250, G: 250, B: 245},
	'r': {R: 200, G: 30, B: 40}, 'b': {R: 30, G: 60, B: 200},
}

// drawnProject is a project of pictures in inks, each with its name.
func drawnProject(pictures ...string) *project.Project {
	p := &project.Project{Name: "test", Settings: project.DefaultSettings()}
	for _, key := range []byte("kKwrb") {
		card := project.CardFor(inks[key])
		p.Palette = append(p.Palette, project.Colour{Key: key, Name: string(key), RGB: inks[key], Stock: card.ID})
		p.Stocks = append(p.Stocks, card)
	}
	for i, picture := range pictures {
		rows := strings.Fields(picture)
		s := project.NewSprite(string(rune('a'+i)), len(rows[0]), len(rows))
		copy(s.Frames[0].Cells, strings.Join(rows, ""))
		p.Sprites = append(p.Sprites, s)
	}
	return p
}

// pinned is one drawing with white on top.
func pinned(picture string) *project.Project {
	p := drawnProject(picture)
	p.Sprites[0].Stack.Highest = "w"
	return p
}

// split lets parts that are too large be cut in pieces.
func split(p *project.Project) *project.Project {
	p.Settings.Large = project.LargeSplit
	return p
}

func stockOf(p *project.Project, key byte) *project.Stock {
	for _, c := range p.Palette {
		if c.Key == key {
			i := slices.IndexFunc(p.Stocks, func(s project.Stock) bool { return s.ID == c.Stock })
			return &p.Stocks[i]
		}
	}
	return nil
}

func findings(t *testing.T, p *project.Project) []inspect.Finding {
	t.Helper()
	require.NoError(t, p.Validate())
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	return plan.Findings
}

func find(fs []inspect.Finding, c inspect.Code) (inspect.Finding, bool) {
	i := slices.IndexFunc(fs, func(f inspect.Finding) bool { return f.Code == c })
	if i < 0 {
		return inspect.Finding{}, false
	}
	return fs[i], true
}

// noise is a drawing whose many small patches exceed the exact search.
func noise() string {
	var b strings.Builder
	state := uint32(7)
	for range 64 {
		for range 64 {
			state = state*1664525 + 1013904223
			b.WriteByte("kKwrb"[state>>16%5])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// cases has a project for every code: what brings the finding about.
var cases = []struct {
	code   inspect.Code
	text   string // the whole sentence
	count  int
	places int
	make   func() *project.Project
}{
	{inspect.StripNarrow, "“a”: 2 places of Card #202024 are narrower than the 2 mm that it holds; the narrowest is 1 mm.", 2, 2,
		func() *project.Project {
			p := drawnProject("kkk.kkk.kkk kkkkkkkkkkk kkk.kkk.kkk", "k")
			stockOf(p, 'k').LeastStrip = 2000
			p.Sprites[0].Cell, p.Sprites[1].Cell = 1000, 2000
			return p
		}},
	{inspect.JoinWeak, "“a”: 1 join of Card #202024 is only 0.35 mm wide at the narrowest, less than the 0.6 mm that it holds.", 1, 1,
		func() *project.Project {
			p := drawnProject("k. .k")
			p.Settings.Join = 500
			return p
		}},
	{inspect.CornerApart, "“a”: cells of Card #202024 are cut apart at 1 corner, because a join of 0.85 mm is more than half a cell of 1.5 mm.", 1, 1,
		func() *project.Project {
			p := drawnProject("k. .k")
			p.Sprites[0].Cell = 1500
			return p
		}},
	{inspect.PartTweezers, "“a”: 1 part is under 4 mm, for tweezers; the smallest is 3 mm.", 1, 1,
		func() *project.Project { return pinned("kkk kwk kkk") }},
	{inspect.PartTiny, "“a”: 1 part is under 2.5 mm and may blow away or fall through the bed; the smallest is 2 mm.", 1, 1,
		func() *project.Project {
			p := pinned("kkk kwk kkk")
			p.Sprites[0].Cell = 2000
			return p
		}},
	{inspect.StocksAlike, "Card #202024 and Card #212024 look alike: they differ by 0.7, and under 5 cards are hard to tell apart.", 1, 1,
		func() *project.Project { return drawnProject("kK") }},
	{inspect.LightOverDark, "2 parts of Card #fafaf5, 0.3 mm thick, lie on dark stock, which shows through light card under about 250 g/m².", 2, 2,
		func() *project.Project { return pinned("kkkkk kwkwk kkkkk") }},
	{inspect.PartTooLarge, "“a”: 1 part of Card #202024 is too large for a sheet of 210 × 297 mm with 5 mm kept free around, turned or not; the largest is 300 × 3 mm.", 1, 1,
		func() *project.Project {
			p := drawnProject(strings.Repeat("k", 100))
			return p
		}},
	{inspect.LeastCell, "Card #202024 and Card #fafaf5 hold cells of 0.6 mm or more; corners can be joined from 1.7 mm on.", 2, 0,
		func() *project.Project { return drawnProject("kw") }},
	{inspect.SpriteEmpty, "“b” has no coloured cell and is skipped.", 1, 1,
		func() *project.Project { return drawnProject("k", ".") }},
	{inspect.StockNeverLaser, "PVC sheet must never go on a laser: its smoke holds hydrogen chloride, which ruins lungs and machine.", 1, 1,
		func() *project.Project {
			p := drawnProject("k")
			stockOf(p, 'k').Name = "PVC sheet"
			return p
		}},
	{inspect.StockUnknown, "Foam goes on a laser only if its maker sells it as safe for that: find out what it is made of first.", 1, 1,
		func() *project.Project {
			p := drawnProject("k")
			stockOf(p, 'k').Name, stockOf(p, 'k').Laser = "Foam", project.LaserUnknown
			return p
		}},
	{inspect.SearchBounded, "“a” has so many small patches that the search for few parts was cut short; a stack with fewer may exist.", 1, 1,
		func() *project.Project { return drawnProject(noise()) }},
	{inspect.KerfCloses, "“a”: at 1 place a gap or a hole of Card #202024 is no wider than the kerf of 1 mm, so no sheets are made of this stock: make the cells larger, join the corners, or cut with less kerf.", 1, 1,
		func() *project.Project {
			p := drawnProject("kkk k.k kkk")
			p.Sprites[0].Cell = 1000
			kerf := shape.Um(1000)
			p.Settings.Kerf = &kerf
			return p
		}},
	{inspect.PartLoose, "“a”: 1 part of Card #202024 has too few straight runs for tabs and may drop or swing: cut with little power, or hold it down.", 1, 1,
		func() *project.Project {
			p := drawnProject("k")
			p.Sprites[0].Cell = 1000
			return p
		}},
	{inspect.SheetOverBed, "A sheet of Card #202024 is 210 × 297 mm, but the bed of “Small” is 200 × 300 mm: cut the sheet smaller and plan with that size. Until then no machine file is written for it.", 1, 0,
		func() *project.Project { return onSmallBench(drawnProject("kk")) }},
	{inspect.StockTooThick, "Card #202024 is 0.3 mm thick, but “Small” cuts 0.2 mm at most: take a thinner stock.", 1, 0,
		func() *project.Project { return onSmallBench(drawnProject("kk")) }},
	{inspect.ShelfShort, "Card #202024: 2 sheets needed, 1 on the shelf.", 1, 0,
		func() *project.Project {
			p := onSmallBench(drawnProject("kk"))
			p.Sprites[0].Cell, p.Sprites[0].Copies = 50*shape.Mm, 10
			return p
		}},
	{inspect.PowerUnknown, "No machine file for Card #202024: enter power and speed of “Small” for it on the bench. The DXF and SVG files are there all the same.", 1, 0,
		func() *project.Project { return onSmallBench(drawnProject("kk")) }},
	{inspect.TooManyParts, "All copies together have 5001 parts, but at most 5000 are laid on sheets at once, so no sheets are made: cut fewer copies at a time.", 5001, 0,
		func() *project.Project {
			p := drawnProject("k.k.k", "k.k.k", "k.k.k", "k.k.k", "k.k.k", "k.k.k")
			for i := range p.Sprites {
				p.Sprites[i].Copies = 277
			}
			p.Sprites[5].Copies = 282
			return p
		}},
	{inspect.TooHigh, "“a” stands 4.6 mm high: with 2 mm of air it doesn't fit under the cover at 6 mm.", 1, 1,
		func() *project.Project { // foam 3, card 0.3, foam 1, card 0.3
			p := pinned("kkkkk kwwwk kwwwk kwwwk kkkkk")
			p.Sprites[0].Stack.Float, p.Settings.Cover = 2, 6*shape.Mm
			return p
		}},
	// 2 mm of foam and 9 of board over the lowest face: 11 mm × tan 30° = 6.351 mm.
	{inspect.TopShifts, "Seen from 30° the top of “a” shifts by 6.4 mm, more than two cells, and the picture falls apart.", 1, 1,
		func() *project.Project {
			p := pinned("kkkkk kwwwk kwwwk kwwwk kkkkk")
			stockOf(p, 'w').Thickness = 9 * shape.Mm
			p.Sprites[0].Stack.Float, p.Sprites[0].Stack.FloatBy = 2, 2*shape.Mm
			return p
		}},
	{inspect.KnifeFine, "“a”: 2 parts of Card #202024 have strips under 1 mm or are under 4 mm, which a knife tears: make the cells larger, or cut them on a laser or by hand.", 2, 2,
		func() *project.Project { // a cell of 3 mm; 9 mm with a neck of a join
			p := drawnProject("k....kkk.k ...kkk.... .....kkk..")
			return onKnife(p)
		}},
	{inspect.KerfMeets, "“a”: in register the cuts of two parts of Card #202024 in one layer would run into one another, so no sheets are made of this stock: lay the parts out on few sheets instead, or join the corners.", 1, 1,
		func() *project.Project {
			p := drawnProject("k. .k")
			p.Settings.Layout, p.Settings.Corners = project.InRegister, project.Apart
			return p
		}},
	{inspect.PlacesLost, "Card #202024: 1 saved place holds no more, as parts or sheets have changed; what lay there is laid anew.", 1, 0,
		func() *project.Project {
			p := drawnProject("k")
			p.Places = []project.Placement{{Sprite: "a", Copy: 1, Part: "A1-1", Stock: p.Stocks[0].ID, Sheet: 1, Held: project.Moved}}
			return p
		}},
	{inspect.FloatTooSmall, "“a”: height 1 was to float by 3 mm, but 1 part is too small for a pad that doesn't show, so the whole height is glued.", 1, 1,
		func() *project.Project { return drawnProject("kk.kkkk kk.kkkk ...kkkk") }},
	{inspect.LayerUneven, "“a”: parts of layer 3 (Card #202024) don't all lie level, because what is below them isn't equally thick.", 1, 1,
		func() *project.Project {
			p := drawnProject("wkw.rkr")
			stockOf(p, 'r').Thickness = 1000
			return p
		}},
	{inspect.PinsNowhere, "“a” has no two places for pins of 1 mm: a place needs a part above that hides it, far enough from all edges, and the two must stand well apart; line it up by the edges that show.", 1, 1,
		func() *project.Project {
			p := drawnProject("wkw.rkr")
			p.Settings.Pins = project.UsualPin
			return p
		}},
	{inspect.LayerNotWhole, "“a”: layer 2 (Card #fafaf5) was to be left whole, but the cuts of two of its parts come nearer to one another than the gap; its parts are cut one by one.", 1, 1,
		func() *project.Project {
			p := pinned("kkkkkkk kwwkwwk kkkkkkk")
			p.Sprites[0].Stack.Whole = []project.Whole{{Height: 2, Stock: stockOf(p, 'w').ID}}
			p.Settings.Gap = 5 * shape.Mm
			return p
		}},
	{inspect.PartSplit, "“a”: 1 part of Card #202024 is larger than any sheet and is cut in 2 pieces, to be glued edge to edge; every seam lies under a higher part.", 1, 1,
		func() *project.Project {
			row := strings.Repeat("k", 45) + strings.Repeat("w", 10) + strings.Repeat("k", 45)
			return split(pinned(strings.Join([]string{row, row, row, row}, " ")))
		}},
	{inspect.SeamShows, "“a”: 1 part of Card #202024 is larger than any sheet and is cut in 2 pieces, to be glued edge to edge; 12 mm of the seams will show.", 1, 1,
		func() *project.Project {
			row := strings.Repeat("k", 100)
			return split(drawnProject(strings.Join([]string{row, row, row, row}, " ")))
		}},
	{inspect.JigNotMade, "“a”: no jig of Card #202024 for height 1, because parts of it have round or slanted edges: lay them by their border.", 1, 1,
		func() *project.Project {
			p := drawnProject("kkkk kkkk")
			p.Settings.Border, p.Settings.Edge = 2*shape.Mm, project.Round
			p.Sprites[0].Stack.Jigs = []project.Jig{{Height: 1, Stock: p.Stocks[0].ID}}
			return p
		}},
}

func onKnife(p *project.Project) *project.Project {
	m := project.NewMachine("Knife", project.Knife)
	if err := p.PlanOn(&project.Bench{Machines: []project.Machine{m}}, ""); err != nil {
		panic(err)
	}
	return p
}

// onSmallBench plans p on a laser with a small bed, with one sheet of the first
// card on the shelf.
func onSmallBench(p *project.Project) *project.Project {
	m := project.NewMachine("Small", project.LaserCutter)
	m.BedW, m.BedH, m.Thickest = 200*shape.Mm, 300*shape.Mm, 200
	b := &project.Bench{Machines: []project.Machine{m}, Shelf: []project.Shelf{{
		Stock: p.Stocks[0], Sheets: []project.Sheets{{W: 210 * shape.Mm, H: 297 * shape.Mm, Count: 1}},
	}}}
	if err := p.PlanOn(b, ""); err != nil {
		panic(err)
	}
	return p
}

// sheetFindings are findings with those that only sheets and assembly bring about.
func sheetFindings(t *testing.T, p *project.Project) []inspect.Finding {
	t.Helper()
	require.NoError(t, p.Validate())
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	require.NoError(t, engine.PlanSheets(p, plan, engine.Options{}))
	engine.PlanAssembly(p, plan, engine.Options{})
	return plan.Findings
}

// firstOfSheets is the first code that only sheets bring about.
var firstOfSheets = slices.IndexFunc(inspect.Meanings(), func(m inspect.Meaning) bool { return m.Code == inspect.KerfCloses })

func TestEveryCode(t *testing.T) {
	for i, m := range inspect.Meanings() {
		assert.NotEmpty(t, m.Says)
		require.Less(t, i, len(cases), "no case for %s", m.Code)
		c := cases[i]
		require.Equal(t, m.Code, c.code, "cases stand in the codes' order")
		t.Run(string(c.code), func(t *testing.T) {
			look := findings
			if i >= firstOfSheets {
				look = sheetFindings
			}
			f, ok := find(look(t, c.make()), c.code)
			require.True(t, ok, "not found")
			assert.Equal(t, m.Severity, f.Severity)
			assert.Equal(t, c.text, f.Text)
			assert.Equal(t, c.count, f.Count)
			assert.Len(t, f.Places, c.places)
			for _, r := range f.Remedies {
				assert.Contains(t, inspect.Commands(), r.Command)
				assert.NotEmpty(t, r.Text)
				_, err := json.Marshal(r.Args)
				assert.NoError(t, err, "arguments are plain data")
			}
		})
	}
}

// Every sure remedy, carried out, clears the finding that it came with.
func TestSureRemediesOfEveryCode(t *testing.T) {
	for _, c := range cases {
		f, _ := find(findings(t, c.make()), c.code)
		for _, r := range f.Remedies {
			p := c.make()
			carryOut(t, p, r)
			if !r.Sure {
				continue
			}
			left, still := find(planOrNone(t, p), c.code)
			if still && c.code != inspect.StocksAlike {
				assert.NotEqual(t, f.Sprite, left.Sprite, "%s: %s %v: still %q", c.code, r.Command, r.Args, left.Text)
			}
		}
	}
}

func planOrNone(t *testing.T, p *project.Project) []inspect.Finding {
	t.Helper()
	require.NoError(t, p.Validate())
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	return plan.Findings
}

// What is well has nothing but the note on cell sizes.
func TestNothingToFind(t *testing.T) {
	p := drawnProject("rrr rbr rrr")
	p.Sprites[0].Cell = 5000
	for _, f := range findings(t, p) {
		assert.Equal(t, inspect.LeastCell, f.Code, f.Text)
	}
}

func TestFindingsAreSortedGravestFirst(t *testing.T) {
	p := drawnProject("kKk kwk kkk", ".")
	stockOf(p, 'w').Laser = project.LaserNever
	p.Sprites[0].Cell = 2000
	var severities []inspect.Severity
	for _, f := range findings(t, p) {
		severities = append(severities, f.Severity)
	}
	order := []inspect.Severity{inspect.Refuse, inspect.Look, inspect.Note}
	assert.True(t, slices.IsSortedFunc(severities, func(a, b inspect.Severity) int {
		return slices.Index(order, a) - slices.Index(order, b)
	}), "%v", severities)
	assert.Equal(t, inspect.Refuse, severities[0])
}

// A stock's own sheet counts before the settings'; a quarter turn is allowed.
func TestPartTooLarge(t *testing.T) {
	for _, c := range []struct {
		name       string
		cols, rows int
		change     func(*project.Project)
		fits       bool
	}{
		{"just fits", 66, 1, func(*project.Project) {}, true}, // 198 mm in 200 − 0.1
		{"turned", 95, 1, func(*project.Project) {}, true},    // 285 mm in 287 − 0.1
		{"too long", 96, 1, func(*project.Project) {}, false}, // 288 mm
		{"too wide both ways", 67, 67, func(*project.Project) {}, false},
		{"kerf counts", 66, 66, func(p *project.Project) { kerf := shape.Um(2001); p.Settings.Kerf = &kerf }, false},
		{"margin counts", 66, 66, func(p *project.Project) { p.Settings.Margin = 5950 }, true},
		{"margin counts too much", 66, 66, func(p *project.Project) { p.Settings.Margin = 5951 }, false},
		{"the stock's own sheet", 66, 1, func(p *project.Project) { p.Stocks[0].SheetW, p.Stocks[0].SheetH = 100000, 100000 }, false},
	} {
		p := drawnProject("k")
		p.Sprites[0] = project.NewSprite("a", c.cols, c.rows)
		for i := range p.Sprites[0].Frames[0].Cells {
			p.Sprites[0].Frames[0].Cells[i] = 'k'
		}
		c.change(p)
		_, large := find(findings(t, p), inspect.PartTooLarge)
		assert.Equal(t, c.fits, !large, c.name)
	}
}

func TestHostileNamesStayInOneLine(t *testing.T) {
	p := pinned("kkk kwk kkk")
	p.Sprites[0].Name = "x\n\u202ey" + strings.Repeat("z", 100)
	f, _ := find(findings(t, p), inspect.PartTweezers)
	assert.True(t, strings.HasPrefix(f.Text, "“x··yzzz"), f.Text)
	assert.Less(t, len(f.Text), 200)
	assert.Equal(t, p.Sprites[0].Name, f.Sprite)
}
