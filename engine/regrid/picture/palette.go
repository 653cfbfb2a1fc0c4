package picture

import "image"

// checkIndices refuses a picture whose pixels name colours that its palette, of so many,
// doesn't have: decoders let them pass, or make up black.
func checkIndices(name string, img image.Image, colours int) error {
	p, ok := img.(*image.Paletted)
	if !ok {
		return nil
	}
	most := 0
	for y := range p.Rect.Dy() {
		for _, v := range p.Pix[y*p.Stride:][:p.Rect.Dx()] {
			most = max(most, int(v))
		}
	}
	if most >= colours {
		return refuse("the %s is damaged: a pixel has colour number %d of a palette of %d: save it again", name, most+1, colours)
	}
	return nil
}
