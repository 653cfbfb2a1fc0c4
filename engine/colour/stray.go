package colour

// Stray is a lone cell whose neighbours agree on another colour: a speck of
// noise, or an eye. Which it is only the maker knows, so it's offered for
// clean-up and never changed unasked.
type Stray struct {
	X, Y   int // column and row from the upper left
	Colour int // that it has
	Agreed int // that its neighbours have
}

// Strays lists the stray cells of a grid, row by row from the top; cells holds
// w×h values, 0 for empty. A cell is stray if none of the up to eight cells
// round it has its colour, if those beside it (two to four) all agree, and
// those at its corners do too, but for one.
func Strays(w, h int, cells []int) []Stray {
	var list []Stray
	for i, own := range cells {
		x, y := i%w, i/w
		agreed, sides, others, lone := -1, 0, 0, true
		see := func(dx, dy int, do func(c int)) {
			if u, v := x+dx, y+dy; u >= 0 && v >= 0 && u < w && v < h {
				do(cells[v*w+u])
			}
		}
		for _, d := range [][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			see(d[0], d[1], func(c int) {
				sides++
				lone = lone && c != own && (agreed < 0 || c == agreed)
				agreed = c
			})
		}
		for _, d := range [][2]int{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
			see(d[0], d[1], func(c int) {
				lone = lone && c != own
				if c != agreed {
					others++
				}
			})
		}
		if lone && sides >= 2 && others <= 1 {
			list = append(list, Stray{x, y, own, agreed})
		}
	}
	return list
}
