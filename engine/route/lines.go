package route

import "sheetsprite/engine/shape"

// openLines are what is left of a contour without the gaps (sorted, not
// overlapping), in the contour's order. Nothing is left where gaps take all;
// a contour without gaps is no open line.
func openLines(c shape.Contour, gaps []Tab) []shape.Contour {
	var lines []shape.Contour
	var line shape.Contour // the one being drawn
	flush := func() {
		if len(line) > 1 {
			lines = append(lines, line)
		}
		line = nil
	}
	for e, v := range c {
		end := c[(e+1)%len(c)]
		n := length(v.Point, end.Point)
		at := shape.Um(0)
		for ; len(gaps) > 0 && gaps[0].Edge == e; gaps = gaps[1:] {
			g := gaps[0]
			if g.From > at {
				line = draw(line, along(v.Point, end.Point, at, n), along(v.Point, end.Point, g.From, n))
			}
			flush()
			at = g.To
		}
		switch {
		case at == 0:
			if len(line) == 0 {
				line = shape.Contour{v}
			} else {
				line[len(line)-1] = v
			}
			line = append(line, shape.Vertex{Point: end.Point})
		case at < n:
			line = draw(line, along(v.Point, end.Point, at, n), end.Point)
		}
	}
	if len(line) > 1 && len(lines) > 0 && lines[0][0].Point == line[len(line)-1].Point {
		lines[0] = append(line[:len(line)-1:len(line)-1], lines[0]...) // over the contour's first vertex
		return lines
	}
	flush()
	return lines
}

// draw goes on with a line from a, where it must end if there is one, to b.
func draw(line shape.Contour, a, b shape.Point) shape.Contour {
	if len(line) == 0 {
		line = shape.Contour{{Point: a}}
	}
	return append(line, shape.Vertex{Point: b})
}

// along is the point d along the edge from a to b of length n, which is along an axis.
func along(a, b shape.Point, d, n shape.Um) shape.Point {
	if n == 0 {
		return a
	}
	v := b.Sub(a)
	return a.Add(shape.Point{X: v.X / n * d, Y: v.Y / n * d})
}

// backwards is an open line run from its other end.
func backwards(line shape.Contour) shape.Contour {
	n := len(line)
	out := make(shape.Contour, n)
	for i, v := range line {
		out[n-1-i] = shape.Vertex{Point: v.Point}
	}
	for i, v := range line[:n-1] {
		out[n-2-i].Arc = v.Arc.Reversed()
	}
	return out
}

// Passes is the stroke as often as it takes, an open one to and fro.
func (s Stroke) Passes(n int) []Stroke {
	out := make([]Stroke, max(1, n))
	for i := range out {
		out[i] = s
		out[i].Pass = i
		if i%2 == 1 && !bool(s.Closed) {
			out[i].Path = backwards(s.Path)
		}
	}
	return out
}
