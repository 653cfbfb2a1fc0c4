package export

import (
	"sheetsprite/engine"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// manifestSheet is one sheet on the bed.
type manifestSheet struct {
	Stock   string          `json:"stock"` // the stock's ID in project.json
	DXF     string          `json:"dxf"`
	SVG     string          `json:"svg"`
	GCode   string          `json:"gcode,omitempty"`
	Bounds  string          `json:"bounds_gcode,omitempty"`
	Face    string          `json:"face"`
	Offcut  bool            `json:"offcut,omitempty"`
	Size    [2]mmNumber     `json:"size_mm"`
	Parts   int             `json:"parts"`
	Frames  []manifestFrame `json:"frames,omitempty"` // round layers that are left whole
	Kerf    mmNumber        `json:"kerf_mm"`
	Cut     mmNumber        `json:"cut_mm"`            // every pass; with lead-ins where there is a machine file
	Leads   mmNumber        `json:"lead_mm,omitempty"` // the lead-ins alone, which only machine files have
	Mark    mmNumber        `json:"mark_mm"`
	Travel  mmNumber        `json:"travel_mm"`
	Seconds int             `json:"seconds"`
}

// manifestFrame is a piece of stock about all parts of a layer, which stay in it by
// their tabs: finished, on the sheet.
type manifestFrame struct {
	Sprite string      `json:"sprite"`
	Copy   int         `json:"copy"`
	Layer  int         `json:"layer"`
	At     [2]mmNumber `json:"at_mm"` // its lower left corner
	Size   [2]mmNumber `json:"size_mm"`
	Tabs   int         `json:"tabs"`
	Parts  []string    `json:"parts"`
}

// manifestStock is what all sheets of a stock take.
type manifestStock struct {
	Stock   string    `json:"stock"`
	Sheets  int       `json:"sheets"`
	Card    mm2Number `json:"card_mm2"`  // area of the sheets
	Parts   mm2Number `json:"parts_mm2"` // finished
	Waste   int       `json:"waste_percent"`
	Mass    mmNumber  `json:"mass_g,omitempty"` // of the parts, where a square metre's is known
	Seconds int       `json:"seconds"`
}

// manifestPart is one copy of one part.
type manifestPart struct {
	Number  string    `json:"number"`
	Copy    int       `json:"copy"`
	Sprite  string    `json:"sprite"`
	Layer   int       `json:"layer"`
	Height  int       `json:"height"`
	Stock   string    `json:"stock"`
	Sheet   string    `json:"sheet,omitempty"` // its DXF; absent where the part has no sheet
	Area    mm2Number `json:"area_mm2"`        // finished
	RestsOn string    `json:"rests_on,omitempty"`
	Pads    int       `json:"pads"`
	Spacers int       `json:"spacers,omitempty"` // cut pieces under it
	Lifts   string    `json:"lifts,omitempty"`   // of a spacer: the part above it
	Under   mmNumber  `json:"underside_mm"`      // above the board
	InLayer int       `json:"in_layer"`          // which of the parts in the layer's files, from 1
	// From the layers' coordinates to the sheet's: flipped in x where the face
	// is down, then turned by quarters anticlockwise about the origin, then moved.
	Turn     int          `json:"turn"`
	Move     *[2]mmNumber `json:"move_mm,omitempty"`
	Tabs     int          `json:"tabs"`
	Numbered string       `json:"numbered"` // part, waste or map: where its number stands
	// Of a part that is cut in pieces; sheet, turn and move are the first one's, tabs
	// those of all.
	Pieces []manifestPiece `json:"pieces,omitempty"`
}

// manifestPiece is a piece of a part: what hangs together of the part within a box
// of the layers' coordinates. Several in one box stand in order of their outlines'
// lowest, then leftmost corners.
type manifestPiece struct {
	Number   string       `json:"number"`
	Sheet    string       `json:"sheet,omitempty"`
	Area     mm2Number    `json:"area_mm2"`
	Within   [4]mmNumber  `json:"within_mm"` // left, low, right, high
	Turn     int          `json:"turn"`
	Move     *[2]mmNumber `json:"move_mm,omitempty"`
	Tabs     int          `json:"tabs"`
	Numbered string       `json:"numbered"`
}

// addSheetFigures describes the sheets and all parts of j.
func (m *manifest) addSheetFigures(j Job, files []sheetFile) {
	s := j.Plan.Sheets
	if s == nil {
		return
	}
	m.Totals.Cut = 0
	for i := range s.List {
		sh := &s.List[i]
		m.Sheets = append(m.Sheets, manifestSheet{
			Stock: sh.Stock.ID, DXF: files[i].dxf, SVG: files[i].svg, GCode: files[i].gcode, Bounds: files[i].bounds,
			Face: string(sh.Face), Offcut: sh.Offcut,
			Size:  [2]mmNumber{mmNumber(sh.Size.Width), mmNumber(sh.Size.Height)},
			Parts: len(sh.Placed), Kerf: mmNumber(sh.Kerf),
			Cut: mmNumber(sh.Route.Cut + sh.Route.Leads), Leads: mmNumber(sh.Route.Leads), Mark: mmNumber(sh.Route.Marked), Travel: mmNumber(sh.Route.Travel), Seconds: sh.Seconds,
		})
		for _, f := range sh.Frames {
			ms := &m.Sheets[len(m.Sheets)-1]
			ms.Frames = append(ms.Frames, newManifestFrame(j, sh, f))
		}
		m.Totals.Cut += mmNumber(sh.Route.Cut + sh.Route.Leads)
		m.Totals.Travel += mmNumber(sh.Route.Travel)
		m.Totals.Seconds += sh.Seconds
	}
	for _, f := range s.Figures() {
		m.Stocks = append(m.Stocks, manifestStock{
			f.Stock, f.Sheets, mm2Number(f.Card), mm2Number(f.Parts), f.Waste(), mmNumber(f.Mass), f.Seconds,
		})
	}
	m.Totals.Sheets = len(s.List)
	m.Parts = []manifestPart{}
	for _, part := range s.Parts {
		if part.Piece.Of == "" {
			m.Parts = append(m.Parts, newManifestPart(j, part, files))
			continue
		}
		if part.First() {
			m.Parts = append(m.Parts, newManifestPart(j, part, files))
		}
		m.Parts[len(m.Parts)-1].add(part, files)
	}
}

func newManifestFrame(j Job, sh *engine.Sheet, f engine.FrameOn) manifestFrame {
	b, half := f.Line.Bounds(), cut.HalfKerf(sh.Kerf)
	w, h := b.Size()
	out := manifestFrame{
		Sprite: j.Project.Sprites[j.Plan.Sprites[f.Sprite].Index].Name, Copy: f.Copy, Layer: f.Layer.Number,
		At:   *place(b.Min.Add(shape.Point{X: half, Y: half})),
		Size: [2]mmNumber{mmNumber(w - 2*half), mmNumber(h - 2*half)},
		Tabs: len(f.Piece.Tabs),
	}
	for _, i := range f.Members {
		out.Parts = append(out.Parts, j.Plan.Sheets.Parts[i].Piece.Number)
	}
	return out
}

func newManifestPart(j Job, part engine.Part, files []sheetFile) manifestPart {
	sp, c := j.Plan.Sprites[part.Sprite], part.Piece
	whole := &j.Plan.Sheets.Pieces[part.Sprite][c.Part.Index]
	mp := manifestPart{
		Number: whole.Number, Copy: part.Copy, Sprite: j.Project.Sprites[sp.Index].Name,
		Layer: c.Layer.Number, Height: c.Layer.Height, Stock: sp.Stocks[c.Layer.Stock].ID,
		Area: mm2Number(whole.Part.Outline.Area()), Tabs: len(c.Tabs), Numbered: string(part.Numbered),
	}
	if c.Part.On >= 0 {
		mp.RestsOn = j.Plan.Sheets.Pieces[part.Sprite][c.Part.On].Number
	}
	if part.Sprite < len(j.Plan.Assembly) {
		parts := j.Plan.Assembly[part.Sprite].Parts
		if k := c.Part.Index - len(parts); k < 0 {
			built := parts[c.Part.Index]
			mp.Pads, mp.Spacers, mp.Under = len(built.Pads), len(built.Spacers), mmNumber(built.Under)
		} else {
			mp.Lifts, mp.Under = sp.Numbers[sp.Lifted[k]], mmNumber(project.Tape)
			if c.Part.On >= 0 {
				mp.Under += mmNumber(parts[c.Part.On].Top)
			}
		}
	}
	for i := range c.Layer.Parts {
		if &c.Layer.Parts[i] == whole.Part {
			mp.InLayer = i + 1
		}
	}
	if part.Sheet >= 0 {
		mp.Sheet, mp.Turn, mp.Move = files[part.Sheet].dxf, int(part.Turn), place(part.Move)
	}
	return mp
}

// add lists a piece of the part.
func (mp *manifestPart) add(part engine.Part, files []sheetFile) {
	c := part.Piece
	q := manifestPiece{
		Number: c.Number, Area: mm2Number(c.Part.Outline.Area()), Tabs: len(c.Tabs), Numbered: string(part.Numbered),
		Within: [4]mmNumber{mmNumber(c.Within.Min.X), mmNumber(c.Within.Min.Y), mmNumber(c.Within.Max.X), mmNumber(c.Within.Max.Y)},
	}
	if part.Sheet >= 0 {
		q.Sheet, q.Turn, q.Move = files[part.Sheet].dxf, int(part.Turn), place(part.Move)
	}
	if len(mp.Pieces) > 0 { // the part counts its first piece's already
		mp.Tabs += q.Tabs
	}
	mp.Pieces = append(mp.Pieces, q)
}
