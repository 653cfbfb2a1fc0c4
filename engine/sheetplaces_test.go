package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// sheetsOf plans a project to its sheets.
func sheetsOf(t *testing.T, p *project.Project) (*Planned, *Sheets) {
	t.Helper()
	require.NoError(t, p.Validate())
	plan, err := Plan(p, Options{})
	require.NoError(t, err)
	require.NoError(t, PlanSheets(p, plan, Options{}))
	return plan, plan.Sheets
}

func has(plan *Planned, c inspect.Code) bool {
	for _, f := range plan.Findings {
		if f.Code == c {
			return true
		}
	}
	return false
}

// harbourish is two sprites, the first in two copies, on A4.
func harbourish() *project.Project {
	p := drawn("kkkkk\nkrrrk\nkrwrk\nkkkkk\n", "ww.\nwrw\nwww\n")
	p.Sprites[0].Copies = 2
	p.Settings.Effort = 0
	return p
}

// Saved places are taken as they are, wherever the search would have put the
// parts; what has no saved place is laid around them.
func TestSavedPlacesAreHonoured(t *testing.T) {
	p := harbourish()
	plan, s := sheetsOf(t, p)
	saved := s.Placements(p, plan)
	require.Len(t, saved, len(s.Parts))
	p.Places = saved
	_, again := sheetsOf(t, p)
	for i := range s.Parts {
		assert.Equal(t, s.Parts[i].Line, again.Parts[i].Line)
		assert.Equal(t, s.Parts[i].Sheet, again.Parts[i].Sheet)
	}
	// One moved by hand to the far corner and turned, another one locked where
	// it reaches into the margin, which can't be.
	moved := saved[0]
	moved.X, moved.Y, moved.Turn, moved.Held = 150*shape.Mm, 250*shape.Mm, 1, project.Moved
	clash := saved[1]
	clash.X, clash.Y, clash.Held = 205*shape.Mm, 250*shape.Mm, project.Locked
	p.Places = []project.Placement{moved, clash}
	plan, s = sheetsOf(t, p)
	assert.Equal(t, shape.Point{X: moved.X, Y: moved.Y}, s.Parts[0].Line.Bounds().Min)
	assert.EqualValues(t, 1, s.Parts[0].Turn)
	assert.True(t, has(plan, inspect.PlacesLost))
	for _, part := range s.Parts {
		assert.GreaterOrEqual(t, part.Sheet, 0)
	}
	kept := s.Placements(p, plan)
	assert.Equal(t, project.Moved, kept[0].Held)
	assert.Equal(t, project.Found, kept[2].Held)
}

// A stock with grain is never turned by a quarter.
func TestGrainIsNotTurned(t *testing.T) {
	turned := 0
	seeds := uint64(6)
	if testing.Short() {
		seeds = 2
	}
	for seed := range seeds {
		p := sheetedProject(seed)
		for i := range p.Stocks {
			p.Stocks[i].Grain = []project.Grain{project.LongGrain, project.ShortGrain}[i%2]
		}
		_, s := sheetsOf(t, p)
		for _, part := range s.Parts {
			assert.Zero(t, part.Turn%2)
		}
		for i := range p.Stocks {
			p.Stocks[i].Grain = project.NoGrain
		}
		_, s = sheetsOf(t, p)
		for _, part := range s.Parts {
			turned += int(part.Turn % 2)
		}
	}
	assert.Positive(t, turned, "without grain some are")
}

// A sprite's parts of one stock share a sheet, copy by copy.
func TestSpritesKeepTogether(t *testing.T) {
	p := harbourish()
	for i := range p.Sprites {
		p.Sprites[i].Cell, p.Sprites[i].Copies = 12*shape.Mm, 5
		p.Sprites[i].Stack.Style = project.SideBySide
	}
	p.Settings.Group, p.Settings.SheetW, p.Settings.SheetH = project.BySprite, 130*shape.Mm, 130*shape.Mm
	_, s := sheetsOf(t, p)
	type key struct {
		sprite, copy int
		stock        string
	}
	on := map[key]int{}
	for _, part := range s.Parts {
		k := key{part.Sprite, part.Copy, s.List[part.Sheet].Stock.ID}
		if sheet, ok := on[k]; ok {
			assert.Equal(t, sheet, part.Sheet, "%v", k)
		}
		on[k] = part.Sheet
	}
	assert.Greater(t, len(s.List), 3)
}

