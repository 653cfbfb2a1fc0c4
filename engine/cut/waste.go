package cut

import "sheetsprite/engine/shape"

// Numbers on the waste lie within wasteReach of their part, and wasteClear away
// from every cut line.
const (
	wasteReach = 8 * shape.Mm
	wasteClear = shape.Um(500)
)

// Waste is what is left of a sheet around its parts, where a part's number can
// stand that nothing on the part would hide.
type Waste struct {
	inner  shape.Rect // what the margins leave
	solids []obstacle
	taken  []shape.Rect // by numbers
}

type obstacle struct {
	bounds shape.Rect
	line   shape.Outline
	region shape.Region // made when it is first asked for
	made   bool
}

// NewWaste is a sheet without its margins and the cut lines on it.
func NewWaste(inner shape.Rect, lines []shape.Outline) *Waste {
	w := &Waste{inner: inner}
	for _, l := range lines {
		w.solids = append(w.solids, obstacle{bounds: l.Bounds(), line: l})
	}
	return w
}

// Beside finds room for a number next to the part within bounds. ok is false
// where there is none.
func (w *Waste) Beside(text string, bounds shape.Rect) (l Label, ok bool) {
	around := meet(grown(bounds, wasteReach), w.inner)
	if around.Empty() {
		return Label{}, false
	}
	free := shape.FromRects([]shape.Rect{around})
	for i := range w.solids {
		o := &w.solids[i]
		if meet(grown(o.bounds, wasteClear), around).Empty() {
			continue
		}
		if !o.made {
			o.made = true
			o.region = shape.FromRects([]shape.Rect{o.bounds})
			if axisParallel(o.line) {
				o.region = shape.FromPolygons(o.line.Polygon())
			}
			o.region = o.region.Grow(wasteClear)
		}
		free = free.Subtract(o.region)
	}
	if len(w.taken) > 0 {
		free = free.Subtract(shape.FromRects(w.taken))
	}
	for _, unit := range units {
		best := shape.Um2(-1)
		for _, way := range []Way{Level, Upward} {
			try := Label{Text: text, Unit: unit, Way: way}
			lw, lh := try.Extent()
			for _, r := range places(free, lw, lh).Rects() {
				at := shape.Point{X: clamp(middle(bounds).X, r.Min.X, r.Max.X), Y: clamp(middle(bounds).Y, r.Min.Y, r.Max.Y)}
				if d := square(at.Sub(middle(bounds))); best < 0 || d < best {
					best, l = d, try
					l.At = at
				}
			}
		}
		if best >= 0 {
			lw, lh := l.Extent()
			half := shape.Point{X: (lw + 1) / 2, Y: (lh + 1) / 2}
			w.taken = append(w.taken, grown(shape.Rect{Min: l.At.Sub(half), Max: l.At.Add(half)}, wasteClear))
			return l, true
		}
	}
	return Label{}, false
}

func clamp(v, low, high shape.Um) shape.Um { return min(max(v, low), high) }

func grown(r shape.Rect, d shape.Um) shape.Rect {
	return shape.Rect{Min: r.Min.Sub(shape.Point{X: d, Y: d}), Max: r.Max.Add(shape.Point{X: d, Y: d})}
}

func meet(a, b shape.Rect) shape.Rect {
	return shape.Rect{
		Min: shape.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: shape.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
}
