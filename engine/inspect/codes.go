package inspect

// Code names a kind of finding. A code never changes its meaning and is never
// used again for another one; new ones are added at the end of the list below.
type Code string

// The codes.
const (
	StripNarrow     Code = "strip-narrow"
	JoinWeak        Code = "join-weak"
	CornerApart     Code = "corner-apart"
	PartTweezers    Code = "part-tweezers"
	PartTiny        Code = "part-tiny"
	StocksAlike     Code = "stocks-alike"
	LightOverDark   Code = "light-over-dark"
	PartTooLarge    Code = "part-too-large"
	LeastCell       Code = "least-cell"
	SpriteEmpty     Code = "sprite-empty"
	StockNeverLaser Code = "stock-never-laser"
	StockUnknown    Code = "stock-unknown"
	SearchBounded   Code = "search-bounded"
	KerfCloses      Code = "kerf-closes"
	PartLoose       Code = "part-loose"
	SheetOverBed    Code = "sheet-over-bed"
	StockTooThick   Code = "stock-too-thick"
	ShelfShort      Code = "shelf-short"
	PowerUnknown    Code = "power-unknown"
	TooManyParts    Code = "too-many-parts"
	TooHigh         Code = "too-high"
	TopShifts       Code = "top-shifts"
	KnifeFine       Code = "knife-fine"
	KerfMeets       Code = "kerf-meets"
	PlacesLost      Code = "places-lost"
	FloatTooSmall   Code = "float-too-small"
	LayerUneven     Code = "layer-uneven"
	PinsNowhere     Code = "pins-nowhere"
	LayerNotWhole   Code = "layer-not-whole"
	PartSplit       Code = "part-split"
	SeamShows       Code = "seam-shows"
	JigNotMade      Code = "jig-not-made"
)

// Severity says how much a finding matters. Drawings are written in any case;
// a finding that refuses stops the machine files of what it is about.
type Severity string

// The severities, gravest first.
const (
	Refuse Severity = "refuse" // must not go to the machine like this
	Look   Severity = "look"   // will likely go wrong or cost trouble
	Note   Severity = "note"   // good to know
)

// Meaning is what a code stands for.
type Meaning struct {
	Code     Code
	Severity Severity
	Says     string
}

// Meanings lists every code, in the order in which they were given.
func Meanings() []Meaning {
	return []Meaning{
		{StripNarrow, Look, "a place of a part is narrower than its stock's least strip"},
		{JoinWeak, Look, "a join's narrowest place is narrower than its stock's least strip"},
		{CornerApart, Look, "cells that touch at a corner are cut apart, because a join that holds doesn't fit"},
		{PartTweezers, Note, "a part's longer side is under 4 mm, but not under 2.5 mm"},
		{PartTiny, Look, "a part's longer side is under 2.5 mm"},
		{StocksAlike, Look, "two stocks in use differ by less than 5 (CIEDE2000)"},
		{LightOverDark, Note, "thin light card lies on dark stock, which will show through"},
		{PartTooLarge, Look, "a part doesn't fit its sheet within the margin, turned or not"},
		{LeastCell, Note, "the least cell size that a stock allows"},
		{SpriteEmpty, Look, "a sprite has no coloured cell and is skipped"},
		{StockNeverLaser, Refuse, "a stock must never go on a laser"},
		{StockUnknown, Look, "a stock may go on a laser only if its maker says so"},
		{SearchBounded, Note, "the search for few parts was cut short"},
		{KerfCloses, Refuse, "a gap or a hole of a part is no wider than the kerf; its stock gets no sheets"},
		{PartLoose, Note, "a part has no room for its tabs and lies loose in its sheet"},
		{SheetOverBed, Look, "a sheet is larger than the machine's bed"},
		{StockTooThick, Look, "a stock is thicker than the machine cuts"},
		{ShelfShort, Look, "more sheets of a stock are needed than are on the shelf"},
		{PowerUnknown, Note, "power and speed for a stock were never entered; it gets no machine file"},
		{TooManyParts, Look, "all copies together have more parts than are laid on sheets at once; no sheets are made"},
		{TooHigh, Look, "a sprite with the air over it doesn't fit under the cover"},
		{TopShifts, Look, "seen from 30° the top shifts by more than two cells"},
		{KnifeFine, Look, "a part has a strip under 1 mm or is under 4 mm: a knife tears it"},
		{KerfMeets, Refuse, "in register two parts of a layer lie nearer than the kerf; their stock gets no sheets"},
		{PlacesLost, Note, "saved places of parts hold no more; the parts are laid anew"},
		{FloatTooSmall, Note, "a height was to float, but a part of it is too small for a pad; it is glued"},
		{LayerUneven, Note, "parts of one layer lie at different heights, because what is below them isn't equally thick"},
		{PinsNowhere, Note, "a sprite has no two hidden places for pins, far enough apart"},
		{LayerNotWhole, Look, "a layer was to be left whole but can't be; its parts are cut one by one"},
		{PartSplit, Note, "a part that fits no sheet is cut in pieces; every seam lies under a higher part"},
		{SeamShows, Look, "a part that fits no sheet is cut in pieces, and a seam between them shows"},
		{JigNotMade, Note, "a jig was wanted but can't be made"},
	}
}

// rank is c's place in the list, gravest first, for sorting.
func rank(c Code) int {
	for i, m := range Meanings() {
		if m.Code == c {
			return severityRank(m.Severity)*1000 + i
		}
	}
	panic("inspect: code not in the list: " + string(c))
}

func severityRank(s Severity) int {
	switch s {
	case Refuse:
		return 0
	case Look:
		return 1
	}
	return 2
}

// severity is how much findings of code c matter.
func severity(c Code) Severity {
	for _, m := range Meanings() {
		if m.Code == c {
			return m.Severity
		}
	}
	panic("inspect: code not in the list: " + string(c))
}

// OfSheets says whether only sheets bring a finding about.
func OfSheets(c Code) bool {
	switch c {
	case KerfCloses, PartLoose, SheetOverBed, StockTooThick, ShelfShort, PowerUnknown, TooManyParts, KnifeFine, KerfMeets, PlacesLost, LayerNotWhole, JigNotMade:
		return true
	}
	return false
}
