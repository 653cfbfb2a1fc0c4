package export

import "fmt"

// words are all texts that a bundle's files and the test pieces' hold, the guide
// apart. A translation is another one of these. Behind each stand what is put
// into it, in order; where that is a number that the text bends to, there is a
// form for each that plural tells apart. Comments of machine files hold ASCII
// only, whatever the language. The advice is common practice, no source.
type words struct {
	plural func(n int) int // which of a text's forms goes with n

	noName  string
	comma   string
	andMore string // how many

	// README.txt.
	title     string // project
	files     string // what is here
	sprites   string
	sprite    string // name, width, height, parts, how often
	in        string // folder
	layer     string // file, parts, stock, thickness
	spacer    string // file, spacers, stock, thickness, height
	pin       string // width, parts, the part that hides it, x, y
	before    string
	about     string // sprite, what is to be known
	at        string // what is to be known, the parts
	cutting   string // width of a tab
	building  string
	safety    string
	legend    string
	legendEnd string
	parts     forms
	spacers   forms
	times     []string // once, twice, then how often

	// Of the sheets.
	sheets    string
	sheetsFor string // machine
	sheet     string // stock, thickness, width, height
	power     string // percent, speed, unit, passes
	pressure  string // percent, speed, unit, passes
	passes    forms
	sheetHas  string // parts, kerf, time
	whole     string // parts
	takes     string
	stock     string // stock, sheets, waste, time
	weigh     string // grams
	sheetsOf  forms
	seconds   string // s
	minutes   string // min
	byHand    string
	byKnife   string
	knifeFile string // what bladeWords says
	noTabs    string // parts
	inPieces  string // pieces

	// Of jigs.
	jigs       string
	jigsHow    string
	jig        string // sprite, height, stock, thickness, clearance
	jigHigh    string // length, packing
	underPlate string // length
	underRim   string // length
	noPacking  string
	oneWindow  string // parts

	// A knife's blade.
	offset, overcut string
	leftToProgram   string // what
	applied         string // what, length
	setInProgram    string // what, length

	// In the drawings.
	faceUp, faceDown                           string
	sheetTitle                                 string // number, stock, face
	layerTitle                                 string // sprite, layer
	spacersTitle                               string // sprite, height
	markPlace, markNumber, cutInside, cutAbout string
	rung                                       string // power, speed

	// In machine files.
	gcodeSheet   string // what, number, stock
	gcodeSize    string // width, height, face
	gcodeCut     string
	gcodeBounds  string
	gcodeFingers string
	gcodeRunning string
	gcodeSwap    string

	// Of the test pieces.
	testTitle string // machine
	tests     string
	worst     string // folder, stock, thickness
}

// forms are a text as it bends to a number.
type forms []string

// counted is n with its noun.
func (w *words) counted(n int, f forms) string { return fmt.Sprintf(f[w.plural(n)], n) }

// often is how many times something is done.
func (w *words) often(n int) string {
	if n < len(w.times) {
		return w.times[n-1]
	}
	return fmt.Sprintf(w.times[len(w.times)-1], n)
}

// span is a time, in seconds where it is short.
func (w *words) span(seconds int) string {
	if seconds < 60 {
		return fmt.Sprintf(w.seconds, seconds)
	}
	return fmt.Sprintf(w.minutes, (seconds+30)/60)
}

