package shape

// Spots is where the middle of a box w wide and h high may lie so that the box
// lies within r.
func (r Region) Spots(w, h Um) []Rect {
	b := r.Bounds()
	if bw, bh := b.Size(); bw <= w || bh <= h {
		return nil
	}
	m := Point{X: w + 1, Y: h + 1}
	frame := FromRects([]Rect{{Min: b.Min.Sub(m), Max: b.Max.Add(m)}})
	return r.Subtract(frame.Subtract(r).GrowXY((w+1)/2, (h+1)/2)).Rects()
}

// Roomiest is the middle of the rectangle whose shorter side is longest, of
// several the largest's.
func Roomiest(rects []Rect) Point {
	var at Point
	most, area := Um(-1), Um2(-1)
	for _, q := range rects {
		w, h := q.Size()
		if n, a := min(w, h), Um2(w)*Um2(h); n > most || n == most && a > area {
			most, area = n, a
			at = Point{X: (q.Min.X + q.Max.X) / 2, Y: (q.Min.Y + q.Max.Y) / 2}
		}
	}
	return at
}
