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
		if spots := spotsFor(r, w, h*lineHigh/100); len(spots) > 0 {
			return roomiest(spots), h
		}
	}
	return roomiest(r.Rects()), 0
}

// spotsFor is where the middle of a box may lie so that the box lies within r.
func spotsFor(r shape.Region, w, h shape.Um) []shape.Rect {
	b := r.Bounds()
	if bw, bh := b.Size(); bw <= w || bh <= h {
		return nil
	}
	m := shape.Point{X: w + 1, Y: h + 1}
	frame := shape.FromRects([]shape.Rect{{Min: b.Min.Sub(m), Max: b.Max.Add(m)}})
	return r.Subtract(frame.Subtract(r).GrowXY((w+1)/2, (h+1)/2)).Rects()
}

// roomiest is the middle of the rectangle whose shorter side is longest.
func roomiest(rects []shape.Rect) shape.Point {
	var at shape.Point
	most, area := shape.Um(-1), shape.Um2(-1)
	for _, q := range rects {
		w, h := q.Size()
		if n, a := min(w, h), shape.Um2(w)*shape.Um2(h); n > most || n == most && a > area {
			most, area = n, a
			at = shape.Point{X: (q.Min.X + q.Max.X) / 2, Y: (q.Min.Y + q.Max.Y) / 2}
		}
	}
	return at
}
