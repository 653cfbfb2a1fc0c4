package assemble

import (
	"slices"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/shape"
)

// Pin is a place where a pin goes through the parts of a sprite.
//
// Its hole is a square with the pin's diameter for its side, along the axes: a
// round pin touches it on four sides and stands as true as in a round one, and
// all that is exact of parts stays so.
type Pin struct {
	Hole  shape.Rect
	Parts []int // Index of the parts that have the hole, lowest first
	Under int   // Index of the part that hides it
}

// PinOptions are what Pins needs to know beside the layout.
type PinOptions struct {
	Side  shape.Um   // of a hole
	Strip []shape.Um // least strip of each stock, by Layer.Stock
	Kerf  []shape.Um // the same for the kerf
	Lifts []Lift     // by height less one, as set: what stands on foam hides less
}

// pinClear is left between a hole and the lines that mark where a part goes.
const pinClear = shape.Um(100)

// pinsApart is which share of a sprite's longer side pins stand apart at least, so
// that it can't turn about them. Common practice, no source.
const pinsApart = 3

// Pins finds the two places for pins: both through as many parts in common as can
// be, of those the two farthest apart. A hole goes through everything below the
// part that hides it. It keeps its distance from the edges of all of them: the least
// strip of what it goes through, and from those on top as much as marks and hands
// need; it lies in no join. None where there are no two such places.
func Pins(l *outline.Layout, o PinOptions) []Pin {
	f := pinFinder{b: newBuilder(l, Options{}), o: o}
	n := len(f.b.shapes)
	f.joins, f.through, f.spots = make([][]shape.Rect, n), make([]shape.Region, n), make([][]shape.Rect, n)
	for _, j := range l.Joins {
		f.joins[j.Part] = append(f.joins[j.Part], j.Square())
	}
	order := make([]int, 0, n) // lowest first
	for _, layer := range l.Layers {
		for _, p := range layer.Parts {
			order = append(order, p.Index)
		}
	}
	for _, i := range order {
		p := f.b.plan.Parts[i]
		f.through[i] = f.room(i, max(o.Strip[p.Stock], f.clear(p)))
		if 2*cut.HalfKerf(o.Kerf[p.Stock]) >= o.Side {
			f.through[i] = shape.Region{}
		}
		if p.On < 0 {
			continue
		}
		f.through[i] = f.through[i].Intersect(f.through[p.On])
		f.spots[i] = f.room(i, f.clear(p)).Intersect(f.through[p.On]).Rects()
	}
	return f.pair(order)
}

// pinFinder looks for places for pins.
type pinFinder struct {
	b       *builder
	o       PinOptions
	joins   [][]shape.Rect // by Index
	through []shape.Region // where the middle of a hole through a part and all below it may be
	spots   [][]shape.Rect // where the middle of a hole that a part hides may be
}

// clear is how far behind a part's edges a hole beneath it lies: it is beyond the
// line that marks the part's place, which lies as far back as a hand is off or as
// the part floats, so that nobody who looks aslant sees either.
func (f *pinFinder) clear(p Part) shape.Um {
	back := cut.MarkBack
	if h := p.Height - 1; h < len(f.o.Lifts) && f.o.Lifts[h].Floats() {
		back = max(back, f.o.Lifts[h].Rise())
	}
	return back + cut.MarkWidth + pinClear
}

// room is where the middle of a hole in a part may be, so far from its edges and in
// none of its joins.
func (f *pinFinder) room(index int, clear shape.Um) shape.Region {
	half := (f.o.Side + 1) / 2
	r := f.b.region(index).Shrink(half + clear)
	if len(f.joins[index]) > 0 && !r.Empty() {
		r = r.Subtract(shape.FromRects(f.joins[index]).Grow(half))
	}
	return r
}

// pair is the best two of all places.
func (f *pinFinder) pair(order []int) []Pin {
	inside := make([][]shape.Rect, len(order)) // what parts on a part hide, by the part
	for _, i := range order {
		for on := f.b.plan.Parts[i].On; on >= 0; on = f.b.plan.Parts[on].On {
			inside[on] = append(inside[on], f.spots[i]...)
		}
	}
	var best [2]shape.Point
	common, away := -1, shape.Um2(0)
	for _, i := range slices.Backward(order) {
		if common >= 0 && f.b.plan.Parts[i].Height < f.b.plan.Parts[common].Height {
			break // goes through fewer parts
		}
		if len(inside[i]) == 0 {
			continue
		}
		if p, q, d := farthest(hull(inside[i])); d > away && d >= f.least(i) {
			best, common, away = [2]shape.Point{p, q}, i, d
		}
	}
	if common < 0 {
		return nil
	}
	return []Pin{f.pin(order, best[0]), f.pin(order, best[1])}
}

// least is how far apart two pins through a part must be, squared.
func (f *pinFinder) least(index int) shape.Um2 {
	root := index
	for f.b.plan.Parts[root].On >= 0 {
		root = f.b.plan.Parts[root].On
	}
	w, h := f.b.shapes[root].Bounds.Size()
	d := shape.Um2(max(max(w, h)/pinsApart, 4*f.o.Side))
	return d * d
}

// pin is the pin at a place that was found, under the highest part that hides it.
func (f *pinFinder) pin(order []int, at shape.Point) Pin {
	for _, i := range slices.Backward(order) {
		for _, r := range f.spots[i] {
			if at.X < r.Min.X || at.X > r.Max.X || at.Y < r.Min.Y || at.Y > r.Max.Y {
				continue
			}
			low := at.Sub(shape.Point{X: f.o.Side / 2, Y: f.o.Side / 2})
			p := Pin{Hole: shape.Rect{Min: low, Max: low.Add(shape.Point{X: f.o.Side, Y: f.o.Side})}, Under: i}
			for on := f.b.plan.Parts[i].On; on >= 0; on = f.b.plan.Parts[on].On {
				p.Parts = append(p.Parts, on)
			}
			slices.Reverse(p.Parts)
			return p
		}
	}
	panic("assemble: a pin where there is no room")
}

// farthest is the two corners of a convex ring that are farthest apart, and the
// square of how far.
func farthest(ring shape.Ring) (p, q shape.Point, d shape.Um2) {
	for i, a := range ring {
		for _, b := range ring[i+1:] {
			if c := a.Sub(b); shape.Um2(c.X)*shape.Um2(c.X)+shape.Um2(c.Y)*shape.Um2(c.Y) > d {
				p, q, d = a, b, shape.Um2(c.X)*shape.Um2(c.X)+shape.Um2(c.Y)*shape.Um2(c.Y)
			}
		}
	}
	return p, q, d
}

// Pinned is a layout with the holes of its pins. The layout stays as it is.
func Pinned(l *outline.Layout, pins []Pin) *outline.Layout {
	if len(pins) == 0 {
		return l
	}
	out := *l
	out.Layers = slices.Clone(l.Layers)
	for i := range out.Layers {
		parts := slices.Clone(out.Layers[i].Parts)
		out.Layers[i].Parts = parts
		for k := range parts {
			p := &parts[k]
			for _, pin := range pins {
				if !slices.Contains(pin.Parts, p.Index) {
					continue
				}
				h := pin.Hole
				hole := shape.Ring{h.Min, {X: h.Min.X, Y: h.Max.Y}, h.Max, {X: h.Max.X, Y: h.Min.Y}}
				p.Outline.Holes = append(slices.Clip(p.Outline.Holes), hole.Contour())
				p.Pins++
			}
		}
	}
	return &out
}
