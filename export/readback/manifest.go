package readback

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"

	"sheetsprite/engine/project"
)

// length is mm in JSON, whole µm here.
type length int64

// UnmarshalJSON takes a number with at most 3 decimals.
func (l *length) UnmarshalJSON(b []byte) error {
	v, err := parseMm(string(b))
	*l = length(v)
	return err
}

// area is mm² in JSON with at most 6 decimals, whole µm² here.
type area int64

// UnmarshalJSON takes a number with at most 6 decimals.
func (a *area) UnmarshalJSON(b []byte) error {
	var whole, part int64
	decimals, dot := 0, false
	for _, c := range b {
		switch {
		case c == '.' && !dot:
			dot = true
		case c >= '0' && c <= '9' && dot && decimals < 6:
			part = part*10 + int64(c-'0')
			decimals++
		case c >= '0' && c <= '9' && !dot && whole < 1e11:
			whole = whole*10 + int64(c-'0')
		default:
			return fmt.Errorf("%.20q isn't an area in mm² with at most 6 decimals", b)
		}
	}
	for ; decimals < 6; decimals++ {
		part *= 10
	}
	*a = area(whole*1e6 + part)
	return nil
}

// manifest is what the check needs of job.json.
type manifest struct {
	Format  string
	Version int
	Sprites []struct {
		Name       string
		Copies     int
		Cell       length    `json:"cell_mm"`
		Size       [2]length `json:"size_mm"`
		GridCells  [2]int    `json:"grid_cells"`
		GridOrigin [2]length `json:"grid_origin_mm"`
		Picture    string
		All        string `json:"all_dxf"`
		Layers     []struct {
			Layer, Height int
			Stock         string
			Colour        string
			DXF, SVG      string
			Parts         int
		}
		Spacers []struct {
			Layer, Height int
			Stock         string
			Colour        string
			DXF, SVG      string
			Parts         int
		}
		Pins []struct {
			At    [2]length `json:"at_mm"`
			Side  length    `json:"side_mm"`
			Parts []string
			Under string
		}
		Parts   int
		Heights int
		Corner  area `json:"corner_mm2"`
	}
	Guide  string
	Sheets []manifestSheet
	Jigs   []manifestJig
	Parts  []manifestPart
	Totals struct{ Parts, Sheets, Spacers int }

	Findings []struct {
		manifestPlace // what all its places have in common
		Code          string
		Places        []manifestPlace
	}
}

// manifestPlace is where a finding is.
type manifestPlace struct {
	Sprite string
	Layer  int
	Part   string
}

// manifestSheet is one sheet on the bed.
type manifestSheet struct {
	Stock    string
	DXF, SVG string
	GCode    string
	Bounds   string `json:"bounds_gcode"`
	Parts    int
	Face     string
	Size     [2]length `json:"size_mm"`
	Frames   []manifestFrame
	Kerf     length `json:"kerf_mm"`
	Cut      length `json:"cut_mm"`
	Lead     length `json:"lead_mm"`
	Mark     length `json:"mark_mm"`
	Travel   length `json:"travel_mm"`
}

// manifestFrame is a piece of stock about all parts of a layer, on its sheet.
type manifestFrame struct {
	Sprite      string
	Copy, Layer int
	At          [2]length `json:"at_mm"`
	Size        [2]length `json:"size_mm"`
	Tabs        int
	Parts       []string
}

// manifestPart is one copy of a part and where it is cut.
type manifestPart struct {
	Number  string
	Copy    int
	Sprite  string
	Layer   int
	InLayer int `json:"in_layer"` // from 1, in the order of the layer's files
	Stock   string
	Sheet   string
	Turn    int       // quarter turns anticlockwise, about the origin of the layers' coordinates
	Move    [2]length `json:"move_mm"` // and from there to its place on the sheet
	Tabs    int
	RestsOn string `json:"rests_on"`
	Lifts   string // of a spacer
	Pieces  []manifestPiece
}

// manifestPiece is a piece of a part that is cut in pieces.
type manifestPiece struct {
	Number string
	Sheet  string
	Within [4]length `json:"within_mm"`
	Turn   int
	Move   [2]length `json:"move_mm"`
	Tabs   int
}

func readManifest(data []byte) (manifest, error) {
	var m manifest
	if err := json.Unmarshal(data, &m); err != nil {
		return m, err
	}
	if m.Format != "sheetsprite-job" || m.Version != 1 {
		return m, errors.New("it isn't a manifest of this version")
	}
	return m, nil
}

