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
	say := func(format string, values ...any) { fmt.Fprintf(&b, format+"\n", values...) }
	b.WriteString("\n" + headed(english.sheets))
	say("\n"+english.sheetsFor+"\n", shown(s.Machine.Name))
	for i := range s.List {
		sh := &s.List[i]
		say("%s", strings.TrimPrefix(files[i].dxf, "sheets/"))
		say("  "+english.sheet, shown(sh.Stock.Name), mmText(sh.Stock.Thickness), mmText(sh.Size.Width), mmText(sh.Size.Height))
		say("  %s", faceWords(sh.Face))
		if s.Machine.Kind != project.Hand && sh.Use.Power > 0 && sh.Use.Speed > 0 {
			what := english.power
			if s.Machine.Kind == project.Knife {
				what = english.pressure
			}
			say("  "+what, sh.Use.Power, sh.Use.Speed, s.Machine.Unit, english.counted(sh.Use.Passes, english.passes))
		}
		say("  "+english.sheetHas, english.counted(len(sh.Placed), english.parts), mmText(sh.Kerf), english.span(sh.Seconds))
		for _, f := range sh.Frames {
			var numbers []string
			for _, k := range f.Members {
				numbers = append(numbers, s.Parts[k].Piece.Number)
			}
			say("  "+english.whole, strings.Join(numbers, english.comma))
		}
	}
	say("\n%s\n", english.takes)
	for _, f := range s.Figures() {
		line := fmt.Sprintf(english.stock, f.Stock, english.counted(f.Sheets, english.sheetsOf), f.Waste(), english.span(f.Seconds))
		if f.Mass > 0 {
			line += fmt.Sprintf(english.weigh, (f.Mass+500)/1000)
		}
		say("  %s", line)
	}
	b.WriteString(knifeWords(s.Machine))
	if s.Machine.Kind == project.Knife && slices.ContainsFunc(files, func(f sheetFile) bool { return f.gcode != "" }) {
		fmt.Fprintf(&b, "\n"+english.knifeFile, bladeWords(s.Machine, inMachineFile))
	}
	if pieces := piecesOf(s); len(pieces) > 0 {
		say("\n"+english.inPieces, strings.Join(pieces, english.comma))
	}
	if loose := looseParts(s); len(loose) > 0 {
		say("\n"+english.noTabs, strings.Join(loose, english.comma))
	}
	return b.String()
}

// piecesOf are the numbers of all pieces of parts that fit no sheet, each once.
func piecesOf(s *engine.Sheets) []string {
	var out []string
	for _, p := range s.Parts {
		if p.Piece.Of != "" && p.Copy == 1 {
			out = append(out, p.Piece.Number)
		}
	}
	return out
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
	b.WriteString("\n" + headed(english.legend) + "\n")
	for _, k := range works {
		fmt.Fprintf(&b, "%s  %s\n", k.colour, *k.says)
	}
	b.WriteString("\n" + english.legendEnd)
	return b.String()
}

// knifeWords says what a knife's or a hand's sheets want to know.
func knifeWords(m project.Machine) string {
	switch m.Kind {
	case project.Hand:
		return "\n" + english.byHand
	case project.Knife:
		return "\n" + english.byKnife + bladeWords(m, inDrawing) + "\n"
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
			return fmt.Sprintf(english.leftToProgram, what)
		case where == inMachineFile:
			return fmt.Sprintf(english.applied, what, mmText(v))
		}
		return fmt.Sprintf(english.setInProgram, what, mmText(v))
	}
	return words(english.offset, m.BladeOffset) + "\n" + words(english.overcut, m.Overcut)
}
