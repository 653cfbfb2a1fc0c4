package cut

import "sheetsprite/engine/shape"

// Mirrored is a closed contour seen in a mirror, still run the way round that
// leaves the stock to its left: edge e becomes edge n−1−e.
func Mirrored(c shape.Contour) shape.Contour { return flipped(c).Reversed() }

// flipped changes the sign of all x.
func flipped(c shape.Contour) shape.Contour {
	out := make(shape.Contour, len(c))
	flip := func(p shape.Point) shape.Point { return shape.Point{X: -p.X, Y: p.Y} }
	for i, v := range c {
		out[i] = shape.Vertex{Point: flip(v.Point), Arc: v.Arc.About(flip).Reversed()}
	}
	return out
}

// Mirrored is the piece as it lies on a sheet that is cut face down: x runs the
// other way.
func (c Piece) Mirrored() Piece {
	c.Tabs = append([]Tab(nil), c.Tabs...)
	for i, t := range c.Tabs {
		line := c.Line.Outer
		if t.Contour > 0 {
			line = c.Line.Holes[t.Contour-1]
		}
		d := line[(t.Edge+1)%len(line)].Sub(line[t.Edge].Point)
		n := max(d.X, -d.X, d.Y, -d.Y)
		c.Tabs[i] = Tab{t.Contour, len(line) - 1 - t.Edge, n - t.To, n - t.From}
	}
	line := shape.Outline{Outer: Mirrored(c.Line.Outer)}
	for _, h := range c.Line.Holes {
		line.Holes = append(line.Holes, Mirrored(h))
	}
	c.Line = line
	return c
}

// Strokes are the lines of the piece's number; on a sheet that is cut face down
// they are flipped like all of the piece, and read well there.
func (c *Piece) Strokes(mirror Mirror) []shape.Contour {
	if c.Label == nil {
		return nil
	}
	lines := c.Label.Lines()
	if mirror {
		for i := range lines {
			lines[i] = flipped(lines[i])
		}
	}
	return lines
}
