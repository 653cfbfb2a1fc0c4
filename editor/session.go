package editor

import (
	"encoding/json"

	"sheetsprite/editor/cells"
	"sheetsprite/editor/progress"
)

// View is one of the page's views.
type View string

// The views, as the page's header names them.
const (
	ViewDraw     View = "Draw"
	ViewSheets   View = "Sheets"
	ViewAssemble View = "Assemble"
)

// Tool is what a finger or a pen does on the grid.
type Tool string

// The tools.
const (
	Pencil   Tool = "pencil"
	RubOut   Tool = "rub"
	FillTool Tool = "fill"
	LineTool Tool = "line"
	BoxTool  Tool = "box"
	OvalTool Tool = "oval"
	MoveTool Tool = "move" // selects, and moves what is selected
	PickTool Tool = "pick"
)

// Units are those in which the page shows lengths. Arguments are always in mm.
type Units string

// The units.
const (
	Millimetres Units = "mm"
	Inches      Units = "in"
)

// Shown says which layers the preview shows.
type Shown string

// What the preview shows.
const (
	AllLayers Shown = "all"
	OneLayer  Shown = "one"   // the one at Relief.Layer
	UpTo      Shown = "up-to" // that one and all below it
)

// Fit says how large the preview is.
type Fit string

// The sizes of the preview.
const (
	WholeView Fit = "fit"
	RealSize  Fit = "real"
)

// SheetLook is how the sheets are looked at.
type SheetLook struct {
	X      float64 `json:"x"`    // what is in the middle, mm on the bench that they lie on
	Y      float64 `json:"y"`    // the same, downwards
	Zoom   float64 `json:"zoom"` // 1: all of them in view; X and Y mean nothing then
	Sprite string  `json:"sprite"`
	Copy   int     `json:"copy"`
	Part   string  `json:"part"`  // the part that is pointed at, with its sprite and copy; "" for none
	Sheet  string  `json:"sheet"` // print of the sheet that is chosen; "" for none
	At     float64 `json:"at"`    // how many lines of it are cut so far in the show, the last one in part; 0: it isn't shown
}

// BuildLook is which copy of which sprite is being put together, by the
// sprite's number; the zero value is the first that isn't done.
type BuildLook struct{ ID, Copy int }

// What the time left is told from.
const (
	PaceTypical = "typical"
	PaceMine    = "mine"
)

// MaxSheetZoom is how close the sheets may be looked at.
const MaxSheetZoom = 60

// Relief is how the preview is looked at.
type Relief struct {
	Turn  float64 `json:"turn"`  // degrees about the upright, −180 to 180
	Tilt  float64 `json:"tilt"`  // degrees from face on, 0 to 70
	Apart float64 `json:"apart"` // layers pulled apart, 0 to 1
	Show  Shown   `json:"show"`
	Layer int     `json:"layer"`
	Size  Fit     `json:"size"`
	Card  string  `json:"card"` // "plain" or "textured"
}

// MaxTilt is how far the preview may be tilted from face on, in degrees.
const MaxTilt = 70

// Session is what the maker has in hand and how things are looked at: not part
// of the drawing, not undone, but kept with it in the browser.
type Session struct {
	View    View          `json:"view"`
	Tool    Tool          `json:"tool"`
	Key     string        `json:"key"` // the palette entry to draw with
	Sides   cells.Sides   `json:"bothSides"`
	Body    cells.Body    `json:"body"`  // of boxes and ovals
	Reach   cells.Reach   `json:"reach"` // of a fill
	Side    cells.Side    `json:"outlineSide"`
	Corner  cells.Corner  `json:"outlineCorners"`
	Units   Units         `json:"units"`
	PxPerMm float64       `json:"pxPerMm"` // CSS pixels in a millimetre of this glass; 0: not measured yet
	Relief  Relief        `json:"relief"`
	Intro   int           `json:"intro"` // step of the introduction, from 1; 0: left
	Sheets  SheetLook     `json:"sheets"`
	Cut     []string      `json:"cut"` // prints of the sheets that are ticked off
	Build   BuildLook     `json:"-"`
	Pace    string        `json:"pace"` // PaceTypical or PaceMine
	Learnt  progress.Pace `json:"learnt"`
	Machine string        `json:"machine"`    // that a project was planned for last
	Awake   string        `json:"awake"`      // "on" or "off": the glass stays lit while parts are put together
	Letters string        `json:"letterKeys"` // "on" or "off": keys without Ctrl do something
	Cursor  cells.Cell    `json:"-"`          // the cell that the keyboard is at
	AtKeys  bool          `json:"-"`          // the keyboard's cell is shown
	Sprite  string        `json:"sprite"`     // the open one, as it was saved
	Frame   int           `json:"frame"`      // from 1
}

