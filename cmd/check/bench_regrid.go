package main

import (
	"bytes"
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

// benchRegrid times the search for the grid in pictures of two megapixels, enlarged by
// the scalers of golang.org/x/image: whole ones, and crops that begin in mid-cell.
func benchRegrid(log func(string, ...any)) outcome {
	t := &tally{log: log}
	const side, larger = 1414, 1560 // the crop is as large as the whole picture
	inside := image.Rect(0, 0, side, side).Add(image.Pt(61, 83))
	for _, c := range []struct {
		name   string
		scaler draw.Scaler
		jpeg   bool
		crop   bool
	}{
		{"nearest", draw.NearestNeighbor, false, false},
		{"nearest, JPEG", draw.NearestNeighbor, true, false},
		{"bilinear", draw.BiLinear, false, false},
		{"bicubic, JPEG", draw.CatmullRom, true, false},
		{"nearest, JPEG, cropped", draw.NearestNeighbor, true, true},
		{"bicubic, cropped", draw.CatmullRom, false, true},
		{"bicubic, JPEG, cropped", draw.CatmullRom, true, true},
	} {
		size, part := side, image.Rect(0, 0, side, side)
		if c.crop {
			size, part = larger, inside
		}
		large := image.NewRGBA(image.Rect(0, 0, size, size))
		small := spriteOnWhite(3, 5)
		c.scaler.Scale(large, large.Rect, small, small.Rect, draw.Src, nil)
		var img image.Image = large.SubImage(part)
		if c.jpeg {
			var err error
			if img, err = throughJPEG(img); err != nil {
				return single(err, "")
			}
		}
		r, err := picture.FromImage(img)
		if err != nil {
			return single(err, "")
		}
		if res, err := regrid.Find(r, regrid.Options{}); err != nil {
			return single(err, c.name)
		} else if !c.crop && (res.W != stacktest.Side || res.H != stacktest.Side) {
			t.judge(false, "%s: %d × %d cells instead of %d", c.name, res.W, res.H, stacktest.Side)
		}
		t.within("regrid, 2 megapixels, "+c.name, measure(func() { regrid.Find(r, regrid.Options{}) }), mostRegrid)
	}
	return t.outcome
}

// spriteOnWhite is a drawing at one pixel a cell.
func spriteOnWhite(seed, colours int) *image.RGBA {
	d := stacktest.Sprite32(seed, colours)
	img := image.NewRGBA(image.Rect(0, 0, d.W, d.H))
	inks := []color.RGBA{{255, 255, 255, 255}, {34, 20, 28, 255}, {40, 110, 200, 255}, {230, 60, 40, 255}, {250, 200, 60, 255}, {60, 150, 70, 255}}
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
