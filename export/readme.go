package export

import (
	"fmt"
	"path"
	"strings"

	"sheetsprite/engine"
)

// readme is README.txt: what the files are and what to mind before cutting. The
// advice is common practice, no source.
func readme(j Job, files []spriteFiles, sheets []sheetFile) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: cutting files\n\n", shown(j.Project.Name))
	b.WriteString(readmeFiles)
	b.WriteString("\nThe sprites\n-----------\n")
	for i, s := range j.Plan.Sprites {
		sprite := j.Project.Sprites[s.Index]
		parts := 0
		for _, l := range s.Layout.Layers {
			parts += len(l.Parts)
		}
		fmt.Fprintf(&b, "\n%s: %s x %s mm, %s, to be cut %s\n  in %s\n", shown(sprite.Name),
			mmText(s.Layout.Size.X), mmText(s.Layout.Size.Y), count(parts, "part"), times(j.Project.CopiesOf(s.Index)),
			strings.TrimSuffix(files[i].picture, "picture.png"))
		for k, l := range s.Layout.Layers {
			stock := s.Stocks[l.Stock]
			fmt.Fprintf(&b, "  %-30s %s of %s, %s mm\n", files[i].names[k], count(len(l.Parts), "part"), shown(stock.Name), mmText(stock.Thickness))
		}
		for _, text := range pinWords(s) {
			fmt.Fprintf(&b, "  %s\n", text)
		}
		for k, l := range s.Spacers {
			stock := s.Stocks[l.Stock]
			fmt.Fprintf(&b, "  %-30s %s of %s, %s mm, under height %d\n", path.Base(files[i].spacers[k]), count(len(l.Parts), "spacer"), shown(stock.Name), mmText(stock.Thickness), l.Height)
		}
	}
	b.WriteString(readmeSheets(j, sheets))
	if len(j.Plan.Findings) > 0 {
		b.WriteString("\nBefore you cut\n--------------\n")
		for _, f := range j.Plan.Findings {
			b.WriteString("\n* ")
			if f.Sprite != "" {
				fmt.Fprintf(&b, "%s: ", shown(f.Sprite))
			}
			b.WriteString(oneLine(f.Text))
			b.WriteString("\n")
		}
	}
	b.WriteString(strings.Replace(readmeCutting, "TAB", mmText(j.Project.Settings.Tab), 1))
	if j.Plan.Sheets != nil {
		b.WriteString(readmeLegend())
	}
	b.WriteString(readmeBuilding)
	b.WriteString(readmeSafety)
	return []byte(b.String())
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// pinWords say where a sprite's pins go.
func pinWords(s engine.Sprite) []string {
	var out []string
	for _, pin := range s.Pins {
		w, _ := pin.Hole.Size()
		var through []string
		for _, i := range pin.Parts {
			through = append(through, s.Numbers[i])
		}
		out = append(out, fmt.Sprintf("a pin or wire of %s mm goes through %s and ends under %s, at %s, %s mm",
			mmText(w), strings.Join(through, ", "), s.Numbers[pin.Under], mmText(pin.Hole.Min.X+w/2), mmText(pin.Hole.Min.Y+w/2)))
	}
	return out
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

// oneLine keeps a text from breaking out of its line.
func oneLine(s string) string { return strings.Join(strings.Fields(stripControls(s)), " ") }

const readmeFiles = `What is here
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
guide.pdf               how to put it together, to print at 100 %: key, steps, sorting
                        mat at true scale, the sheets with numbers
project.json            the project, to open again
job.json                sizes and counts, for programs

All files of a sprite share one origin, the lower left corner.
`

const readmeCutting = `
Cutting
-------

* Take the files in sheets/: the allowance for the width of the cut (half of it
  outside the outer lines and inside the holes), tabs, order and marks are in
  them. Turn off what your machine's program would add of these.
* The files in sprites/ are at finished size, without any of that.
* Inner corners keep the radius of the beam: half the width of the cut. A knife
  plotter rounds them, too, by what its blade trails.
* Cut holes before the outlines around them: a piece that is free may move.
* A gap in a line is a tab: TAB mm stay standing there, and the part is broken
  out by hand. Where there are none (light cut), set the power so low that parts
  stay by a thread. Parts without room for a tab lie loose: see above.
* Parts under 4 mm are for tweezers; parts under 2.5 mm blow away or fall
  through the bed.
* Cut a test square of each new stock before the sheet.
* Smoke stains the upper face. A stock can be set to be cut face down: its sheet
  is mirrored then, and numbers stand on the backs.
`

const readmeBuilding = `
Building
--------

* Build from the lowest layer up. Each part lies wholly on one other part.
* Lay everything out dry once before gluing.
* Thin double-sided tape, or a glue that hardly wets card.
* Where a lower part ends under a higher one its edge is set back a little, so
  that nothing peeps out when your hand is off: line up by the edges that show.
* Weigh down overnight if the card curls.
`

const readmeSafety = `
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
`
