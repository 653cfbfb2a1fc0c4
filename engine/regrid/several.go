package regrid

import (
	"errors"
	"math"
	"slices"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/pixels"
)

// This file takes sheets apart whose sprites don't share one grid: each stands at any
// pixel, and may have cells of its own size. What hangs together before the sheet's
// ground is found first, then the grid of each; their colours are reduced together.

const (
	// sheetSide is how many pixels of a sheet's longer side are enough to tell its
	// sprites apart.
	sheetSide = 1200
	// offSheet is how far a pixel's channels are from the sheet's ground where it is
	// something else: JPEG's ripples stay below.
	offSheet = 24
	// leastBare is the share of the sheet's rim, in percent, that its ground has.
	leastBare = 60
	// mostIslands is how many pieces are looked at: with more it is no sheet of sprites.
	mostIslands = 1000
	// leastOfUsual is how large a sprite's cells must be, by the usual side: a sprite of few
	// cells shows multiples of its grid too.
	leastOfUsual = 0.6
	// speck is the area of a piece, in pixels of the picture that pieces are sought in,
	// below which it is dirt.
	speck = 3
)

// FindSeveral finds the sprites of a sheet, each trimmed, in reading order, all in one
// palette. Where one grid carries all of them it is used, else each has its own. It fails
// like Find; the list is empty if all of the sheet is ground.
func FindSeveral(r *pixels.Raster, o Options) ([]*Result, error) {
	o.Trimming = KeepEdges
	straight := o
	if o.Photo == PhotoIfNeeded {
		straight.Photo = NoPhoto
	}
	whole, err := Find(r, straight)
	var none *NotASprite
	if err != nil && !errors.As(err, &none) {
		return nil, err
	}
	if o.Corners == nil && o.Grid == nil && o.Size == [2]float64{} && o.Photo != IsPhoto && (err != nil || whole.LinesDrawn == 0 && whole.Ground.Kind <= OneColour) {
		if own := ownGrids(r); len(own) > 1 && (err != nil || !whole.carries(own, float64(r.Shrunk))) {
			return painted(own, o, float64(r.Shrunk)), nil
		}
	}
	if o.Photo == PhotoIfNeeded && (err != nil || whole.GridSure < 100-int(100*hardlyTurned)) {
		whole, err = Find(r, o)
	}
	if err != nil {
		return nil, err
	}
	return whole.Sprites(), nil
}

// own is a sprite of a sheet with its own grid.
type own struct {
	at     rectangle // on the sheet, with a margin of ground
	flat   *pixels.Raster
	grid   placed
	found  bool // not only supposed to be as the others'
	ground [4]uint8
}

// ownGrids finds the sprites of a sheet and the grid of each; none where the ground or
// the grids don't show.
func ownGrids(r *pixels.Raster) []own {
	by := max(1, (max(r.W, r.H)+sheetSide-1)/sheetSide)
	small := r
	if by > 1 {
		small = shrunk(r, by)
	}
	ground, ok := sheetGround(small)
	if !ok {
		return nil
	}
	pieces := piecesOf(small, ground)
	if len(pieces) < 2 || len(pieces) > mostIslands {
		return nil
	}
	pieces = nearJoined(pieces, 0)
	side := usualSide(r, pieces, by, ground)
	if side == 0 {
		return nil
	}
	pieces = nearJoined(pieces, (int(side)+by-1)/by) // between pieces of one sprite lies a cell or none
	pieces = readingOrder(crumbsJoined(pieces, max(1, int(side)/by)))
	list := make([]own, len(pieces))
	var xs, ys []float64
	for i := range pieces {
		list[i] = cutOut(r, pieces, i, by, side, ground)
		if g, ok := straightGrid(list[i].flat); ok && (g.exact != nil || min(g.x.size, g.y.size) > leastOfUsual*side) {
			list[i].grid, list[i].found = g, true
			xs, ys = append(xs, g.x.size), append(ys, g.y.size)
		}
	}
	if 2*len(xs) < len(list) {
		return nil
	}
	x, y := middleOf(xs), middleOf(ys)
	for i, s := range list {
		if !s.found {
			list[i].grid = supposed(s, x, y)
		}
	}
	return slices.DeleteFunc(list, func(s own) bool { return min(s.grid.x.cells, s.grid.y.cells) == 0 }) // dirt, not half a cell large
}

func middleOf(v []float64) float64 {
	sorted := slices.Clone(v)
	slices.Sort(sorted)
	return sorted[len(sorted)/2]
}

