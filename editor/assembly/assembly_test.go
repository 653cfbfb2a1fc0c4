package assembly_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor"
	"sheetsprite/editor/assembly"
	"sheetsprite/editor/plan"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

const buoyRows = `
	....A....
	...ACA...
	...ACA...
	..ABBBA..
	..ACCCA..
	.ACCCCCA.
	.AAAAAAA.`

// job is a project of one drawing, planned, with its model.
func job(t *testing.T, rows string, change func(*project.Project)) (*project.Project, *engine.Planned, assembly.Model, plan.Assembly) {
	t.Helper()
	lines := strings.Fields(rows)
	p := editor.StarterProject()
	s := project.NewSprite("Buoy", len(lines[0]), len(lines))
	s.Frames[0].Cells = []byte(strings.Join(lines, ""))
	s.Copies = 2
	p.Sprites = []project.Sprite{s}
	change(p)
	require.NoError(t, p.Validate())
	planned, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	require.NoError(t, engine.PlanSheets(p, planned, engine.Options{}))
	engine.PlanAssembly(p, planned, engine.Options{})
	m, told := assembly.Build(p, planned)
	return p, planned, m, told
}

func asItIs(*project.Project) {}

// The model is the guide's: every part in exactly one step, on what lies there
// already, on its sheet once per copy, its number within its outline's bounds.
func TestEveryPartIsInOneStepOnWhatLiesThere(t *testing.T) {
	drawings := []string{buoyRows}
	rounds := 6
	if testing.Short() {
		rounds = 1
	}
	for seed := range rounds {
		drawings = append(drawings, text(stacktest.Sprite32(seed, 5)))
	}
	for n, rows := range drawings {
		for _, face := range []project.Face{project.FaceUp, project.FaceDown}[n%2 : 1+n%2] {
			_, planned, m, told := job(t, rows, func(p *project.Project) {
				for i := range p.Stocks {
					p.Stocks[i].Face = face
				}
				p.Settings.Effort = 0
				p.Sprites[0].Stack.Float, p.Sprites[0].Stack.FloatBy = 2, 1000
			})
			what := fmt.Sprint(n, face)
			require.Len(t, m.Sprites, 1, what)
			s := m.Sprites[0]
			require.Len(t, s.Parts, planned.Sprites[0].Parts(), what)
			require.Len(t, told.Sprites[0].Parts, len(s.Parts), what)
			placed := make([]bool, len(s.Parts))
			pads := 0
			for k, step := range s.Steps {
				require.Equal(t, step.Parts, told.Sprites[0].Steps[k], what)
				for _, i := range step.Parts {
					part := s.Parts[i]
					require.False(t, placed[i], what)
					require.True(t, part.On < 0 || placed[part.On], what)
					require.Equal(t, []int{step.Stock, step.Level}, []int{part.Stock, part.Level}, what)
				}
				for _, i := range step.Parts {
					placed[i] = true
				}
				pads += step.Pads
			}
			require.NotContains(t, placed, false, what)
			built := planned.Assembly[0]
			want := 0
			for _, b := range built.Parts {
				want += len(b.Pads) + len(b.Spacers)
			}
			require.Equal(t, want, pads, what)
			numbers := map[string]bool{}
			for i, part := range s.Parts {
				require.False(t, numbers[part.Number], what)
				numbers[part.Number] = true
				require.Equal(t, part.Number, told.Sprites[0].Parts[i].Number)
				require.Len(t, part.Places, s.Copies, what)
				require.True(t, strings.HasPrefix(part.Path, "M") && strings.HasSuffix(part.Path, "Z"), part.Path)
				require.True(t, part.Label[0] >= 0 && part.Label[0] <= s.Width && part.Label[1] >= 0 && part.Label[1] <= s.Height, what)
				for _, place := range part.Places {
					require.Equal(t, s.Stocks[part.Stock].Name, m.Sheets[place.Sheet].Name, what)
					require.Equal(t, s.Stocks[part.Stock].Face, m.Sheets[place.Sheet].Face, what)
				}
			}
		}
	}
}

