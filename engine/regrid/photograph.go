package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/pixels"
)

const (
	// surelyFlat is a dip so deep that no lens bent the grid.
	surelyFlat = 0.1
	// nearlyFlat is a dip so deep that the grid is found, though its corners may be off a
	// little yet.
	nearlyFlat = 0.2
	// leastBetter is how much of a dip must be left for another bend to be believed.
	leastBetter = 0.8
	// leastPhotoDip is leastDip for photographs, which noise fills up.
	leastPhotoDip = 0.6
	// surelyAll is a dip so deep, of about square cells, that what stands out ends where
	// the grid does: half a cell more or less leaves none of that depth.
	surelyAll = 0.35
	// surelyStraight is a dip so deep that no other corners need be looked for: a
	// picture that is turned by half a degree has none of that depth.
	surelyStraight = 0.05
	// hardlyTurned is a dip so deep that corners are only looked for if a quick look says
	// so: the tests' photographs, the straightest too, stay above 0.4.
	hardlyTurned = 0.25
	// leastTilt is by how many pixels corners lie off a straight rectangle where a
	// straight grid is found too: below it the straight one is as good.
	leastTilt = 2
)

// photographed makes a grid of what lies within four corners of a picture.
func photographed(r *pixels.Raster, c Corners, o Options) (*Result, error) {
	if o.Count != [2]int{} {
		b, err := countedBetween(r, c, o.Count)
		if err != nil {
			return nil, err
		}
		return ofPhotograph(b.flat, b.grid, c, o), nil
	}
	b, ok := betweenCorners(r, c)
	switch {
	case ok:
		return ofPhotograph(b.flat, b.grid, c, o), nil
	case b.flat == nil:
		return nil, &NotASprite{noSpan}
	}
	if b, ok := faintBetween(r, c); ok {
		return ofPhotograph(b.flat, b.grid, b.corners, o), nil
	}
	return nil, &NotASprite{"no grid of cells shows within the four corners: set them on the outer corners of the drawing's grid"}
}

// rectified is what lies between four corners, made straight.
type rectified struct {
	flat    *pixels.Raster
	grid    placed
	corners Corners
	lens    lens
}

// betweenCorners finds the grid between four corners, and how the lens bent it. A wrong
// bend shows a wrong number of cells at times, and rather clearly: so the most promising
// bends are all made finer before one is believed.
func betweenCorners(r *pixels.Raster, c Corners) (best rectified, found bool) {
	const promising = 3
	best, found = throughLens(r, c, unbending(r), longestRectified)
	if best.flat == nil || found && best.grid.dip() < surelyFlat {
		return best, found
	}
	var tries []rectified
	if found {
		tries = append(tries, best)
	}
	bends := [...]float64{-0.03, 0.03, -0.06, 0.06, -0.1, 0.1}
	for _, b := range atOnce(len(bends), func(i int) rectified {
		l := unbending(r)
		l.bend = bends[i]
		if b, ok := throughLens(r, c, l, longestRectified); ok {
			return b
		}
		return rectified{}
	}) {
		if b.flat != nil {
			tries = append(tries, b)
		}
	}
	slices.SortStableFunc(tries, func(a, b rectified) int {
		return int(math.Round(1000*a.grid.dip())) - int(math.Round(1000*b.grid.dip()))
	})
	for _, b := range atOnce(min(promising, len(tries)), func(i int) rectified {
		b := tries[i]
		if finer := bent(r, c, b.lens, b.grid.x.cells, b.grid.y.cells); finer.bend != b.lens.bend {
			if b2, ok := throughLens(r, c, finer, longestRectified); ok && b2.grid.dip() < b.grid.dip() {
				return b2
			}
		}
		return b
	}) {
		if !found || b.grid.dip() < best.grid.dip()*leastBetter {
			best, found = b, true
		}
	}
	return best, found
}

// throughLens finds the grid between four corners as one lens shows it, in a
// picture at most so many pixels long.
func throughLens(r *pixels.Raster, c Corners, l lens, longest int) (b rectified, ok bool) {
	if b.flat, ok = straightened(r, c, l, longest); !ok {
		return rectified{}, false
	}
	b.corners, b.lens = c, l
	b.grid, ok = gridBetween(b.flat)
	return b, ok
}

