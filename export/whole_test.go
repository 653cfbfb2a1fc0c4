package export

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// allWhole marks all layers of a project to be left whole.
func allWhole(p *project.Project) {
	for i := range p.Sprites {
		for h := 1; h <= 6; h++ {
			for _, st := range p.Stocks {
				p.Sprites[i].Stack.Whole = append(p.Sprites[i].Stack.Whole, project.Whole{Height: h, Stock: st.ID})
			}
		}
	}
}

// Layers that are left whole: all parts at their true places relative to one another,
// in one frame, held by tabs, laid in one step; all read back. What can't be is told.
func TestLayersAreLeftWhole(t *testing.T) {
	rounds := uint64(12)
	if testing.Short() {
		rounds = 4
	}
	framed, told := 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 71))
		p := randomSheeted(seed)
		p.Settings.SheetW, p.Settings.SheetH = 300*shape.Mm, 300*shape.Mm
		p.Settings.Gap = []shape.Um{0, 500, 1000, 3000}[r.IntN(4)]
		p.Settings.Hold = []project.Hold{project.Tabs, project.Light}[r.IntN(2)]
		p.Settings.Layout = project.Nested
		allWhole(p)
		j := sheeted(t, p)
		bundle := unpainted(t, j)
		require.NoError(t, readback.Check(bundle, p), "seed %d", seed)
		for _, f := range j.Plan.Findings {
			if f.Code == inspect.LayerNotWhole {
				told++
			}
		}
		frames := 0
		for i := range j.Plan.Sheets.List {
			for _, f := range j.Plan.Sheets.List[i].Frames {
				frames++
				checkFrame(t, p, j.Plan, &j.Plan.Sheets.List[i], f)
			}
		}
		framed += frames
		_, data := contents(t, bundle)
		require.Equal(t, frames, strings.Count(data["job.json"], `"tabs": `)-len(j.Plan.Sheets.Parts), "seed %d", seed)
		again, err := project.Read(strings.NewReader(data["project.json"]))
		require.NoError(t, err)
		require.Equal(t, bundle, unpainted(t, sheeted(t, again)), "seed %d", seed)
		// Places that are saved hold for frames, too; a part moved takes all along.
		p.Places = j.Plan.Sheets.Placements(p, j.Plan)
		for _, q := range p.Places {
			got, ok := j.Plan.Sheets.Snap(p, j.Plan, q)
			require.True(t, ok, "seed %d, %s", seed, q.Part)
			require.Equal(t, [2]shape.Um{q.X, q.Y}, [2]shape.Um{got.X, got.Y}, "where it lies is free for it")
		}
		moved := sheeted(t, p)
		require.False(t, slices.ContainsFunc(moved.Plan.Findings, func(f inspect.Finding) bool { return f.Code == inspect.PlacesLost }), "seed %d", seed)
		for k := range moved.Plan.Sheets.Parts {
			require.Equal(t, j.Plan.Sheets.Parts[k].Line, moved.Plan.Sheets.Parts[k].Line, "seed %d", seed)
		}
	}
	assert.Greater(t, framed, int(rounds))
	assert.Positive(t, told)
}

func checkFrame(t *testing.T, p *project.Project, plan *engine.Planned, sh *engine.Sheet, f engine.FrameOn) {
	t.Helper()
	require.Len(t, f.Members, len(f.Layer.Parts))
	require.NotEqual(t, p.Settings.Hold == project.Tabs && plan.Sheets.Machine.Kind == project.LaserCutter, len(f.Piece.Tabs) == 0)
	frame := shape.FromPolygons(f.Line.Polygon())
	var all shape.Region
	area := shape.Um2(0)
	first := plan.Sheets.Parts[f.Members[0]]
	for _, i := range f.Members {
		part := plan.Sheets.Parts[i]
		require.Equal(t, f.Layer.Number, part.Piece.Layer.Number)
		require.Equal(t, []any{first.Sprite, first.Copy, first.Sheet, first.Turn, first.Move}, []any{part.Sprite, part.Copy, part.Sheet, part.Turn, part.Move})
		require.True(t, slices.ContainsFunc(part.Piece.Tabs, func(tab cut.Tab) bool { return tab.Contour == 0 }), part.Piece.Number)
		if part.Piece.Straight() {
			own := shape.FromPolygons(part.Line.Polygon())
			require.True(t, own.Subtract(frame.Shrink(5*shape.Mm-1)).Empty())
			all = all.Union(own)
			area += own.Area()
		}
	}
	require.Equal(t, area, all.Area(), "none over another")
	// Every part that is at the same height of the sprite lies as it will lie: distances
	// between the parts' bounds are the layout's, but for turn and mirror.
	if sh.Face != project.FaceDown && first.Turn == 0 {
		for _, i := range f.Members {
			part := plan.Sheets.Parts[i]
			require.Equal(t, part.Piece.Line.Bounds().Min.Sub(first.Piece.Line.Bounds().Min), part.Line.Bounds().Min.Sub(first.Line.Bounds().Min))
		}
	}
	// One step lays them all.
	if f.Copy == 1 {
		for _, step := range plan.Assembly[f.Sprite].Steps {
			if plan.Sprites[f.Sprite].Layout.Layers[step.Layer].Number == f.Layer.Number {
				require.Len(t, step.Parts, len(f.Members))
			}
		}
	}
}

// A frame that the project doesn't want, or with a part astray, lets no bundle out.
func TestFramesAreReadBack(t *testing.T) {
	p := drawn(5000, grid("aaaaaaa", "abbacca", "aaaaaaa", "abbaaba", "aaaaaaa"))
	p.Sprites[0].Stack.Highest = "b"
	allWhole(p)
	j := sheeted(t, p)
	bundle := unpainted(t, j)
	require.NoError(t, readback.Check(bundle, p))
	_, data := contents(t, bundle)
	require.Contains(t, data["job.json"], `"frames"`)
	var m map[string]any
	require.NoError(t, json.Unmarshal([]byte(data["job.json"]), &m))
	unmarked := *p
	unmarked.Sprites = slices.Clone(p.Sprites)
	unmarked.Sprites[0].Stack.Whole = nil
	assert.ErrorContains(t, readback.Check(bundle, &unmarked), "isn't wanted")
	for old, now := range map[string]string{
		`"tabs": 2,` + "\n          \"parts\"": `"tabs": 1,` + "\n          \"parts\"",
		"\"A2-1\",\n            ":              "",
	} {
		if strings.Contains(data["job.json"], old) {
			assert.Error(t, readback.Check(edited(t, bundle, "job.json", func(s string) string { return strings.Replace(s, old, now, 1) }), p), old)
		}
	}
	// A part moved by 1 µm in its frame, in files and manifest alike.
	k := sheeted(t, p)
	sheets := k.Plan.Sheets
	at := slices.IndexFunc(sheets.Parts, func(q engine.Part) bool { return q.Frame != nil })
	require.GreaterOrEqual(t, at, 0)
	sheets.Parts[at].Move = sheets.Parts[at].Move.Add(shape.Point{X: 1})
	assert.ErrorContains(t, readback.Check(unpainted(t, k), p), "true place")
}
