package assemble

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// jigRim is how far a jig reaches beyond the sprite and all its windows. Common
// practice, no source.
const jigRim = 12 * shape.Mm

// Jig helps to place all parts of a height: a plate with a window for each, and a
// rim that lies under it, flush with its edges, about what is placed already, so that
// the windows stand at their true places. Coordinates are the layers', shapes are
// finished.
type Jig struct {
	Height  int
	Plate   shape.Outline
	Windows [][]int        // Index of the parts in each of the plate's holes
	Rim     *shape.Outline // nil where nothing lies below
	Pack    shape.Um       // the plate's lower face over the board; the rim takes of it what it is thick
}

// Jig is the one for a height, cut from a stock of that least strip and thickness:
// windows are the parts' outer contours, wider by the clearance on every side. Where
// less than the strip would stand between two, they are one. ok is false where a part
// of that height has round or slanted edges.
func (p *Plan) Jig(l *outline.Layout, height int, clear, strip, thick shape.Um) (j Jig, ok bool) {
	j.Height = height
	var own []*outline.Part
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			q := &l.Layers[i].Parts[k]
			switch h := l.Layers[i].Height; {
			case h == height:
				if !upright([]shape.Ring{q.Outline.Outer.Flatten(1)}) {
					return j, false
				}
				own = append(own, q)
				j.Pack = max(j.Pack, p.Parts[q.Index].Under)
			case h < height:
				j.Pack = max(j.Pack, p.Parts[q.Index].Top)
			}
		}
	}
	if len(own) == 0 {
		return j, false
	}
	var windows shape.Region
	for _, q := range own {
		windows = windows.Union(solid(q.Outline).Grow(clear))
	}
	windows = joinNear(windows, strip)
	// What lies below at the rim's level keeps it where it belongs.
	var below shape.Region
	for _, layer := range l.Layers {
		for _, q := range layer.Parts {
			if layer.Height < height && p.Parts[q.Index].Top > j.Pack-thick {
				below = below.Union(widened(q.Outline))
			}
		}
	}
	below = joinNear(below.Grow(clear), strip)
	plate := shape.Rect{Max: l.Size}.Union(windows.Bounds()).Union(below.Bounds())
	plate.Min, plate.Max = plate.Min.Sub(shape.Point{X: jigRim, Y: jigRim}), plate.Max.Add(shape.Point{X: jigRim, Y: jigRim})
	j.Plate = pierced(plate, windows)
	for _, hole := range j.Plate.Holes {
		window := shape.FromPolygons(shape.Polygon{Outer: hole.Reversed().Ring()})
		var in []int
		for _, q := range own {
			if !window.Intersect(solid(q.Outline)).Empty() {
				in = append(in, q.Index)
			}
		}
		slices.Sort(in)
		j.Windows = append(j.Windows, in)
	}
	if !below.Empty() {
		rim := pierced(plate, below)
		j.Rim = &rim
	}
	return j, true
}

// solid is an upright outline without its holes.
func solid(o shape.Outline) shape.Region {
	return shape.FromPolygons(shape.Polygon{Outer: o.Outer.Ring()})
}

// widened is an outline without its holes, or a little more where its edges are round
// or slanted: as wide as the bands that Inscribed leaves out.
func widened(o shape.Outline) shape.Region {
	if upright([]shape.Ring{o.Outer.Flatten(1)}) {
		return solid(o)
	}
	b := o.Bounds()
	return Inscribed(shape.Outline{Outer: o.Outer}).Grow(fine).Intersect(shape.FromRects([]shape.Rect{b}))
}

// joinNear closes all that is narrower than the strip between windows, side by side
// or corner to corner, and takes out what would fall out of one.
func joinNear(windows shape.Region, strip shape.Um) shape.Region {
	half := (strip + 1) / 2
	r := windows.Grow(half).Shrink(half).Union(windows)
	polygons := r.Polygons(shape.BySides)
	rects := make([][]shape.Rect, len(polygons))
	for i, p := range polygons {
		rects[i] = shape.FromPolygons(shape.Polygon{Outer: p.Outer}).Rects()
	}
	var bridges []shape.Rect
	for i := range rects {
		for _, a := range rects[i] {
			for k := range rects[:i] {
				for _, b := range rects[k] {
					gap := shape.Rect{
						Min: shape.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
						Max: shape.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
					}
					w, h := gap.Max.X-gap.Min.X, gap.Max.Y-gap.Min.Y
					if w >= 0 && h >= 0 && shape.Um2(w)*shape.Um2(w)+shape.Um2(h)*shape.Um2(h) < shape.Um2(strip)*shape.Um2(strip) {
						m := shape.Point{X: half, Y: half}
						bridges = append(bridges, shape.Rect{Min: gap.Min.Sub(m), Max: gap.Max.Add(m)})
					}
				}
			}
		}
	}
	if len(bridges) > 0 {
		return joinNear(r.Union(shape.FromRects(bridges)), strip)
	}
	var out shape.Region
	for _, p := range polygons {
		out = out.Union(shape.FromPolygons(shape.Polygon{Outer: p.Outer}))
	}
	return out
}

// pierced is a plate with windows.
func pierced(plate shape.Rect, windows shape.Region) shape.Outline {
	o := shape.Outline{Outer: shape.Ring{plate.Min, {X: plate.Max.X, Y: plate.Min.Y}, plate.Max, {X: plate.Min.X, Y: plate.Max.Y}}.Contour()}
	for _, p := range windows.Polygons(shape.BySides) {
		o.Holes = append(o.Holes, p.Outer.Reversed().Contour())
	}
	return o
}
