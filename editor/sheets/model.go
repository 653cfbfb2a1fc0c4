// Package sheets is what the page shows of the sheets: the model that its
// Sheets view draws. It stands outside package editor, so that the page's own
// program needs neither nesting nor routes; the maker's program has them.
package sheets

// Model is all sheets of a project. Lengths are mm, x to the right and y down
// from a sheet's upper left corner, as the page draws.
type Model struct {
	Revision uint64    `json:"revision"` // of the page's document
	Machine  Machine   `json:"machine"`
	Sheets   []Sheet   `json:"sheets"`
	Parts    []Part    `json:"parts"`
	Stocks   []Stock   `json:"stocks"`
	Findings []Finding `json:"findings"`
	Better   string    `json:"better"` // "no more" where searching on is no use, else ""
}

// Machine is what the sheets are for.
type Machine struct {
	Name string `json:"name"`
	Kind string `json:"kind"`
	Unit string `json:"unit"` // of speeds
}

// Sheet is one sheet on the bed.
type Sheet struct {
	Stock   string     `json:"stock"` // ID
	Name    string     `json:"name"`
	Colour  string     `json:"colour"`
	Thick   float64    `json:"thick"`
	Number  int        `json:"number"` // of its stock, from 1
	Of      int        `json:"of"`     // how many of its stock there are
	Supply  int        `json:"supply"` // from 1 through what there is: offcuts, then sheets
	Width   float64    `json:"width"`
	Height  float64    `json:"height"`
	Inner   [4]float64 `json:"inner"`  // x, y, width and height of what its margins leave
	Offcut  string     `json:"offcut"` // "offcut" or ""
	Face    string     `json:"face"`   // "up" or "down": which face of the card is up
	Kerf    float64    `json:"kerf"`
	Power   int        `json:"power"` // 0: never entered
	Speed   int        `json:"speed"`
	Passes  int        `json:"passes"`
	Cut     float64    `json:"cut"`
	Travel  float64    `json:"travel"`
	Seconds int        `json:"seconds"`
	Parts   int        `json:"parts"`
	Files   []string   `json:"files"` // paths in the bundle: DXF, SVG, then machine files where there are any
	Print   string     `json:"print"` // another one where anything on the sheet is another
	Strokes []Stroke   `json:"strokes"`
}

// Stroke is one uninterrupted line, in the order of cutting.
type Stroke struct {
	Path string     `json:"d"`
	Kind string     `json:"kind"` // "cut", "inner", "place" or "number"
	Part int        `json:"part"` // index into Model.Parts, -1 for marks
	From [2]float64 `json:"from"`
	To   [2]float64 `json:"to"`
	Pass int        `json:"pass"`
}

// Part is one copy of a part, or a piece of one that is cut in pieces.
type Part struct {
	Sprite   string     `json:"sprite"`
	Index    int        `json:"index"` // of its sprite in the project
	Copy     int        `json:"copy"`
	Number   string     `json:"number"` // of the piece, where the part is cut in pieces
	Of       string     `json:"of"`     // the part's number
	Stock    string     `json:"stock"`
	Key      string     `json:"key"`   // of the palette entry that it shows, "" for a backer
	Sheet    int        `json:"sheet"` // index into Model.Sheets, -1 where it has none
	Path     string     `json:"d"`
	X        float64    `json:"x"` // bounds of its cut line on the sheet
	Y        float64    `json:"y"`
	Width    float64    `json:"width"`
	Height   float64    `json:"height"`
	Label    [3]float64 `json:"label"` // middle and width of a free run for its number
	Size     [2]float64 `json:"size"`  // finished, as it lies in the sprite
	Turn     int        `json:"turn"`  // quarters anticlockwise
	Layer    int        `json:"layer"`
	Level    int        `json:"level"`    // its height in the stack
	On       string     `json:"on"`       // number of the part that it rests on, "" for board or foam
	Numbered string     `json:"numbered"` // "part", "waste" or "map"
	Held     string     `json:"held"`     // "", "found", "moved" or "locked"
	Cell     [2]float64 `json:"cell"`     // a place of it in cells of the sprite's grid
	Order    int        `json:"order"`    // its place among the sprite's parts, layer by layer from below, from 0; a spacer has that of the part it lifts
}

// Stock is what all sheets of a stock take.
type Stock struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	Colour  string  `json:"colour"`
	Needed  int     `json:"needed"`  // sheets, without offcuts
	Offcuts int     `json:"offcuts"` // that are used
	Shelf   int     `json:"shelf"`   // sheets on the shelf; -1: nobody counted
	Waste   int     `json:"waste"`   // percent
	Grams   float64 `json:"grams"`   // of the parts; 0: not known
	Seconds int     `json:"seconds"`
}

// Finding is something to know before cutting.
type Finding struct {
	Code     string   `json:"code"`
	Severity string   `json:"severity"`
	Text     string   `json:"text"`
	Parts    []string `json:"parts"` // the numbers of those that it is about
	Remedies []Remedy `json:"remedies"`
}

// Remedy is a button under a finding.
type Remedy struct {
	Text    string         `json:"text"`
	Command string         `json:"command"`
	Args    map[string]any `json:"args"`
}
