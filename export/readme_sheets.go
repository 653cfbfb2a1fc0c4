package export

import (
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// readmeSheets lists the sheets: which card, which face up, how, which file.
func readmeSheets(j Job, files []sheetFile) string {
	s := j.Plan.Sheets
	if s == nil {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\nThe sheets\n----------\n\nFor %s. Times are estimates.\n\n", shown(s.Machine.Name))
	for i := range s.List {
		sh := &s.List[i]
		fmt.Fprintf(&b, "%s\n  %s, %s mm, sheet %s x %s mm\n  %s\n", strings.TrimPrefix(files[i].dxf, "sheets/"),
			shown(sh.Stock.Name), mmText(sh.Stock.Thickness), mmText(sh.Size.Width), mmText(sh.Size.Height), faceWords(sh.Face))
		if s.Machine.Kind != project.Hand && sh.Use.Power > 0 && sh.Use.Speed > 0 {
			what := "power"
			if s.Machine.Kind == project.Knife {
				what = "pressure"
			}
			fmt.Fprintf(&b, "  %s %d %%, speed %d %s, %s\n", what, sh.Use.Power, sh.Use.Speed, s.Machine.Unit, passes(sh.Use.Passes))
		}
		fmt.Fprintf(&b, "  %s, kerf %s mm, about %s\n", count(len(sh.Placed), "part"), mmText(sh.Kerf), minutes(sh.Seconds))
	}
	b.WriteString("\nWhat it takes\n\n")
	for _, f := range s.Figures() {
		fmt.Fprintf(&b, "  %-30s %s, %d %% waste, about %s", f.Stock, count(f.Sheets, "sheet"), f.Waste(), minutes(f.Seconds))
		if f.Mass > 0 {
			fmt.Fprintf(&b, ", parts weigh %d g", (f.Mass+500)/1000)
		}
		b.WriteString("\n")
	}
	b.WriteString(knifeWords(s.Machine))
	if s.Machine.Kind == project.Knife && slices.ContainsFunc(files, func(f sheetFile) bool { return f.gcode != "" }) {
		b.WriteString("\nThe machine files (.nc):\n" + bladeWords(s.Machine, inMachineFile) + "\nM3 or M4 lowers the blade, S is its pressure, M5 lifts it; M0 waits for you to put\nthe blade in the place of the pen.\n")
	}
	loose := looseParts(s)
	if len(loose) > 0 {
		fmt.Fprintf(&b, "\nWithout room for tabs, so loose in their sheet: %s\n", strings.Join(loose, ", "))
	}
	return b.String()
}

func passes(n int) string {
	if n == 1 {
		return "1 pass"
	}
	return fmt.Sprintf("%d passes", n)
}

func minutes(seconds int) string {
	if seconds < 60 {
		return fmt.Sprintf("%d s", seconds)
	}
	return fmt.Sprintf("%d min", (seconds+30)/60)
}

// looseParts are the numbers of parts without their tabs, each once.
func looseParts(s *engine.Sheets) []string {
	var out []string
	for _, p := range s.Parts {
		if p.Piece.Loose && p.Copy == 1 {
			out = append(out, p.Piece.Number)
		}
	}
	return out
}

// readmeLegend explains the colours of the sheets' lines.
func readmeLegend() string {
	var b strings.Builder
	b.WriteString("\nColours of the lines in sheets/*.svg\n------------------------------------\n\n")
	for _, k := range works {
		fmt.Fprintf(&b, "%s  %s\n", k.colour, k.says)
	}
	b.WriteString("\nIn the DXF files marks lie on the layer MARK-..., cuts on CUT-...; both kinds of\nfile hold the lines in the order in which they are to be done.\n")
	return b.String()
}

// knifeWords says what a knife's or a hand's sheets want to know.
func knifeWords(m project.Machine) string {
	switch m.Kind {
	case project.Hand:
		return "\nPrint the sheets at true scale (100 %, no fitting) and cut holes first, small parts\nbefore large ones.\n"
	case project.Knife:
		return "\nFor a knife: closed contours without tabs, small parts first, on a sticky mat.\nThe drawings (DXF, SVG):\n" + bladeWords(m, inDrawing) + "\n"
	}
	return ""
}

// told says in which of a sheet's files something stands.
type told uint8

const (
	inDrawing     told = iota // DXF and SVG: the lines as they are to be cut
	inMachineFile             // what the machine drives
)

// bladeWords says who sees to a knife's blade offset and overcut. The drawings hold
// the lines as they are to be cut: what turns them into the blade's way is the
// machine's own program, and it would do so twice if they held that already. The
// machine files hold the blade's way, as no program comes after them.
func bladeWords(m project.Machine, where told) string {
	words := func(what string, v shape.Um) string {
		switch {
		case v == 0:
			return what + ": left to your machine's program."
		case where == inMachineFile:
			return fmt.Sprintf("%s: %s mm, already applied.", what, mmText(v))
		}
		return fmt.Sprintf("%s: set %s mm in your machine's program.", what, mmText(v))
	}
	return words("Blade offset", m.BladeOffset) + "\n" + words("Overcut, beyond where a contour began", m.Overcut)
}
