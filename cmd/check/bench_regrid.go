package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"time"

	"golang.org/x/image/draw"

	"sheetsprite/engine/regrid"
	"sheetsprite/engine/regrid/picture"
	"sheetsprite/engine/stack/stacktest"
)

// mostRegrid is how long the grid of a picture of two megapixels may take.
const mostRegrid = 300 * time.Millisecond

// regridCase is a picture of two megapixels.
type regridCase struct {
	name   string
	scaler draw.Scaler
	jpeg   bool
	side   int                       // of the whole picture, in pixels
	wide   int                       // its width where that is another
	crop   int                       // side of the part that is taken; 0: all of it
	cells  int                       // along each side that are found
	lines  int                       // width of those drawn between the cells
	behind func(x, y int) color.RGBA // nil: white
	clear  bool                      // nothing lies behind
}

// benchRegrid times the search for the grid in pictures of two megapixels, enlarged by
// the scalers of golang.org/x/image: whole ones, crops that begin in mid-cell, transparent
// ones and before grounds of more than one colour, and with lines drawn over.
func benchRegrid(log func(string, ...any)) outcome {
	t := &tally{log: log}
	const side, larger, lined = 1414, 1560, 1408 // crops are as large as the whole picture; lines lie on whole pixels
	const all, some = stacktest.Side, 29
	for _, c := range []regridCase{
		{name: "nearest", scaler: draw.NearestNeighbor, side: side, cells: all},
		{name: "nearest, JPEG", scaler: draw.NearestNeighbor, jpeg: true, side: side, cells: all},
		{name: "bilinear", scaler: draw.BiLinear, side: side, cells: all},
		{name: "bicubic, JPEG", scaler: draw.CatmullRom, jpeg: true, side: side, cells: all},
		{name: "nearest, JPEG, cropped", scaler: draw.NearestNeighbor, jpeg: true, side: larger, crop: side, cells: some},
		{name: "bicubic, cropped", scaler: draw.CatmullRom, side: larger, crop: side, cells: some},
		{name: "bicubic, JPEG, cropped", scaler: draw.CatmullRom, jpeg: true, side: larger, crop: side, cells: some},
		{name: "bicubic, transparent", scaler: draw.CatmullRom, side: side, cells: all, clear: true},
		{name: "bicubic, JPEG, oblong cells", scaler: draw.CatmullRom, jpeg: true, side: 1000, wide: 2000, cells: all},
		{name: "nearest, checkerboard", scaler: draw.NearestNeighbor, side: side, cells: all, behind: checkered},
		{name: "bilinear, checkerboard", scaler: draw.BiLinear, side: side, cells: all, behind: checkered},
		{name: "bicubic, checkerboard", scaler: draw.CatmullRom, side: side, cells: all, behind: checkered},
		{name: "bicubic, checkerboard, JPEG", scaler: draw.CatmullRom, jpeg: true, side: side, cells: all, behind: checkered},
		{name: "bicubic, gradient", scaler: draw.CatmullRom, side: side, cells: all, behind: fading},
		{name: "bicubic, gradient, JPEG", scaler: draw.CatmullRom, jpeg: true, side: side, cells: all, behind: fading},
		{name: "lines", scaler: draw.NearestNeighbor, side: lined, cells: all, lines: 2},
		{name: "lines, JPEG", scaler: draw.NearestNeighbor, jpeg: true, side: lined, cells: all, lines: 2},
	} {
		img, err := c.picture()
		if err != nil {
			return single(fmt.Errorf("%s: %w", c.name, err), "")
		}
		r, err := picture.FromImage(img)
		if err != nil {
			return single(fmt.Errorf("%s: %w", c.name, err), "")
		}
		res, err := regrid.Find(r, regrid.Options{})
		if err != nil {
			return single(fmt.Errorf("%s: %w", c.name, err), "")
		}
		if res.W != c.cells || res.H != c.cells {
			t.judge(false, "%s: %d × %d cells instead of %d along each side", c.name, res.W, res.H, c.cells)
		}
		t.within("regrid, 2 megapixels, "+c.name, measure(func() { regrid.Find(r, regrid.Options{}) }), mostRegrid)
	}
	return t.outcome
}

// picture draws the case.
func (c regridCase) picture() (image.Image, error) {
	white := color.RGBA{255, 255, 255, 255}
	ground, behind := color.RGBA{}, c.behind
	if behind == nil {
		ground, behind = white, func(int, int) color.RGBA { return white }
	}
	if c.clear {
		ground, behind = color.RGBA{}, func(int, int) color.RGBA { return color.RGBA{} }
	}
	wide := max(c.side, c.wide)
	large := image.NewRGBA(image.Rect(0, 0, wide, c.side))
	for y := range c.side {
		for x := range wide {
			large.SetRGBA(x, y, behind(x, y))
		}
	}
	small := spriteOn(ground, 3, 5)
	c.scaler.Scale(large, large.Rect, small, small.Rect, draw.Over, nil)
	if c.lines > 0 {
		cell := c.side / stacktest.Side
		for y := range c.side {
			for x := range c.side {
				if x%cell < c.lines || y%cell < c.lines {
					large.SetRGBA(x, y, color.RGBA{128, 128, 128, 255})
				}
			}
		}
	}
	img := image.Image(large)
	if c.crop > 0 {
		img = large.SubImage(image.Rect(0, 0, c.crop, c.crop).Add(image.Pt(61, 83)))
	}
	if c.jpeg {
		return throughJPEG(img)
	}
	return img, nil
}

// checkered is the board that programs show for what is transparent.
func checkered(x, y int) color.RGBA {
	if (x/16+y/16)%2 == 0 {
		return color.RGBA{255, 255, 255, 255}
	}
	return color.RGBA{204, 204, 204, 255}
}

// fading changes evenly from place to place.
func fading(x, y int) color.RGBA {
	return color.RGBA{uint8(40 + x/10), uint8(200 - y/16), 150, 255}
}

// spriteOn is a drawing at one pixel a cell.
func spriteOn(ground color.RGBA, seed, colours int) *image.RGBA {
	d := stacktest.Sprite32(seed, colours)
	img := image.NewRGBA(image.Rect(0, 0, d.W, d.H))
	inks := []color.RGBA{ground, {34, 20, 28, 255}, {40, 110, 200, 255}, {230, 60, 40, 255}, {250, 200, 60, 255}, {60, 150, 70, 255}}
	for i, c := range d.Cells {
		img.SetRGBA(i%d.W, i/d.W, inks[c])
	}
	return img
}

// throughJPEG writes and reads a picture at quality 80.
func throughJPEG(img image.Image) (image.Image, error) {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: 80}); err != nil {
		return nil, err
	}
	return jpeg.Decode(&file)
}
