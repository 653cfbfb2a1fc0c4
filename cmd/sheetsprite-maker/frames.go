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
