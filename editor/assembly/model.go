// Package assembly is what the page shows while parts are put together: the
// model that its Assemble view draws, step by step as the guide tells them. It
// stands outside package editor, so that the page's own program needs neither
// nesting nor steps; the maker's program has them.
package assembly

// Model is how all sprites that are cut now are put together. Lengths are mm; in
// a sprite x runs right and y down from the upper left corner of its bounds, on
// a sheet from the sheet's.
type Model struct {
	Revision uint64   `json:"revision"` // of the page's document
	Sprites  []Sprite `json:"sprites"`
	Sheets   []Sheet  `json:"sheets"`
	Laid     string   `json:"laid"` // "laid" once it is known on which sheets parts lie, else ""
}

// Sprite is one sprite.
type Sprite struct {
	Name    string  `json:"name"`
	Letters string  `json:"letters"` // that its parts' numbers begin with
	Index   int     `json:"index"`   // in the project
	Copies  int     `json:"copies"`
	Width   float64 `json:"width"`
	Height  float64 `json:"height"`
	Top     float64 `json:"top"` // of the highest face over the board
	Heights int     `json:"heights"`
	Stocks  []Stock `json:"stocks"`
	Parts   []Part  `json:"parts"` // lower ones first, so that they can be drawn in order
	Steps   []Step  `json:"steps"`
}

// Stock is what parts are cut from.
type Stock struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Colour string `json:"colour"`
	Face   string `json:"face"` // "up" or "down": which face is up while it is cut
}

// Part is one part of a sprite.
type Part struct {
	Number string     `json:"number"`
	Stock  int        `json:"stock"` // index into Stocks
	Level  int        `json:"level"` // its height in the stack, from 1
	On     int        `json:"on"`    // index of the part that it rests on, -1: the board
	Path   string     `json:"d"`
	Size   [2]float64 `json:"size"`
	Label  [3]float64 `json:"label"` // middle of the place for its number, and how high a number fits there; 0: nowhere
	Middle [2]float64 `json:"middle"`
	Pads   string     `json:"pads"`  // a path round each pad or spacer beneath it
	Lifts  []string   `json:"lifts"` // the numbers of the spacers beneath it
	Places []Place    `json:"places"`
	Pieces []string   `json:"pieces"` // the numbers of the pieces that it is cut in; none: it is whole
	Seams  string     `json:"seams"`  // a path along where they meet
}

// Place is where one copy of a part lies on its sheet, by copy; of a part that is
// cut in pieces, where its first one lies.
type Place struct {
	Sheet int    `json:"sheet"` // index into Model.Sheets; -1: on none
	Path  string `json:"d"`
	More  []Spot `json:"more"` // its other pieces
}

// Spot is where a piece lies.
type Spot struct {
	Sheet int    `json:"sheet"` // as in Place
	Path  string `json:"d"`
}

// Step is what is placed in one go.
type Step struct {
	Parts []int   `json:"parts"` // indices into the sprite's Parts
	Stock int     `json:"stock"` // index into Stocks
	Level int     `json:"level"`
	Lift  string  `json:"lift"`  // what holds them: "tape", "foam" or "spacer"
	Thick float64 `json:"thick"` // of that
	Back  float64 `json:"back"`  // how far pads lie behind every edge
	Pads  int     `json:"pads"`  // how many
	Apart []Apart `json:"apart"` // what can be made up apart
	Frame *Frame  `json:"frame"` // that its parts stay in until they are laid down; null where they are cut one by one
	Pins  *Pins   `json:"pins"`  // that are set up in this step; null for none
	Jig   *Jig    `json:"jig"`   // for its height; null for none
	Ends  []int   `json:"ends"`  // indices of its parts that hide the end of a pin
}

// Frame is what the parts of a layer that is left whole stay in.
type Frame struct {
	Sheets []int `json:"sheets"` // indices into Model.Sheets, by copy; -1: on none
}

// Jig is a jig for a height.
type Jig struct {
	Name string  `json:"name"` // of what it is cut from
	Pack float64 `json:"pack"` // of its plate's lower face over the board
}

// Pins are a sprite's two pins.
type Pins struct {
	Thick   float64  `json:"thick"`
	Through [2][]int `json:"through"` // indices of the parts that each goes through, lowest first
}

// Apart is a part that can be made up with all that lies on it before it is
// placed.
type Apart struct {
	Part    int `json:"part"`    // index into the sprite's Parts
	Carries int `json:"carries"` // how many parts that is
}

// Sheet is a sheet that parts come from.
type Sheet struct {
	Name   string  `json:"name"`
	Colour string  `json:"colour"`
	Number int     `json:"number"` // of its stock, from 1
	Of     int     `json:"of"`     // how many of its stock there are
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	Face   string  `json:"face"`
	Offcut string  `json:"offcut"` // "offcut" or ""
}
