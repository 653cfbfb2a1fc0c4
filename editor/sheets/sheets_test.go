package sheets_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor"
	"sheetsprite/editor/sheets"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/export"
)

// buoy is a small project, laid on sheets.
func buoy(t *testing.T, change func(*project.Project)) (*project.Project, *engine.Planned, sheets.Model) {
	t.Helper()
	p := editor.StarterProject()
	s := project.NewSprite("Buoy", 9, 7)
	s.Frames[0].Cells = []byte(strings.Join(strings.Fields(`
		....A....
		...ACA...
		...ACA...
		..ABBBA..
		..ACCCA..
		.ACCCCCA.
		.AAAAAAA.`), ""))
	s.Copies = 3
	p.Sprites = []project.Sprite{s}
	change(p)
	require.NoError(t, p.Validate())
	planned, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	require.NoError(t, engine.PlanSheets(p, planned, engine.Options{}))
	return p, planned, sheets.Build(p, planned, export.SheetPaths(export.Job{Project: p, Plan: planned}))
}

func TestEveryPartIsThereOncePerCopyWithinItsSheet(t *testing.T) {
	for _, face := range []project.Face{project.FaceUp, project.FaceDown} {
		_, planned, m := buoy(t, func(p *project.Project) {
			for i := range p.Stocks {
				p.Stocks[i].Face = face
			}
		})
		require.Len(t, m.Parts, 3*planned.Sprites[0].Parts())
		seen := map[string]int{}
		for _, part := range m.Parts {
			seen[part.Number]++
			require.GreaterOrEqual(t, part.Sheet, 0)
			sheet := m.Sheets[part.Sheet]
			assert.Equal(t, sheet.Stock, part.Stock)
			assert.GreaterOrEqual(t, part.X, sheet.Inner[0])
			assert.GreaterOrEqual(t, part.Y, sheet.Inner[1])
			assert.LessOrEqual(t, part.X+part.Width, sheet.Inner[0]+sheet.Inner[2]+1e-9)
			assert.LessOrEqual(t, part.Y+part.Height, sheet.Inner[1]+sheet.Inner[3]+1e-9)
			assert.GreaterOrEqual(t, part.Label[0], part.X)
			assert.LessOrEqual(t, part.Label[0]+part.Label[2]/2, part.X+part.Width+1e-9)
			assert.True(t, strings.HasPrefix(part.Path, "M") && strings.HasSuffix(part.Path, "Z"), part.Path)
		}
		for number, n := range seen {
			assert.Equal(t, 3, n, number)
		}
		for _, sheet := range m.Sheets {
			assert.Equal(t, string(face), sheet.Face)
			require.GreaterOrEqual(t, len(sheet.Files), 2)
			assert.True(t, strings.HasSuffix(sheet.Files[0], ".dxf"))
			assert.NotEmpty(t, sheet.Strokes)
		}
	}
}

// What is ticked off as cut is told by a sheet's print: another place gives
// another print, the same project the same.
func TestAPrintChangesWithTheSheet(t *testing.T) {
	same := func(*project.Project) {}
	p, planned, m := buoy(t, same)
	_, _, again := buoy(t, same)
	require.Equal(t, m.Sheets, again.Sheets)

	places := planned.Sheets.Placements(p, planned)
	want := places[0]
	want.X, want.Y = want.X+30_000, want.Y+40_000
	got, ok := planned.Sheets.Snap(p, planned, want)
	require.True(t, ok)
	got.Held = project.Locked
	places[0] = got
	_, _, moved := buoy(t, func(p *project.Project) { p.Places = places })
	assert.Equal(t, "locked", moved.Parts[0].Held)
	changed := moved.Parts[0].Sheet
	for i, sheet := range moved.Sheets {
		assert.Equal(t, i != changed, sheet.Print == m.Sheets[i].Print, sheet.Name)
	}
	for i, part := range moved.Parts[1:] {
		assert.Equal(t, m.Parts[i+1].Path, part.Path, "nothing else moves")
	}
}

func TestOnlyWhatIsCutAgainIsThere(t *testing.T) {
	_, _, all := buoy(t, func(*project.Project) {})
	number := all.Parts[1].Number
	_, _, m := buoy(t, func(p *project.Project) { p.Choice.Parts = []string{number} })
	require.Len(t, m.Sheets, 1)
	require.Len(t, m.Parts, 1)
	assert.Equal(t, number, m.Parts[0].Number)
	assert.Less(t, m.Sheets[0].Height, all.Sheets[0].Height, "a small sheet for one part")
}
