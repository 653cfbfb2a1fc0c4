package nest

import (
	"fmt"
	"slices"

	"sheetsprite/engine/shape"
)

// judge is the plain check of a nesting, written apart from what made it: it
// knows outlines, lines and distances, no forms and no forbidden places.
// It returns what is wrong, "" if nothing is.
func judge(j Job, n Nesting) string {
	if s := judgeCount(j, n); s != "" {
		return s
	}
	bySheet := map[int][]Placement{}
	for _, p := range n.Placements {
		bySheet[p.Sheet] = append(bySheet[p.Sheet], p)
	}
	for _, s := range n.Sheets {
		if len(bySheet[s.Number]) != s.Parts {
			return fmt.Sprintf("sheet %d says %d parts, but has %d", s.Number, s.Parts, len(bySheet[s.Number]))
		}
		if got, ok := sizeOf(j.Supply, s.Number); !ok || got != s.Size {
			return fmt.Sprintf("sheet %d is %v, but the supply says %v", s.Number, s.Size, got)
		}
		if w := judgeSheet(j, s, bySheet[s.Number]); w != "" {
			return fmt.Sprintf("sheet %d: %s", s.Number, w)
		}
		delete(bySheet, s.Number)
	}
	if len(bySheet) > 0 {
		return "there are placements on sheets that aren't listed"
	}
	return ""
}

// sizeOf counts through the supply, the slow way.
func sizeOf(s Supply, number int) (Size, bool) {
	all := slices.Clone(s.Offcuts)
	for _, sh := range s.Sheets {
		count := sh.Count
		if count == 0 {
			count = number + 1
		}
		for range min(count, number+1) {
			all = append(all, sh.Size)
		}
	}
	if number >= len(all) {
		return Size{}, false
	}
	return all[number], true
}

// judgeCount wants every copy once, placed or unplaced.
func judgeCount(j Job, n Nesting) string {
	seen := map[[2]int]int{}
	for _, p := range n.Placements {
		seen[[2]int{p.Piece, p.Copy}]++
		if !slices.Contains(j.Pieces[p.Piece].Turns.allowed(), p.Turn) {
			return fmt.Sprintf("piece %d is turned by %d", p.Piece, p.Turn)
		}
	}
	for _, u := range n.Unplaced {
		seen[[2]int{u.Piece, u.Copy}]++
	}
	want := 0
	for i, p := range j.Pieces {
		want += p.Copies
		for c := range p.Copies {
			if k := seen[[2]int{i, c}]; k != 1 {
				return fmt.Sprintf("piece %d, copy %d is there %d times", i, c, k)
			}
		}
	}
	if len(seen) != want {
		return "there are copies that nobody asked for"
	}
	return ""
}

func judgeSheet(j Job, s Sheet, ps []Placement) string {
	m := j.Supply.Margins
	var shapes []shape.Polygon
	var used shape.Rect
	for _, p := range ps {
		o := p.Outline(j.Pieces[p.Piece])
		b := o.Bounds()
		used = used.Union(b)
		if b.Min != p.At {
			return fmt.Sprintf("piece %d lies at %v, not at %v", p.Piece, b.Min, p.At)
		}
		if b.Min.X < m.Left || b.Min.Y < m.Bottom || b.Max.X > s.Size.Width-m.Right || b.Max.Y > s.Size.Height-m.Top {
			return fmt.Sprintf("piece %d reaches into the margin: %v", p.Piece, b)
		}
		shapes = append(shapes, o.Flatten(1))
	}
	if used != s.Used {
		return fmt.Sprintf("used is %v, but should be %v", s.Used, used)
	}
	if w := judgeOverlap(shapes); w != "" {
		return w
	}
	for i, p := range shapes {
		for k, q := range shapes[:i] {
			if d := apart(p, q); d < float64(j.Gap)-2 { // 2 µm for flattened arcs
				return fmt.Sprintf("%d and %d are %.1f µm apart, gap %d", ps[i].Piece, ps[k].Piece, d, j.Gap)
			}
		}
	}
	return ""
}

// judgeOverlap cuts the sheet into rows at all corners. Within a row edges
// don't end, so at its middle the insides must follow one another.
func judgeOverlap(shapes []shape.Polygon) string {
	var ys []shape.Um
	for _, p := range shapes {
		for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
			for _, v := range r {
				ys = append(ys, v.Y)
			}
		}
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	type inside struct {
		x0, x1 float64
		shape  int
	}
	for i := 0; i+1 < len(ys); i++ {
		y := float64(ys[i]+ys[i+1]) / 2
		var row []inside
		for n, p := range shapes {
			var xs []float64
			for _, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
				for k, a := range r {
					b := r[(k+1)%len(r)]
					if (float64(a.Y) < y) != (float64(b.Y) < y) {
						xs = append(xs, float64(a.X)+(y-float64(a.Y))*float64(b.X-a.X)/float64(b.Y-a.Y))
					}
				}
			}
			slices.Sort(xs)
			for k := 0; k+1 < len(xs); k += 2 {
				row = append(row, inside{xs[k], xs[k+1], n})
			}
		}
		slices.SortFunc(row, func(a, b inside) int {
			if a.x0 < b.x0 {
				return -1
			}
			return 1
		})
		for k := 1; k < len(row); k++ {
			if row[k].x0 < row[k-1].x1-1e-6 {
				return fmt.Sprintf("shapes %d and %d overlap at y %.1f", row[k-1].shape, row[k].shape, y)
			}
		}
	}
	return ""
}