// turned says, after a quick look at a smaller picture, whether one in which a straight
// grid shows may be a photograph of one that is turned a little.
func turned(r *pixels.Raster, g placed) bool {
	const quick = 600 // pixels along the longer side
	by := min((max(r.W, r.H)+quick-1)/quick, max(1, int(min(g.x.size, g.y.size)/wellSpread)))
	small := r
	if by > 1 {
		small = shrunk(r, by)
	}
	c, full, ok := cornersBy(small, asItIs)
	if !ok {
		return false
	}
	if full > filled && c.tilt()*float64(by) > leastTilt { // no drawing has that outline
		return true
	}
	flat, ok := straightened(small, c, unbending(small), quick)
	if !ok {
		return false
	}
	// Turned a little, the cells are about as large.
	across := max(distance(c[0], c[1]), distance(c[3], c[2])) * float64(by) / g.x.size
	down := max(distance(c[0], c[3]), distance(c[1], c[2])) * float64(by) / g.y.size
	sx, sy := sketches(flat)
	return max(dipNear(&sx, across), dipNear(&sy, down)) < g.dip()
}

// dipNear is the deepest dip of numbers of cells near one.
func dipNear(s *sketch, count float64) float64 {
	const near = 3
	n := int(math.Round(count))
	p, deepest := pyramidOf(s), 1.0
	for _, k := range []kernel{area, linear, cubic} {
		sp := spectrumOf(p, k, max(2, n-near-2), min(n+near+2, most(s.size)), nil)
		for m := max(2, n-near); m <= min(n+near, most(s.size)); m++ {
			deepest = math.Min(deepest, sp.dip(m))
		}
	}
	return deepest
}

// gridBetween finds the grid that fills a straightened picture.
func gridBetween(flat *pixels.Raster) (placed, bool) {
	var s [2]sketch
	s[0], s[1] = sketches(flat)
	fits := atOnce(2, func(i int) []axisFit { return preferDivisors(&s[i], wholeFits(&s[i])) })
	xs, ys := fits[0], fits[1]
	if len(xs) == 0 || len(ys) == 0 {
		return placed{}, false
	}
	if xs[0].dip > leastPhotoDip || ys[0].dip > leastPhotoDip {
		return placed{}, false
	}
	return placed{x: xs[0], y: ys[0], others: [2][]axisFit{xs[1:], ys[1:]}}, true
}

// withoutCorners finds the grid and its corners: within a screen's frame where one shows,
// else along its cells' edges, or, where these don't show it surely, within what stands out
// from what is round it.
func withoutCorners(r *pixels.Raster, o Options) (*Result, placed, bool) {
	best, found := photographedGrid(r)
	if !found {
		return nil, placed{}, false
	}
	return ofPhotograph(best.flat, best.grid, best.corners, o), best.grid, true
}

func photographedGrid(r *pixels.Raster) (best rectified, found bool) {
	var outer []Corners
	clear := false // whether the first of them are surely of a quadrilateral
	for _, w := range ways {
		c, full, ok := cornersBy(r, w)
		if !ok {
			continue
		}
		outer = append(outer, c)
		if b, ok := withinFrame(r, c); ok {
			return b, true
		}
		if len(outer) > 1 || full <= filled {
			continue
		}
		clear = true // mostly what stands out is the drawing with its ground
		if b, ok := settledWithin(r, c); ok && b.grid.dip() < surelyAll && b.grid.aboutSquare() {
			return b, true
		}
	}
	if best, found = alongBearings(r); found && best.grid.dip() < nearlyFlat {
		if b, ok := withinFrame(r, best.corners); ok {
			return b, true
		}
		for _, c := range outer { // ground round the drawing that its edges don't tell of
			if by, ok := best.reachedBy(c); ok {
				return best.grownBy(r, by), true
			}
		}
		if clear { // what stands out is a quadrilateral, but another one
			if b, ok := settledWithin(r, outer[0]); ok && b.grid.dip() < best.grid.dip() {
				return b, true
			}
		}
		return best, true
	}
	for _, c := range outer {
		if b, ok := settledWithin(r, c); ok && (!found || b.grid.better(best.grid)) {
			best, found = b.ended(r), true
		}
		if found && best.grid.dip() < surelyFlat {
			break
		}
	}
	return best, found
}

