package editor

import (
	"sheetsprite/editor/cells"
	"sheetsprite/engine/shape"
)

// State is the view model: everything that the page shows, as plain data.
// Lengths are in mm unless a name says px (CSS pixels) or cells.
type State struct {
	Revision    uint64         `json:"revision"`
	View        View           `json:"view"`
	Project     string         `json:"project"`
	Palette     []Entry        `json:"palette"`
	Sprites     []string       `json:"sprites"`
	Sprite      SpriteState    `json:"sprite"`
	Grid        GridState      `json:"grid"`
	Preview     Preview        `json:"preview"`
	Stack       []StackEntry   `json:"stack"` // highest place first; unused colours last
	Style       StyleState     `json:"style"`
	Plan        PlanState      `json:"plan"`
	Settings    Cutting        `json:"settings"`
	Choice      ChoiceState    `json:"choice"`
	Laid        LaidState      `json:"laid"`
	Assembly    *AssemblyState `json:"assembly"` // null while another view is shown
	Calibration struct {
		PxPerMm float64 `json:"pxPerMm"` // 0: not measured yet
	} `json:"calibration"`
	Undo      int        `json:"undo"` // steps
	Redo      int        `json:"redo"`
	UndoTitle string     `json:"undoTitle"`
	RedoTitle string     `json:"redoTitle"`
	Saved     bool       `json:"saved"`
	Former    string     `json:"former"` // the project that was open before; "" for none
	Hand      Session    `json:"hand"`
	Cursor    *CellState `json:"cursor"` // the keyboard's cell, while it is shown
	Selection *BoxState  `json:"selection"`
	Copied    bool       `json:"copied"`
	Drawing   bool       `json:"drawing"`
	Picture   *Placement `json:"picture"` // under the grid
	Shelf     ShelfState `json:"shelf"`
}

// ShelfState is the maker's own shelf, in short; the command ownShelf lists it.
type ShelfState struct {
	Stocks  int    `json:"stocks"`  // how many there are
	Edition uint64 `json:"edition"` // grows with each change
}

// Entry is a palette entry with its stock.
type Entry struct {
	Key       string  `json:"key"`
	Name      string  `json:"name"`
	Colour    string  `json:"colour"` // "#rrggbb"
	Stock     string  `json:"stock"`
	StockName string  `json:"stockName"`
	Kind      string  `json:"kind"`
	Card      string  `json:"card"` // the stock's own colour, "#rrggbb"
	Thickness float64 `json:"thickness"`
	Laser     string  `json:"laser"`
	Typical   bool    `json:"typical"`
	Used      int     `json:"used"` // cells of the open frame
}

// SpriteState is the open sprite.
type SpriteState struct {
	Name   string     `json:"name"`
	Width  int        `json:"width"`  // cells
	Height int        `json:"height"` // cells
	Cell   float64    `json:"cell"`
	Rows   []string   `json:"rows,omitempty"`
	Size   [2]float64 `json:"size"` // of the whole grid
	Copies int        `json:"copies"`
	Frame  int        `json:"frame"` // from 1
	Frames int        `json:"frames"`
	Index  int        `json:"index"` // among the sprites, from 0
}

// GridState is where the grid lies on the page, in CSS pixels.
type GridState struct {
	X    float64 `json:"x"` // of the top left cell's corner
	Y    float64 `json:"y"`
	Cell float64 `json:"cell"`
}

// Preview is where the sprite's bounds lie in the preview, in CSS pixels. The
// canvas says so with SetPreview.
type Preview struct {
	X       float64 `json:"x"`
	Y       float64 `json:"y"`
	Width   float64 `json:"width"`
	Height  float64 `json:"height"`
	PxPerMm float64 `json:"pxPerMm"`
}

// StackEntry is a colour in the stack. Key is "" for the backer.
type StackEntry struct {
	Key     string   `json:"key"`
	Stock   string   `json:"stock"`
	Heights []int    `json:"heights"`
	Parts   int      `json:"parts"`
	Pinned  string   `json:"pinned"`  // "lowest", "highest" or ""
	Spare   string   `json:"spare"`   // "spare" or ""
	Outline string   `json:"outline"` // "on top" or ""
	Over    []string `json:"over"`    // keys that it is to lie over
}

// WholeState names a layer that is left whole, or a height's jig.
type WholeState struct {
	Height int    `json:"height"`
	Stock  string `json:"stock"` // ID
}

// StyleState is how the open sprite is to be stacked.
type StyleState struct {
	Style        string       `json:"style"`
	ExtraHeights int          `json:"extraHeights"`
	Order        string       `json:"order"`
	Foam         float64      `json:"foam"`       // under the lowest parts; 0: tape
	Float        int          `json:"float"`      // the height inside that stands on foam; 0: none
	FloatBy      float64      `json:"floatBy"`    // thickness of that foam
	FoamStock    string       `json:"foamStock"`  // ID of what spacers under the lowest parts are cut from; "": foam or tape
	FloatStock   string       `json:"floatStock"` // the same for the height inside
	FoamLift     float64      `json:"foamLift"`   // by what the lowest parts are lifted; 0: tape
	FloatLift    float64      `json:"floatLift"`  // the same for the height inside
	Jigs         []WholeState `json:"jigs"`       // heights with a jig, and what it is cut from
	Whole        []WholeState `json:"whole"`      // layers that are left whole
	Refused      []int        `json:"refused"`    // heights that were to float but are taped, since a part is too small
}

