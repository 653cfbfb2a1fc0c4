package guide

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// harbour is a job of the first sprites of the demo, with changes, all but its
// pictures.
func harbour(t testing.TB, sprites int, change func(p *project.Project)) Job {
	t.Helper()
	data, err := os.ReadFile("../../testdata/harbour/harbour.json")
	require.NoError(t, err)
	p, err := project.Read(bytes.NewReader(data))
	require.NoError(t, err)
	p.Sprites = p.Sprites[:min(sprites, len(p.Sprites))]
	p.Settings.Effort = 0
	if change != nil {
		change(p)
	}
	return job(t, p)
}

func job(t testing.TB, p *project.Project) Job {
	t.Helper()
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	require.NoError(t, engine.PlanSheets(p, plan, engine.Options{}))
	engine.PlanAssembly(p, plan, engine.Options{})
	var dot bytes.Buffer
	require.NoError(t, png.Encode(&dot, image.NewRGBA(image.Rect(0, 0, 1, 1))))
	j := Job{Project: p, Plan: plan, Paper: PaperFor(p)}
	for range plan.Sprites {
		j.Pictures = append(j.Pictures, dot.Bytes())
	}
	for _, s := range plan.Sheets.List {
		j.Sheets = append(j.Sheets, s.Stock.ID+".svg")
	}
	return j
}

// One sprite: what each bundle costs at the least.
func BenchmarkGuideOfOneSprite(b *testing.B) {
	j := harbour(b, 1, nil)
	for b.Loop() {
		if _, err := Write(j); err != nil {
			b.Fatal(err)
		}
	}
}

// Twenty sprites with over four hundred parts: promised in under two seconds and
// 8 MB.
func BenchmarkGuideOf20Sprites(b *testing.B) {
	j := harbour(b, 20, func(p *project.Project) {
		for len(p.Sprites) < 20 {
			s := p.Sprites[len(p.Sprites)%12]
			s.Name += " again"
			p.Sprites = append(p.Sprites, s)
		}
		p.Settings.Corners = project.Apart
		for i := range p.Sprites {
			p.Sprites[i].Stack.Style = []project.Style{project.SideBySide, project.Fewest}[i%2]
		}
	})
	for b.Loop() {
		data, err := Write(j)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "bytes")
		b.ReportMetric(float64(len(j.Plan.Sheets.Parts)), "parts")
	}
}
