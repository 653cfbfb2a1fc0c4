package export

import (
	"fmt"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// jigFiles are the paths of a jig's pieces, in their order.
type jigFiles []sheetFile

// nameJigs gives every jig's pieces their paths; sprites' folders are by Planned.Sprites.
func nameJigs(j Job, sprites []spriteFiles) []jigFiles {
	s := j.Plan.Sheets
	if s == nil {
		return nil
	}
	out := make([]jigFiles, len(s.Jigs))
	for i := range s.Jigs {
		jig := &s.Jigs[i]
		folder := strings.TrimPrefix(strings.TrimSuffix(sprites[jig.Sprite].picture, "/picture.png"), "sprites/")
		for k := range jig.Pieces {
			name := fmt.Sprintf("jigs/%s/height-%02d-%s", folder, jig.Height, jig.Pieces[k].Name)
			f := sheetFile{stock: jig.Pieces[k].Name, dxf: name + ".dxf", svg: name + ".svg"}
			if s.MachineFile(&jig.Pieces[k].Sheet) {
				f.gcode, f.bounds = name+".nc", name+"-bounds.nc"
			}
			out[i] = append(out[i], f)
		}
	}
	return out
}

// addJigs adds the files of all jigs.
func addJigs(a *archive, s *engine.Sheets, files []jigFiles) error {
	for i, jig := range files {
		for k, f := range jig {
			if err := addSheet(a, s, &s.Jigs[i].Pieces[k].Sheet, f); err != nil {
				return err
			}
		}
	}
	return nil
}

// manifestJig is a jig's plate or rim: a sheet of its own with one piece.
type manifestJig struct {
	Sprite  string      `json:"sprite"`
	Height  int         `json:"height"`
	Piece   string      `json:"piece"` // plate or rim
	Stock   string      `json:"stock"`
	DXF     string      `json:"dxf"`
	SVG     string      `json:"svg"`
	GCode   string      `json:"gcode,omitempty"`
	Bounds  string      `json:"bounds_gcode,omitempty"`
	Size    [2]mmNumber `json:"size_mm"` // of the card that it takes
	Move    [2]mmNumber `json:"move_mm"` // from the sprite's layers' coordinates
	Clear   mmNumber    `json:"clearance_mm"`
	Pack    mmNumber    `json:"pack_mm"` // the plate's lower face over the board
	Windows [][]string  `json:"windows"` // the parts in each of the plate's windows
	Cut     mmNumber    `json:"cut_mm"`
	Leads   mmNumber    `json:"lead_mm,omitempty"`
	Mark    mmNumber    `json:"mark_mm"`
	Travel  mmNumber    `json:"travel_mm"`
	Seconds int         `json:"seconds"`
}

func newManifestJigs(j Job, files []jigFiles) []manifestJig {
	var out []manifestJig
	for i, fs := range files {
		jig := &j.Plan.Sheets.Jigs[i]
		sp := &j.Plan.Sprites[jig.Sprite]
		for k, f := range fs {
			sh := &jig.Pieces[k].Sheet
			m := manifestJig{
				Sprite: j.Project.Sprites[sp.Index].Name, Height: jig.Height, Piece: jig.Pieces[k].Name, Stock: jig.Stock.ID,
				DXF: f.dxf, SVG: f.svg, GCode: f.gcode, Bounds: f.bounds,
				Size: [2]mmNumber{mmNumber(sh.Size.Width), mmNumber(sh.Size.Height)}, Move: *place(jig.Pieces[k].Move),
				Clear: mmNumber(jig.Clear), Pack: mmNumber(jig.Pack), Windows: [][]string{},
				Cut: mmNumber(sh.Route.Cut + sh.Route.Leads), Leads: mmNumber(sh.Route.Leads), Mark: mmNumber(sh.Route.Marked), Travel: mmNumber(sh.Route.Travel), Seconds: sh.Seconds,
			}
			if k == 0 {
				for _, parts := range jig.Windows {
					m.Windows = append(m.Windows, numbersOf(sp.Numbers, parts))
				}
			}
			out = append(out, m)
		}
	}
	return out
}

func numbersOf(numbers []string, parts []int) []string {
	var out []string
	for _, i := range parts {
		out = append(out, numbers[i])
	}
	return out
}

// readmeJigs says of each jig what it is for and how high it lies.
func readmeJigs(j Job, files []jigFiles) string {
	if len(files) == 0 {
		return ""
	}
	var b strings.Builder
	say := func(format string, values ...any) { fmt.Fprintf(&b, format+"\n", values...) }
	b.WriteString("\n" + headed(english.jigs) + "\n" + english.jigsHow)
	for i, fs := range files {
		jig := &j.Plan.Sheets.Jigs[i]
		sp := &j.Plan.Sprites[jig.Sprite]
		say("\n"+english.jig, shown(j.Project.Sprites[sp.Index].Name), jig.Height, shown(jig.Stock.Name), mmText(jig.Stock.Thickness), mmText(jig.Clear))
		for _, f := range fs {
			say("  %s", f.dxf)
		}
		say("  "+english.jigHigh, mmText(jig.Pack), packingWords(jig))
		for _, parts := range jig.Windows {
			if len(parts) > 1 {
				say("  "+english.oneWindow, strings.Join(numbersOf(sp.Numbers, parts), english.comma))
			}
		}
	}
	return b.String()
}

// packingWords say how much goes under a rim, or under the plate.
func packingWords(jig *engine.Jig) string {
	rest, text := jig.Pack, english.underPlate
	if jig.Rim != nil {
		rest, text = rest-jig.Stock.Thickness, english.underRim
	}
	if rest <= 0 {
		return english.noPacking
	}
	return fmt.Sprintf(text, mmText(rest))
}

// knifeNotes stand in the drawings for a knife.
func knifeNotes(m project.Machine) []string {
	if m.Kind != project.Knife {
		return nil
	}
	return strings.Split(bladeWords(m, inDrawing), "\n")
}
