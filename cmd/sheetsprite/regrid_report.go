package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"sheetsprite/engine/regrid"
)

// describe says what was found.
func describe(out io.Writer, path string, r *regrid.Result) {
	unsure := 0
	for _, s := range r.Sure {
		if s < 30 {
			unsure++
		}
	}
	used := map[int]bool{}
	for _, c := range r.Cells {
		if c > 0 {
			used[c] = true
		}
	}
	fmt.Fprintf(out, "%s: %d × %d cells of %s × %s pixels, %d colours", oneLine(path), r.W, r.H, inPixels(r.Grid.X.Size), inPixels(r.Grid.Y.Size), len(used))
	if unsure > 0 {
		fmt.Fprintf(out, ", %d cells unsure", unsure)
	}
	fmt.Fprintln(out)
	describeStrays(out, r)
}

// describeStrays lists the stray cells, by column and row from 1.
func describeStrays(out io.Writer, r *regrid.Result) {
	const most = 8
	strays := r.Strays()
	if len(strays) == 0 {
		return
	}
	var places []string
	for _, s := range strays[:min(len(strays), most)] {
		places = append(places, fmt.Sprintf("column %d row %d (%s among %s)", s.X+1, s.Y+1, named(r, s.Colour), named(r, s.Agreed)))
	}
	if len(strays) > most {
		places = append(places, fmt.Sprintf("%d more", len(strays)-most))
	}
	fmt.Fprintf(out, "  stray cells, left as they are: %s\n", strings.Join(places, ", "))
}

// named is a cell's colour for people.
func named(r *regrid.Result, cell int) string {
	if cell == 0 {
		return "empty"
	}
	return r.Palette[cell-1].String()
}

// describeOther says which grid came second, where one came near.
func describeOther(out io.Writer, r *regrid.Result) {
	if g := r.OtherGrid; g != nil && r.Corners == nil {
		w, h := inPixels(g.X.Size), inPixels(g.Y.Size)
		fmt.Fprintf(out, "  or else cells of %s × %s pixels (choose with --cell %sx%s)\n", w, h, w, h)
	}
}

// describeErrors says how the number of colours was chosen.
func describeErrors(out io.Writer, r *regrid.Result) {
	var list []string
	for n := max(1, len(r.Palette)-2); n <= len(r.Palette)+2 && n <= len(r.Errors); n++ {
		list = append(list, fmt.Sprintf("%s with %d", inPixels(r.Errors[n-1]), n))
	}
	if len(list) > 1 {
		fmt.Fprintf(out, "  cells would be off by about ΔE %s colours (choose with --colours)\n", strings.Join(list, ", "))
	}
}

// inPixels is a length with at most two decimals.
func inPixels(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
