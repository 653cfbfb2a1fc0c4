package picture

import (
	"encoding/binary"
	"image"
)

// checkPalette refuses a picture whose pixels name colours that its palette doesn't have:
// decoders let them pass, or make up black.
func (f format) checkPalette(data []byte, img image.Image) error {
	p, ok := img.(*image.Paletted)
	if !ok {
		return nil
	}
	has := len(p.Palette)
	if f.name == "PNG" {
		has = pngPalette(data)
	}
	most := 0
	for y := range p.Rect.Dy() {
		for _, v := range p.Pix[y*p.Stride:][:p.Rect.Dx()] {
			most = max(most, int(v))
		}
	}
	if most >= has {
		return refuse("the %s is damaged: a pixel has colour number %d of a palette of %d: save it again", f.name, most+1, has)
	}
	return nil
}

// pngPalette is how many colours a PNG's palette has (PNG specification, 11.2.2: three
// bytes each).
func pngPalette(data []byte) int {
	const signature, around = 8, 12 // of a chunk: length, name, checksum
	for at := signature; at+around <= len(data); {
		size := int(binary.BigEndian.Uint32(data[at:]))
		if string(data[at+4:at+8]) == "PLTE" {
			return size / 3
		}
		if size > len(data)-at-around {
			break
		}
		at += around + size
	}
	return 0
}