// In register every layer of every copy has a sheet, and all layers of a sprite
// lie at one place, whichever face is up.
func TestInRegister(t *testing.T) {
	for _, face := range []project.Face{project.FaceUp, project.FaceDown} {
		p := harbourish()
		p.Settings.Layout = project.InRegister
		for i := range p.Stocks {
			p.Stocks[i].Face = face
		}
		plan, s := sheetsOf(t, p)
		move := map[int]shape.Point{}
		type layer struct{ sprite, copy, layer int }
		sheet := map[layer]int{}
		for i, part := range s.Parts {
			require.GreaterOrEqual(t, part.Sheet, 0)
			assert.Zero(t, part.Turn)
			if at, ok := move[part.Sprite]; ok {
				assert.Equal(t, at, part.Move, "part %d", i)
			}
			move[part.Sprite] = part.Move
			k := layer{part.Sprite, part.Copy, part.Piece.Layer.Number}
			if n, ok := sheet[k]; ok {
				assert.Equal(t, n, part.Sheet)
			}
			sheet[k] = part.Sheet
		}
		layers := 0
		for _, sp := range plan.Sprites {
			layers += len(sp.Layout.Layers) * p.CopiesOf(sp.Index)
		}
		assert.Len(t, s.List, layers)
	}
}

// Only what is chosen is cut, under the numbers it had; single parts lie on a
// small sheet, or on an offcut where there is one.
func TestChosenOnly(t *testing.T) {
	p := harbourish()
	_, all := sheetsOf(t, p)
	numbers := map[string]bool{}
	for _, part := range all.Parts {
		numbers[part.Piece.Number] = true
	}
	p.Choice.Sprites = []project.Chosen{{Sprite: p.Sprites[1].Name, Copies: 3}}
	plan, s := sheetsOf(t, p)
	require.Len(t, plan.Sprites, 1)
	assert.Len(t, s.Parts, 3*plan.Sprites[0].Parts())
	for _, part := range s.Parts {
		assert.True(t, numbers[part.Piece.Number])
		assert.Equal(t, "B", part.Piece.Number[:1])
	}
	p.Choice = project.Choice{Parts: []string{"A2-1", "B1-1"}}
	_, s = sheetsOf(t, p)
	require.Len(t, s.Parts, 2)
	for _, part := range s.Parts {
		sheet := s.List[part.Sheet]
		w, h := part.Line.Bounds().Size()
		assert.LessOrEqual(t, sheet.Size.Width, w+11*shape.Mm)
		assert.LessOrEqual(t, sheet.Size.Height, h+11*shape.Mm)
	}
	m := project.NewMachine("Laser", project.LaserCutter)
	b := &project.Bench{Machines: []project.Machine{m}}
	for _, st := range p.Stocks {
		b.Shelf = append(b.Shelf, project.Shelf{Stock: st, Offcuts: []project.Offcut{{W: 60 * shape.Mm, H: 40 * shape.Mm}}})
	}
	require.NoError(t, p.PlanOn(b, ""))
	_, s = sheetsOf(t, p)
	for _, sheet := range s.List {
		assert.True(t, sheet.Offcut)
		assert.Equal(t, 60*shape.Mm, sheet.Size.Width)
	}
	p.Choice.Parts = []string{"Z1-1"}
	plan, err := Plan(p, Options{})
	require.NoError(t, err)
	assert.ErrorContains(t, PlanSheets(p, plan, Options{}), `there is no part "Z1-1"`)
}

