package main

import (
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"path/filepath"
	"runtime/debug"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"sheetsprite/engine/regrid"
	"sheetsprite/engine/regrid/picture"
	"sheetsprite/engine/regrid/pixels"
	"sheetsprite/export"
)

func newRegrid() *cobra.Command {
	var output, colours, quad, cell, count option
	var trim, several, frames, mend bool
	cmd := &cobra.Command{
		Use:   "regrid PICTURE -o OUT.png",
		Short: "Make one pixel of each cell of a picture of a sprite",
		Long: `Finds the grid in a picture of a sprite and writes the sprite at one pixel a
cell: a sprite saved at an odd scale, blurred, shrunk, spoiled by JPEG, a
screenshot with lines between the cells, or a photograph of a screen.

PICTURE is a PNG, JPEG, GIF, BMP, WebP or TIFF of up to 40 megapixels. What lies
behind the drawing becomes transparent wherever it occurs. A cell at the
picture's edge counts if at least half of it is inside.

Where no grid shows, nothing is written and the command exits with 2.`,
		Example: `  sheetsprite regrid found.jpg -o gull.png --colours 6
  sheetsprite regrid found.jpg -o gull.png --cell 8.5x8.5
  sheetsprite regrid screen.jpg -o gull.png --quad 102,88,511,95,506,498,98,490
  sheetsprite regrid sheet.png -o gull.png --several      gull-1.png, gull-2.png …
  sheetsprite regrid gull.gif -o gull.png --frames        gull-1.png, gull-2.png …`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return badUsage("give one picture, as in sheetsprite regrid found.jpg -o gull.png; see sheetsprite regrid --help")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := checkOutput(args, output); err != nil {
				return err
			}
			var o regrid.Options
			var err error
			if colours.set {
				if o.Colours, err = colours.count(1, regrid.MaxColours); err != nil {
					return err
				}
			}
			if quad.set {
				if o.Corners, err = quad.corners(); err != nil {
					return err
				}
			}
			if count.set {
				if !quad.set {
					return badUsage("--count %s: columns and rows are counted between the corners of a photograph: give --quad too, or the cells' size with --cell", quote(count.text))
				}
				n, err := count.pair(1, 512, "columns x rows, such as 32x48")
				if err != nil {
					return err
				}
				o.Count = [2]int{int(n[0]), int(n[1])}
				if n[0] != float64(o.Count[0]) || n[1] != float64(o.Count[1]) {
					return badUsage("--count %s: give whole numbers", quote(count.text))
				}
			}
			if cell.set {
				if quad.set {
					return badUsage("--cell %s: in a photograph a cell has no size of its own: give --count with --quad", quote(cell.text))
				}
				if o.Size, err = cell.pair(1, 1e5, "width x height of a cell in pixels, such as 8.5x8.5"); err != nil {
					return err
				}
			}
			if trim {
				o.Trimming = regrid.TrimEdges
			}
			if frames {
				if several || trim || quad.set {
					return badUsage("--frames: all frames are kept whole and of one size, so --several, --trim and --quad don't go with it")
				}
				return regridFrames(cmd.OutOrStdout(), args[0], output, o, mend)
			}
			if several {
				return regridSprites(cmd.OutOrStdout(), args[0], output, o, mend)
			}
			res, err := regridFile(args[0], o, regrid.Find)
			if err != nil {
				return err
			}
			if mend {
				res = res.Mended()
			}
			if err := writePicture(output.text, res.Image()); err != nil {
				return err
			}
			describe(cmd.OutOrStdout(), output.text, res)
			describeOther(cmd.OutOrStdout(), res)
			if !colours.set {
				describeErrors(cmd.OutOrStdout(), res)
			}
			return nil
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	output.addShort(f, "output", "o", "OUT.png", "the picture to write; an existing one is replaced when the new one is complete")
	colours.add(f, "colours", "N", "of the drawing, the background not counted (default: as the picture suggests)")
	quad.add(f, "quad", "x,y,x,y,x,y,x,y", "the grid's corners in a photograph, clockwise from the top left, in pixels")
	count.add(f, "count", "COLUMNSxROWS", "with --quad: how many cells lie between the corners (default: found)")
	cell.add(f, "cell", "WxH", "about how wide and high a cell is, in pixels (default: found)")
	f.BoolVar(&trim, "trim", false, "cut off empty rows and columns")
	f.BoolVar(&mend, "mend", false, "give stray cells (lone, and their neighbours agree) their neighbours' colour;\nwithout it they are only listed")
	f.BoolVar(&several, "several", false, "a sheet of sprites: write OUT-1.png, OUT-2.png … in reading order, each trimmed;\nthey need not share one grid, but have one palette")
	f.BoolVar(&frames, "frames", false, "a moving GIF: write OUT-1.png, OUT-2.png …, a frame each, with one grid and one palette")
	return cmd
}

// corners reads eight numbers.
func (o *option) corners() (*regrid.Corners, error) {
	fields := strings.Split(o.text, ",")
	var c regrid.Corners
	if len(fields) != 8 {
		return nil, badUsage("--%s %s: give eight numbers, x and y of four corners, clockwise from the top left", o.name, quote(o.text))
	}
	for i, f := range fields {
		v, err := strconv.ParseFloat(strings.TrimSpace(f), 64)
		if err != nil || !(v > -1e5 && v < 1e5) {
			return nil, badUsage("--%s %s: %s is no place in a picture; give pixels, such as 102.5", o.name, quote(o.text), quote(f))
		}
		if i%2 == 0 {
			c[i/2].X = v
		} else {
			c[i/2].Y = v
		}
	}
	return &c, nil
}

// pair reads two numbers from low to high, as in 8.5x8.5.
func (o *option) pair(low, high float64, what string) (v [2]float64, err error) {
	one, two, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(o.text), "x")
	for i, text := range []string{one, two} {
		n, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if ok = ok && err == nil && n >= low && n <= high; ok {
			v[i] = n
		}
	}
	if !ok {
		return v, badUsage("--%s %s: give %s", o.name, quote(o.text), what)
	}
	return v, nil
}