// withinFrame finds the grid within a screen's frame, of whose outer side the corners are
// given; false where there is none.
func withinFrame(r *pixels.Raster, c Corners) (rectified, bool) {
	in, bare := innerCorners(r, c)
	if !bare {
		return rectified{}, false
	}
	b, ok := settledWithin(r, in)
	return b, ok && b.grid.dip() < nearlyFlat && !b.frames(c)
}

// settledFlat does what settledWithin does, as if no lens had bent anything; false where
// one may have.
func settledFlat(r *pixels.Raster, c Corners) (b rectified, ok bool) {
	if b, ok = throughLens(r, c, unbending(r), longestRectified); !ok {
		return rectified{}, false
	}
	columns, rows := b.grid.x.cells, b.grid.y.cells
	b.corners, b.lens = nudged(r, c, b.lens, columns, rows)
	if b.flat, ok = straightened(r, b.corners, b.lens, longestRectified); !ok {
		return rectified{}, false
	}
	b.grid, ok = gridBetween(b.flat)
	return b, ok && b.grid.dip() < surelyFlat && b.grid.x.cells == columns && b.grid.y.cells == rows && b.grid.aboutSquare()
}

// settledWithin finds the grid within four corners that may be a little off.
func settledWithin(r *pixels.Raster, c Corners) (best rectified, found bool) {
	if b, ok := settledFlat(r, c); ok {
		return b, true
	}
	first, ok := betweenCorners(r, c)
	if !ok {
		return faintWithin(r, c)
	}
	flat, g := first.flat, first.grid
	if first.lens.bend != 0 && g.dip() < surelyFlat {
		return first, true
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
	if len(tries) == 1 {
		best, found = first, true
	}
	for _, n := range tries {
		if min(n[0], n[1]) < 2 {
			continue
		}
		again := rectified{}
		again.corners, again.lens = nudged(r, c, first.lens, n[0], n[1])
		if again.flat, ok = straightened(r, again.corners, again.lens, longestRectified); !ok {
			continue
		}
		if again.grid, ok = gridBetween(again.flat); ok && (!found || again.grid.better(best.grid)) {
			best, found = again, true
		}
	}
	return best, found
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
func ofPhotograph(flat *pixels.Raster, g placed, c Corners, o Options) *Result {
	res := &Result{Corners: &c, flat: flat}
	g.describe(res)
	s := sample(flat, g.x, g.y)
	paint(res, s.evened(lightOf(s)), o, colour.Noisy)
	return res
}

// nudged moves the corners, and the bend of a lens that bends, until the cells between them
// are as flat as can be.
func nudged(r *pixels.Raster, c Corners, l lens, columns, rows int) (Corners, lens) {
	best, ok := unevenness(r, c, l, columns, rows)
	if !ok {
		return c, l
	}
	cell := math.Sqrt(math.Abs(cross(c[0], c[1], c[2])) / float64(columns*rows))
	halfDiagonal := math.Sqrt(1 / l.scale)
	params := 8
	if l.bend != 0 { // without one, noise alone would be worth a little bend
		params = 9
	}
	for step := cell / 3; step > cell/40; step /= 2 {
		for range 2 {
			for i := range params {
				for _, by := range []float64{step, -step} {
					next, bending := c, l
					switch {
					case i == 8: // moves what lies half way out by about as much
						bending.bend += by / halfDiagonal * 4
					case i%2 == 0:
						next[i/2].X += by
					default:
						next[i/2].Y += by
					}
					if u, ok := unevenness(r, next, bending, columns, rows); ok && u < best && math.Abs(bending.bend) <= mostBend {
						c, l, best = next, bending, u
						break
					}
				}
			}
		}
	}
	return c, l
}

// unevenness is how much the picture varies within cells, at nine places of
// each of at most some thousand cells, rounded to whole steps.
func unevenness(r *pixels.Raster, c Corners, l lens, columns, rows int) (int64, bool) {
	p, ok := viewOf(c, l)
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

// tilt is how far the corners lie off a straight rectangle, in pixels.
func (c Corners) tilt() float64 {
	return max(math.Abs(c[0].X-c[3].X), math.Abs(c[1].X-c[2].X), math.Abs(c[0].Y-c[1].Y), math.Abs(c[3].Y-c[2].Y))
}
