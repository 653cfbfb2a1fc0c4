package regrid

import (
	"slices"

	"sheetsprite/engine/colour"
)

// Trimmed is the drawing without empty rows and columns at its edges; all of
// it if it is empty.
func (r *Result) Trimmed() *Result {
	return r.part(r.bounds(func(i int) bool { return r.Cells[i] > 0 }), nil)
}

// rectangle is some of the cells; x1 and y1 are past its end.
type rectangle struct{ x0, y0, x1, y1 int }

func (a rectangle) touches(b rectangle, gap int) bool {
	return a.x0-gap < b.x1 && b.x0-gap < a.x1 && a.y0-gap < b.y1 && b.y0-gap < a.y1
}

func (a rectangle) with(b rectangle) rectangle {
	return rectangle{min(a.x0, b.x0), min(a.y0, b.y0), max(a.x1, b.x1), max(a.y1, b.y1)}
}

// bounds is the rectangle of the cells that are in; all of the grid if none is.
func (r *Result) bounds(in func(i int) bool) rectangle {
	a := rectangle{r.W, r.H, 0, 0}
	for i := range r.Cells {
		if in(i) {
			a = a.with(rectangle{i % r.W, i / r.W, i%r.W + 1, i/r.W + 1})
		}
	}
	if a.x0 >= a.x1 {
		return rectangle{0, 0, r.W, r.H}
	}
	return a
}

// part is a rectangle of the drawing; where keep isn't nil, the cells
// that it is false for become empty.
func (r *Result) part(a rectangle, keep []bool) *Result {
	out := *r
	out.flat = nil // is of the whole
	out.W, out.H = a.x1-a.x0, a.y1-a.y0
	out.Cells, out.Second, out.Sure = make([]int, out.W*out.H), make([]int, out.W*out.H), make([]int, out.W*out.H)
	for y := range out.H {
		for x := range out.W {
			from, to := (y+a.y0)*r.W+x+a.x0, y*out.W+x
			out.Second[to], out.Sure[to] = r.Second[from], r.Sure[from]
			if keep == nil || keep[from] {
				out.Cells[to] = r.Cells[from]
			}
		}
	}
	shift := func(x Axis, by, cells int) Axis {
		return Axis{x.Size, x.Start + float64(float64(by)*x.Size), cells}
	}
	out.Grid = Grid{shift(r.Grid.X, a.x0, out.W), shift(r.Grid.Y, a.y0, out.H)}
	return &out
}

// island is a sprite on a sheet.
type island struct {
	rectangle
	cells []int
}

// Sprites takes a sheet apart: each sprite by itself, trimmed, in reading
// order. Cells that hang together by sides or corners are one sprite; so are
// pieces whose rectangles overlap, and crumbs go to the sprite next to them.
func (r *Result) Sprites() []*Result {
	islands := nearJoined(r.islands(), 0)
	islands = crumbsJoined(islands, 1)
	var list []*Result
	for _, s := range readingOrder(islands) {
		keep := make([]bool, len(r.Cells))
		for _, i := range s.cells {
			keep[i] = true
		}
		list = append(list, r.part(s.rectangle, keep))
	}
	return list
}

// islands are the sets of cells that hang together.
func (r *Result) islands() []island {
	seen := make([]bool, len(r.Cells))
	var list []island
	for i, c := range r.Cells {
		if c == 0 || seen[i] {
			continue
		}
		seen[i] = true
		one := island{rectangle: rectangle{r.W, r.H, 0, 0}, cells: []int{i}}
		for at := 0; at < len(one.cells); at++ {
			x, y := one.cells[at]%r.W, one.cells[at]/r.W
			one.rectangle = one.with(rectangle{x, y, x + 1, y + 1})
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if j := (y+dy)*r.W + x + dx; r.At(x+dx, y+dy) > 0 && !seen[j] {
						seen[j] = true
						one.cells = append(one.cells, j)
					}
				}
			}
		}
		list = append(list, one)
	}
	return list
}

