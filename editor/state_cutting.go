package editor

import "sheetsprite/engine/project"

// Cutting is the settings as the page shows them.
type Cutting struct {
	Corners  string   `json:"corners"`
	Join     float64  `json:"join"`
	Border   float64  `json:"border"`
	Edge     string   `json:"edge"`
	Inside   string   `json:"inside"` // "open" or "filled"
	Backer   string   `json:"backer"`
	SheetW   float64  `json:"sheetWidth"`
	SheetH   float64  `json:"sheetHeight"`
	Margin   float64  `json:"margin"`
	Gap      float64  `json:"gap"`
	Kerf     *float64 `json:"kerf"` // nil: what machine and stock say
	Hold     string   `json:"hold"`
	Tab      float64  `json:"tab"` // what stands there
	Layout   string   `json:"layout"`
	Group    string   `json:"group"`
	Large    string   `json:"large"` // parts that fit no sheet
	Paper    string   `json:"paper"` // what the guide is printed on; "": as the sheets
	Units    string   `json:"units"` // what it gives lengths in; "": as the paper
	Effort   int      `json:"effort"`
	Pins     float64  `json:"pins"`     // side of their holes; 0: none
	JigClear float64  `json:"jigClear"` // by which a jig's windows are wider than their parts
	Cover    float64  `json:"cover"`    // over the board; 0: not given
}

func cutting(s project.Settings) Cutting {
	c := Cutting{
		Corners: string(s.Corners), Join: mm(s.Join), Border: mm(s.Border), Edge: string(s.Edge), Inside: "open",
		Backer: s.Backer, SheetW: mm(s.SheetW), SheetH: mm(s.SheetH), Margin: mm(s.Margin), Gap: mm(s.Gap),
		Hold: string(s.Hold), Tab: mm(s.Tab), Layout: string(s.Layout), Group: string(s.Group), Large: string(s.Large), Paper: string(s.Paper), Units: string(s.Units), Effort: s.Effort, Cover: mm(s.Cover), Pins: mm(s.Pins), JigClear: mm(s.JigClear),
	}
	if s.FillIn {
		c.Inside = "filled"
	}
	if s.Kerf != nil {
		k := mm(*s.Kerf)
		c.Kerf = &k
	}
	return c
}
