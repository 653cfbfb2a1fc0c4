package sheets

import (
	"slices"

	"sheetsprite/engine/shape"
)

// scans is how many rows of a part are tried for its number.
const scans = 9

// labelRun is the middle of the widest run inside an outline along one of a few
// rows, and its width: a number stands there. Arcs count as their chords, which
// is near enough for a label.
func labelRun(o shape.Outline) (x, y, wide shape.Um) {
	b := o.Bounds()
	for i := range shape.Um(scans) {
		// From the middle outwards, so that of equal runs the middle one is taken.
		k := scans/2 + i/2
		if i%2 == 1 {
			k = scans/2 - (i+1)/2
		}
		row := b.Min.Y + (b.Max.Y-b.Min.Y)*(2*k+1)/(2*scans)
		var at []shape.Um
		for _, c := range append([]shape.Contour{o.Outer}, o.Holes...) {
			for n, v := range c {
				p, q := v.Point, c[(n+1)%len(c)].Point
				if (p.Y > row) != (q.Y > row) {
					at = append(at, p.X+(q.X-p.X)*(row-p.Y)/(q.Y-p.Y))
				}
			}
		}
		slices.Sort(at)
		for n := 0; n+1 < len(at); n += 2 {
			if w := at[n+1] - at[n]; w > wide {
				x, y, wide = (at[n]+at[n+1])/2, row, w
			}
		}
	}
	return x, y, wide
}
