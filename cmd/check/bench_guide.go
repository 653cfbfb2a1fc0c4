package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"runtime"
	"time"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/export"
	"sheetsprite/export/guide"
)

// What the guide of twenty sprites with four hundred parts may take.
const (
	mostToGuide   = 2 * time.Second
	mostGuideSize = 8_000_000 // bytes
)

// benchGuide writes the guide of twenty sprites of the demo, with more than four
// hundred parts, and that of one drawing of noise, which has most parts for its
// size; each with the pictures that its bundle holds.
func benchGuide(log func(string, ...any)) outcome {
	t := &tally{log: log}
	for _, c := range []struct {
		what   string
		change func(p *project.Project)
	}{
		{"20 sprites", twenty},
		{"noise of 100×100 cells", noise},
	} {
		j, err := guideJob(c.change)
		if err != nil {
			return single(err, "")
		}
		var pdf []byte
		took := measure(func() { pdf, err = guide.Write(j) })
		if err != nil {
			return single(err, "")
		}
		parts := fmt.Sprintf("%s, %d parts: ", c.what, len(j.Plan.Sheets.Parts))
		t.within(parts+"guide", took, mostToGuide)
		t.judge(len(pdf) <= mostGuideSize, "%sguide of %.1f MB (at most %d)", parts, float64(len(pdf))/1e6, mostGuideSize/1_000_000)
	}
	return t.outcome
}

// twenty makes twenty sprites of the demo's, some of them side by side and all
// corners apart, so that they have enough parts.
func twenty(p *project.Project) {
	for i := 0; len(p.Sprites) < 20; i++ {
		s := p.Sprites[i]
		s.Name += " again"
		p.Sprites = append(p.Sprites, s)
	}
	p.Settings.Corners = project.Apart
	for i := range p.Sprites {
		p.Sprites[i].Stack.Style = []project.Style{project.SideBySide, project.Fewest, project.Fewest, project.Fewest}[i%4]
	}
}

// noise is a drawing of four colours by chance.
func noise(p *project.Project) {
	random := rand.New(rand.NewPCG(100, 3))
	s := project.NewSprite("spray", 100, 100)
	for i := range s.Frames[0].Cells {
		s.Frames[0].Cells[i] = p.Palette[random.IntN(4)].Key
	}
	p.Sprites = []project.Sprite{s}
}

// guideJob is a changed demo with all that its guide is made from.
func guideJob(change func(p *project.Project)) (guide.Job, error) {
	file, err := os.Open(goldenProject)
	if err != nil {
		return guide.Job{}, err
	}
	defer file.Close()
	p, err := project.Read(file)
	if err != nil {
		return guide.Job{}, err
	}
	p.Settings.Effort = 0
	change(p)
	o := engine.Options{Workers: runtime.GOMAXPROCS(0)}
	plan, err := engine.Plan(p, o)
	if err != nil {
		return guide.Job{}, err
	}
	if err := engine.PlanSheets(p, plan, o); err != nil {
		return guide.Job{}, err
	}
	engine.PlanAssembly(p, plan, o)
	job := export.Job{Project: p, Plan: plan}
	j := guide.Job{Project: p, Plan: plan, Paper: guide.PaperFor(p)}
	for _, files := range export.SheetPaths(job) {
		j.Sheets = append(j.Sheets, files[1])
	}
	bundle, err := export.Build(job)
	if err != nil {
		return guide.Job{}, err
	}
	j.Pictures, err = picturesOf(bundle)
	return j, err
}

// picturesOf are the sprites' pictures in a bundle, in its manifest's order.
func picturesOf(bundle []byte) ([][]byte, error) {
	z, err := zip.NewReader(bytes.NewReader(bundle), int64(len(bundle)))
	if err != nil {
		return nil, err
	}
	read := func(name string) ([]byte, error) {
		f, err := z.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		return io.ReadAll(f)
	}
	var job struct{ Sprites []struct{ Picture string } }
	data, err := read("job.json")
	if err == nil {
		err = json.Unmarshal(data, &job)
	}
	if err != nil {
		return nil, err
	}
	var out [][]byte
	for _, s := range job.Sprites {
		data, err := read(s.Picture)
		if err != nil {
			return nil, err
		}
		out = append(out, data)
	}
	return out, nil
}
