package project

import (
	"image"
	"image/color"
)

// At is the key of column x, row y (row 0 is the top) of the first frame;
// Empty outside.
func (s *Sprite) At(x, y int) byte {
	if x < 0 || y < 0 || x >= s.W || y >= s.H || len(s.Frames) == 0 {
		return Empty
	}
	return s.Frames[0].Cells[y*s.W+x]
}

// IsEmpty says whether the first frame, the one that is cut, has no cell of
// any colour.
func (s *Sprite) IsEmpty() bool {
	return len(s.Frames) == 0 || s.Frames[0].IsEmpty()
}

// IsEmpty says whether no cell has a colour.
func (f Frame) IsEmpty() bool {
	for _, key := range f.Cells {
		if key != Empty {
			return false
		}
	}
	return true
}

// Keys lists the palette keys that the sprite uses, in all its frames, in the
// order in which they first appear, row by row.
func (s *Sprite) Keys() []byte {
	seen := [256]bool{Empty: true}
	var used []byte
	for _, f := range s.Frames {
		for _, key := range f.Cells {
			if !seen[key] {
				seen[key] = true
				used = append(used, key)
			}
		}
	}
	return used
}

// Image is the first frame as a picture, one pixel a cell, empty cells
// transparent. Encoded as PNG and read again by FromPNGs it is the same
// drawing.
func (s *Sprite) Image(palette []Colour) *image.NRGBA {
	if len(s.Frames) == 0 {
		return image.NewNRGBA(image.Rect(0, 0, s.W, s.H))
	}
	return s.FrameImage(s.Frames[0], palette)
}

// FrameImage is Image for one of the sprite's frames.
func (s *Sprite) FrameImage(f Frame, palette []Colour) *image.NRGBA {
	var paint [256]color.NRGBA
	for _, c := range palette {
		paint[c.Key] = color.NRGBA{c.RGB.R, c.RGB.G, c.RGB.B, 255}
	}
	img := image.NewNRGBA(image.Rect(0, 0, s.W, s.H))
	for i, key := range f.Cells {
		c := paint[key]
		copy(img.Pix[4*i:], []byte{c.R, c.G, c.B, c.A})
	}
	return img
}

// StockOf is the stock that the palette entry with this key is cut from; false
// where there is none.
func (p *Project) StockOf(key byte) (Stock, bool) {
	for _, c := range p.Palette {
		if c.Key == key {
			return p.StockByID(c.Stock)
		}
	}
	return Stock{}, false
}

// StockByID is the stock with this ID; false where there is none.
func (p *Project) StockByID(id string) (Stock, bool) {
	for _, s := range p.Stocks {
		if s.ID == id {
			return s, true
		}
	}
	return Stock{}, false
}
