//go:build js

package main

import "sheetsprite/engine/regrid/picture"

// frames are those of a GIF side by side, for browsers that don't show them one
// by one: pixels of red, green, blue and alpha, across × down frames in reading
// order, beyond count the last one again. A file with one frame has count 1 and
// no pixels.
func frames(data []byte) (map[string]any, error) {
	p, err := picture.Decode(data)
	if err != nil {
		return nil, err
	}
	if p.Frames() < 2 {
		return map[string]any{"count": 1}, nil
	}
	all, across, down, err := p.SideBySide()
	if err != nil {
		return nil, err
	}
	// A GIF's pixels are opaque or not there, so they needn't be unmultiplied.
	return map[string]any{
		"pixels": all.Pix, "width": all.W, "height": all.H, "across": across, "down": down, "count": p.Frames(),
	}, nil
}

// decoded is a picture that the browser can't read, a TIFF say: pixels of red, green,
// blue and alpha, not premultiplied. A large one is shrunk by whole numbers until it is
// as large as the page looks at.
func decoded(data []byte) (map[string]any, error) {
	p, err := picture.Decode(data)
	if err != nil {
		return nil, err
	}
	r := p.Raster(0)
	for i := 0; i < len(r.Pix); i += 4 {
		if a := int(r.Pix[i+3]); a > 0 && a < 255 {
			for c := range 3 {
				r.Pix[i+c] = uint8(min(255, (int(r.Pix[i+c])*255+a/2)/a))
			}
		}
	}
	return map[string]any{"pixels": r.Pix, "width": r.W, "height": r.H, "shrunk": r.Shrunk}, nil
}