// PlanState is what the plan says of the open sprite.
type PlanState struct {
	Stale    bool           `json:"stale"`
	Parts    int            `json:"parts"`
	Heights  int            `json:"heights"`
	Top      float64        `json:"top"` // of the highest face over the board
	Findings []FindingState `json:"findings"`
	Patches  int            `json:"patches"`
	Tweezers int            `json:"tweezers"`
	Seconds  int            `json:"seconds"`
	Problem  string         `json:"problem"`
}

// CellState is a cell of the grid, from 0.
type CellState struct {
	X int `json:"x"`
	Y int `json:"y"`
}

// BoxState is a box of cells.
type BoxState struct {
	X      int    `json:"x"`
	Y      int    `json:"y"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
	Float  string `json:"float"` // "floating" or ""
}

// State is everything that the page shows.
func (e *Editor) State() State {
	s := e.Panels()
	s.Sprite.Rows = e.doc.grid().Rows()
	a := e.assemblyState()
	s.Assembly = &a
	return s
}

// Panels is State without the open sprite's rows, which the canvas has: what
// the page's controls need after each change.
func (e *Editor) Panels() State {
	d, sp := &e.doc, e.doc.sprite()
	s := State{
		Revision: e.revision, View: e.session.View, Project: d.Project.Name,
		Palette: e.entries(), Sprites: make([]string, len(d.Project.Sprites)),
		Sprite: SpriteState{
			Name: sp.Name, Width: sp.W, Height: sp.H, Cell: mm(sp.Cell), Copies: sp.Copies,
			Size:  [2]float64{mm(sp.Cell * shape.Um(sp.W)), mm(sp.Cell * shape.Um(sp.H))},
			Frame: d.Frame + 1, Frames: len(sp.Frames), Index: d.Open,
		},
		Grid:    GridState{e.view.X, e.view.Y, e.view.Cell},
		Preview: e.preview,
		Style: StyleState{
			string(sp.Stack.Style), sp.Stack.ExtraHeights, sp.Stack.Order,
			mm(sp.Stack.Foam), sp.Stack.Float, mm(sp.Stack.FloatBy),
			sp.Stack.FoamStock, sp.Stack.FloatStock, 0, 0, []WholeState{}, []WholeState{}, []int{},
		},
		Settings: cutting(d.Project.Settings), Choice: e.choiceState(), Laid: e.laidState(),
		Undo: e.past.done, Redo: len(e.past.steps) - e.past.done,
		Saved: e.saved == e.Kept(), Hand: e.session, Copied: e.clip.Cells != nil, Drawing: e.stroke != nil, Shelf: ShelfState{len(e.shelf), e.shelfEdition},
	}
	for _, j := range sp.Stack.Jigs {
		s.Style.Jigs = append(s.Style.Jigs, WholeState{j.Height, j.Stock})
	}
	for _, w := range sp.Stack.Whole {
		s.Style.Whole = append(s.Style.Whole, WholeState{w.Height, w.Stock})
	}
	for i := range d.Project.Sprites {
		s.Sprites[i] = d.Project.Sprites[i].Name
	}
	if known, stale := e.Plan(); known != nil && !stale {
		s.Style.Refused = append(s.Style.Refused, known.Refused...)
	}
	built := sp.Stack.AsBuilt(s.Style.Refused, d.Project.Stocks)
	s.Style.FoamLift = mm(built.Foam)
	if built.Float > 0 {
		s.Style.FloatLift = mm(built.FloatBy)
	}
	s.Calibration.PxPerMm = e.session.PxPerMm
	if e.past.done > 0 {
		s.UndoTitle = e.past.steps[e.past.done-1].title
	}
	if s.Redo > 0 {
		s.RedoTitle = e.past.steps[e.past.done].title
	}
	if e.former != nil {
		s.Former = e.former.Name
	}
	s.Hand.Sprite, s.Hand.Frame = sp.Name, d.Frame+1
	if e.session.AtKeys {
		s.Cursor = &CellState{e.session.Cursor.X, e.session.Cursor.Y}
	}
	if sel := e.Selection(); sel != nil {
		s.Selection = &BoxState{X: sel.Box.X, Y: sel.Box.Y, Width: sel.Box.W, Height: sel.Box.H}
		if sel.lifted() {
			s.Selection.Float = "floating"
		}
	}
	if p := e.pictures[d.id()]; p != nil {
		at := p.Placement
		s.Picture = &at
	}
	if e.session.View == ViewAssemble {
		a := e.assemblyState()
		s.Assembly = &a
	}
	p, stale := e.Plan()
	s.Plan = planState(p, stale)
	s.Stack = e.stackEntries(p)
	return s
}

// mm is a length in millimetres.
func mm(u shape.Um) float64 { return float64(u) / 1000 }

func (e *Editor) entries() []Entry {
	var used [256]int
	for _, k := range e.doc.grid().Cells {
		used[k]++
	}
	list := make([]Entry, 0, len(e.doc.Project.Palette))
	for _, c := range e.doc.Project.Palette {
		st, _ := e.doc.Project.StockByID(c.Stock)
		list = append(list, Entry{
			Key: string(c.Key), Name: c.Name, Colour: c.RGB.String(), Used: used[c.Key],
			Stock: c.Stock, StockName: st.Name, Kind: string(st.Kind), Card: st.Colour.String(),
			Thickness: mm(st.Thickness), Laser: string(st.Laser), Typical: st.Typical,
		})
	}
	return list
}

// SetPreview tells where the canvas draws the preview.
func (e *Editor) SetPreview(p Preview) {
	if e.preview != p {
		e.preview = p
		e.looks++
	}
}

// Copied is what was copied last; no cells where nothing was.
func (e *Editor) Copied() cells.Grid { return e.clip }