// expect lists the sprites that the project wants to see and holds the manifest
// against them: no sprite with a coloured cell is missing, none is added, and
// what the manifest counts agrees with itself.
func expect(m manifest, p *project.Project) ([]*sprite, error) {
	var out []*sprite
	stockOf := map[byte]int{} // by palette key; only asked
	byID := map[string]int{}
	for i, s := range p.Stocks {
		byID[s.ID] = i
	}
	for _, c := range p.Palette {
		i, ok := byID[c.Stock]
		if !ok {
			return nil, fmt.Errorf("colour %q has no stock", string(c.Key))
		}
		stockOf[c.Key] = i
	}
	total := 0
	for i := range p.Sprites {
		if p.CopiesOf(i) == 0 {
			continue // others were chosen
		}
		want, err := drawing(&p.Sprites[i], stockOf)
		if err != nil {
			return nil, err
		}
		if want == nil {
			continue
		}
		if len(out) == len(m.Sprites) {
			return nil, fmt.Errorf("sprite %s is missing", quote(p.Sprites[i].Name))
		}
		s, err := describe(m, len(out), p, i, byID)
		if err != nil {
			return nil, err
		}
		s.want = want
		total += m.Sprites[len(out)].Parts * m.Sprites[len(out)].Copies
		out = append(out, s)
	}
	if len(out) != len(m.Sprites) {
		return nil, fmt.Errorf("sprite %s isn't one of the project's", quote(m.Sprites[len(out)].Name))
	}
	if total != m.Totals.Parts {
		return nil, fmt.Errorf("the manifest counts %d parts in all, its sprites %d", m.Totals.Parts, total)
	}
	return out, nil
}

// drawing is the stock wanted in each cell; nil where the sprite has no colour.
func drawing(s *project.Sprite, stockOf map[byte]int) ([]int, error) {
	if len(s.Frames) == 0 || len(s.Frames[0].Cells) != s.W*s.H {
		return nil, fmt.Errorf("sprite %s has no frame of its size", quote(s.Name))
	}
	var want []int
	for i, key := range s.Frames[0].Cells {
		if key == project.Empty {
			continue
		}
		if want == nil {
			want = make([]int, s.W*s.H)
			for k := range want {
				want[k] = empty
			}
		}
		stock, ok := stockOf[key]
		if !ok {
			return nil, fmt.Errorf("sprite %s uses %q, which isn't in the palette", quote(s.Name), string(key))
		}
		want[i] = stock
	}
	return want, nil
}

// describe takes over what the manifest says of the project's sprite i.
func describe(m manifest, at int, p *project.Project, i int, byID map[string]int) (*sprite, error) {
	ms, ps := m.Sprites[at], &p.Sprites[i]
	s := &sprite{
		name: ps.Name, cols: ps.W, rows: ps.H, cell: int64(ps.Cell),
		x: int64(ms.GridOrigin[0]), y: int64(ms.GridOrigin[1]), w: int64(ms.Size[0]), h: int64(ms.Size[1]),
		heights: ms.Heights, differing: int64(ms.Corner),
		stocks: p.Stocks, settings: p.Settings, float: ps.Stack.Float, beside: ps.Stack.Style == project.SideBySide,
	}
	switch {
	case p.Settings.Border > 0:
		s.backed = bordered
	case s.beside:
		s.backed = flush
	}
	switch {
	case ms.Name != ps.Name:
		return nil, s.fault("the manifest has sprite %s in its place", quote(ms.Name))
	case ms.Copies != p.CopiesOf(i):
		return nil, s.fault("the manifest asks for %d copies instead of %d", ms.Copies, p.CopiesOf(i))
	case ms.GridCells != [2]int{ps.W, ps.H} || int64(ms.Cell) != s.cell:
		return nil, s.fault("the manifest's grid isn't the drawing's")
	}
	parts, height := 0, 1
	for k, l := range ms.Layers {
		stock, ok := byID[l.Stock]
		switch {
		case !ok:
			return nil, s.fault("layer %d is cut from %s, which is no stock of the project", k+1, quote(l.Stock))
		case l.Layer != k+1:
			return nil, s.fault("the manifest numbers layer %d as %d", k+1, l.Layer)
		case l.Colour != colourText(p.Stocks[stock].Colour):
			return nil, s.fault("layer %d has not its stock's colour", k+1)
		case k == 0 && l.Height != 1 || l.Height < height || l.Height > height+1:
			return nil, s.fault("layer %d has height %d after height %d", k+1, l.Height, height)
		case l.Height == height && k > 0 && s.layers[k-1].stock == stock:
			return nil, s.fault("layers %d and %d are of one stock and one height", k, k+1)
		case l.Parts < 1:
			return nil, s.fault("layer %d has no part", k+1)
		}
		height = l.Height
		parts += l.Parts
		s.layers = append(s.layers, layer{number: l.Layer, height: l.Height, stock: stock, dxf: l.DXF, svg: l.SVG})
	}
	if height != ms.Heights || parts != ms.Parts || len(ms.Layers) == 0 {
		return nil, s.fault("the manifest counts %d parts and %d heights, its layers %d and %d", ms.Parts, ms.Heights, parts, height)
	}
	return s, cmp.Or(s.takePins(m, at), s.takeSpacers(m, at, ps, byID))
}

func colourText(c project.RGB) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
