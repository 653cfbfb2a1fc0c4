package inspect

// words are all sentences of findings and remedies. A translation is another one
// of these. Behind each stand what is put into it, in order; where that is a
// number that the sentence bends to, there is a form for each that plural tells
// apart.
type words struct {
	plural func(n int) int // which of a sentence's forms goes with n

	mm       string // length
	size     string // width, length with its unit
	quoted   string // name
	longName string // ends a name that is cut short
	comma    string
	and      string
	andMore  string // how many

	stripNarrow forms // sprite, how many, stock, least strip, narrowest
	backer      string
	joinWeak    forms  // sprite, how many, stock, narrowest, least strip
	cornerApart forms  // sprite, stock, how many, join, cell
	tiny        forms  // sprite, how many, smallest
	tweezers    forms  // sprite, how many, smallest
	alike       string // stock, stock, difference
	onDark      forms  // how many, stock, thickness
	tooLarge    forms  // sprite, how many, stock, sheet, margin, largest
	splitHidden forms  // sprite, how many, stock, pieces
	splitShown  forms  // sprite, how many, stock, pieces, length of the seams that show
	holds       forms  // stocks, cell
	holdsJoined forms  // stocks, cell, cell to be joined
	empty       string // sprite
	never       string // stock, why
	unknown     string // stock
	bounded     string // sprite
	closes      forms  // sprite, how many, stock, kerf
	loose       forms  // sprite, how many, stock
	overBed     string // stock, sheet, machine, bed
	tooThick    string // stock, thickness, machine, most
	short       forms  // stock, how many, on the shelf
	noPower     string // stocks, machine
	tooMany     string // how many, most
	tooHigh     string // sprite, height, air, cover
	shifts      string // sprite, by
	knifeFine   forms  // sprite, how many, stock
	meets       string // sprite, stock
	placesLost  forms  // stock, how many
	noPad       forms  // sprite, height, lift, how many
	noSpacer    forms  // sprite, height, lift, how many
	uneven      forms  // sprite, layers
	unevenLayer string // number, stock
	notWhole    string // sprite, layer, stock, why

	// Why a layer can't be left whole.
	cutsNear, noTab string
	noJig           string // sprite, height, stock, why
	jigRound        string
	jigLarge        string
	frameLarge      string // size

	noPins string // sprite, pin

	// Why a stock must never go on a laser.
	marked, chloride, fluoride, melts, chars string

	// Remedies.
	largerCells  string // length
	ownJoin      string
	cutApart     string
	joinCorners  string
	border       string // length
	fewest       string
	sheets       string // size
	split        string
	doubled      string // thickness
	cutBoth      string // stock
	sayLaser     string
	otherStock   string
	neighbours   forms
	remove       string
	fewerColours string
	tapeLowest   string
	glue         string
	cover        string // length
	thinPins     string // length
	withoutPins  string
	withoutJig   string
	oneByOne     string
}

// forms are a sentence as it bends to a number.
type forms []string

