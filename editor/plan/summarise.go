package plan

import (
	"cmp"
	"math"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// Planned is a sprite with its plan, as the engine gives it.
type Planned struct {
	Sprite  project.Sprite
	Palette []project.Colour
	Stocks  []string // IDs; outline.Layer.Stock is an index into it
	Forest  stack.Forest
	Layout  outline.Layout
	Patches int // connected by sides only
}

// Summarise is what the page needs of p; revision, sprite, what is final and
// the findings are the caller's to add.
func Summarise(p Planned) *Summary {
	s := &Summary{Heights: p.Layout.Heights, Patches: p.Patches}
	n := 0
	for _, l := range p.Layout.Layers {
		n += len(l.Parts)
	}
	s.Parts = n
	g := &s.Geometry
	g.Cell, g.Cols, g.Rows = int32(p.Layout.Cell), int32(p.Layout.Cols), int32(p.Layout.Rows)
	g.GridX, g.GridY = int32(p.Layout.Grid.X), int32(p.Layout.Grid.Y)
	g.SizeX, g.SizeY = int32(p.Layout.Size.X), int32(p.Layout.Size.Y)
	if n == 0 {
		return s
	}

	type placed struct {
		outline.Part
		layer outline.Layer
	}
	parts := make([]placed, n) // by Index
	for _, l := range p.Layout.Layers {
		for _, part := range l.Parts {
			parts[part.Index] = placed{part, l}
		}
	}
	shown := make([][]byte, n) // keys that show on each part
	for i, part := range parts {
		shown[i] = keysOn(p, part.Tree)
	}
	s.Colours = colours(p, func(yield func(stock string, height int, keys []byte)) {
		for i, part := range parts {
			yield(p.Stocks[part.layer.Stock], part.layer.Height, shown[i])
		}
	})

	g.Rings, g.Starts = append(g.Rings, 0), append(g.Starts, 0)
	for i, part := range parts {
		w, h := part.Bounds.Size()
		if max(w, h) < Tweezers {
			s.Tweezers++
		}
		g.Heights = append(g.Heights, int32(part.layer.Height))
		g.On = append(g.On, int32(part.On))
		g.Layers = append(g.Layers, int32(part.layer.Number))
		g.Colours = append(g.Colours, int32(slices.IndexFunc(s.Colours, func(c Colour) bool { return c.Key == shown[i][0] })))
		b := part.Bounds
		g.Bounds = append(g.Bounds, int32(b.Min.X), int32(b.Min.Y), int32(b.Max.X), int32(b.Max.Y))
		g.ring(part.Outline.Outer)
		for _, hole := range part.Outline.Holes {
			g.ring(hole)
		}
		g.Rings = append(g.Rings, int32(len(g.Starts)-1))
	}
	s.Seconds = (s.Parts-s.Tweezers)*PlaceSeconds + s.Tweezers*FiddlySeconds
	return s
}

// keysOn are the palette keys that show on a part of the forest, in the
// palette's order; the backer's is 0.
func keysOn(p Planned, tree int) []byte {
	if tree < 0 {
		return []byte{0}
	}
	var has [256]bool
	cells := p.Sprite.Frames[0].Cells
	for _, r := range p.Forest.Parts[tree].Shows {
		for x := r.X0; x < r.X1; x++ {
			has[cells[int(r.Y)*p.Sprite.W+int(x)]] = true
		}
	}
	var keys []byte
	for _, c := range p.Palette {
		if has[c.Key] {
			keys = append(keys, c.Key)
		}
	}
	if keys == nil { // a part always shows something; a wrong forest must not bring the page down
		keys = []byte{0}
	}
	return keys
}

// colours counts parts and heights of each key; highest place first, then in
// the palette's order, the backer last.
func colours(p Planned, each func(yield func(stock string, height int, keys []byte))) []Colour {
	at := map[byte]int{}
	var list []Colour
	each(func(stock string, height int, keys []byte) {
		for _, k := range keys {
			i, ok := at[k]
			if !ok {
				i = len(list)
				at[k] = i
				list = append(list, Colour{Key: k, Stock: stock})
			}
			list[i].Parts++
			if !slices.Contains(list[i].Heights, height) {
				list[i].Heights = append(list[i].Heights, height)
			}
		}
	})
	place := func(key byte) int {
		if key == 0 {
			return math.MaxInt
		}
		return slices.IndexFunc(p.Palette, func(c project.Colour) bool { return c.Key == key })
	}
	for i := range list {
		slices.Sort(list[i].Heights)
	}
	slices.SortFunc(list, func(a, b Colour) int {
		return cmp.Or(
			cmp.Compare(b.Heights[len(b.Heights)-1], a.Heights[len(a.Heights)-1]),
			cmp.Compare(place(a.Key), place(b.Key)),
		)
	})
	return list
}

// ring adds a contour, its arcs as short lines.
func (g *Geometry) ring(c shape.Contour) {
	for i, v := range c {
		g.Points = append(g.Points, int32(v.X), int32(v.Y))
		if v.Turn != shape.Straight {
			g.arc(v, c[(i+1)%len(c)].Point)
		}
	}
	g.Starts = append(g.Starts, int32(len(g.Points)/2))
}

// arcStep is the turn between two points of an arc that is only looked at.
const arcStep = math.Pi / 12

// arc adds the points between the ends of the arc from v to end.
func (g *Geometry) arc(v shape.Vertex, end shape.Point) {
	angle := func(p shape.Point) float64 {
		return math.Atan2(float64(p.Y-v.Centre.Y), float64(p.X-v.Centre.X))
	}
	from, turn := angle(v.Point), angle(end)-angle(v.Point)
	if v.Turn == shape.Anticlockwise && turn <= 0 {
		turn += 2 * math.Pi
	} else if v.Turn == shape.Clockwise && turn >= 0 {
		turn -= 2 * math.Pi
	}
	n := int(math.Ceil(math.Abs(turn) / arcStep))
	for i := 1; i < n; i++ {
		a := from + turn*float64(i)/float64(n)
		g.Points = append(g.Points,
			int32(v.Centre.X)+int32(math.Round(float64(v.Radius)*math.Cos(a))),
			int32(v.Centre.Y)+int32(math.Round(float64(v.Radius)*math.Sin(a))))
	}
}

// PlaceOf is a point of the layers' coordinates on the grid, in cells.
func PlaceOf(l outline.Layout, at shape.Point, part int) Place {
	return Place{
		X:    float64(at.X-l.Grid.X) / float64(l.Cell),
		Y:    float64(l.Rows) - float64(at.Y-l.Grid.Y)/float64(l.Cell),
		Part: part,
	}
}
