package assembly

import "sheetsprite/engine/shape"

// heights are how high a number may stand, tried from the largest.
var heights = []shape.Um{20000, 14000, 10000, 7000, 5000, 3500, 2500, 1800, 1200}

// How wide a letter is and how much room a line takes, in hundredths of a
// number's height (of bold type; a little more than is needed).
const (
	letterWide = 72
	lineHigh   = 125
)

// room is where a number of so many letters stands best on a part, and how high
// it may be there; 0 where there is no room at all.
func room(r shape.Region, letters int) (at shape.Point, high shape.Um) {
	for _, h := range heights {
		w := h * (letterWide*shape.Um(letters) + 40) / 100
		if spots := r.Spots(w, h*lineHigh/100); len(spots) > 0 {
			return shape.Roomiest(spots), h
		}
	}
	return shape.Roomiest(r.Rects()), 0
}
