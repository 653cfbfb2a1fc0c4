package picture

import (
	"bytes"
	"image"
	"image/draw"
	"image/gif"
)

// animation decodes all frames of a GIF, of which there may be MaxFrames with
// MaxPixels together; screen is how many pixels they are laid on.
func (p *Picture) animation(data []byte, screen int) (*Picture, error) {
	frames, pixels := gifFrames(data)
	switch {
	case frames > MaxFrames:
		return nil, refuse("the GIF has %d frames, but at most %d are read: save fewer", frames, MaxFrames)
	case pixels > MaxPixels:
		return nil, refuse("the GIF's frames have %d megapixels together, but at most 40 are read: save fewer, or smaller ones", pixels/1000000)
	case frames > 1 && screen > MaxLoopPixels:
		return nil, refuse("the GIF has %d frames on %d megapixels, but frames may have 16: save it smaller, or the one that you want", frames, screen/1000000)
	}
	g, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		return nil, format{name: "GIF"}.damaged(data, err)
	}
	if len(g.Image) == 0 {
		return nil, refuse("the GIF has no frame: save it again")
	}
	if g.Config.Width < 1 || g.Config.Height < 1 {
		return nil, refuse("the GIF says that it has no size: save it again")
	}
	if len(g.Image) > 1 || g.Image[0].Bounds() != image.Rect(0, 0, g.Config.Width, g.Config.Height) {
		p.loop = g // else there is nothing to lay over anything
	}
	for _, f := range g.Image {
		p.frames = append(p.frames, f)
	}
	return p, nil
}

// composed is what the screen shows at a frame, those before it included.
func composed(g *gif.GIF, frame int) image.Image {
	var at image.Image
	screens(g, func(i int, screen *image.RGBA) bool {
		at = screen
		return i < frame
	})
	return at
}

// screens gives what the screen shows at each frame in turn, until show says
// that it is enough. The screen is written to afterwards.
func screens(g *gif.GIF, show func(frame int, screen *image.RGBA) bool) {
	screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	for i, f := range g.Image {
		var before *image.RGBA
		disposal := byte(0)
		if i < len(g.Disposal) {
			disposal = g.Disposal[i]
		}
		if disposal == gif.DisposalPrevious {
			before = image.NewRGBA(screen.Rect)
			copy(before.Pix, screen.Pix)
		}
		draw.Draw(screen, f.Bounds(), f, f.Bounds().Min, draw.Over)
		if !show(i, screen) {
			return
		}
		switch disposal {
		case gif.DisposalBackground:
			draw.Draw(screen, f.Bounds(), image.Transparent, image.Point{}, draw.Src)
		case gif.DisposalPrevious:
			screen = before
		}
	}
}

// SideBySide is all frames in one picture, across × down of them in reading
// order, so that one grid and one palette can be found for all. Where there are
// fewer, the last one is there again. It fails with a Refused where they have
// more than MaxWorking pixels together.
func (p *Picture) SideBySide() (r *Raster, across, down int, err error) {
	if p.loop == nil {
		return p.Raster(0), 1, 1, nil
	}
	n, w, h := p.Frames(), p.loop.Config.Width, p.loop.Config.Height
	for across = 1; across*across < n; across++ {
	}
	down = (n + across - 1) / across
	if w*h*across*down > MaxWorking {
		return nil, 0, 0, refuse("the GIF's %d frames of %d × %d pixels have more than 4 megapixels together: save it smaller, or with fewer frames", n, w, h)
	}
	r = NewRaster(w*across, h*down)
	lay := func(at int, screen *image.RGBA) {
		for y := range h {
			copy(r.Pix[4*((at/across*h+y)*r.W+at%across*w):], screen.Pix[y*screen.Stride:][:4*w])
		}
	}
	screens(p.loop, func(i int, screen *image.RGBA) bool {
		lay(i, screen)
		for at := n; i == n-1 && at < across*down; at++ {
			lay(at, screen)
		}
		return true
	})
	return r, across, down, nil
}

// gifFrames counts the frames and their pixels without decoding any. It stops
// where the file stops making sense.
func gifFrames(data []byte) (frames, pixels int) {
	table := func(flags byte) int {
		if flags&0x80 == 0 {
			return 0
		}
		return 3 << (flags&7 + 1)
	}
	if len(data) < 13 {
		return 0, 0
	}
	at := 13 + table(data[10])
	blocks := func() bool {
		for at < len(data) {
			n := int(data[at])
			at += 1 + n
			if n == 0 {
				return true
			}
		}
		return false
	}
	for at < len(data) {
		switch data[at] {
		case 0x21: // extension
			at += 2
			if !blocks() {
				return frames, pixels
			}
		case 0x2c: // image
			if at+10 > len(data) {
				return frames, pixels
			}
			w, h := int(data[at+5])|int(data[at+6])<<8, int(data[at+7])|int(data[at+8])<<8
			frames++
			pixels += w * h
			at += 10 + table(data[at+9]) + 1
			if !blocks() {
				return frames, pixels
			}
		default:
			return frames, pixels
		}
	}
	return frames, pixels
}
