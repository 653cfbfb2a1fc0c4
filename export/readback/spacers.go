package readback

import (
	"slices"

	"sheetsprite/engine/project"
)

// takeSpacers takes over what the manifest says of a sprite's spacers: they are
// of the stock that the project wants, under the heights that it lifts by them.
func (s *sprite) takeSpacers(m manifest, at int, p *project.Sprite, byID map[string]int) error {
	ms := m.Sprites[at]
	height := 0
	for k, l := range ms.Spacers {
		stock, ok := byID[l.Stock]
		switch {
		case !ok || l.Stock != p.Stack.SpacerStock(l.Height):
			return s.fault("spacers under height %d are cut from %s, which the project doesn't ask for", l.Height, quote(l.Stock))
		case l.Layer != len(ms.Layers)+k+1 || l.Height <= height || l.Height > ms.Heights:
			return s.fault("the manifest numbers spacers as layer %d at height %d", l.Layer, l.Height)
		case l.Colour != colourText(s.stocks[stock].Colour):
			return s.fault("spacers have not their stock's colour")
		case l.Parts < 1:
			return s.fault("there is no spacer under height %d", l.Height)
		}
		height = l.Height
		s.spacers = append(s.spacers, layer{number: l.Layer, height: l.Height, stock: stock, dxf: l.DXF, svg: l.SVG})
	}
	return nil
}

// leastBack is how far a spacer lies behind every edge of the part on it, at
// least, and that is at least how high it lifts it: then nobody sees it from the
// front, nor from 45° beside.
const (
	leastBack = 1000
	tapeUm    = 100 // on both sides of a spacer
)

// judgeSpacers looks whether every spacer lies under a part, far enough behind
// its edges, and on what that part rests on.
func (s *sprite) judgeSpacers() error {
	for _, l := range s.spacers {
		back := max(leastBack, int64(s.stocks[l.stock].Thickness)+2*tapeUm)
		var above, below [][]around
		for _, p := range s.parts {
			var whole []around
			for _, c := range p.contours {
				whole = append(whole, boxed(c, false))
			}
			switch p.height {
			case l.height:
				above = append(above, whole)
			case l.height - 1:
				below = append(below, whole)
			}
		}
		for _, p := range l.parts {
			x, y := mm(p.contours[0][0].x), mm(p.contours[0][0].y)
			if !liesIn(p, above, back) {
				return s.fault("the spacer at (%s, %s) mm would show under height %d", x, y, l.height)
			}
			if l.height > 1 && !liesIn(p, below, 0) {
				return s.fault("the spacer at (%s, %s) mm doesn't lie on one part", x, y)
			}
		}
	}
	return nil
}

// liesIn says whether a piece lies within one of the parts, so far from its
// edges; with 0 they may touch.
func liesIn(p part, parts [][]around, back int64) bool {
	var own []around
	for _, c := range p.contours {
		own = append(own, boxed(c, false))
	}
	return slices.ContainsFunc(parts, func(whole []around) bool {
		for _, c := range p.contours {
			for i, v := range c {
				if !cornerIn(v, own, whole) || !edgeIn(lead{from: v, to: c[(i+1)%len(c)]}, whole, back) {
					return false
				}
			}
		}
		return true
	})
}

// cornerIn says whether what a piece has about one of its corners is in a part.
func cornerIn(v vertex, own, whole []around) bool {
	for _, d := range [][2]int64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
		if at := (vertex{x: v.x + d[0], y: v.y + d[1]}); inside(own, at) && !inside(whole, at) {
			return false
		}
	}
	return true
}

// edgeIn says whether an edge stays so far from a part's; with 0 it may run along
// them but not across.
func edgeIn(e lead, whole []around, back int64) bool {
	for _, a := range whole {
		if back > 0 {
			if e.near(a.box, back) && e.away(a) < float64(back)-1 { // arcs are rounded
				return false
			}
			continue
		}
		for i, v := range a.contour {
			n := a.contour[(i+1)%len(a.contour)]
			if v.arc == 0 && crossed(e.from, e.to, v, n) {
				return false
			}
		}
	}
	return true
}

// crossed says whether two segments cross, not only touch.
func crossed(a, b, c, d vertex) bool {
	side := func(p, q, r vertex) int64 { return step((q.x-p.x)*(r.y-p.y) - (q.y-p.y)*(r.x-p.x)) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// inside says whether a point lies in a part, in none of its holes.
func inside(whole []around, v vertex) bool {
	for i, a := range whole {
		if a.holds(v) != (i == 0) {
			return false
		}
	}
	return len(whole) > 0
}
