package cut

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// side is which side of a line is kept, as quarter turns anticlockwise after
// which it is what lies to the left of an upright line.
type side uint8

// The sides.
const (
	leftOf  side = iota // of an upright line
	below               // a level line: turned by three quarters it is left
	rightOf             // of an upright line
	above               // a level line
)

// turns is by how many quarters anticlockwise a side becomes the left one.
func (s side) turns() int { return [...]int{leftOf: 0, below: 3, rightOf: 2, above: 1}[s] }

// halve is what of an outline lies on one side of an upright or level line, piece
// by piece, and the stretches of the line that bound it. An outline's contours
// are walked: a chain of what lies to the left begins and ends on the line, and
// the line leads from the end of each to the beginning of the next one above it.
// ok is false where the line meets an arc or an edge that is aslant.
func halve(o shape.Outline, s side, line shape.Um) (pieces []shape.Outline, along []stretch, ok bool) {
	t := s.turns()
	if t == 1 || t == 2 {
		line = -line
	}
	var kept []shape.Contour
	var chains []chain
	for _, c := range append([]shape.Contour{o.Outer}, o.Holes...) {
		c = quarter(c, t)
		whole, parts, fine := chainsOf(c, line)
		if !fine {
			return nil, nil, false
		}
		kept = append(kept, whole...)
		chains = append(chains, parts...)
	}
	loops, along, ok := tied(chains, line)
	if !ok {
		return nil, nil, false
	}
	kept = append(kept, loops...)
	for i := range kept {
		kept[i] = quarter(kept[i], 4-t)
	}
	if t == 2 || t == 3 { // the line was run the other way
		for i, a := range along {
			along[i] = stretch{-a.to, -a.from}
		}
		slices.Reverse(along)
	}
	return nested(kept), along, true
}

// quarter turns a contour about the origin.
func quarter(c shape.Contour, turns int) shape.Contour {
	turned := func(p shape.Point) shape.Point {
		for range turns & 3 {
			p = shape.Point{X: -p.Y, Y: p.X}
		}
		return p
	}
	out := make(shape.Contour, len(c))
	for i, v := range c {
		out[i] = shape.Vertex{Point: turned(v.Point), Arc: v.Arc.About(turned)}
	}
	return out
}

// chain is what of a contour runs left of a line from where it comes over the
// line to where it goes back.
type chain struct {
	path     shape.Contour
	from, to shape.Um // heights on the line
}

// chainsOf cuts a contour at a line; whole is the contour itself where all of it
// lies to the left. What lies on the line isn't left of it.
func chainsOf(c shape.Contour, line shape.Um) (whole []shape.Contour, chains []chain, ok bool) {
	left := func(v shape.Vertex) bool { return v.X < line }
	n, first := len(c), -1
	for i, v := range c {
		next := c[(i+1)%n]
		if v.Arc != nil {
			b := shape.Contour{v, {Point: next.Point}}.Bounds()
			if b.Min.X < line && b.Max.X > line || left(v) != left(next) {
				return nil, nil, false
			}
			continue
		}
		if left(v) == left(next) {
			continue
		}
		if v.Y != next.Y {
			return nil, nil, false
		}
		if !left(v) {
			first = i
		}
	}
	if first < 0 {
		if left(c[0]) {
			whole = append(whole, c)
		}
		return whole, nil, true
	}
	for k := range n {
		v, next := c[(first+k)%n], c[(first+k+1)%n]
		switch {
		case !left(v) && left(next):
			chains = append(chains, chain{from: v.Y, path: shape.Contour{{Point: shape.Point{X: line, Y: v.Y}}}})
		case left(v):
			last := &chains[len(chains)-1]
			last.path = append(last.path, v)
			if !left(next) {
				last.to = v.Y
				last.path = append(last.path, shape.Vertex{Point: shape.Point{X: line, Y: v.Y}})
			}
		}
	}
	return nil, chains, true
}

// tied joins chains along the line. ok is false where they don't alternate, which
// no outline's do.
func tied(chains []chain, line shape.Um) (loops []shape.Contour, along []stretch, ok bool) {
	order := make([]int, len(chains)) // by where they begin
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(chains[a].from, chains[b].from) })
	done := make([]bool, len(chains))
	for _, start := range order {
		var loop shape.Contour
		for at := start; !done[at]; {
			done[at] = true
			loop = append(loop, chains[at].path...)
			n, _ := slices.BinarySearchFunc(order, chains[at].to, func(i int, y shape.Um) int { return cmp.Compare(chains[i].from, y) })
			if n == len(order) {
				return nil, nil, false
			}
			next := order[n]
			along = append(along, stretch{chains[at].to, chains[next].from})
			if done[next] && next != start {
				return nil, nil, false
			}
			at = next
		}
		if len(loop) > 0 {
			loops = append(loops, loop)
		}
	}
	slices.SortFunc(along, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	return loops, along, true
}

// nested puts contours together to outlines, in order of their outer ones'
// lowest, then leftmost vertices.
func nested(cs []shape.Contour) []shape.Outline {
	var out []shape.Outline
	for _, c := range cs {
		if c.Area() > 0 {
			out = append(out, shape.Outline{Outer: c})
		}
	}
	slices.SortFunc(out, func(a, b shape.Outline) int { return byFoot(a, b) })
	for _, c := range cs {
		if c.Area() > 0 {
			continue
		}
		for i := range out {
			if out[i].Outer.Flatten(1).Where(c[0].Point) == shape.Inside {
				out[i].Holes = append(out[i].Holes, c)
				break
			}
		}
	}
	return out
}

// foot is an outline's lowest, of those its leftmost vertex.
func foot(o shape.Outline) shape.Point {
	f := o.Outer[0].Point
	for _, v := range o.Outer {
		if v.Y < f.Y || v.Y == f.Y && v.X < f.X {
			f = v.Point
		}
	}
	return f
}

func byFoot(a, b shape.Outline) int {
	p, q := foot(a), foot(b)
	return cmp.Or(cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X))
}
