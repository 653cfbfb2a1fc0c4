package stacktest

import "sheetsprite/engine/stack"

// Link says which cells of one colour make a patch.
type Link int

// The ways cells hang together.
const (
	BySides   Link = iota // they share a side
	ByCorners             // or touch at a corner
)

// Patches counts a drawing's patches, by filling one after the other: the plain
// way, as a judge of fast ones. Empty cells make none.
func Patches(d stack.Drawing, link Link) int {
	seen := make([]bool, len(d.Cells))
	count := 0
	for i, c := range d.Cells {
		if c == 0 || seen[i] {
			continue
		}
		count++
		seen[i] = true
		for todo := []int{i}; len(todo) > 0; {
			x, y := todo[len(todo)-1]%d.W, todo[len(todo)-1]/d.W
			todo = todo[:len(todo)-1]
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if dx*dy != 0 && link == BySides {
						continue
					}
					if d.At(x+dx, y+dy) != c {
						continue
					}
					if next := (y+dy)*d.W + x + dx; !seen[next] {
						seen[next] = true
						todo = append(todo, next)
					}
				}
			}
		}
	}
	return count
}
