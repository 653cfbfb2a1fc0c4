package inspect

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// Remedy is something that can be done about a finding: an editor's command
// with its arguments as plain data (strings, numbers, lists, maps).
type Remedy struct {
	Command Command
	Args    map[string]any
	Asks    []string // arguments that only the maker can give
	Text    string   // what it does, as an invitation
	Sure    bool     // it clears the finding; else it is worth a try
}

// Command names what a remedy does.
type Command string

// The commands with their arguments; lengths are in mm.
const (
	SetCell       Command = "setCell"       // sprite, mm
	SetJoin       Command = "setJoin"       // mm; 0: as cell and stock ask
	SetCorners    Command = "setCorners"    // corners: join or apart
	SetBorder     Command = "setBorder"     // mm
	SetStyle      Command = "setStyle"      // sprite, style
	SetSheet      Command = "setSheet"      // w_mm, h_mm
	SetStockSheet Command = "setStockSheet" // stock, w_mm, h_mm
	SetThickness  Command = "setThickness"  // stock, mm
	SetStock      Command = "setStock"      // keys (a palette key a character), stock
	SetLaser      Command = "setLaser"      // stock, laser: fine, unknown or never
	PaintCells    Command = "paintCells"    // sprite, cells: a list of [column, row, key]
	RemoveSprite  Command = "removeSprite"  // sprite
	ReduceColours Command = "reduceColours" // colours: how many to keep
	SetFoam       Command = "setFoam"       // sprite, mm; 0: tape
	SetFloat      Command = "setFloat"      // sprite, height (0: none)
	SetCover      Command = "setCover"      // mm
	SetWhole      Command = "setWhole"      // sprite, height, stock, how: whole or apart
	SetJig        Command = "setJig"        // sprite, height, stock ("": none)
	SetPins       Command = "setPins"       // mm; 0: no pins
	SetLarge      Command = "setLarge"      // large: whole or split
)

// Commands lists every command a remedy may name.
func Commands() []Command {
	return []Command{SetCell, SetJoin, SetCorners, SetBorder, SetStyle, SetSheet, SetStockSheet,
		SetThickness, SetStock, SetLaser, PaintCells, RemoveSprite, ReduceColours, SetFoam, SetFloat, SetCover, SetPins, SetWhole, SetLarge, SetJig}
}

// largerCells sets the sprite's cells to at least mm, to the next 0.1 mm.
func largerCells(sprite string, least shape.Um) Remedy {
	least = ceilTo(least, 100)
	return Remedy{
		Command: SetCell,
		Args:    map[string]any{"sprite": sprite, "mm": number(least)},
		Text:    fmt.Sprintf(english.largerCells, mm(least)),
		Sure:    true,
	}
}

func ceilTo(v, step shape.Um) shape.Um { return (v + step - 1) / step * step }
