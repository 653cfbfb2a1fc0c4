package nest

import (
	"math/rand/v2"

	"sheetsprite/engine/shape"
)

// blob is a random connected piece of cells, holes and all, grown by half a
// kerf; now and then a round one.
func blob(rng *rand.Rand, cell, kerf shape.Um) shape.Outline {
	if rng.IntN(8) == 0 {
		return disc(shape.Um(1+rng.IntN(5))*cell+shape.Um(rng.IntN(500)), rng.IntN(2) == 0)
	}
	w, h := 1+rng.IntN(6), 1+rng.IntN(6)
	var rects []shape.Rect
	for y := range h {
		for x := range w {
			if rng.IntN(4) > 0 {
				at := shape.Point{X: shape.Um(x) * cell, Y: shape.Um(y) * cell}
				rects = append(rects, shape.Rect{Min: at, Max: at.Add(shape.Point{X: cell, Y: cell})})
			}
		}
	}
	ps := shape.FromRects(rects).Grow(kerf / 2).Polygons(shape.BySides)
	if len(ps) == 0 {
		return box(cell, cell)
	}
	return ps[rng.IntN(len(ps))].Outline()
}

// disc is a circle as two arcs, with a round hole or without.
func disc(r shape.Um, ring bool) shape.Outline {
	circle := func(r shape.Um, turn shape.Turn) shape.Contour {
		c := shape.Point{X: 7, Y: -3}
		return shape.Contour{
			{Point: c.Add(shape.Point{X: r}), Arc: &shape.Arc{Turn: turn, Centre: c, Radius: r}},
			{Point: c.Add(shape.Point{X: -r}), Arc: &shape.Arc{Turn: turn, Centre: c, Radius: r}},
		}
	}
	o := shape.Outline{Outer: circle(r, shape.Anticlockwise)}
	if ring {
		o.Holes = []shape.Contour{circle(r*3/4, shape.Clockwise)}
	}
	return o
}

// box is a rectangle.
func box(w, h shape.Um) shape.Outline {
	return shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}}.Outline()
}

// randomJob is a job with some of everything.
func randomJob(rng *rand.Rand) Job {
	j := Job{Gap: []shape.Um{0, 1000, 333, 2500}[rng.IntN(4)]}
	cell := []shape.Um{1000, 2000, 3001}[rng.IntN(3)]
	kerf := []shape.Um{0, 100, 180}[rng.IntN(3)]
	groups := []string{"", "", "", "gull", "crab"}
	for i := range 1 + rng.IntN(25) {
		p := Piece{ID: string(rune('a' + i)), Outline: blob(rng, cell, kerf), Copies: 1 + rng.IntN(3)*rng.IntN(2)}
		p.Turns = Turns(rng.IntN(3) * rng.IntN(2))
		p.Together = groups[rng.IntN(len(groups))]
		j.Pieces = append(j.Pieces, p)
	}
	size := func() Size {
		return Size{shape.Um(8000 + rng.IntN(50_000)), shape.Um(8000 + rng.IntN(60_000))}
	}
	for range rng.IntN(3) {
		j.Supply.Offcuts = append(j.Supply.Offcuts, size())
	}
	for range 1 + rng.IntN(2) {
		j.Supply.Sheets = append(j.Supply.Sheets, Sheets{size(), rng.IntN(4)})
	}
	j.Supply.Margins = Margins{shape.Um(rng.IntN(3000)), shape.Um(rng.IntN(3000)), shape.Um(rng.IntN(3000)), 0}
	j.Beside = rng.IntN(2) * manyCopies
	return j
}