// supposed is a grid of cells as large as other sprites', where a sprite of few cells
// shows none of its own: it begins where the sprite does.
func supposed(s own, x, y float64) placed {
	sx, sy := sketches(s.flat)
	fit := func(k *sketch, size float64, from int) axisFit {
		best := axisFit{lattice: cropped(size, float64(from), k.size), kernel: box}
		best.left = k.residual(box, best.lattice)
		for _, other := range []kernel{area, linear, cubic} {
			f := axisFit{lattice: best.lattice, kernel: other}.moved(k.size, func(kernel kernel, l lattice) float64 {
				return k.residual(kernel, cropped(size, l.start, k.size))
			}, firstStep, middleStep)
			if f.left < best.left*0.999 {
				f.lattice = cropped(size, f.start, k.size)
				best = f
			}
		}
		return best
	}
	fromX, fromY := s.flat.W, s.flat.H
	for row := range s.flat.H {
		for col := range s.flat.W {
			if stands(s.flat.At(col, row), s.ground) {
				fromX, fromY = min(fromX, col), min(fromY, row)
			}
		}
	}
	return placed{x: fit(&sx, x, fromX), y: fit(&sy, y, fromY)}
}

// carries says whether the sprites stand on the whole sheet's grid. shrunk is how many
// pixels of the picture make one of those that own counts in.
func (r *Result) carries(list []own, shrunk float64) bool {
	const (
		sure  = 0.2 // dip from which on a sprite's own grid speaks against the sheet's
		cells = 6   // along each side that it must have
	)
	grid := r.Grid.scaled(1 / shrunk)
	finer, against, alike := 0, 0, 0
	for _, s := range list {
		if !s.found || s.grid.exact == nil && (s.grid.dip() > sure || r.Enlarged == box.name) || min(s.grid.x.cells, s.grid.y.cells) < cells {
			continue
		}
		switch {
		case s.grid.x.on(grid.X, s.at.x0, 1) && s.grid.y.on(grid.Y, s.at.y0, 1):
			alike++
		case s.grid.x.onMultiple(grid.X, s.at.x0) && s.grid.y.onMultiple(grid.Y, s.at.y0):
			finer++
		default:
			against++
		}
	}
	// Where some sprite needs the sheet's grid, those that would do with larger cells
	// have large shapes. Where none does, it is only a common measure of all of them.
	return against == 0 && (alike > 0 || finer == 0)
}

// on says whether an axis's cells are so many times as large as the sheet's and begin
// with them.
func (f axisFit) on(sheet Axis, offset int, times float64) bool {
	size := sheet.Size * times
	if math.Abs(f.size-size) > 0.03*size {
		return false
	}
	begin := (f.start + float64(offset) + f.size*float64(f.cells)/2 - sheet.Start) / sheet.Size
	if f.cells%2 == 1 && int(times)%2 == 1 {
		begin -= 0.5
	}
	return math.Abs(begin-math.Round(begin)) <= 0.2
}

func (f axisFit) onMultiple(sheet Axis, offset int) bool {
	return f.on(sheet, offset, math.Round(f.size/sheet.Size))
}

// painted gives all sprites their colours from one palette: laid beside and below one
// another, as a single drawing on the sheet's ground.
func painted(list []own, o Options, shrunk float64) []*Result {
	p := colour.Pure
	parts := make([]sampled, len(list))
	for i, s := range list {
		if s.grid.exact != nil {
			parts[i] = flat(s.flat, s.grid.exact[0], s.grid.exact[1])
		} else {
			parts[i], list[i].grid.x, list[i].grid.y = byRendering(s.flat, s.grid.x, s.grid.y)
			p = colour.Noisy
		}
	}
	w, h, places := laidOut(parts)
	all := sampled{w: w, h: h, colour: make([][4]int32, w*h)}
	for i := range all.colour {
		for c, v := range list[0].ground {
			all.colour[i][c] = int32(v) * fine
		}
	}
	for i, s := range parts {
		for y := range s.h {
			copy(all.colour[(places[i].y0+y)*w+places[i].x0:], s.colour[y*s.w:][:s.w])
		}
	}
	res := &Result{}
	paint(res, all, o, p)
	var out []*Result
	for i, s := range list {
		one := res.part(places[i], nil)
		if !slices.ContainsFunc(one.Cells, func(c int) bool { return c > 0 }) {
			continue
		}
		s.grid.describe(one)
		one.Grid.X.Start += float64(s.at.x0)
		one.Grid.Y.Start += float64(s.at.y0)
		one.OtherGrid = nil
		one.scale(shrunk)
		out = append(out, one.Trimmed())
	}
	return out
}

// laidOut places drawings in rows, a cell of ground round each, and says how large a
// drawing holds them all: about as high as wide, for in one column the widest would
// make all the others' rows as wide.
func laidOut(parts []sampled) (w, h int, places []rectangle) {
	cells := 0
	for _, s := range parts {
		w, cells = max(w, s.w+2), cells+(s.w+1)*(s.h+1)
	}
	w = max(w, int(math.Sqrt(float64(cells))))
	places = make([]rectangle, len(parts))
	x, y := 1, 1 // where the next one goes
	h = 1
	for i, s := range parts {
		if x+s.w+1 > w {
			x, y = 1, h
		}
		places[i] = rectangle{x, y, x + s.w, y + s.h}
		x, h = x+s.w+1, max(h, y+s.h+1)
	}
	return w, h, places
}
