// Package regrid makes a clean grid of a picture of a sprite: it finds how
// large the cells are and where they begin, what lies behind the drawing, and
// which colour each cell has, and says how sure it is of each.
//
// The steps, in order: axes (exact.go where pixels repeat, search.go and
// crop.go by least squares elsewhere, photograph.go through four corners, which
// bearings.go and ways.go find), the cells' colours (sample.go), what is ground
// (ground.go; lift.go takes it from under smooth edges), the palette (palette.go). A sheet is taken apart by its cells
// (sprites.go), or, where its sprites don't share one grid, before any grid is known
// (several.go). All results follow from the picture and the options alone and are the
// same on every machine.
package regrid

import (
	"fmt"
	"image"
	"math"
	"slices"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/pixels"
)

// Options say what the maker knows already. The zero value leaves all to the
// picture.
type Options struct {
	Colours  int        // of the drawing, the ground not counted: 1 to MaxColours; 0: as the picture suggests
	Corners  *Corners   // of the grid in a photograph; nil: the grid lies straight
	Count    [2]int     // columns and rows between Corners, 1 to 512 each; 0, 0: found
	Grid     *Grid      // cell sizes and phases as the maker nudged them; nil: found
	Size     [2]float64 // about how wide and high a cell is, in pixels; 0, 0: found
	Photo    Photo      // whether to look for the grid's corners
	Trimming Trimming   // whether empty rows and columns at the edges stay

	board *behind // a checkerboard that was taken away; nil where there is none
}

// MaxColours is how many colours a drawing may be reduced to.
const MaxColours = 90

// Trimming says whether empty rows and columns at the edges are cut off.
type Trimming int

const (
	KeepEdges Trimming = iota // the whole grid
	TrimEdges
)

// Photo says whether a grid that doesn't lie straight is looked for.
type Photo int

const (
	PhotoIfNeeded Photo = iota // where no straight grid is found
	NoPhoto
	IsPhoto
)

// Point is a place in the picture, in pixels: 0,0 is the upper left corner of
// the upper left pixel.
type Point struct{ X, Y float64 }

// Corners are a grid's, clockwise from the upper left.
type Corners [4]Point

// Axis is a grid along one axis, in the picture's pixels.
type Axis struct {
	Size  float64 // of a cell
	Start float64 // where the first cell begins; below 0 where it is cut off
	Cells int
}

// Grid is a straight grid.
type Grid struct{ X, Y Axis }

// Result is the drawing found. Cells are listed row by row from the top.
type Result struct {
	W, H       int
	Cells      []int        // 0 is empty, else 1 + the index in Palette
	Second     []int        // what the cell would be otherwise, in the same form
	Sure       []int        // how sure the cell is, 0 to 100
	Palette    []colour.RGB // most cells first
	Errors     []float64    // how far cells would lie from their colour with 1, 2, … colours: about ΔE (colour.Errors)
	Ground     Ground
	Grid       Grid     // in a photograph: of the picture that the corners span
	OtherGrid  *Grid    // the second-best grid; nil if no other comes near
	Corners    *Corners // of the grid, where it isn't straight
	GridSure   int      // how sure the grid is, 0 to 100
	Enlarged   string   // by which kernel the drawing seems to have been enlarged
	LinesDrawn int      // width of the grid lines drawn over the picture, in pixels

	flat *pixels.Raster // of a photograph: what lies between the corners, made straight
}

// At is the cell of column x, row y; 0 outside.
func (r *Result) At(x, y int) int {
	if x < 0 || y < 0 || x >= r.W || y >= r.H {
		return 0
	}
	return r.Cells[y*r.W+x]
}

// Image is the drawing at one pixel a cell, empty cells transparent.
func (r *Result) Image() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, r.W, r.H))
	for i, c := range r.Cells {
		if c > 0 {
			p := r.Palette[c-1]
			copy(img.Pix[4*i:], []uint8{p.R, p.G, p.B, 255})
		}
	}
	return img
}

// NotASprite is the error of a picture in which no grid of cells shows.
type NotASprite struct{ Why string }

func (e *NotASprite) Error() string { return e.Why }

// Find makes a grid of a picture. It fails with a NotASprite where none shows,
// and with an OptionError where an option can't be met.
func Find(r *pixels.Raster, o Options) (*Result, error) {
	if o.Colours < 0 || o.Colours > MaxColours {
		return nil, &OptionError{fmt.Sprintf("the number of colours is %d, but must be 1 to %d", o.Colours, MaxColours)}
	}
	o = o.scaled(1 / float64(r.Shrunk))
	res, err := find(r, o)
	if err != nil {
		return nil, err
	}
	res.scale(float64(r.Shrunk))
	if o.Trimming == TrimEdges {
		res = res.Trimmed()
	}
	return res, nil
}

