package stack_test

import (
	"fmt"

	"sheetsprite/engine/stack"
)

// A little buoy: black outline (a), orange (b) and white (c). Patch by patch it
// would be nine pieces; stacked it's four, each cut whole.
func ExampleFewest() {
	d := drawing(
		"..aaa..",
		".abbba.",
		".acaca.",
		".abbba.",
		"..aaa..",
	)
	f, err := stack.Fewest(d, stack.Rules{Joins: d.Colours()})
	if err != nil {
		panic(err)
	}
	fmt.Printf("%d parts instead of %d\n", len(f.Parts), stack.ByPatch(d))
	for _, p := range f.Parts {
		fmt.Printf("height %d:\n%s", p.Height, picture(f, p))
	}
	// Output:
	// 4 parts instead of 9
	// height 1:
	// ..aaa..
	// .aoooa.
	// .aoaoa.
	// .aoooa.
	// ..aaa..
	// height 2:
	// .......
	// ..bbb..
	// ..o.o..
	// ..bbb..
	// .......
	// height 3:
	// .......
	// .......
	// ..c....
	// .......
	// .......
	// height 3:
	// .......
	// .......
	// ....c..
	// .......
	// .......
}

// drawing reads rows of letters: a is colour 1.
func drawing(rows ...string) stack.Drawing {
	d := stack.Drawing{W: len(rows[0]), H: len(rows)}
	for _, row := range rows {
		for _, c := range row {
			if c == '.' {
				d.Cells = append(d.Cells, 0)
			} else {
				d.Cells = append(d.Cells, stack.Colour(c-'a'+1))
			}
		}
	}
	return d
}

// picture shows a part: its letter where it shows, small dots of it (o) where
// something lies on it.
func picture(f *stack.Forest, p stack.Part) string {
	cells := make([]byte, f.W*f.H)
	for i := range cells {
		cells[i] = '.'
	}
	paint := func(runs []stack.Run, b byte) {
		for _, r := range runs {
			for x := r.X0; x < r.X1; x++ {
				cells[int(r.Y)*f.W+int(x)] = b
			}
		}
	}
	paint(p.Cells, 'o')
	paint(p.Shows, 'a'+byte(p.Colour)-1)
	s := ""
	for y := range f.H {
		s += string(cells[y*f.W:(y+1)*f.W]) + "\n"
	}
	return s
}
