package main

import (
	"bytes"
	"fmt"
	"os"
	"time"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/export"
	"sheetsprite/export/guide"
)

func main() {
	data, _ := os.ReadFile(os.Args[1])
	p, err := project.Read(bytes.NewReader(data))
	if err != nil {
		panic(err)
	}
	p.Settings.Effort = 1
	if len(os.Args) > 3 {
		p.Sprites = p.Sprites[:3]
		p.Sprites[0].Copies = 2
		p.Settings.Border = 3000
	}
	plan, err := engine.Plan(p, engine.Options{})
	if err != nil {
		panic(err)
	}
	if err := engine.PlanSheets(p, plan, engine.Options{}); err != nil {
		panic(err)
	}
	t := time.Now()
	engine.PlanAssembly(p, plan, engine.Options{})
	fmt.Println("assembly", time.Since(t))
	var pics [][]byte
	for _, s := range plan.Sprites {
		pics = append(pics, export.Picture(s))
	}
	var names []string
	for _, s := range plan.Sheets.List {
		names = append(names, fmt.Sprintf("%s-%d.svg", s.Stock.ID, s.Number))
	}
	t = time.Now()
	b, err := guide.Write(guide.Job{Project: p, Plan: plan, Pictures: pics, Sheets: names, Paper: guide.PaperFor(p)})
	if err != nil {
		panic(err)
	}
	fmt.Println("guide", time.Since(t), len(b))
	os.WriteFile(os.Args[2], b, 0o644)
}