// Pins, frames and spacers stand in the step that they belong to, as the plan has them.
func TestStepsTellOfPinsFramesAndSpacers(t *testing.T) {
	_, planned, m, _ := job(t, `
		AAAAAAAAAAAA
		ABBBACCABBBA
		ABBBACCABBBA
		ABBBAAAABBBA
		AAAAAAAAAAAA`, func(p *project.Project) {
		p.Sprites[0].Cell, p.Settings.Pins = 5000, 1000
		p.Settings.SheetW, p.Settings.SheetH = 95*shape.Mm, 60*shape.Mm // one frame's room
		p.Sprites[0].Stack.Highest = "BC"
		for _, st := range p.Stocks {
			p.Sprites[0].Stack.Whole = append(p.Sprites[0].Stack.Whole, project.Whole{Height: 2, Stock: st.ID})
		}
		p.Sprites[0].Stack.FoamStock = p.Stocks[0].ID
		p.Sprites[0].Stack.Jigs = []project.Jig{{Height: 2, Stock: p.Stocks[0].ID}}
	})
	require.Len(t, planned.Sheets.Jigs, 1)
	s := m.Sprites[0]
	pins, frames, ends, spacers := 0, 0, 0, 0
	for _, step := range s.Steps {
		if step.Pins != nil {
			pins++
			assert.Equal(t, 1.0, step.Pins.Thick)
			for k, pin := range planned.Sprites[0].Pins {
				require.Len(t, step.Pins.Through[k], len(pin.Parts))
				for n, i := range step.Pins.Through[k] {
					assert.Equal(t, planned.Sprites[0].Numbers[pin.Parts[n]], s.Parts[i].Number)
				}
			}
			assert.Contains(t, step.Parts, step.Pins.Through[0][0], "before the first part goes down")
		}
		if step.Frame != nil {
			frames++
			assert.Greater(t, len(step.Parts), 1)
			require.Len(t, step.Frame.Sheets, 2)
			assert.NotEqual(t, step.Frame.Sheets[0], step.Frame.Sheets[1], "each copy's frame lies on a sheet of its own")
			for n, sheet := range step.Frame.Sheets {
				assert.Equal(t, s.Stocks[step.Stock].Name, m.Sheets[sheet].Name)
				for _, i := range step.Parts {
					assert.Equal(t, sheet, s.Parts[i].Places[n].Sheet)
				}
			}
		}
		require.Equal(t, step.Level == 2, step.Jig != nil)
		if step.Jig != nil {
			assert.Equal(t, float64(planned.Sheets.Jigs[0].Pack)/1000, step.Jig.Pack)
		}
		ends += len(step.Ends)
		for _, i := range step.Parts {
			spacers += len(s.Parts[i].Lifts)
		}
	}
	assert.Equal(t, []int{1, 1}, []int{pins, frames})
	assert.Positive(t, ends)
	assert.Equal(t, len(planned.Sprites[0].Numbers)-planned.Sprites[0].Parts(), spacers)
	assert.Positive(t, spacers)
}

// text is a drawing's rows, with the starter's keys.
func text(d stack.Drawing) string {
	var b strings.Builder
	for y := range d.H {
		for x := range d.W {
			b.WriteByte(".ABCDEFGH"[d.At(x, y)])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// prints are the prints of parts by number.
func prints(told plan.Assembly) map[string]string {
	out := map[string]string{}
	for _, p := range told.Sprites[0].Parts {
		out[p.Number] = p.Print
	}
	return out
}

func TestAPrintTellsThePieceOfCardAndNothingElse(t *testing.T) {
	_, _, _, told := job(t, buoyRows, asItIs)
	was := prints(told)
	require.GreaterOrEqual(t, len(was), 3)
	same := func(what, rows string, change func(*project.Project)) map[string]string {
		_, _, _, told := job(t, rows, change)
		now := prints(told)
		require.Len(t, now, len(was), what)
		return now
	}
	assert.Equal(t, was, same("moved on the grid", `
		...........
		.....A.....
		....ACA....
		....ACA....
		...ABBBA...
		...ACCCA...
		..ACCCCCA..
		..AAAAAAA..`, asItIs))
	assert.Equal(t, was, same("another kerf", buoyRows, func(p *project.Project) {
		for i := range p.Stocks {
			p.Stocks[i].Kerf = 150
		}
	}))
	larger := same("larger cells", buoyRows, func(p *project.Project) { p.Sprites[0].Cell = 4000 })
	other := same("other red", buoyRows, func(p *project.Project) {
		for i := range p.Palette {
			if p.Palette[i].Key == 'C' {
				p.Palette[i].Stock = p.Stocks[4].ID
			}
		}
	})
	for number, print := range was {
		assert.NotEqual(t, print, larger[number], number)
	}
	different := 0
	for number, print := range was {
		if other[number] != print {
			different++
		}
	}
	assert.Positive(t, different, "cut from another card")
	assert.Less(t, different, len(was), "all others are the same")
}

func TestSingleSpritesAndCopiesOfTonight(t *testing.T) {
	_, _, m, told := job(t, buoyRows, func(p *project.Project) {
		p.Choice.Sprites = []project.Chosen{{Sprite: "Buoy", Copies: 3}}
	})
	assert.Equal(t, 3, m.Sprites[0].Copies)
	assert.Equal(t, 3, told.Sprites[0].Copies)
	assert.Len(t, m.Sprites[0].Parts[0].Places, 3)
}