func find(r *pixels.Raster, o Options) (*Result, error) {
	switch {
	case o.Corners != nil:
		return photographed(r, *o.Corners, o)
	case o.Size != [2]float64{}:
		return sizedGrid(r, o)
	case o.Count != [2]int{}:
		return nil, &OptionError{"columns and rows are counted between four corners: give these too"}
	case o.Grid != nil:
		return nudgedGrid(r, *o.Grid, o)
	case o.Photo == IsPhoto:
		if res, _, ok := withoutCorners(r, o); ok {
			return res, nil
		}
		return nil, &NotASprite{noGrid}
	}
	if b, ok := boardOf(r); ok {
		flat, shows := b.flattened(r)
		r, o.board = flat, &behind{b, shows, r}
	}
	g, ok := straightGrid(r)
	if (!ok || g.exact == nil && g.dip() > surelyEnlarged) && alreadySmall(r) {
		return coloured(r, onePixelEach(r), o), nil
	}
	if ok && g.exact != nil || o.Photo == NoPhoto && ok {
		return coloured(r, g, o), nil
	}
	mayBePhoto := o.Photo == PhotoIfNeeded && !(ok && o.board != nil) // a board was found by its lying straight
	if mayBePhoto && (!ok || g.dip() > hardlyTurned || g.dip() > surelyStraight && turned(r, g)) {
		if res, other, found := withoutCorners(r, o); found && (!ok || res.Corners.tilt() > leastTilt && (other.dip() < g.dip()*0.7 || other.finerThan(g))) {
			return res, nil
		}
	}
	if !ok {
		return nil, &NotASprite{noGrid}
	}
	return coloured(r, g, o), nil
}

// finerThan says whether there are so many more cells than in another grid that shows but
// faintly, of some few large cells, that this one can't show by chance.
func (g placed) finerThan(other placed) bool {
	const times = 2
	return other.dip() > hardlyTurned && g.x.cells >= times*other.x.cells && g.y.cells >= times*other.y.cells
}

const (
	// surelyEnlarged is a dip so deep that even a picture of few colours and pixels
	// was enlarged.
	surelyEnlarged = 0.3
	// largestSprite is the longest side of a sprite, in cells.
	largestSprite = 256
	// fewColours is how many colours a drawing of one pixel a cell has at most.
	fewColours = 64
)

// alreadySmall says whether the picture has one pixel a cell already: few
// pixels, few colours, and flat parts.
func alreadySmall(r *pixels.Raster) bool {
	if r.W > largestSprite || r.H > largestSprite || r.W*r.H < 4 {
		return false
	}
	colours := map[[4]uint8]bool{}
	same := 0
	for i := 0; i < len(r.Pix); i += 4 {
		colours[[4]uint8(r.Pix[i:])] = true
		if i > 0 && [4]uint8(r.Pix[i:]) == [4]uint8(r.Pix[i-4:]) {
			same++
		}
	}
	return len(colours) <= fewColours && 4*same >= r.W*r.H
}

// onePixelEach is the grid of a picture with one pixel a cell.
func onePixelEach(r *pixels.Raster) placed {
	axis := func(pixels int) exactAxis {
		a := exactAxis{lattice: whole(pixels, pixels), bounds: make([]int, pixels+1)}
		for i := range a.bounds {
			a.bounds[i] = i
		}
		return a
	}
	x, y := axis(r.W), axis(r.H)
	return placed{x: axisFit{lattice: x.lattice, kernel: box}, y: axisFit{lattice: y.lattice, kernel: box}, exact: &[2]exactAxis{x, y}}
}

// nudgedGrid takes the grid as it is given.
func nudgedGrid(r *pixels.Raster, grid Grid, o Options) (*Result, error) {
	var g placed
	sx, sy := sketches(r)
	for i, a := range []Axis{grid.X, grid.Y} {
		s := []*sketch{&sx, &sy}[i]
		if !(a.Size >= 1) || a.Size > float64(s.size) || !(a.Start > -1e6) || a.Start > 1e6 {
			return nil, &OptionError{"the cells must be 1 pixel to the picture's side large"}
		}
		l := cropped(a.Size, a.Start, s.size)
		if l.cells < 1 || l.cells > 2*maxCells {
			return nil, &OptionError{fmt.Sprintf("with cells of that size the picture has %d along a side, but at most %d are taken", l.cells, 2*maxCells)}
		}
		fit := axisFit{lattice: l, left: math.Inf(1)}
		for _, k := range kernels {
			if left := s.residual(k, l); left < fit.left*k.handicap() {
				fit.kernel, fit.left = k, left
			}
		}
		if i == 0 {
			g.x = fit
		} else {
			g.y = fit
		}
	}
	return coloured(r, g, o), nil
}

