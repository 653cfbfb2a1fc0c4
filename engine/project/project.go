// Package project is what is saved: sprites, one palette for all of them, the
// stock of each colour and the settings, with its file format.
package project

import (
	"encoding/json"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/shape"
)

// Limits of a project.
const (
	MaxSide          = 256 // cells a side of a sprite
	MaxSpriteColours = 24
	MaxPalette       = 90
	MaxSprites       = 1000
	MaxFrames        = 256 // of a sprite
	MaxStocks        = 1000
	MaxCopies        = 1000                          // of a sprite
	MaxWhole         = MaxHeights * MaxSpriteColours // as many layers as a sprite can have
	MaxUnder         = MaxPalette * MaxPalette
	MaxExtraHeights  = 90    // as many as a palette has colours
	MaxName          = 16384 // characters
	MinCell          = shape.Um(500)
	MaxCell          = 50 * shape.Mm
)

// Empty is the key of a cell without colour.
const Empty byte = '.'

// Extra holds the fields of a JSON object that this version doesn't know, so
// that a load and save keeps them. nil where there are none.
type Extra map[string]json.RawMessage

// Project is everything a maker saves.
type Project struct {
	Name     string
	Palette  []Colour
	Stocks   []Stock // a copy of the shelf's stocks that the palette uses
	Sprites  []Sprite
	Settings Settings
	Choice   Choice      // what of it is cut now
	Lettered int         // how many letters sprites have ever been called by: those of one that is gone are not given again
	Places   []Placement // where parts lie on their sheets, as far as that is laid down
	Bench    *Bench      // a copy of the machine and the shelf that it was planned with; nil: a laser of a general kind, typical figures
	Extra    Extra
}

// RGB is an sRGB colour, 8 bits a channel.
type RGB = colour.RGB

// Colour is a palette entry.
type Colour struct {
	Key   byte // see GoodKey; never changed once given
	Name  string
	RGB   RGB
	Stock string // ID of the stock it is cut from
	Extra Extra
}

// Stock is sheet goods: what a colour is cut from.
type Stock struct {
	ID         string // unique in the project; lower-case a-z, 0-9 and '-'
	Name       string
	Kind       Kind
	Colour     RGB
	Thickness  shape.Um
	Kerf       shape.Um // width the cut removes
	LeastStrip shape.Um // narrowest strip that holds
	SheetW     shape.Um // 0: as the settings say
	SheetH     shape.Um
	Laser      Laser
	Face       Face  // which face is up while it is cut
	Weight     int   // g/m²; 0: not known
	Core       *RGB  // what shows at a cut edge; nil: as the colour; never changed in place
	Sides      Sides // which faces have the colour
	Grain      Grain // along which side of a sheet it bends more easily
	Typical    bool  // the figures are typical ones, not measured by the maker
	Extra      Extra
}

// Sprite is a drawing.
type Sprite struct {
	Name    string
	Copies  int
	Cell    shape.Um // side of a cell
	W, H    int      // cells
	Frames  []Frame  // at least one; the first one is cut
	Stack   Stack
	Numbers Numbers // what its parts are called
	Extra   Extra
}

// Frame is one picture of a sprite: W*H palette keys, row by row from the top.
type Frame struct {
	Cells []byte // Empty or a palette key
	Extra Extra
}

// Stack is how a sprite's colours are to lie over one another.
type Stack struct {
	Style        Style
	ExtraHeights int    // heights allowed beyond the number of colours
	Order        string // palette keys, lowest first; for ByHand
	Lowest       string // keys pinned lowest
	Highest      string // keys pinned highest
	Under        []Under
	OutlineOnTop string   // key of the outline colour to keep on top within every part; "" for none
	Spare        string   // keys of scarce cards, cut no larger than they show
	Foam         shape.Um // under the lowest parts, the backer where there is one; 0: tape
	Float        int      // the one height inside, from 2, whose parts all stand on foam; 0: none
	FloatBy      shape.Um // thickness of the foam under that height
	FoamStock    string   // ID of the stock that spacers under the lowest parts are cut from instead of Foam; "" for none
	FloatStock   string   // the same for the height that floats, instead of FloatBy
	Whole        []Whole  // layers whose parts stay together in a frame until they are laid down; never changed in place
	Jigs         []Jig    // of which heights jigs are cut; never changed in place
	Extra        Extra
}

// Stocks are the IDs of the stocks that the stack wants beside its colours', each as
// often as it is wanted.
func (s Stack) Stocks() []string {
	var out []string
	for _, id := range []string{s.FoamStock, s.FloatStock} {
		if id != "" {
			out = append(out, id)
		}
	}
	for _, j := range s.Jigs {
		out = append(out, j.Stock)
	}
	return out
}

// Jig asks for a jig: a plate with a window for each part of a height. For a height
// that isn't there none is cut.
type Jig struct {
	Height int
	Stock  string // ID of what it is cut from
	Extra  Extra
}

// JigFrom is the ID of the stock that a height's jig is cut from; "" where there is none.
func (s Stack) JigFrom(height int) string {
	for _, j := range s.Jigs {
		if j.Height == height {
			return j.Stock
		}
	}
	return ""
}

// Under says that no part of colour Over lies beneath a part of colour Under.
type Under struct {
	Under, Over byte
	Extra       Extra
}

// Whole names a layer that is left whole: the parts of one stock at one height. One
// that isn't there does nothing.
type Whole struct {
	Height int
	Stock  string // ID
	Extra  Extra
}

// LeftWhole says whether the parts of a stock at a height stay together.
func (s Stack) LeftWhole(height int, stock string) bool {
	for _, w := range s.Whole {
		if w.Height == height && w.Stock == stock {
			return true
		}
	}
	return false
}

// KerfOf is the width that a cut in a stock removes.
func (s Settings) KerfOf(st Stock) shape.Um {
	if s.Kerf != nil {
		return *s.Kerf
	}
	return st.Kerf
}

// Settings hold for all sprites of a project.
type Settings struct {
	Corners  Corners
	Join     shape.Um // side of a join; 0: as cell and stock ask
	Border   shape.Um // by which the backer stands out; 0: none
	Edge     Edge     // how the border's convex corners look
	FillIn   bool     // enclosed empty cells of the backer are filled
	Backer   string   // ID of the backer's stock; "" for the first stock of board kind, else the lowest stock
	SheetW   shape.Um
	SheetH   shape.Um
	Margin   shape.Um  // of the sheet, kept free
	Gap      shape.Um  // least distance between cut lines of neighbours
	Kerf     *shape.Um // nil: what machine and stock say
	Hold     Hold
	Tab      shape.Um   // what is left standing at a tab
	Layout   Layout     // how parts come onto sheets
	Group    Grouping   // whether a sprite's parts keep together
	Large    Large      // what becomes of parts that fit no sheet
	Effort   int        // 0..9, how long nesting searches
	Paper    GuidePaper // what the guide is printed on
	Units    Units      // what the guide gives lengths in
	Pins     shape.Um   // side of the two holes for pins through each sprite; 0: none
	JigClear shape.Um   // by which a jig's windows are wider than their parts, on every side
	Cover    shape.Um   // height of the cover's lower face over the board; 0: not given
	Extra    Extra
}
