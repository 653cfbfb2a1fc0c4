package cells

// Reach says how far a fill goes.
type Reach string

// The reaches of a fill.
const (
	Joined     Reach = "joined"     // the cells that hang together by sides
	Everywhere Reach = "everywhere" // all cells of that colour
)

// Fill gives key to the cell at c and to those of its colour within reach.
func Fill(g Grid, c Cell, reach Reach, key byte) {
	was := g.At(c)
	if !g.Has(c) || was == key {
		return
	}
	if reach == Everywhere {
		Replace(g, was, key)
		return
	}
	todo := []Cell{c}
	for len(todo) > 0 {
		c := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		row := g.Cells[c.Y*g.W : (c.Y+1)*g.W]
		if row[c.X] != was {
			continue
		}
		x0, x1 := c.X, c.X+1
		for x0 > 0 && row[x0-1] == was {
			x0--
		}
		for x1 < g.W && row[x1] == was {
			x1++
		}
		for x := x0; x < x1; x++ {
			row[x] = key
		}
		for _, y := range [2]int{c.Y - 1, c.Y + 1} {
			if y < 0 || y >= g.H {
				continue
			}
			for x := x0; x < x1; x++ {
				// One seed for each run of the row beside.
				if g.Cells[y*g.W+x] == was && (x == x0 || g.Cells[y*g.W+x-1] != was) {
					todo = append(todo, Cell{x, y})
				}
			}
		}
	}
}

// Replace gives key to every cell that holds was.
func Replace(g Grid, was, key byte) {
	for i, k := range g.Cells {
		if k == was {
			g.Cells[i] = key
		}
	}
}
