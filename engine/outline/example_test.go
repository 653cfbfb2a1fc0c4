package outline

import (
	"fmt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// A part of five cells, two of which touch the rest only at a corner, with a
// second part over four of them. A letter is 0.1 mm wide and 0.2 mm high, a
// cell 0.8 mm. The lower part's edges are drawn back where they are hidden,
// the join's neck stays whole.
func ExampleBuild() {
	f := pile([]stack.Colour{1, 2},
		[]string{"###", "..#", "##."},
		[]string{".##", "..#", ".#."},
	)
	l, err := Build(f, Options{
		Cell:    800,
		Stocks:  []Stock{{Index: 0, LeastStrip: 140, Kerf: 20}, {Index: 1, LeastStrip: 140, Kerf: 20}},
		Corners: project.Join, Join: 400,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, layer := range l.Layers {
		fmt.Printf("height %d, %d join of %d µm\n", layer.Height, layer.Joins, l.Joins[0].Side)
		for y := l.Size.Y - 50; y > 0; y -= 200 {
			row := ""
			for x := shape.Um(50); x < l.Size.X; x += 100 {
				c := "."
				for _, p := range layer.Parts {
					if p.Outline.Polygon().Where(shape.Point{X: x, Y: y}) == shape.Inside {
						c = string(rune('a' + layer.Stock))
					}
				}
				row += c
			}
			fmt.Println(row)
		}
	}
	fmt.Printf("%d µm² differ from the drawing\n", l.Corner)
	// Output:
	// height 1, 1 join of 400 µm
	// aaaaaaaa................
	// aaaaaaaaaaaaaaaaaaaaaa..
	// aaaaaaaaaaaaaaaaaaaaaa..
	// aaaaaaaa..........aaaa..
	// ..................aaaa..
	// ..................aaaa..
	// ................aaaaaa..
	// ..............aaaaaa....
	// aaaaaaaa....aaaaaa......
	// aaaaaaaaaaaaaaaa........
	// aaaaaaaaaaaaaa..........
	// aaaaaaaa................
	// height 2, 1 join of 400 µm
	// ........bbbbbbbbbbbbbbbb
	// ........bbbbbbbbbbbbbbbb
	// ........bbbbbbbbbbbbbbbb
	// ........bbbbbbbbbbbbbbbb
	// ................bbbbbbbb
	// ................bbbbbbbb
	// ................bbbbbbbb
	// ..............bbbbbbbbbb
	// ........bbbbbbbbbb......
	// ........bbbbbbbb........
	// ........bbbbbbbb........
	// ........bbbbbbbb........
	// 80000 µm² differ from the drawing
}
