package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"

	"sheetsprite/engine/regrid"
	"sheetsprite/engine/regrid/picture"
	"sheetsprite/engine/regrid/pixels"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// grids prints the SHA-256 of what is found in pictures that go through all of
// regrid's ways. The pictures are made in whole numbers, so that they are the
// same everywhere.
func grids() error {
	d := stacktest.Sprite32(5, 6)
	for _, c := range []struct {
		name string
		make func() (*pixels.Raster, error)
		o    regrid.Options
	}{
		{"enlarged to 235×241 pixels", func() (*pixels.Raster, error) { return enlarged(d, 235, 241, 1), nil }, regrid.Options{}},
		{"smoothly enlarged", func() (*pixels.Raster, error) { return enlarged(d, 235, 241, 256), nil }, regrid.Options{}},
		{"JPEG", func() (*pixels.Raster, error) { return compressed(enlarged(d, 300, 311, 1)) }, regrid.Options{Colours: 6}},
		{"smooth, JPEG", func() (*pixels.Raster, error) { return compressed(enlarged(d, 300, 311, 256)) }, regrid.Options{}},
		{"tilted", func() (*pixels.Raster, error) { return tilted(d), nil }, regrid.Options{Colours: 6}},
		{"tilted, corners given", func() (*pixels.Raster, error) { return tilted(d), nil },
			regrid.Options{Corners: &regrid.Corners{{X: 60, Y: 40}, {X: 444, Y: 72}, {X: 412, Y: 456}, {X: 28, Y: 424}}}},
	} {
		r, err := c.make()
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		res, err := regrid.Find(r, c.o)
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		text, err := json.Marshal(res)
		if err != nil {
			return err
		}
		fmt.Printf("%x  %d×%d cells, %d colours, %s\n", sha256.Sum256(text), res.W, res.H, len(res.Palette), c.name)
	}
	return nil
}

// ink is a cell's colour.
func ink(d stack.Drawing, x, y int) [4]int {
	inks := [][4]int{{255, 255, 255, 255}, {34, 20, 28, 255}, {200, 60, 40, 255}, {60, 140, 90, 255}, {240, 200, 70, 255}, {50, 90, 170, 255}, {150, 80, 160, 255}}
	x, y = min(max(x, 0), d.W-1), min(max(y, 0), d.H-1)
	return inks[d.Cells[y*d.W+x]]
}

// enlarged is the drawing at w×h pixels; steps says how finely neighbouring
// cells are blended: 1 not at all.
func enlarged(d stack.Drawing, w, h, steps int) *pixels.Raster {
	r := pixels.NewRaster(w, h)
	place := func(p, cells, size int) (cell, part int) {
		at := (2*p+1)*cells*256/(2*size) - 128 // in 1/256 of a cell, from the first one's middle
		if steps == 1 {
			return (at + 128) >> 8, 0
		}
		return at >> 8, at & 255
	}
	for y := range h {
		cy, fy := place(y, d.H, h)
		for x := range w {
			cx, fx := place(x, d.W, w)
			var p [4]uint8
			for c := range p {
				top := ink(d, cx, cy)[c]*(256-fx) + ink(d, cx+1, cy)[c]*fx
				low := ink(d, cx, cy+1)[c]*(256-fx) + ink(d, cx+1, cy+1)[c]*fx
				p[c] = uint8((top*(256-fy) + low*fy + 1<<15) >> 16)
			}
			r.Set(x, y, p)
		}
	}
	return r
}

// tilted is the drawing turned on a dark desk, cells of 12 pixels, with grain.
func tilted(d stack.Drawing) *pixels.Raster {
	r := pixels.NewRaster(480, 500)
	state := uint32(1)
	for y := range r.H {
		for x := range r.W {
			// The inverse of (60,40) + u (12,1) + v (-1,12), in 1/145.
			u, v := 12*(x-60)+(y-40), 12*(y-40)-(x-60)
			p := [4]int{60, 62, 66, 255}
			if u >= 0 && v >= 0 && u < d.W*145 && v < d.H*145 {
				p = ink(d, u/145, v/145)
			}
			var q [4]uint8
			for c := range q {
				state = state*1664525 + 1013904223
				q[c] = uint8(min(max(p[c]+int(state>>24)%9-4, 0), 255))
			}
			q[3] = 255
			r.Set(x, y, q)
		}
	}
	return r
}

// compressed is r after having been a JPEG.
func compressed(r *pixels.Raster) (*pixels.Raster, error) {
	var b bytes.Buffer
	img := &image.RGBA{Pix: r.Pix, Stride: 4 * r.W, Rect: image.Rect(0, 0, r.W, r.H)}
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 70}); err != nil {
		return nil, err
	}
	p, err := picture.Decode(b.Bytes())
	if err != nil {
		return nil, err
	}
	return p.Raster(0), nil
}
