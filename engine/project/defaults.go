package project

import "sheetsprite/engine/shape"

// UsualTab is what is left standing at a tab, on card. Common practice, no source.
const UsualTab = shape.Um(400)

// How much wider a jig's windows are than their parts, on every side. Common practice,
// no source.
const (
	UsualClear = shape.Um(200)
	MostClear  = 2 * shape.Mm
)

// Limits of a tab.
const (
	LeastTab = shape.Um(100)
	MostTab  = 5 * shape.Mm
)

// What pins may measure: UsualPin is a dressmaker's pin or a wire, common practice,
// no source.
const (
	UsualPin = 1 * shape.Mm
	LeastPin = shape.Um(500)
	MostPin  = 3 * shape.Mm
)

// pinsWithin checks the holes for pins; 0 is none.
func pinsWithin(v shape.Um) error {
	if v == 0 {
		return nil
	}
	return within("pins_mm", v, LeastPin, MostPin)
}

// DefaultSettings are the settings of a new project: corners joined, no
// border, A4 sheets (ISO 216: 210 × 297 mm), parts held by tabs.
func DefaultSettings() Settings {
	return Settings{
		Corners:  Join,
		Edge:     Square,
		SheetW:   210 * shape.Mm,
		SheetH:   297 * shape.Mm,
		Margin:   5 * shape.Mm,
		Gap:      1 * shape.Mm,
		Hold:     Tabs,
		Tab:      UsualTab,
		JigClear: UsualClear,
		Effort:   3,
	}
}

// DefaultStack is how a new sprite is stacked: foam under the lowest parts,
// nothing inside floats.
func DefaultStack() Stack {
	return Stack{Style: Fewest, ExtraHeights: 3, Foam: UsualFoam, FloatBy: UsualFloat}
}

// NewSprite is an empty drawing of w × h cells: cells of 3 mm, one copy, one
// frame.
func NewSprite(name string, w, h int) Sprite {
	cells := make([]byte, w*h)
	for i := range cells {
		cells[i] = Empty
	}
	return Sprite{
		Name: name, Copies: 1, Cell: 3 * shape.Mm, W: w, H: h,
		Frames: []Frame{{Cells: cells}},
		Stack:  DefaultStack(),
	}
}