// nearJoined makes one sprite of those whose rectangles overlap, or lie less than a gap
// apart.
func nearJoined(list []island, gap int) []island {
	for i := 0; i < len(list); i++ {
		for j := i + 1; j < len(list); j++ {
			if list[i].touches(list[j].rectangle, gap) {
				list[i] = island{list[i].with(list[j].rectangle), append(list[i].cells, list[j].cells...)}
				list = slices.Delete(list, j, j+1)
				i = -1 // it has grown, so begin again
				break
			}
		}
	}
	return list
}

// crumbsJoined gives pieces of one or two cells, and of less than a twelfth of a usual
// sprite, to the nearest larger one within a few cells; side is a cell's, in the units of
// the list.
func crumbsJoined(list []island, side int) []island {
	if len(list) < 2 {
		return list
	}
	sizes := make([]int, len(list))
	for i, s := range list {
		sizes[i] = len(s.cells)
	}
	slices.Sort(sizes)
	crumb := max(3*side*side, sizes[len(sizes)*3/4]/12)
	var whole, crumbs []island
	for _, s := range list {
		if len(s.cells) < crumb {
			crumbs = append(crumbs, s)
		} else {
			whole = append(whole, s)
		}
	}
	before := slices.Clone(whole)
	for _, c := range crumbs {
		home := -1
		for gap := 1; gap <= 6 && home < 0; gap++ {
			home = slices.IndexFunc(before, func(s island) bool { return s.touches(c.rectangle, gap*side) })
		}
		if home < 0 {
			whole = append(whole, c)
			continue
		}
		whole[home] = island{whole[home].with(c.rectangle), append(whole[home].cells, c.cells...)}
	}
	return whole
}

// readingOrder sorts row by row, each from the left. A sprite is of a row if
// its middle lies within the row's first sprite's height.
func readingOrder(list []island) []island {
	slices.SortFunc(list, func(a, b island) int {
		if a.y0 != b.y0 {
			return a.y0 - b.y0
		}
		return a.x0 - b.x0
	})
	var out []island
	for len(list) > 0 {
		first := list[0]
		for _, s := range list { // the tallest that begins in the first's upper half leads the row
			if s.y0 <= (first.y0+first.y1)/2 && s.y1-s.y0 > first.y1-first.y0 {
				first = s
			}
		}
		var row, rest []island
		for _, s := range list {
			if middle := s.y0 + s.y1; middle < 2*first.y1 && middle >= 2*first.y0 || s.y0 == list[0].y0 {
				row = append(row, s)
			} else {
				rest = append(rest, s)
			}
		}
		slices.SortFunc(row, func(a, b island) int { return a.x0 - b.x0 })
		out = append(out, row...)
		list = rest
	}
	return out
}

// Frames takes a picture of across × down frames apart, of which the first
// count are wanted, in reading order; nil where they don't lie on whole cells.
func (r *Result) Frames(across, down, count int) []*Result {
	if r.W%across != 0 || r.H%down != 0 {
		return nil
	}
	w, h := r.W/across, r.H/down
	var list []*Result
	for i := range count {
		x, y := i%across*w, i/across*h
		list = append(list, r.part(rectangle{x, y, x + w, y + h}, nil))
	}
	return list
}

// Strays are lone cells whose neighbours agree on another colour. They are the
// maker's to judge; nothing is changed.
func (r *Result) Strays() []colour.Stray { return colour.Strays(r.W, r.H, r.Cells) }

// Mended is the drawing with its stray cells in the colour that their
// neighbours agree on. Call it only where the maker asks for it.
func (r *Result) Mended() *Result {
	out := *r
	out.Cells = slices.Clone(r.Cells)
	for _, s := range r.Strays() {
		out.Cells[s.Y*r.W+s.X] = s.Agreed
	}
	return &out
}
