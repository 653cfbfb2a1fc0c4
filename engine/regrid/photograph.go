package regrid

import (
	"math"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
)

const (
	// leastPhotoDip is leastDip for photographs, which noise fills up.
	leastPhotoDip = 0.6
	// surelyStraight is a dip so deep that no other corners need be looked for: a
	// picture that is turned by half a degree has none of that depth.
	surelyStraight = 0.25
)

// photographed makes a grid of what lies within four corners of a picture.
func photographed(r *picture.Raster, c Corners, o Options) (*Result, error) {
	flat, ok := straightened(r, c)
	if !ok {
		return nil, &NotASprite{"the four corners don't span a grid: give them clockwise from the upper left"}
	}
	g, ok := gridBetween(flat)
	if !ok {
		return nil, &NotASprite{"no grid of cells shows within the four corners: set them on the outer corners of the drawing's grid"}
	}
	return ofPhotograph(flat, g, c, o), nil
}

// gridBetween finds the grid that fills a straightened picture.
func gridBetween(flat *picture.Raster) (placed, bool) {
	sx, sy := sketches(flat)
	xs, ys := wholeFits(&sx), wholeFits(&sy)
	if len(xs) == 0 || len(ys) == 0 {
		return placed{}, false
	}
	xs, ys = preferDivisors(&sx, xs), preferDivisors(&sy, ys)
	if xs[0].dip > leastPhotoDip || ys[0].dip > leastPhotoDip {
		return placed{}, false
	}
	return placed{x: xs[0], y: ys[0], others: [2][]axisFit{xs[1:], ys[1:]}}, true
}

// withoutCorners looks for the corners first.
func withoutCorners(r *picture.Raster, o Options) (*Result, placed, bool) {
	c, ok := findCorners(r)
	if !ok {
		return nil, placed{}, false
	}
	flat, ok := straightened(r, c)
	if !ok {
		return nil, placed{}, false
	}
	g, ok := gridBetween(flat)
	if !ok {
		return nil, placed{}, false
	}
	// Corners that are a little off spoil the count along one axis first. Cells
	// are mostly square, so the other axis then says how many there should be.
	tries := [][2]int{{g.x.cells, g.y.cells}}
	if ratio := g.x.size / g.y.size; ratio < 0.8 || ratio > 1.25 {
		columns := int(math.Round(float64(flat.W) / g.y.size))
		rows := int(math.Round(float64(flat.H) / g.x.size))
		for by := -1; by <= 1; by++ {
			tries = append(tries, [2]int{g.x.cells, rows + by}, [2]int{columns + by, g.y.cells})
		}
	}
	var best *Result
	for _, n := range tries {
		if min(n[0], n[1]) < 2 {
			continue
		}
		moved := nudged(r, c, n[0], n[1])
		flat, ok := straightened(r, moved)
		if !ok {
			continue
		}
		if again, ok := gridBetween(flat); ok && (best == nil || again.better(g)) {
			g, best = again, ofPhotograph(flat, again, moved, o)
		}
	}
	return best, g, best != nil
}

// better says whether g is nearer to a grid of square cells than other, or as
// near and explains more.
func (g placed) better(other placed) bool {
	square := func(p placed) bool { return p.x.size < 1.25*p.y.size && p.y.size < 1.25*p.x.size }
	if square(g) != square(other) {
		return square(g)
	}
	return g.dip() < other.dip()
}

// ofPhotograph takes the colours, with the light evened out.
func ofPhotograph(flat *picture.Raster, g placed, c Corners, o Options) *Result {
	res := &Result{Corners: &c}
	g.describe(res)
	s := sample(flat, g.x, g.y)
	paint(res, s.evened(lightOf(s)), o, colour.Noisy)
	return res
}

// nudged moves the corners until the cells between them are as flat as can be.
func nudged(r *picture.Raster, c Corners, columns, rows int) Corners {
	best, ok := unevenness(r, c, columns, rows)
	if !ok {
		return c
	}
	cell := math.Sqrt(math.Abs(cross(c[0], c[1], c[2])) / float64(columns*rows))
	for step := cell / 3; step > cell/40; step /= 2 {
		for range 2 {
			for i := range 8 {
				for _, by := range []float64{step, -step} {
					next := c
					if i%2 == 0 {
						next[i/2].X += by
					} else {
						next[i/2].Y += by
					}
					if u, ok := unevenness(r, next, columns, rows); ok && u < best {
						c, best = next, u
						break
					}
				}
			}
		}
	}
	return c
}

// unevenness is how much the picture varies within cells, at nine places of
// each of at most some thousand cells, rounded to whole steps.
func unevenness(r *picture.Raster, c Corners, columns, rows int) (int64, bool) {
	p, ok := projectionOf(c)
	if !ok {
		return 0, false
	}
	every := 1
	for columns*rows/(every*every) > 2000 {
		every++
	}
	total := 0.0
	for y := 0; y < rows; y += every {
		for x := 0; x < columns; x += every {
			var sum, squares float64
			for j := range 3 {
				for i := range 3 {
					u := (float64(x) + 0.22 + 0.28*float64(i)) / float64(columns)
					v := (float64(y) + 0.22 + 0.28*float64(j)) / float64(rows)
					px, py := p.at(u, v)
					s := between(r, px, py)
					bright := s[0] + 2*s[1] + s[2]
					sum += bright
					squares += float64(bright * bright)
				}
			}
			total += squares - float64(sum*sum)/9
		}
	}
	return int64(math.Round(total)), true
}
