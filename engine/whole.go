package engine

import (
	"slices"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Frame is a piece of stock round all parts of a layer that is left whole: they stay
// at their true places, held in it by tabs, until they are laid down at once. One
// copy.
type Frame struct {
	Sprite  int // index into Planned.Sprites
	Copy    int // from 1
	Layer   *outline.Layer
	Members []int      // indices into Sheets.Parts
	Piece   *cut.Piece // the cut round all of it, in the layers' coordinates, with its tabs
}

// FrameOn is a frame on its sheet.
type FrameOn struct {
	*Frame
	Line shape.Outline // the cut line
}

// FrameSheets are the sheets that the frames of a sprite's layer lie on, by copy:
// indices into List, -1 where one lies on none; nil where the layer isn't left whole.
// sprite is an index into Planned.Sprites, layer the layer's number.
func (s *Sheets) FrameSheets(sprite, layer int) []int {
	var out []int
	for i := range s.List {
		for _, f := range s.List[i].Frames {
			if f.Sprite != sprite || f.Layer.Number != layer {
				continue
			}
			for len(out) < f.Copy {
				out = append(out, -1)
			}
			out[f.Copy-1] = i
		}
	}
	return out
}

// frameWide is how wide a frame is at its narrowest, beside two strips of its stock.
// Common practice, no source.
const frameWide = 5 * shape.Mm

// wholeLayers are the numbers of the layers of a sprite that are left whole, as the
// maker wants and as can be: each part keeps its gap from the others, all have room
// for a tab, and the frame fits a sheet. What can't be is told.
func (n *SheetSearch) wholeLayers(sp Sprite, rules []cut.Rule) []int {
	src := &n.p.Sprites[sp.Index]
	if len(n.p.Choice.Parts) > 0 {
		return nil
	}
	var out []int
	for _, i := range sp.leftWhole(src.Stack) {
		l := &sp.Layout.Layers[i]
		stock := sp.Stocks[l.Stock]
		if n.p.Settings.Layout == project.InRegister {
			out = append(out, l.Number)
			continue
		}
		lines := make([]shape.Outline, len(l.Parts))
		faulty := false
		for k := range l.Parts {
			var faults []cut.Fault
			lines[k], faults = cut.Kerfed(l.Parts[k].Outline, rules[l.Stock].Kerf)
			faulty = faulty || len(faults) > 0
		}
		if faulty {
			continue // its stock gets no sheets at all
		}
		if at, near := tooNear(lines, n.p.Settings.Gap); near {
			n.facts.NotWhole(src, stock, l, at, inspect.CutsNear, shape.Point{})
			continue
		}
		frame := frameAround(lines, n.p.Settings, stock)
		if w, h := frame.Size(); !rules[l.Stock].Takes(w, h) {
			n.facts.NotWhole(src, stock, l, frame.Min, inspect.FrameLarge, shape.Point{X: w, Y: h})
			continue
		}
		out = append(out, l.Number)
	}
	return out
}

// piecesOf cuts a sprite, with frames where layers are left whole.
func (n *SheetSearch) piecesOf(sp Sprite, o Options) (pieces []cut.Piece, whole []int) {
	src := &n.p.Sprites[sp.Index]
	rules := cut.Rules(n.p, sp.Stocks)
	whole = n.wholeLayers(sp, rules)
	for {
		for i := range rules {
			rules[i].Whole, rules[i].Stay = whole, n.p.Settings.Tab
		}
		pieces = cut.Parts(sp.Layout, sp.Numbers[:sp.Parts()], rules, sp.Built, o.each)
		loose := slices.IndexFunc(pieces, func(c cut.Piece) bool {
			return slices.Contains(whole, c.Layer.Number) && len(c.Faults) == 0 &&
				!slices.ContainsFunc(c.Tabs, func(t cut.Tab) bool { return t.Contour == 0 })
		})
		if loose < 0 {
			break
		}
		c := &pieces[loose]
		n.facts.NotWhole(src, sp.Stocks[c.Layer.Stock], c.Layer, c.Part.Bounds.Min, inspect.NoTab, shape.Point{})
		whole = slices.DeleteFunc(slices.Clone(whole), func(l int) bool { return l == c.Layer.Number })
	}
	return append(pieces, cut.Spacers(sp.Layout, sp.Spacers, sp.Numbers[sp.Parts():], rules)...), whole
}

// frame puts the parts of a sprite's layers that are left whole into their frames;
// from is where the parts of this copy begin in n.parts.
func (n *SheetSearch) frame(sprite, copy, from int, whole []int) {
	if n.p.Settings.Layout == project.InRegister {
		return // every layer has a sheet of its own
	}
	sp := n.plan.Sprites[sprite]
	rules := cut.Rules(n.p, sp.Stocks)
	for _, number := range whole {
		f := &Frame{Sprite: sprite, Copy: copy, Layer: &sp.Layout.Layers[number-1]}
		var lines []shape.Outline
		for i := from; i < len(n.parts); i++ {
			if part := &n.parts[i]; part.Piece.Layer.Number == number {
				f.Members = append(f.Members, i)
				lines = append(lines, part.Piece.Line)
				part.Frame = f
			}
		}
		rule := rules[f.Layer.Stock]
		box := frameAround(lines, n.p.Settings, sp.Stocks[f.Layer.Stock])
		half := cut.HalfKerf(rule.Kerf)
		box = shape.Rect{Min: box.Min.Add(shape.Point{X: half, Y: half}), Max: box.Max.Sub(shape.Point{X: half, Y: half})}
		piece := cut.Sample(boxOutline(box), "", nil, rule)
		f.Piece = &piece
	}
}

// tooNear is the first place where cut lines of two parts are nearer than the gap.
// Lines that are round or aslant count as the boxes about them.
func tooNear(lines []shape.Outline, gap shape.Um) (at shape.Point, near bool) {
	var taken shape.Region
	for _, line := range lines {
		var own shape.Region
		if c := (&cut.Piece{Line: line}); c.Straight() {
			own = shape.FromPolygons(line.Polygon())
		} else {
			own = shape.FromRects([]shape.Rect{line.Bounds()})
		}
		if both := own.Grow(max(gap, 1)).Intersect(taken); !both.Empty() {
			return both.Rects()[0].Min, true
		}
		taken = taken.Union(own)
	}
	return at, false
}

// frameAround is the cut line of a frame about cut lines.
func frameAround(lines []shape.Outline, set project.Settings, stock project.Stock) shape.Rect {
	var all shape.Rect
	for _, l := range lines {
		all = all.Union(l.Bounds())
	}
	wide := max(frameWide, set.Gap, 2*stock.LeastStrip+2*set.KerfOf(stock))
	return shape.Rect{Min: all.Min.Sub(shape.Point{X: wide, Y: wide}), Max: all.Max.Add(shape.Point{X: wide, Y: wide})}
}

func boxOutline(r shape.Rect) shape.Outline {
	return shape.Outline{Outer: shape.Ring{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}.Contour()}
}
