package picture

import (
	"image"
	"image/gif"
)

// animation decodes all frames of a GIF, of which there may be MaxFrames with
// MaxPixels together.
func animation(f file) (*Picture, error) {
	frames, pixels := gifFrames(f)
	switch {
	case frames > MaxFrames:
		return nil, refuse("the GIF has %d frames, but at most %d are read: save fewer", frames, MaxFrames)
	case pixels > MaxPixels:
		return nil, refuse("the GIF's frames have %d megapixels together, but at most 40 are read: save fewer, or smaller ones", pixels/1000000)
	}
	g, err := gif.DecodeAll(f.reader())
	if err != nil {
		return nil, format{name: "GIF"}.damaged(f, err)
	}
	if len(g.Image) == 0 {
		return nil, refuse("the GIF has no frame: save it again")
	}
	if g.Config.Width < 1 || g.Config.Height < 1 {
		return nil, refuse("the GIF says that it has no size: save it again")
	}
	return &Picture{loop: g}, nil
}

// screens gives what the screen shows at each frame up to the last one asked for: row by
// row, so that no screen is ever whole, and of a row all frames in turn. The row is
// written to afterwards.
func screens(g *gif.GIF, last int, show func(frame, y int, row []uint8)) {
	frames := g.Image[:last+1]
	inks := make([][256][4]uint8, len(frames))
	for i, f := range frames {
		for k, c := range f.Palette[:min(256, len(f.Palette))] {
			r, green, b, a := c.RGBA()
			inks[i][k] = [4]uint8{uint8(r >> 8), uint8(green >> 8), uint8(b >> 8), uint8(a >> 8)}
		}
	}
	row, before := make([]uint8, 4*g.Config.Width), make([]uint8, 4*g.Config.Width)
	for y := range g.Config.Height {
		clear(row)
		for i, f := range frames {
			b := f.Rect.Intersect(image.Rect(0, 0, g.Config.Width, g.Config.Height))
			covers := y >= b.Min.Y && y < b.Max.Y
			disposal := byte(0)
			if i < len(g.Disposal) {
				disposal = g.Disposal[i]
			}
			if covers {
				if disposal == gif.DisposalPrevious {
					copy(before, row)
				}
				for x, v := range f.Pix[f.PixOffset(b.Min.X, y):][:b.Dx()] {
					if ink := &inks[i][v]; ink[3] > 0 { // a GIF's colours are opaque, or not there
						copy(row[4*(b.Min.X+x):][:4], ink[:])
					}
				}
			}
			show(i, y, row)
			if covers {
				switch disposal {
				case gif.DisposalBackground:
					clear(row[4*b.Min.X : 4*b.Max.X])
				case gif.DisposalPrevious:
					copy(row, before)
				}
			}
		}
	}
}

// SideBySide is all frames in one picture, across × down of them in reading
// order, so that one grid and one palette can be found for all. Where there are
// fewer, the last one is there again. Large ones are shrunk, each by itself. It fails
// with a Refused where that would leave next to nothing of them.
func (p *Picture) SideBySide() (r *Raster, across, down int, err error) {
	if p.Frames() == 1 {
		return p.Raster(0), 1, 1, nil
	}
	n, w, h := p.Frames(), p.loop.Config.Width, p.loop.Config.Height
	for across = 1; across*across < n; across++ {
	}
	down = (n + across - 1) / across
	by := 1
	for (w/by)*(h/by)*across*down > MaxWorking {
		by++
	}
	if by > mostShrunk || w < by || h < by {
		return nil, 0, 0, refuse("the GIF's %d frames of %d × %d pixels are too many for their size: save it smaller, or with fewer frames", n, w, h)
	}
	w, h = w/by*by, h/by*by // what is left over belongs to no pixel
	c := newShrunk(w*across, h*down, by)
	screens(p.loop, n-1, func(i, y int, row []uint8) {
		last := i
		if i == n-1 {
			last = across*down - 1
		}
		for at := i; at <= last && y < h; at++ {
			c.addRow(row[:4*w], at%across*w, at/across*h+y, 1)
		}
	})
	return c.finish(), across, down, nil
}

// gifFrames counts the frames and their pixels without decoding any. It stops
// where the file stops making sense.
func gifFrames(f file) (frames, pixels int) {
	data := window{file: f}
	table := func(flags byte) int64 {
		if flags&0x80 == 0 {
			return 0
		}
		return 3 << (flags&7 + 1)
	}
	if f.size < 13 {
		return 0, 0
	}
	at := 13 + table(data.at(10))
	blocks := func() bool {
		for at < f.size {
			n := int64(data.at(at))
			at += 1 + n
			if n == 0 {
				return true
			}
		}
		return false
	}
	number := func(i int64) int { return int(data.at(i)) | int(data.at(i+1))<<8 }
	for at < f.size {
		switch data.at(at) {
		case 0x21: // extension
			at += 2
			if !blocks() {
				return frames, pixels
			}
		case 0x2c: // image
			if at+10 > f.size {
				return frames, pixels
			}
			frames++
			pixels += number(at+5) * number(at+7)
			at += 10 + table(data.at(at+9)) + 1
			if !blocks() {
				return frames, pixels
			}
		default:
			return frames, pixels
		}
	}
	return frames, pixels
}
