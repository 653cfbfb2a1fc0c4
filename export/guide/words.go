package guide

import (
	"fmt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// words are all texts of the guide. A translation is another one of these.
type words struct {
	language string          // BCP 47
	plural   func(n int) int // which of a text's forms goes with n
	noName   string
	title    string // project
	and      string
	comma    string
	titled   string // what, what about it
	both     string // two sentences, the first without its end
	percent  string // number

	// Lengths: what is in mm, then inches.
	mm, size, mmAndInch, sizeAndInch string

	// Cover.
	summary   string // sprites, parts, time
	takes     string
	columns   [4]string // stock, thickness, parts, sheets
	foam      string    // thickness, length, pads
	flat      string
	toolList  string
	time      string // time
	buy       string
	fullScale string

	// Sprites.
	key       string
	facts     string // size, parts, height
	make      string // copies
	keyHelp   string
	keyTile   string // column, columns, row, rows
	apart     string
	check     string
	continued string // heading

	// Steps.
	steps       string
	step        string // number
	stepFacts   string // stock, height, parts
	onto        string // parts, the part below
	ontoBoard   string // parts
	padding     string // pads, thickness, back
	spacing     string // stock, back
	spacerUnder string // spacers, the part on them
	taped       string
	turned      string
	apartly     string // part, what lies on it
	inPieces    string // part, how many, their numbers
	pinned      string // diameter, through what
	pinsApart   string // parts of one pin, and of the other
	pinsAlike   string // parts of both
	pinEnd      string // part
	whole       string // parts, the frames' sheets
	jig         string // height, stock, how high
	eachOf      string // copies

	// Sorting mat.
	mat      string
	matHelp  string
	matTabs  string
	of       string // number, copies
	spacerOf string // number, the part on it
	piece    string // number, column, columns, row, rows
	overlaps string

	// Sheets.
	sheet      string // stock, number
	sheetFacts string // size, parts, scale
	faceUp     string
	faceDown   string
	file       string // name

	// Last page.
	mind      string
	trim      string
	trimHelp  string
	noTrim    string
	stub      string // part, how many
	build     string
	buildHelp []string
	safety    string
	safeHelp  []string

	parts, spacers, sprites, pads forms // how many
	minutes, hours                string
	once, twice, copies           string
}

// forms are a text as it bends to a number.
type forms []string

var english = words{
	language: "en",
	plural: func(n int) int {
		if n == 1 {
			return 0
		}
		return 1
	},
	noName:  "no name",
	title:   "%s: how to put it together",
	and:     " and ",
	comma:   ", ",
	titled:  "%s: %s",
	both:    "%s. %s",
	percent: "%d %%",

	mm: "%s mm", size: "%s × %s mm", mmAndInch: "%s mm (%s in)", sizeAndInch: "%s × %s mm (%s × %s in)",

	summary:   "%s, %s, about %s to put together",
	takes:     "What it takes",
	columns:   [4]string{"Card", "Thick", "Parts", "Sheets"},
	foam:      "Foam tape, %s thick: about %s, cut into %s",
	flat:      "Double-sided tape of 0.1 mm, or a glue that hardly wets card, for all else",
	toolList:  "Tweezers, a craft knife and a steel rule for tabs and foam, clean hands, a weight overnight if the card curls",
	time:      "Typically 45 s a part, 90 s for one under 4 mm: about %s in all",
	buy:       "To buy",
	fullScale: "Print at 100 %, not “fit to page”. On pages at true scale the line at the foot must measure 50 mm.",

	key:       "Which part is which",
	facts:     "%s, %s, %s high",
	make:      "Make %d: %s of each part. Copies bear the same number, because any of them fits.",
	keyHelp:   "True scale, seen from the front, good face up.",
	keyTile:   "Column %d of %d, row %d of %d. Neighbouring pages overlap by 10 mm: lay the crosses on one another.",
	apart:     "The stack, pulled apart",
	check:     "50 mm. Print at 100 %",
	continued: "%s, continued",

	steps:       "Steps",
	step:        "Step %d",
	stepFacts:   "%s, height %d, %s",
	onto:        "%s on %s.",
	ontoBoard:   "%s on the board.",
	padding:     "First stick %s of %s foam beneath, where the dashed boxes are: %s or more behind every edge.",
	spacing:     "First tape the spacers of %s beneath, on both faces, where the dashed lines are: %s behind every edge.",
	spacerUnder: "%s under %s.",
	taped:       "Tape or glue flat.",
	turned:      "Cut good face down: turn the parts over; the numbers are on their backs.",
	apartly:     "%s can be made up apart with all that lies on it (%s), and then set down whole.",
	inPieces:    "%s comes in %d pieces, %s: lay them edge to edge, as the dashed lines show.",

	pinsApart: "through %s, and through %s",
	pinsAlike: "both through %s",

	pinned: "Pins or wires of %s keep the holes in line: %s. Stand them upright in the board or in foam, thread each part on, and cut them off flush before what hides them goes down; mind the ends.",
	whole:  "Left whole: %s stay in their frame from %s. Lift the frame out as it is, press a tacky sheet (transfer tape, or tape with little tack) onto its face, put adhesive on the backs, lay all down at once where the marks are, peel the sheet off, then cut the tabs through and take the frame away; a blade cuts away from you.",
	jig:    "There is a jig for height %d, of %s: set the rim about what lies there, the plate flush on it, its lower face %s over the board (packing at the rim), and lay each part through its window.",
	pinEnd: "%s hides the end of a pin: see that it stands no higher than what lies there.",

	eachOf: "%s of each",

	mat:      "Sorting mat",
	matHelp:  "True scale. Lay each part on its outline as it comes off the sheet: good face up, turned as it will lie.",
	matTabs:  "Short bars cross the outline where a tab held the part; trim those in orange, their edge shows.",
	of:       "%s, %s of these",
	spacerOf: "%s, spacer under %s",
	piece:    "%s: column %d of %d, row %d of %d",
	overlaps: "Pages overlap by 10 mm: lay the crosses on one another.",

	sheet:      "%s, sheet %d",
	sheetFacts: "%s, %s, drawn at %s of its size",
	faceUp:     "As it lies on the machine, good face up.",
	faceDown:   "As it lies on the machine, good face DOWN: all is mirrored.",
	file:       "File: %s",

	mind:     "Before and while you build",
	trim:     "Tabs to trim",
	trimHelp: "A tab leaves a stub where it was. These parts have stubs on edges that show; the mat says where:",
	noTrim:   "No tab is left on an edge that shows.",
	stub:     "%s (%d)",
	build:    "Building",
	buildHelp: []string{
		"Build from step to step. Each part lies wholly on one other part, so nothing is ever slid under what is stuck.",
		"Lay everything out dry once before gluing.",
		"A bar under a number shows which way it stands: 6 and 9 differ.",
		"Line up by the edges that show. Hidden edges are drawn back a little, so that nothing peeps out when your hand is off.",
		"Foam goes well behind every edge. Where a whole height is on foam, stick all its pads before the first part goes down.",
		"Leave 2 mm of air or more under a cover.",
	},
	safety: "The machine",
	safeHelp: []string{
		"The machine's manual and your local rules come first.",
		"Never leave a running laser alone. Extraction on; eyes protected as the manual says; water or an extinguisher at hand: card burns.",
		"Know your stock. Never on a laser: PVC and other vinyls, anything with chlorine or fluorine in it, anything of unknown make.",
		"Cut with a blade away from you.",
	},

	parts: forms{"%d part", "%d parts"}, spacers: forms{"%d spacer", "%d spacers"}, sprites: forms{"%d sprite", "%d sprites"},
	pads: forms{"%d pad", "%d pads"}, minutes: "%d min", hours: "%d h %02d min",
	once: "one", twice: "two", copies: "%d",
}

// counted is n with its noun.
func (w *words) counted(n int, f forms) string { return fmt.Sprintf(f[w.plural(n)], n) }

// partsAnd is a number of parts, and of spacers where there are any.
func (w *words) partsAnd(parts, spacers int) string {
	text := w.counted(parts, w.parts)
	if spacers > 0 {
		text += w.and + w.counted(spacers, w.spacers)
	}
	return text
}

// several is a number of copies in words.
func (w *words) several(n int) string {
	switch n {
	case 1:
		return w.once
	case 2:
		return w.twice
	}
	return fmt.Sprintf(w.copies, n)
}

// span is a time.
func (w *words) span(seconds int) string {
	m := (seconds + 59) / 60
	if m < 60 {
		return fmt.Sprintf(w.minutes, m)
	}
	m = (m + 4) / 5 * 5
	return fmt.Sprintf(w.hours, m/60, m%60)
}

// length is a length on paper that measures in millimetres, or in both; to
// 0.01 mm.
func (p Paper) length(v shape.Um) string {
	text := project.FormatMm((v + 5) / 10 * 10)
	if p.Inches {
		return fmt.Sprintf(english.mmAndInch, text, inches(v))
	}
	return fmt.Sprintf(english.mm, text)
}

// size is a width and a height, to 0.1 mm.
func (p Paper) size(w, h shape.Um) string {
	w, h = (w+50)/100*100, (h+50)/100*100
	if p.Inches {
		return fmt.Sprintf(english.sizeAndInch, project.FormatMm(w), project.FormatMm(h), inches(w), inches(h))
	}
	return fmt.Sprintf(english.size, project.FormatMm(w), project.FormatMm(h))
}

// inches is a length in inches of 25.4 mm, to 0.01.
func inches(v shape.Um) string {
	hundredths := (v*100 + 12700) / 25400
	return project.FormatMm(hundredths * 10)
}