// regridFile reads a picture and finds its grid, or several.
func regridFile[R any](path string, o regrid.Options, find func(*pixels.Raster, regrid.Options) (R, error)) (none R, err error) {
	res, err := func() (R, error) {
		p, err := decodeFile(path)
		if err != nil {
			return none, err
		}
		r := p.Raster(0)
		if r.Shrunk > 1 { // what decoding left behind may be many times as large
			p = nil
			debug.FreeOSMemory()
		}
		return find(r, o)
	}()
	var refused *picture.Refused
	var noSprite *regrid.NotASprite
	var bad *regrid.OptionError
	if errors.As(err, &refused) || errors.As(err, &noSprite) || errors.As(err, &bad) {
		return none, badUsage("%s: %v", filepath.Base(path), err)
	}
	return res, err
}

func writePicture(path string, img image.Image) error {
	return export.WriteFile(path, func(w io.Writer) error { return png.Encode(w, img) })
}

// regridSprites writes a file for each sprite of a sheet.
func regridSprites(out io.Writer, input string, output option, o regrid.Options, mend bool) error {
	sprites, err := regridFile(input, o, regrid.FindSeveral)
	if err != nil {
		return err
	}
	if len(sprites) == 0 {
		return badUsage("%s: all cells are of the background's colour, so there is no sprite in it", filepath.Base(input))
	}
	if mend {
		for i, s := range sprites {
			sprites[i] = s.Mended()
		}
	}
	return writeNumbered(out, input, output, sprites)
}

// regridFrames finds one grid for all frames of a picture and writes a file for
// each.
func regridFrames(out io.Writer, input string, output option, o regrid.Options, mend bool) error {
	p, err := decodeFile(input)
	var refused *picture.Refused
	if errors.As(err, &refused) {
		return badUsage("%s: %v", filepath.Base(input), err)
	}
	if err != nil {
		return err
	}
	r, across, down, err := p.SideBySide()
	if err != nil {
		return badUsage("%s: %v", filepath.Base(input), err)
	}
	res, err := regrid.Find(r, o)
	if err != nil {
		return badUsage("%s: %v", filepath.Base(input), err)
	}
	if mend {
		res = res.Mended()
	}
	list := res.Frames(across, down, p.Frames())
	if list == nil {
		return badUsage("%s: its frames don't lie on whole cells of one grid: leave --frames out to take the first one alone", filepath.Base(input))
	}
	return writeNumbered(out, input, output, list)
}

// writeNumbered writes a file for each drawing: OUT-1.png, OUT-2.png …
func writeNumbered(out io.Writer, input string, output option, sprites []*regrid.Result) error {
	ext := filepath.Ext(output.text)
	base := strings.TrimSuffix(output.text, ext)
	names := make([]string, len(sprites))
	for i := range sprites {
		names[i] = fmt.Sprintf("%s-%d%s", base, i+1, ext)
		if err := checkOutput([]string{input}, option{name: output.name, text: names[i]}); err != nil {
			return err
		}
	}
	for i, s := range sprites {
		if err := writePicture(names[i], s.Image()); err != nil {
			return err
		}
		describe(out, names[i], s)
	}
	return nil
}
