package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"sheetsprite/engine/inspect"
)

// detail says how much of the findings a summary tells.
type detail int

const (
	briefly  detail = iota // what to look at, without places
	atLength               // everything
)

// printSummary tells a person what was made and what to know before cutting.
func printSummary(w io.Writer, r report, d detail) {
	t := r.Totals
	fmt.Fprintf(w, "%s in %s, %s", counted(t.Sprites, "sprite"), counted(t.Colours, "colour"), counted(t.Parts, "part"))
	if t.PartsByPatch > t.Parts {
		fmt.Fprintf(w, " (one part a patch would be %s)", thousands(t.PartsByPatch))
	}
	fmt.Fprint(w, "\n\n")
	printSprites(w, r.Sprites)
	printFindings(w, r.Findings, d)
}

func printSprites(w io.Writer, sprites []reportSprite) {
	var table strings.Builder
	tw := tabwriter.NewWriter(&table, 0, 0, 3, ' ', 0)
	fmt.Fprint(tw, "sprite\tcells\tsize in mm\tcolours\theights\tparts\tby patch\t\n")
	for _, s := range sprites {
		name := oneLine(shorten(s.Name, 32))
		if s.Copies > 1 {
			name = fmt.Sprintf("%s, %d times", name, s.Copies)
		}
		fmt.Fprintf(tw, "%s\t%d × %d\t%s × %s\t%d\t%d\t%s\t%s\t\n", name, s.GridCells[0], s.GridCells[1],
			s.Size[0], s.Size[1], s.Colours, s.Heights, thousands(s.Parts), thousands(s.PartsByPatch))
	}
	tw.Flush()
	for line := range strings.Lines(table.String()) {
		fmt.Fprintln(w, strings.TrimRight(line, " \n"))
	}
}

// signs stand before a finding.
var signs = map[inspect.Severity]string{inspect.Refuse: "STOP", inspect.Look: "!", inspect.Note: "·"}

// mostFindings are shown briefly; a drawing with many faults would scroll away.
const mostFindings = 20

func printFindings(w io.Writer, findings []reportFinding, d detail) {
	fmt.Fprint(w, "\nBefore you cut\n")
	if len(findings) == 0 {
		fmt.Fprint(w, "  nothing to look at\n")
	}
	for i, f := range findings {
		if d == briefly && i == mostFindings {
			fmt.Fprintf(w, "  … and %d more: sheetsprite inspect tells them all\n", len(findings)-i)
			break
		}
		fmt.Fprintf(w, "  %s %s\n", signs[f.Severity], oneLine(f.Text))
		for _, r := range f.Remedies {
			fmt.Fprintf(w, "      %s\n", oneLine(r.Text))
			if d == briefly {
				break // the best one
			}
		}
		if d == atLength {
			printPlaces(w, f.Places)
		}
	}
	fmt.Fprint(w, "\nNever leave a running laser alone, and know what you cut.\n")
}

func printPlaces(w io.Writer, places []reportPlace) {
	for _, q := range places {
		if q.At == nil {
			continue
		}
		part := ""
		if q.Part != "" { // a place between two parts has none
			part = ", " + q.Part
		}
		fmt.Fprintf(w, "      at %s, %s mm: %s, layer %d%s\n", q.At[0], q.At[1], oneLine(shorten(q.Sprite, 32)), q.Layer, part)
	}
}

// counted is n with its noun.
func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return thousands(n) + " " + noun
}

// thousands is n with commas.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// shorten cuts text to n characters.
func shorten(text string, n int) string {
	if runes := []rune(text); len(runes) > n {
		return string(runes[:n-1]) + "…"
	}
	return text
}
