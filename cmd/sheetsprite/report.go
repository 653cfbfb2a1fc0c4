package main

import (
	"fmt"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// report is what inspect --json prints. Names and meanings are those of
// job.json where it has them.
type report struct {
	Format   string          `json:"format"`
	Version  int             `json:"version"`
	Sprites  []reportSprite  `json:"sprites"`
	Totals   reportTotals    `json:"totals"`
	Findings []reportFinding `json:"findings"`
}

// reportSprite counts one copy.
type reportSprite struct {
	Name         string `json:"name"`
	Copies       int    `json:"copies"`
	Cell         mm     `json:"cell_mm"`
	GridCells    [2]int `json:"grid_cells"`
	Size         [2]mm  `json:"size_mm"`
	Colours      int    `json:"colours"`
	Parts        int    `json:"parts"`
	PartsByPatch int    `json:"parts_by_patch"`
	Heights      int    `json:"heights"`
	Corner       mm2    `json:"corner_mm2"`
}

// reportTotals counts all copies.
type reportTotals struct {
	Sprites      int `json:"sprites"`
	Colours      int `json:"colours"`
	Parts        int `json:"parts"`
	PartsByPatch int `json:"parts_by_patch"`
}

type reportFinding struct {
	Code     inspect.Code     `json:"code"`
	Severity inspect.Severity `json:"severity"`
	Text     string           `json:"text"`
	Sprite   string           `json:"sprite,omitempty"`
	Layer    int              `json:"layer,omitempty"`
	Part     string           `json:"part,omitempty"`
	At       *[2]mm           `json:"at_mm,omitempty"`
	Count    int              `json:"count"`
	Places   []reportPlace    `json:"places,omitempty"`
	Remedies []reportRemedy   `json:"remedies,omitempty"`
}

type reportPlace struct {
	Sprite string `json:"sprite"`
	Layer  int    `json:"layer,omitempty"`
	Part   string `json:"part,omitempty"`
	At     *[2]mm `json:"at_mm,omitempty"`
}

type reportRemedy struct {
	Command inspect.Command `json:"command"`
	Args    map[string]any  `json:"args"`
	Asks    []string        `json:"asks,omitempty"`
	Text    string          `json:"text"`
	Sure    bool            `json:"sure"`
}

// mm is a length that JSON shows in millimetres.
type mm shape.Um

func (m mm) String() string               { return project.FormatMm(shape.Um(m)) }
func (m mm) MarshalJSON() ([]byte, error) { return []byte(m.String()), nil }

// mm2 is an area that JSON shows in square millimetres.
type mm2 shape.Um2

func newReport(p *project.Project, plan *engine.Planned) report {
	r := report{Format: "sheetsprite-inspection", Version: 1, Sprites: []reportSprite{}, Findings: []reportFinding{}}
	stocks := map[string]bool{}
	for _, s := range plan.Sprites {
		src, copies := &p.Sprites[s.Index], p.CopiesOf(s.Index)
		colours := map[string]bool{}
		for _, part := range s.Forest.Parts {
			id := s.Stocks[part.Colour-1].ID
			colours[id], stocks[id] = true, true
		}
		r.Sprites = append(r.Sprites, reportSprite{
			Name: src.Name, Copies: copies, Cell: mm(src.Cell), GridCells: [2]int{src.W, src.H},
			Size:    [2]mm{mm(s.Layout.Size.X), mm(s.Layout.Size.Y)},
			Colours: len(colours), Parts: s.Parts(), PartsByPatch: s.PartsByPatch,
			Heights: s.Layout.Heights, Corner: mm2(s.Layout.Corner),
		})
		r.Totals.Sprites += copies
		r.Totals.Parts += copies * s.Parts()
		r.Totals.PartsByPatch += copies * s.PartsByPatch
	}
	r.Totals.Colours = len(stocks)
	for _, f := range plan.Findings {
		r.Findings = append(r.Findings, newReportFinding(f))
	}
	return r
}

func newReportFinding(f inspect.Finding) reportFinding {
	g := reportFinding{
		Code: f.Code, Severity: f.Severity, Text: f.Text, Sprite: f.Sprite, Layer: f.Layer, Part: f.Part, Count: f.Count,
	}
	for _, q := range f.Places {
		place := reportPlace{Sprite: q.Sprite}
		if q.Layer > 0 {
			place.Layer, place.Part = q.Layer, q.Part
			place.At = &[2]mm{mm(q.At.X), mm(q.At.Y)}
		}
		g.Places = append(g.Places, place)
	}
	if len(g.Places) == 1 {
		g.At = g.Places[0].At
	}
	for _, r := range f.Remedies {
		g.Remedies = append(g.Remedies, reportRemedy{r.Command, r.Args, r.Asks, r.Text, r.Sure})
	}
	return g
}

// MarshalJSON writes at most 6 decimals.
func (a mm2) MarshalJSON() ([]byte, error) {
	text := fmt.Sprintf("%d.%06d", int64(a)/1e6, int64(a)%1e6)
	return []byte(strings.TrimSuffix(strings.TrimRight(text, "0"), ".")), nil
}