// sizedGrid takes cells of about the size that is given; where they begin is found.
func sizedGrid(r *pixels.Raster, o Options) (*Result, error) {
	sx, sy := sketches(r)
	for i, s := range []*sketch{&sx, &sy} {
		if size := o.Size[i]; !(size >= 1) || size > float64(s.size) || float64(s.size)/size > 2*maxCells {
			return nil, &OptionError{fmt.Sprintf("the cells must be 1 pixel to the picture's side large, and at most %d along it", 2*maxCells)}
		}
	}
	return coloured(r, placed{x: ofSize(&sx, o.Size[0]), y: ofSize(&sy, o.Size[1])}, o), nil
}

// OptionError is the error of an option that can't be met.
type OptionError struct{ Why string }

func (e *OptionError) Error() string { return e.Why }

// scaled takes places in the picture to places in the raster, or back.
func (o Options) scaled(by float64) Options {
	if o.Corners != nil {
		c := o.Corners.scaled(by)
		o.Corners = &c
	}
	if o.Grid != nil {
		g := o.Grid.scaled(by)
		o.Grid = &g
	}
	o.Size[0] *= by
	o.Size[1] *= by
	return o
}

func (c Corners) scaled(by float64) Corners {
	for i := range c {
		c[i].X *= by
		c[i].Y *= by
	}
	return c
}

func (g Grid) scaled(by float64) Grid {
	return Grid{Axis{g.X.Size * by, g.X.Start * by, g.X.Cells}, Axis{g.Y.Size * by, g.Y.Start * by, g.Y.Cells}}
}

func (r *Result) scale(by float64) {
	r.Grid = r.Grid.scaled(by)
	if r.OtherGrid != nil {
		g := r.OtherGrid.scaled(by)
		r.OtherGrid = &g
	}
	if r.Corners != nil {
		c := r.Corners.scaled(by)
		r.Corners = &c
	}
}

// placed is a straight grid with all that is known of how it was drawn.
type placed struct {
	x, y   axisFit
	exact  *[2]exactAxis // where cells are flat to the last bit
	others [2][]axisFit  // further grids along each axis
}

const noGrid = "no grid of cells shows in this picture: it may be a photograph, or a drawing without flat cells; crop it to the sprite alone, or give the four corners of the grid"

// dip is the shallower of both axes'.
func (g placed) dip() float64 { return max(g.x.dip, g.y.dip) }

// describe fills in what the result says about the grid.
func (g placed) describe(res *Result) {
	res.Grid = Grid{g.x.axis(), g.y.axis()}
	res.Enlarged = g.x.kernel.name
	res.GridSure = int(math.Round(100 * (1 - min(1, g.dip()))))
	res.LinesDrawn = g.x.line
	if g.exact != nil {
		res.LinesDrawn, res.GridSure = g.exact[0].line, 100
		return
	}
	for _, x := range g.others[0] {
		for _, y := range g.others[1] {
			if res.OtherGrid == nil && x.dip < leastDip && y.dip < leastDip && sameFactor(x.size/g.x.size, y.size/g.y.size) {
				res.OtherGrid = &Grid{x.axis(), y.axis()}
			}
		}
	}
}

// sameFactor says whether both axes change alike.
func sameFactor(x, y float64) bool {
	return math.Abs(x-y) < 0.05*x && math.Abs(x-1) > 0.05
}

// straightGrid finds the grid of a picture that was neither turned nor bent.
func straightGrid(r *pixels.Raster) (placed, bool) {
	exact, ok := exactGrid(r)
	if ok && !exact.mayBeChroma(r) {
		return exact, true
	}
	if smooth, found := smoothGrid(r); found && (!ok || smooth.dip() < surelyEnlarged && min(smooth.x.size, smooth.y.size) > chroma+1) {
		return smooth, true
	}
	return exact, ok
}

