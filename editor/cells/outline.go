package cells

// Side says on which side of a drawing's edge its outline goes.
type Side string

// The sides of an edge.
const (
	Outside Side = "outside" // onto empty cells
	Inside  Side = "inside"  // onto the drawing's own edge cells
)

// Corner says whether an outline also takes the cells that touch only at a corner.
type Corner string

// What an outline does at corners.
const (
	WithCorners    Corner = "with"
	WithoutCorners Corner = "without"
)

// Outline draws key round everything in g, enclosed empty cells included. What
// lies outside the grid is empty, so an inside outline follows the grid's edge
// and an outside one has no room there: enlarge g first where that matters.
func Outline(g Grid, side Side, corner Corner, key byte) {
	was := g.Clone()
	inked := func(x, y int) bool { return was.At(Cell{x, y}) != Empty }
	for y := range g.H {
		for x := range g.W {
			self := inked(x, y)
			if self != (side == Inside) {
				continue
			}
			edge := inked(x-1, y) != self || inked(x+1, y) != self || inked(x, y-1) != self || inked(x, y+1) != self
			if corner == WithCorners && !edge {
				edge = inked(x-1, y-1) != self || inked(x+1, y-1) != self || inked(x-1, y+1) != self || inked(x+1, y+1) != self
			}
			if edge {
				g.Cells[y*g.W+x] = key
			}
		}
	}
}