var english = words{
	plural: func(n int) int {
		if n == 1 {
			return 0
		}
		return 1
	},

	mm: "%s mm", size: "%s × %s", quoted: "“%s”", longName: "…", comma: ", ", and: " and ", andMore: " and %d more",

	stripNarrow: forms{
		"%s: %d place of %s is narrower than the %s that it holds; the narrowest is %s.",
		"%s: %d places of %s are narrower than the %s that it holds; the narrowest is %s.",
	},
	backer: "the backer",
	joinWeak: forms{
		"%s: %d join of %s is only %s wide at the narrowest, less than the %s that it holds.",
		"%s: %d joins of %s are only %s wide at the narrowest, less than the %s that it holds.",
	},
	cornerApart: forms{
		"%s: cells of %s are cut apart at %d corner, because a join of %s is more than half a cell of %s.",
		"%s: cells of %s are cut apart at %d corners, because a join of %s is more than half a cell of %s.",
	},
	tiny: forms{
		"%s: %d part is under 2.5 mm and may blow away or fall through the bed; the smallest is %s.",
		"%s: %d parts are under 2.5 mm and may blow away or fall through the bed; the smallest is %s.",
	},
	tweezers: forms{
		"%s: %d part is under 4 mm, for tweezers; the smallest is %s.",
		"%s: %d parts are under 4 mm, for tweezers; the smallest is %s.",
	},
	alike: "%s and %s look alike: they differ by %.1f, and under 5 cards are hard to tell apart.",
	onDark: forms{
		"%d part of %s, %s thick, lies on dark stock, which shows through light card under about 250 g/m².",
		"%d parts of %s, %s thick, lie on dark stock, which shows through light card under about 250 g/m².",
	},
	tooLarge: forms{
		"%s: %d part of %s is too large for a sheet of %s with %s kept free around, turned or not; the largest is %s.",
		"%s: %d parts of %s are too large for a sheet of %s with %s kept free around, turned or not; the largest is %s.",
	},
	splitHidden: forms{
		"%s: %d part of %s is larger than any sheet and is cut in %d pieces, to be glued edge to edge; every seam lies under a higher part.",
		"%s: %d parts of %s are larger than any sheet and are cut in %d pieces, to be glued edge to edge; every seam lies under a higher part.",
	},
	splitShown: forms{
		"%s: %d part of %s is larger than any sheet and is cut in %d pieces, to be glued edge to edge; %s of the seams will show.",
		"%s: %d parts of %s are larger than any sheet and are cut in %d pieces, to be glued edge to edge; %s of the seams will show.",
	},
	holds: forms{"%s holds cells of %s or more.", "%s hold cells of %s or more."},
	holdsJoined: forms{
		"%s holds cells of %s or more; corners can be joined from %s on.",
		"%s hold cells of %s or more; corners can be joined from %s on.",
	},
	empty:   "%s has no coloured cell and is skipped.",
	never:   "%s must never go on a laser: %s.",
	unknown: "%s goes on a laser only if its maker sells it as safe for that: find out what it is made of first.",
	bounded: "%s has so many small patches that the search for few parts was cut short; a stack with fewer may exist.",
	closes: forms{
		"%s: at %d place a gap or a hole of %s is no wider than the kerf of %s, so no sheets are made of this stock: make the cells larger, join the corners, or cut with less kerf.",
		"%s: at %d places a gap or a hole of %s is no wider than the kerf of %s, so no sheets are made of this stock: make the cells larger, join the corners, or cut with less kerf.",
	},
	loose: forms{
		"%s: %d part of %s has too few straight runs for tabs and may drop or swing: cut with little power, or hold it down.",
		"%s: %d parts of %s have too few straight runs for tabs and may drop or swing: cut with little power, or hold them down.",
	},
	overBed:  "A sheet of %s is %s, but the bed of %s is %s: cut the sheet smaller and plan with that size. Until then no machine file is written for it.",
	tooThick: "%s is %s thick, but %s cuts %s at most: take a thinner stock.",
	short:    forms{"%s: %d sheet needed, %d on the shelf.", "%s: %d sheets needed, %d on the shelf."},
	noPower:  "No machine file for %s: enter power and speed of %s for it on the bench. The DXF and SVG files are there all the same.",
	tooMany:  "All copies together have %d parts, but at most %d are laid on sheets at once, so no sheets are made: cut fewer copies at a time.",
	tooHigh:  "%s stands %s high: with %s of air it doesn't fit under the cover at %s.",
	shifts:   "Seen from 30° the top of %s shifts by %s, more than two cells, and the picture falls apart.",
	knifeFine: forms{
		"%s: %d part of %s has strips under 1 mm or is under 4 mm, which a knife tears: make the cells larger, or cut it on a laser or by hand.",
		"%s: %d parts of %s have strips under 1 mm or are under 4 mm, which a knife tears: make the cells larger, or cut them on a laser or by hand.",
	},
	meets: "%s: in register the cuts of two parts of %s in one layer would run into one another, so no sheets are made of this stock: lay the parts out on few sheets instead, or join the corners.",
	placesLost: forms{
		"%s: %d saved place holds no more, as parts or sheets have changed; what lay there is laid anew.",
		"%s: %d saved places hold no more, as parts or sheets have changed; what lay there is laid anew.",
	},
	noPad: forms{
		"%s: height %d was to float by %s, but %d part is too small for a pad that doesn't show, so the whole height is glued.",
		"%s: height %d was to float by %s, but %d parts are too small for a pad that doesn't show, so the whole height is glued.",
	},
	noSpacer: forms{
		"%s: height %d was to float by %s, but %d part is too small for a spacer that doesn't show, so the whole height is glued.",
		"%s: height %d was to float by %s, but %d parts are too small for a spacer that doesn't show, so the whole height is glued.",
	},
	uneven: forms{
		"%s: parts of layer %s don't all lie level, because what is below them isn't equally thick.",
		"%s: parts of layers %s don't all lie level, because what is below them isn't equally thick.",
	},
	unevenLayer: "%d (%s)",
	notWhole:    "%s: layer %d (%s) was to be left whole, but %s; its parts are cut one by one.",

	cutsNear:   "the cuts of two of its parts come nearer to one another than the gap",
	noJig:      "%s: no jig of %s for height %d, because %s.",
	jigRound:   "parts of it have round or slanted edges: lay them by their border",
	jigLarge:   "it is larger than a sheet, or a window no wider than the kerf",
	noTab:      "one of its parts has no room for a tab",
	frameLarge: "with its frame it is %s, more than a sheet takes",

	noPins: "%s has no two places for pins of %s: a place needs a part above that hides it, far enough from all edges, and the two must stand well apart; line it up by the edges that show.",

	marked:   "it is marked so",
	chloride: "its smoke holds hydrogen chloride, which ruins lungs and machine",
	fluoride: "its smoke holds hydrogen fluoride, which ruins lungs and machine",
	melts:    "it melts, burns and gives off poisonous smoke",
	chars:    "it chars, burns and gives off poisonous smoke",

	largerCells:  "Make the cells %s.",
	ownJoin:      "Let cell and stock say how large a join is.",
	cutApart:     "Cut all corners apart on purpose.",
	joinCorners:  "Join corners.",
	border:       "Make the border %s.",
	fewest:       "Try another stack: fewest parts.",
	sheets:       "Take sheets of %s.",
	split:        "Cut it in pieces along the lines of the cells.",
	doubled:      "Glue two sheets of it together before cutting, or take thicker card: %s.",
	cutBoth:      "Cut both from %s.",
	sayLaser:     "Say whether it may go on a laser.",
	otherStock:   "Take another stock, or cut it with a knife.",
	neighbours:   forms{"Give this cell the colour of the neighbours.", "Give these cells the colour of the neighbours."},
	remove:       "Remove it from the project.",
	fewerColours: "Reduce the drawing to fewer colours.",
	tapeLowest:   "Hold the lowest parts with tape instead of foam.",
	glue:         "Glue this height.",
	cover:        "Set the cover %s over the board.",
	thinPins:     "Take pins of %s.",
	withoutPins:  "Build without pins.",
	withoutJig:   "Place them without a jig.",
	oneByOne:     "Cut its parts one by one.",
}