// smoothGrid finds a grid whose cells aren't flat to the last bit.
func smoothGrid(r *pixels.Raster) (placed, bool) {
	if r.W < 2*leastSize || r.H < 2*leastSize {
		return placed{}, false
	}
	sx, sy := sketches(r)
	fits := atOnce(2, func(i int) []axisFit { return fitsAlong([]*sketch{&sx, &sy}[i]) })
	xs, ys := fits[0], fits[1]
	if len(xs) > 0 && len(ys) > 0 && min(xs[0].dip, ys[0].dip) <= leastDip {
		xs, ys = square(&sx, &sy, xs, ys)
	}
	g, ok := placed{}, false
	if len(xs) > 0 && len(ys) > 0 {
		g = placed{x: xs[0], y: ys[0], others: [2][]axisFit{xs[1:], ys[1:]}}
		ok = g.dip() <= leastDip
	}
	doubtful := ok && g.x.line+g.y.line == 0 && (g.dip() > clearDip || g.dip() > unlikeAnyway && !sameWithin(g.x.size, g.y.size))
	if !ok || doubtful {
		if same, found := sameSize(&sx, &sy, xs, ys); found && (!ok || same.dip() < g.dip()) {
			return same, true
		}
	}
	return g, ok
}

// square puts grids first whose cells are as wide as they are high, if they explain
// more than the worse of each axis's best, which differ: what looks like half a cell
// along one axis is mostly that. Where cells aren't square, no such pair of larger cells
// comes near; smaller ones always do, so that none are made smaller.
func square(sx, sy *sketch, xs, ys []axisFit) ([]axisFit, []axisFit) {
	alike := func(x, y axisFit) bool { return sameWithin(x.size, y.size) }
	if alike(xs[0], ys[0]) || xs[0].line+ys[0].line > 0 {
		return xs, ys
	}
	deepest := min(xs[0].dip, ys[0].dip)
	least, bestX, bestY := max(xs[0].dip, ys[0].dip), -1, -1
	if size := xs[0].size; xs[0].dip == deepest && size > ys[0].size && size < float64(sy.size)/3 {
		ys = append(slices.Clone(ys), ofSize(sy, size))
	} else if size := ys[0].size; ys[0].dip == deepest && size > xs[0].size && size < float64(sx.size)/3 {
		xs = append(slices.Clone(xs), ofSize(sx, size))
	}
	for i, x := range xs {
		for j, y := range ys {
			if d := max(x.dip, y.dip); alike(x, y) && d < least && x.size > 0.97*xs[0].size && y.size > 0.97*ys[0].size {
				least, bestX, bestY = d, i, j
			}
		}
	}
	if bestX < 0 {
		return xs, ys
	}
	first := func(list []axisFit, i int) []axisFit {
		return slices.Insert(slices.Delete(slices.Clone(list), i, i+1), 0, list[i])
	}
	xs, ys = first(xs, bestX), first(ys, bestY)
	xs[0], ys[0] = xs[0].settled(sx), ys[0].settled(sy)
	return xs, ys
}

// exactGrid tries flat cells, without and with lines between them, and takes
// what chance explains worst: thin lines alone would pass for small cells.
func exactGrid(r *pixels.Raster) (best placed, found bool) {
	x, y := steps(r)
	least := 1e-6
	for line := 0; line <= maxLine; line++ {
		ax, okX := exactLattice(x, r.W, line)
		if !okX {
			continue
		}
		ay, okY := exactLattice(y, r.H, line)
		if chance := ax.chance * ay.chance; okY && chance < least {
			fx, fy := axisFit{lattice: ax.lattice, kernel: box}, axisFit{lattice: ay.lattice, kernel: box}
			best, found, least = placed{x: fx, y: fy, exact: &[2]exactAxis{ax, ay}}, true, chance
		}
	}
	return best, found
}

// flat takes the colours of cells that are flat between their bounds.
func flat(r *pixels.Raster, x, y exactAxis) sampled {
	out := sampled{w: x.cells, h: y.cells, colour: make([][4]int32, x.cells*y.cells)}
	middle := func(a exactAxis, k int) int {
		from := a.bounds[k] + a.line
		return min(max((from+a.bounds[k+1])/2, 0), a.bounds[len(a.bounds)-1]-1)
	}
	for cy := range y.cells {
		for cx := range x.cells {
			for c, v := range r.At(middle(x, cx), middle(y, cy)) {
				out.colour[cy*x.cells+cx][c] = int32(v) * fine
			}
		}
	}
	return out
}

func (f axisFit) axis() Axis { return Axis{f.size, f.start, f.cells} }
