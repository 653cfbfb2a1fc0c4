package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
	"sheetsprite/engine/regrid/picture"
	"sheetsprite/export"
)

func newShelf() *cobra.Command {
	var output, bench, starter, white, card option
	cmd := &cobra.Command{
		Use:   "shelf [INPUT] [-o BENCH.json]",
		Short: "Put stocks from a list on the shelf, or tell a card's colour from a photo",
		Long: `Reads a list of stocks (CSV) and puts them on the shelf of a bench file, for
cut --bench. The list's first row names its columns: name and colour (#rrggbb)
must be there; kind, weight_g_m2, thickness_mm, core, sides (one, both), grain
(long, short, none), width_mm, height_mm, count and laser (fine, unknown, never)
may be. Weight and thickness each give a typical other. A stock that is on the
shelf already, by its name, is replaced.

With --starter NAME instead of a list the shelf is filled with generic stocks:
eight-cards, twenty-cards, or sheet-goods (one of each kind).

With --white and --card INPUT is a photo of a card beside a white sheet, both in
the same light. Each option marks a piece, in pixels: x,y of its upper left
corner, width, height. The card's colour is printed.`,
		Example: `  sheetsprite shelf cards.csv -o bench.json               a new bench with these cards
  sheetsprite shelf --starter eight-cards -o bench.json
  sheetsprite shelf more.csv -o bench.json --bench bench.json
  sheetsprite shelf photo.jpg --white 40,60,300,200 --card 500,60,300,200`,
		Args: func(cmd *cobra.Command, args []string) error {
			if starter.set && len(args) > 0 {
				return badUsage("--starter %s fills the shelf by itself: leave %s out, and add it after that with --bench", quote(starter.text), quote(args[0]))
			}
			if starter.set && (white.set || card.set) {
				return badUsage("--starter %s: it doesn't go with a photo's --white and --card", quote(starter.text))
			}
			if !starter.set && len(args) != 1 {
				return badUsage("give one list of stocks or one photo, as in sheetsprite shelf cards.csv -o bench.json; see sheetsprite shelf --help")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if white.set || card.set {
				return tellColour(cmd.OutOrStdout(), args[0], card, white)
			}
			if starter.set {
				s, ok := project.StarterNamed(starter.text)
				if !ok {
					return badUsage("--starter %s: there are eight-cards, twenty-cards and sheet-goods", quote(starter.text))
				}
				return stockShelf(cmd.OutOrStdout(), nil, output, bench, func() ([]project.Shelf, error) { return s.Shelf, nil })
			}
			return stockShelf(cmd.OutOrStdout(), args, output, bench, func() ([]project.Shelf, error) {
				data, err := readFile(args[0])
				if err != nil {
					return nil, err
				}
				list, err := project.ReadShelfCSV(data)
				if err != nil {
					return nil, inFile(args[0], err)
				}
				return list, nil
			})
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	output.addShort(f, "output", "o", "BENCH.json", "the bench file to write; an existing one is replaced when the new one is complete")
	bench.add(f, "bench", "FILE", "the bench to begin with (default: one with a laser, a knife plotter and a hand)")
	starter.add(f, "starter", "NAME", "generic stocks instead of a list: eight-cards, twenty-cards or sheet-goods")
	white.add(f, "white", "x,y,w,h", "in a photo: a piece of the white sheet")
	card.add(f, "card", "x,y,w,h", "in a photo: a piece of the card")
	return cmd
}

// stockShelf puts stocks on a bench's shelf; inputs are the files that they
// come from.
func stockShelf(out io.Writer, inputs []string, output, bench option, stocks func() ([]project.Shelf, error)) error {
	if output.text == "" {
		return badUsage("no output: say which bench file to write, as in -o bench.json")
	}
	if err := checkOutput(inputs, output); err != nil {
		return err
	}
	shelf, err := stocks()
	if err != nil {
		return err
	}
	start := project.StarterBench()
	start.Shelf = nil
	b := &start
	if bench.set {
		data, err := readFile(bench.text)
		if err != nil {
			return err
		}
		if b, err = project.ReadBench(bytes.NewReader(data)); err != nil {
			return inFile(bench.text, err)
		}
	}
	if err := b.AddToShelf(shelf); err != nil {
		return inFile(output.text, err)
	}
	if err := export.WriteFile(output.text, b.Write); err != nil {
		return err
	}
	source := "list"
	if len(inputs) == 0 {
		source = "starter"
	}
	fmt.Fprintf(out, "%s: %d stocks from the %s, %d on the shelf\n", oneLine(output.text), len(shelf), source, len(b.Shelf))
	return nil
}

// tellColour prints the colour of a card in a photo.
func tellColour(out io.Writer, path string, card, white option) error {
	if !white.set || !card.set {
		return badUsage("mark both the white sheet and the card in the photo, as in --white 40,60,300,200 --card 500,60,300,200")
	}
	data, err := readFile(path)
	if err != nil {
		return err
	}
	p, err := picture.Decode(data)
	if err != nil {
		return badUsage("%s: %v", filepath.Base(path), err)
	}
	r := p.Raster(0)
	ofCard, err := card.piece(r)
	if err != nil {
		return err
	}
	ofWhite, err := white.piece(r)
	if err != nil {
		return err
	}
	c, err := colour.BesideWhite(ofCard, ofWhite)
	if err != nil {
		return badUsage("%s: %v", filepath.Base(path), err)
	}
	fmt.Fprintln(out, c)
	return nil
}

// piece is a rectangle of a picture, at most some thousand pixels of it.
func (o *option) piece(r *picture.Raster) ([]colour.RGB, error) {
	fields := strings.Split(o.text, ",")
	var v [4]int
	for i := range v {
		n := -1
		if len(fields) == 4 {
			if m, err := strconv.Atoi(strings.TrimSpace(fields[i])); err == nil {
				n = m
			}
		}
		if n < 0 || n > picture.MaxSide {
			return nil, badUsage("--%s %s: give four whole numbers, x,y,width,height in pixels, such as 40,60,300,200", o.name, quote(o.text))
		}
		v[i] = n / r.Shrunk
	}
	x, y, w, h := v[0], v[1], max(1, v[2]), max(1, v[3])
	if x+w > r.W || y+h > r.H {
		return nil, badUsage("--%s %s reaches beyond the picture, which is %d × %d pixels", o.name, quote(o.text), r.W*r.Shrunk, r.H*r.Shrunk)
	}
	const most = 64 // along a side
	var list []colour.RGB
	for j := range min(h, most) {
		for i := range min(w, most) {
			p := r.At(x+i*w/min(w, most), y+j*h/min(h, most))
			list = append(list, colour.RGB{R: p[0], G: p[1], B: p[2]})
		}
	}
	return list, nil
}
