package nest_test

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// demoJobs are the parts of the demo, a job for each stock, as they are cut.
func demoJobs(t *testing.T) []nest.Job {
	data, err := os.ReadFile("../../testdata/harbour/harbour.json")
	require.NoError(t, err)
	p, err := project.Read(bytes.NewReader(data))
	require.NoError(t, err)
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	at := map[string]int{}
	var jobs []nest.Job
	for _, s := range plan.Sprites {
		for _, l := range s.Layout.Layers {
			stock := s.Stocks[l.Stock]
			i, ok := at[stock.ID]
			if !ok {
				i = len(jobs)
				at[stock.ID] = i
				jobs = append(jobs, nest.Job{Gap: p.Settings.Gap, Supply: nest.Supply{
					Sheets:  []nest.Sheets{{Size: nest.Size{Width: 210 * shape.Mm, Height: 297 * shape.Mm}}},
					Margins: nest.Even(p.Settings.Margin),
				}})
			}
			for _, part := range l.Parts {
				jobs[i].Pieces = append(jobs[i].Pieces, nest.Piece{
					ID: stock.ID, Outline: widened(t, part.Outline, stock.Kerf), Copies: p.Sprites[s.Index].Copies,
				})
			}
		}
	}
	return jobs
}

// widened is the line that is cut for an outline: half the kerf outside it.
func widened(t *testing.T, o shape.Outline, kerf shape.Um) shape.Outline {
	ps := shape.FromPolygons(o.Polygon()).Grow(kerf / 2).Polygons(shape.BySides)
	require.Len(t, ps, 1)
	return ps[0].Outline()
}

// sheetArea is all the card that is no offcut afterwards: whole sheets, and
// the last one up to the highest cut.
func sheetArea(n nest.Nesting) (area shape.Um2) {
	for i, s := range n.Sheets {
		height := s.Size.Height
		if i == len(n.Sheets)-1 {
			height = s.Used.Max.Y
		}
		area += shape.Um2(s.Size.Width) * shape.Um2(height)
	}
	return area
}

func TestTrueShapesTakeLessSheetThanTheirBoxes(t *testing.T) {
	var shapes, boxes shape.Um2
	jobs := demoJobs(t)
	if testing.Short() {
		jobs = jobs[7:12]
	}
	for _, j := range jobs {
		n, err := nest.Nest(j, 3, 2)
		require.NoError(t, err)
		require.Empty(t, n.Unplaced)
		for i, p := range j.Pieces {
			w, h := p.Outline.Bounds().Size()
			j.Pieces[i].Outline = shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}}.Outline()
		}
		b, err := nest.Nest(j, 3, 2)
		require.NoError(t, err)
		shapes, boxes = shapes+sheetArea(n), boxes+sheetArea(b)
		t.Logf("%s: %d pieces, %d sheets, %.1f %% less", j.Pieces[0].ID, len(j.Pieces), len(n.Sheets), 100*(1-float64(sheetArea(n))/float64(sheetArea(b))))
	}
	less := 1 - float64(shapes)/float64(boxes)
	t.Logf("in all %.1f %% less sheet", 100*less)
	assert.GreaterOrEqual(t, less, 0.15)
}