var english = words{
	plural: func(n int) int {
		if n == 1 {
			return 0
		}
		return 1
	},

	noName: "(no name)", comma: ", ", andMore: " and %d more",

	title:   "%s: cutting files",
	sprites: "The sprites",
	sprite:  "%s: %s x %s mm, %s, to be cut %s",
	in:      "in %s",
	layer:   "%-30s %s of %s, %s mm",
	spacer:  "%-30s %s of %s, %s mm, under height %d",
	pin:     "a pin or wire of %s mm goes through %s and ends under %s, at %s, %s mm",
	before:  "Before you cut",
	about:   "%s: %s",
	at:      "%s (%s)",
	legend:  "Colours of the lines in sheets/*.svg",
	legendEnd: `In the DXF files marks lie on the layer MARK-..., cuts on CUT-...; both kinds of
file hold the lines in the order in which they are to be done.
`,
	parts: forms{"%d part", "%d parts"}, spacers: forms{"%d spacer", "%d spacers"}, times: []string{"once", "twice", "%d times"},

	sheets:    "The sheets",
	sheetsFor: "For %s. Times are estimates.",
	sheet:     "%s, %s mm, sheet %s x %s mm",
	power:     "power %d %%, speed %d %s, %s",
	pressure:  "pressure %d %%, speed %d %s, %s",
	passes:    forms{"%d pass", "%d passes"},
	sheetHas:  "%s, kerf %s mm, about %s",
	whole:     "left whole in a frame, to be laid down at once and freed then: %s",
	jigs:      "The jigs",
	jigsHow: `A plate has a window for each part of a height, wider than the part on every side.
The rim goes under it, flush with all its edges, about what is stuck already. Pack
both, at the rim, where nothing of the sprite is, until the plate's lower face is as
high as told; lay each part through its window, then lift plate and rim off.
`,
	jig:        "%s, height %d: jig of %s (%s mm), windows wider by %s mm",
	jigHigh:    "the plate's lower face lies %s mm over the board: %s",
	underPlate: "%s mm of packing under the plate",
	underRim:   "%s mm of packing under the rim",
	noPacking:  "without packing",
	oneWindow:  "one window for %s: too little would stand between them",
	takes:      "What it takes",
	stock:      "%-30s %s, %d %% waste, about %s",
	weigh:      ", parts weigh %d g",
	sheetsOf:   forms{"%d sheet", "%d sheets"},
	seconds:    "%d s",
	minutes:    "%d min",
	byHand: `Print the sheets at true scale (100 %, no fitting) and cut holes first, small parts
before large ones.
`,
	byKnife: `For a knife: closed contours without tabs, small parts first, on a sticky mat.
The drawings (DXF, SVG):
`,
	knifeFile: `The machine files (.nc):
%s
M3 or M4 lowers the blade, S is its pressure, M5 lifts it; M0 waits for you to put
the blade in the place of the pen.
`,
	inPieces: "Cut in pieces along the cells' lines, to be glued edge to edge: %s",
	noTabs:   "Without room for tabs, so loose in their sheet: %s",

	offset: "Blade offset", overcut: "Overcut, beyond where a contour began",
	leftToProgram: "%s: left to your machine's program.",
	applied:       "%s: %s mm, already applied.",
	setInProgram:  "%s: set %s mm in your machine's program.",

	faceUp: "good face up", faceDown: "good face DOWN on the bed (the sheet is mirrored)",
	sheetTitle:   "Sheet %d of %s, %s",
	layerTitle:   "%s, layer %d",
	spacersTitle: "%s, spacers under height %d",
	markPlace:    "mark: where a part on top goes; not cut through",
	markNumber:   "mark: a part's number; not cut through",
	cutInside:    "cut: inside a part, before the line around it",
	cutAbout:     "cut: around a part",
	rung:         "cut with power %d %%, speed %d",

	gcodeSheet:   "%s: sheet %d of %s",
	gcodeSize:    "%s x %s mm, %s",
	gcodeCut:     "Cut",
	gcodeBounds:  "Look where it will cut, beam off",
	gcodeFingers: "Keep your fingers off the blade. The machine's manual comes first.",
	gcodeRunning: "Never leave a running laser alone. The machine's manual comes first.",
	gcodeSwap:    "Put the blade in the place of the pen, then go on",

	testTitle: "Test pieces for %s",
	worst:     "%s/worst: %s, %s mm",

	files: `What is here
------------

sprites/.../01-....dxf  each layer by itself, the lowest first: all parts of one
                .svg    stock at one height, in mm, at their finished size
sprites/.../all.dxf     all layers in one drawing, a DXF layer each: to look at
                        how they lie, not to be cut in one go
sprites/.../picture.png what it will look like
sheets/...-1.dxf .svg   ready to cut, one for each sheet: kerf, tabs, order, marks
sheets/...-1.nc         the machine file, where you entered power and speed (a
                        knife's: pressure and speed);
                        -bounds.nc beside it runs round what will be cut, beam off
jigs/.../...-plate.dxf  where you want jigs: plates with windows to lay parts
                .svg    through, and rims that keep them in place
guide.pdf               how to put it together, to print at 100 %: key, steps, sorting
                        mat at true scale, the sheets with numbers
project.json            the project, to open again
job.json                sizes and counts, for programs

All files of a sprite share one origin, the lower left corner.
`,

	cutting: `
Cutting
-------

* Take the files in sheets/: the allowance for the width of the cut (half of it
  outside the outer lines and inside the holes), tabs, order and marks are in
  them. Turn off what your machine's program would add of these.
* The files in sprites/ are at finished size, without any of that.
* Inner corners keep the radius of the beam: half the width of the cut. A knife
  plotter rounds them, too, by what its blade trails.
* Cut holes before the outlines around them: a piece that is free may move.
* A gap in a line is a tab: %s mm stay standing there, and the part is broken
  out by hand. Where there are none (light cut), set the power so low that parts
  stay by a thread. Parts without room for a tab lie loose: see above.
* Parts under 4 mm are for tweezers; parts under 2.5 mm blow away or fall
  through the bed.
* Cut a test square of each new stock before the sheet.
* Smoke stains the upper face. A stock can be set to be cut face down: its sheet
  is mirrored then, and numbers stand on the backs.
`,

	building: `
Building
--------

* Build from the lowest layer up. Each part lies wholly on one other part.
* Lay everything out dry once before gluing.
* Thin double-sided tape, or a glue that hardly wets card.
* Where a lower part ends under a higher one its edge is set back a little, so
  that nothing peeps out when your hand is off: line up by the edges that show.
* Weigh down overnight if the card curls.
`,

	safety: `
Before the machine runs
-----------------------

The machine's manual and your local rules come first.

* Never leave a running laser alone.
* Extraction on; eyes protected as the machine's manual says.
* Know your stock. Never on a laser: PVC and other vinyls, anything with chlorine
  or fluorine in it, anything of unknown make. They give off gases that harm you
  and the machine.
* Card burns: water or an extinguisher at hand.
* Cut with a blade away from you.

Thicknesses, widths of cuts and strips marked "typical" in the project are
typical figures, not promises: measure your own.
`,

	tests: `A folder for each stock. Cut these from a scrap of it before the sheet. The
-bounds.nc beside a machine file runs round what it will cut with the beam off.

gauge   how wide a cut is. Cut it, push all blocks of the slot to the left, away
        from the scale, hold them there and read how far the last one came: whole
        millimetres where its first tick (the rightmost) points on the scale
        below it, and the tenths by whichever of its ticks stands exactly over
        one of the scale, counted from 0 at the right. Then

            sheetsprite testpiece --reading 2.3

        says the kerf: a twentieth of the reading. Enter it for this machine and
        this stock on the bench (kerf_mm of the use), or give it as --kerf.
        Kerf is measured, not guessed; a stack of card forgives a typical value,
        spacers and parts side by side don't.
ladder  which power and speed cut it: rows are power in percent (P), columns speed
        (S). Take the fastest square that falls out by itself, or for a light cut
        the fastest that can just be broken out. In the DXF each square has a
        layer, in the SVG a colour of its own.
worst   the most delicate places of this job, as it would cut them, on 60 x 40 mm.

Did they hold? In the page say under My bench, card by card, what broke; it becomes
wider by a step that you can take back. Else:

  a strip broke      raise the stock's least strip (least_strip_mm) until the places
                     that break are listed before you cut, and make the cells larger
  a join broke       wider joins: --join, or a larger least strip
  a tab tore by itself
                     wider tabs: --tab, or light cut instead (--hold light)
  a tab can't be broken
                     narrower tabs: --tab
  the number can't be read
                     more power or less speed for marks
`,
}
