package export

import (
	"bytes"
	"encoding/json"
	"slices"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// manifest is job.json: what the bundle holds and what it adds up to. Fields
// may be added; none changes its name or meaning.
type manifest struct {
	Format   string            `json:"format"`
	Version  int               `json:"version"`
	Sprites  []manifestSprite  `json:"sprites"`
	Guide    string            `json:"guide,omitempty"` // once there are sheets
	Sheets   []manifestSheet   `json:"sheets"`
	Jigs     []manifestJig     `json:"jigs,omitempty"`
	Stocks   []manifestStock   `json:"stocks,omitempty"`
	Parts    []manifestPart    `json:"parts,omitempty"` // once there are sheets
	Totals   manifestTotals    `json:"totals"`
	Findings []manifestFinding `json:"findings"`
}

// manifestSprite counts one copy.
type manifestSprite struct {
	Name         string          `json:"name"`
	Copies       int             `json:"copies"`
	Cell         mmNumber        `json:"cell_mm"`
	Size         [2]mmNumber     `json:"size_mm"`
	GridCells    [2]int          `json:"grid_cells"`
	GridOrigin   [2]mmNumber     `json:"grid_origin_mm"`
	Picture      string          `json:"picture"`
	All          string          `json:"all_dxf"`
	Layers       []manifestLayer `json:"layers"`
	Spacers      []manifestLayer `json:"spacers,omitempty"` // pieces under what floats, as layers but in no count of parts
	Pins         []manifestPin   `json:"pins,omitempty"`
	Parts        int             `json:"parts"`
	PartsByPatch int             `json:"parts_by_patch"`
	Heights      int             `json:"heights"`
	Corner       mm2Number       `json:"corner_mm2"`
}

type manifestLayer struct {
	Layer  int      `json:"layer"`
	Height int      `json:"height"`
	Stock  string   `json:"stock"` // the stock's ID in project.json
	Colour string   `json:"colour"`
	DXF    string   `json:"dxf"`
	SVG    string   `json:"svg"`
	Parts  int      `json:"parts"`
	Cut    mmNumber `json:"cut_mm"`
	Joins  int      `json:"joins"`
}

// manifestPin is a square hole for a pin through some of a sprite's parts.
type manifestPin struct {
	At    [2]mmNumber `json:"at_mm"` // its middle, rounded down to the µm
	Side  mmNumber    `json:"side_mm"`
	Parts []string    `json:"parts"` // that have the hole, lowest first
	Under string      `json:"under"` // the part that hides it
}

// manifestTotals counts all copies.
type manifestTotals struct {
	Parts        int      `json:"parts"`
	PartsByPatch int      `json:"parts_by_patch"`
	Cut          mmNumber `json:"cut_mm"`
	Travel       mmNumber `json:"travel_mm"`
	Spacers      int      `json:"spacers,omitempty"`
	Sheets       int      `json:"sheets"`
	Seconds      int      `json:"seconds"`
}

// manifestFinding is a finding. Sprite, layer, part and place are those that all
// its places share, at_mm the first one's.
type manifestFinding struct {
	Code     string           `json:"code"`
	Severity string           `json:"severity"`
	Text     string           `json:"text"`
	Sprite   string           `json:"sprite"`
	Layer    int              `json:"layer,omitempty"`
	Part     string           `json:"part,omitempty"`
	At       *[2]mmNumber     `json:"at_mm,omitempty"`
	Count    int              `json:"count"`
	Places   []manifestPlace  `json:"places,omitempty"`
	Remedies []manifestRemedy `json:"remedies,omitempty"`
}

// manifestRemedy is an editor's command with its arguments.
type manifestRemedy struct {
	Text    string         `json:"text"`
	Command string         `json:"command"`
	Args    map[string]any `json:"args,omitempty"`
	Asks    []string       `json:"asks,omitempty"`
}

type manifestPlace struct {
	Sprite string       `json:"sprite"`
	Layer  int          `json:"layer,omitempty"`
	Part   string       `json:"part,omitempty"`
	At     *[2]mmNumber `json:"at_mm,omitempty"`
}

// newManifest describes j with its files as named in files, sprite by sprite.
func newManifest(j Job, files []spriteFiles, sheets []sheetFile, jigs []jigFiles) manifest {
	m := manifest{
		Format: "sheetsprite-job", Version: 1,
		Sprites: []manifestSprite{}, Sheets: []manifestSheet{}, Findings: []manifestFinding{},
	}
	for i, s := range j.Plan.Sprites {
		ms := newManifestSprite(j, s, files[i])
		m.Sprites = append(m.Sprites, ms)
		m.Totals.Parts += ms.Parts * ms.Copies
		m.Totals.PartsByPatch += ms.PartsByPatch * ms.Copies
		for _, l := range ms.Spacers {
			m.Totals.Spacers += l.Parts * ms.Copies
		}
		for _, l := range slices.Concat(ms.Layers, ms.Spacers) {
			m.Totals.Cut += l.Cut * mmNumber(ms.Copies)
		}
	}
	m.addSheetFigures(j, sheets)
	m.Jigs = newManifestJigs(j, jigs)
	if j.hasGuide() {
		m.Guide = guidePath
	}
	for _, f := range j.Plan.Findings {
		m.Findings = append(m.Findings, newManifestFinding(f))
	}
	return m
}

func newManifestFinding(f inspect.Finding) manifestFinding {
	mf := manifestFinding{
		Code: string(f.Code), Severity: string(f.Severity), Text: f.Text,
		Sprite: f.Sprite, Layer: f.Layer, Part: f.Part, Count: f.Count,
	}
	if at, ok := f.At(); ok {
		mf.At = place(at)
	}
	for _, p := range f.Places {
		mp := manifestPlace{Sprite: p.Sprite, Layer: p.Layer, Part: p.Part}
		if p.Layer > 0 {
			mp.At = place(p.At)
		}
		mf.Places = append(mf.Places, mp)
	}
	for _, r := range f.Remedies {
		mf.Remedies = append(mf.Remedies, manifestRemedy{r.Text, string(r.Command), r.Args, r.Asks})
	}
	return mf
}

func place(p shape.Point) *[2]mmNumber { return &[2]mmNumber{mmNumber(p.X), mmNumber(p.Y)} }

func newManifestSprite(j Job, s engine.Sprite, f spriteFiles) manifestSprite {
	p, l := j.Project.Sprites[s.Index], s.Layout
	ms := manifestSprite{
		Name: p.Name, Copies: j.Project.CopiesOf(s.Index), Cell: mmNumber(l.Cell),
		Size:       [2]mmNumber{mmNumber(l.Size.X), mmNumber(l.Size.Y)},
		GridCells:  [2]int{l.Cols, l.Rows},
		GridOrigin: [2]mmNumber{mmNumber(l.Grid.X), mmNumber(l.Grid.Y)},
		Picture:    f.picture, All: f.all,
		Layers:       []manifestLayer{},
		PartsByPatch: s.PartsByPatch, Heights: l.Heights, Corner: mm2Number(l.Corner),
	}
	for i, layer := range l.Layers {
		stock := s.Stocks[layer.Stock]
		ms.Parts += len(layer.Parts)
		ms.Layers = append(ms.Layers, newManifestLayer(layer, stock, f.layers[i]))
	}
	for _, pin := range s.Pins {
		w, _ := pin.Hole.Size()
		mp := manifestPin{At: *place(pin.Hole.Min.Add(shape.Point{X: w / 2, Y: w / 2})), Side: mmNumber(w), Under: s.Numbers[pin.Under]}
		for _, p := range pin.Parts {
			mp.Parts = append(mp.Parts, s.Numbers[p])
		}
		ms.Pins = append(ms.Pins, mp)
	}
	for i, layer := range s.Spacers {
		ms.Spacers = append(ms.Spacers, newManifestLayer(layer, s.Stocks[layer.Stock], f.spacers[i]))
	}
	return ms
}

func newManifestLayer(l outline.Layer, stock project.Stock, path string) manifestLayer {
	return manifestLayer{
		Layer: l.Number, Height: l.Height, Stock: stock.ID, Colour: hexColour(stock.Colour),
		DXF: path + ".dxf", SVG: path + ".svg",
		Parts: len(l.Parts), Cut: mmNumber(cutLength(l.Parts)), Joins: l.Joins,
	}
}

// encode writes m as JSON, two spaces an indent.
func (m manifest) encode() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	err := e.Encode(m)
	return b.Bytes(), err
}

// cutLength is the length of all contours of the parts, finished size.
func cutLength(parts []outline.Part) shape.Um {
	var n shape.Um
	for _, p := range parts {
		n += p.Outline.Length()
	}
	return n
}