// What the machine can't reach is kept free, sheets are the shelf's.
func TestSheetsOfTheShelf(t *testing.T) {
	for _, reach := range []shape.Um{0, 3000, 9000} {
		p := harbourish()
		m := project.NewMachine("Laser", project.LaserCutter)
		m.Left, m.Top = reach, reach/2
		b := &project.Bench{Machines: []project.Machine{m}}
		for _, st := range p.Stocks {
			b.Shelf = append(b.Shelf, project.Shelf{
				Stock: st, Offcuts: []project.Offcut{{W: 30 * shape.Mm, H: 45 * shape.Mm}},
				Sheets: []project.Sheets{{W: 70 * shape.Mm, H: 60 * shape.Mm, Count: 1}, {W: 305 * shape.Mm, H: 305 * shape.Mm, Count: 1}},
			})
		}
		require.NoError(t, p.PlanOn(b, ""))
		_, s := sheetsOf(t, p)
		for _, part := range s.Parts {
			require.GreaterOrEqual(t, part.Sheet, 0)
			sheet, box := s.List[part.Sheet], part.Line.Bounds()
			assert.Contains(t, []shape.Um{30 * shape.Mm, 70 * shape.Mm, 305 * shape.Mm}, sheet.Size.Width)
			assert.GreaterOrEqual(t, box.Min.X, max(m.Left, p.Settings.Margin))
			assert.LessOrEqual(t, box.Max.Y, sheet.Size.Height-max(m.Top, p.Settings.Margin))
		}
	}
}

// A search goes on from what it has: never worse, the same however it is cut
// into rounds, and what it holds is always whole sheets.
func TestSearchGoesOn(t *testing.T) {
	p := sheetedProject(3)
	for i := range p.Sprites {
		p.Sprites[i].Copies = 4
	}
	plan, err := Plan(p, Options{})
	require.NoError(t, err)
	before := len(plan.Findings)
	var ends []*Sheets
	for _, step := range []int{1, 3} {
		n, err := StartSheets(p, plan, Options{})
		require.NoError(t, err)
		for range 6 / step * len(n.stocks) {
			n.Improve(step, 1)
		}
		first, _, err := n.Best(Options{})
		require.NoError(t, err)
		again, _, err := n.Best(Options{})
		require.NoError(t, err)
		assert.Equal(t, first.Parts, again.Parts, "asking changes nothing")
		ends = append(ends, first)
	}
	assert.Equal(t, len(ends[0].List), len(ends[1].List))
	for i := range ends[0].Parts {
		assert.Equal(t, ends[0].Parts[i].Line, ends[1].Parts[i].Line)
	}
	assert.Len(t, plan.Findings, before, "the plan stays as it is")
	require.NoError(t, PlanSheets(p, plan, Options{}))
	n := len(plan.Findings)
	require.NoError(t, PlanSheets(p, plan, Options{}))
	assert.Len(t, plan.Findings, n, "planned again, nothing is found twice")
}

// A part that is dropped on another snaps to the nearest free place; saved
// there, it is found there.
func TestSnap(t *testing.T) {
	p := harbourish()
	plan, s := sheetsOf(t, p)
	saved := s.Placements(p, plan)
	moved := 0
	for i, want := range saved {
		if testing.Short() && i%8 > 0 {
			continue
		}
		for _, at := range []shape.Point{{X: 0, Y: 0}, {X: 60 * shape.Mm, Y: 100 * shape.Mm}, {X: 209 * shape.Mm, Y: 296 * shape.Mm}} {
			want.X, want.Y, want.Turn = at.X, at.Y, 1
			got, ok := s.Snap(p, plan, want)
			require.True(t, ok)
			got.Held = project.Moved
			q := *p
			q.Places = append(append([]project.Placement{}, saved[:i]...), saved[i+1:]...)
			q.Places = append(q.Places, got)
			again, t2 := sheetsOf(t, &q)
			assert.False(t, has(again, inspect.PlacesLost))
			assert.Equal(t, shape.Point{X: got.X, Y: got.Y}, t2.Parts[i].Line.Bounds().Min)
			if got.X != at.X {
				moved++
			}
		}
	}
	assert.Positive(t, moved)
	_, ok := s.Snap(p, plan, project.Placement{Sprite: "nobody", Part: "A1-1", Stock: saved[0].Stock, Copy: 1, Sheet: 1})
	assert.False(t, ok)
}