// IntroSteps is how many steps the introduction has.
const IntroSteps = 3

func newSession() Session {
	return Session{
		View: ViewDraw, Tool: Pencil, Sides: cells.One, Body: cells.Hollow, Reach: cells.Joined,
		Side: cells.Outside, Corner: cells.WithoutCorners, Units: Millimetres, Letters: "on", Sheets: SheetLook{Zoom: 1},
		Pace: PaceTypical, Awake: "on",
		Relief: Relief{Show: AllLayers, Layer: 1, Size: WholeView, Card: "textured", Tilt: 0},
	}
}

// SessionText is what the maker has in hand, to be kept beside the project.
func (e *Editor) SessionText() []byte {
	s := kept{Session: e.session, Progress: e.namedBook(), Others: e.others}
	s.Sprite, s.Frame = e.doc.sprite().Name, e.doc.Frame+1
	if b := e.doc.byID(e.session.Build.ID); b != nil {
		s.Building.Sprite, s.Building.Copy = b.Name, e.session.Build.Copy
	}
	data, err := json.Marshal(s)
	if err != nil {
		panic("editor: a session that is no JSON: " + err.Error())
	}
	return data
}

// RestoreSession takes up what SessionText gave; of another build's what it
// knows. What doesn't fit the open project is left as it is.
func (e *Editor) RestoreSession(text []byte) {
	s := kept{Session: e.session}
	if json.Unmarshal(text, &s) != nil {
		return
	}
	e.takeBook(s.Progress)
	e.others = s.Others[:min(len(s.Others), maxShelved)]
	if at := e.doc.named(s.Building.Sprite); at >= 0 {
		e.session.Build = BuildLook{e.doc.IDs[at], s.Building.Copy}
	}
	if s.Learnt.Sound() {
		e.session.Learnt = s.Learnt
	}
	try := func(name string, args any) {
		data, err := json.Marshal(args)
		if err == nil {
			_, _ = e.Run(name, data) // each by itself: one that doesn't fit is left out
		}
	}
	type m = map[string]any
	try("showSprite", m{"name": s.Sprite})
	try("showFrame", m{"frame": s.Frame})
	try("choose", m{"key": s.Key})
	try("tool", m{"tool": s.Tool})
	try("showView", m{"view": s.View})
	try("bothSides", m{"sides": s.Sides})
	try("toolOptions", m{"body": s.Body, "reach": s.Reach, "outlineSide": s.Side, "outlineCorners": s.Corner})
	try("units", m{"units": s.Units})
	try("calibrate", m{"pxPerMm": s.PxPerMm})
	try("turnRelief", m{"turn": s.Relief.Turn, "tilt": s.Relief.Tilt})
	try("pullApart", m{"by": s.Relief.Apart})
	try("showLayers", m{"show": s.Relief.Show, "layer": s.Relief.Layer})
	try("showSize", m{"size": s.Relief.Size})
	try("cardLook", m{"card": s.Relief.Card})
	try("letterKeys", m{"use": s.Letters})
	try("showStep", m{"step": s.Intro})
	e.session.Machine = s.Machine
	try("setPace", m{"pace": s.Pace})
	try("keepAwake", m{"awake": s.Awake})
	for _, sheet := range s.Cut {
		try("markCut", m{"sheet": sheet, "done": "cut"})
	}
}
