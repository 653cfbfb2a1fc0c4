package readback

import (
	"cmp"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// A part that fits no sheet is cut in pieces. Each is what hangs together of the
// part within a box whose sides are lines of the grid; they are worked out here
// from the part's own contours, so that nothing is taken on trust but the boxes.

// toCut is a part, or a piece of one, as the manifest says that it is cut.
type toCut struct {
	id       int // no two have the same; of a whole part its place in the manifest
	number   string
	sheet    string
	turn     int
	move     [2]length
	tabs     int
	stock    string
	contours []contour // finished, in the layers' coordinates
}

// cutOf are the part, or its pieces where it is cut in pieces: these are all of it.
func cutOf(p manifestPart, sprites []*sprite) ([]toCut, error) {
	whole, err := finished(p, sprites)
	if err != nil {
		return nil, err
	}
	if len(p.Pieces) == 0 {
		return []toCut{{0, p.Number, p.Sheet, p.Turn, p.Move, p.Tabs, p.Stock, whole}}, nil
	}
	fail := func(format string, args ...any) ([]toCut, error) {
		return nil, fmt.Errorf("part %s of sprite %s: %s", p.Number, quote(p.Sprite), fmt.Sprintf(format, args...))
	}
	s := sprites[slices.IndexFunc(sprites, func(s *sprite) bool { return s.name == p.Sprite })]
	if s.settings.Large != project.LargeSplit {
		return fail("it is cut in pieces, which the project doesn't ask for")
	}
	var out []toCut
	var area int64
	boxes := map[box][][]contour{} // what of each isn't taken yet; only asked
	var seen []box
	for i, q := range p.Pieces {
		if q.Number != fmt.Sprintf("%s/%d", p.Number, i+1) {
			return fail("its piece %d is called %s", i+1, quote(q.Number))
		}
		b := box{int64(q.Within[0]), int64(q.Within[1]), int64(q.Within[2]), int64(q.Within[3])}
		if _, known := boxes[b]; !known {
			if err := b.check(whole, s); err != nil {
				return fail("piece %s: %v", q.Number, err)
			}
			for _, o := range seen {
				if min(b.x1, o.x1) > max(b.x0, o.x0) && min(b.y1, o.y1) > max(b.y0, o.y0) {
					return fail("piece %s lies over another one", q.Number)
				}
			}
			seen = append(seen, b)
			if boxes[b], err = b.of(whole); err != nil {
				return fail("piece %s: %v", q.Number, err)
			}
		}
		if len(boxes[b]) == 0 {
			return fail("there is no piece %s", q.Number)
		}
		contours := boxes[b][0]
		boxes[b] = boxes[b][1:]
		for _, c := range contours {
			area += c.turn()
		}
		out = append(out, toCut{0, q.Number, q.Sheet, q.Turn, q.Move, q.Tabs, p.Stock, contours})
	}
	for _, c := range whole {
		area -= c.turn()
	}
	if area != 0 {
		return fail("its pieces don't sum to it")
	}
	return out, nil
}

// box is a rectangle of the layers' coordinates in µm.
type box struct{ x0, y0, x1, y1 int64 }

// check says whether all sides of the box that run through a part are lines of the
// grid.
func (b box) check(whole []contour, s *sprite) error {
	a := spanned(whole[0])
	for _, side := range []struct{ at, low, high, grid int64 }{
		{b.x0, a.x0, a.x1, s.x}, {b.x1, a.x0, a.x1, s.x}, {b.y0, a.y0, a.y1, s.y}, {b.y1, a.y0, a.y1, s.y},
	} {
		if side.at > side.low && side.at < side.high && (side.at-side.grid)%s.cell != 0 {
			return fmt.Errorf("a seam at %s mm is no line of the grid", mm(side.at))
		}
	}
	if b.x0 >= b.x1 || b.y0 >= b.y1 {
		return fmt.Errorf("its box is empty")
	}
	return nil
}

// of is what of a part's contours lies in the box, piece by piece, in order of their
// lowest, then leftmost vertices. Its edges are those of the part inside the box, and
// the stretches of the box's sides that have stock within; from the end of each leads
// the one that begins there.
func (b box) of(whole []contour) ([][]contour, error) {
	b = b.beyond(whole[0])
	next := map[[2]int64][2]vertex{} // from where an edge begins to the edge; only asked
	var starts [][2]int64
	add := func(from, to vertex) error {
		k := [2]int64{from.x, from.y}
		if _, taken := next[k]; taken {
			return fmt.Errorf("two of its edges meet at (%s, %s) mm", mm(from.x), mm(from.y))
		}
		next[k] = [2]vertex{from, to}
		starts = append(starts, k)
		return nil
	}
	var sides [4][]int64 // where the part's edges cross them just inside: left, right, below, above
	for _, c := range whole {
		for i, v := range c {
			w := c[(i+1)%len(c)]
			x0, x1, y0, y1 := min(v.x, w.x), max(v.x, w.x), min(v.y, w.y), max(v.y, w.y)
			if !straightAlong(v, w) {
				b.cross(&sides, v, w)
				mx, my := v.x+w.x, v.y+w.y // twice the middle
				if mx <= 2*b.x0 || mx >= 2*b.x1 || my <= 2*b.y0 || my >= 2*b.y1 {
					continue
				}
				if x0 < b.x0 || x1 > b.x1 || y0 < b.y0 || y1 > b.y1 {
					return nil, fmt.Errorf("a seam meets a round or slanted edge at (%s, %s) mm", mm(v.x), mm(v.y))
				}
				if err := add(v, w); err != nil {
					return nil, err
				}
				continue
			}
			if y0 == y1 {
				if x0 <= b.x0 && b.x0 < x1 {
					sides[0] = append(sides[0], y0)
				}
				if x0 < b.x1 && b.x1 <= x1 {
					sides[1] = append(sides[1], y0)
				}
				if y0 <= b.y0 || y0 >= b.y1 {
					continue
				}
			} else {
				if y0 <= b.y0 && b.y0 < y1 {
					sides[2] = append(sides[2], x0)
				}
				if y0 < b.y1 && b.y1 <= y1 {
					sides[3] = append(sides[3], x0)
				}
				if x0 <= b.x0 || x0 >= b.x1 {
					continue
				}
			}
			from, to := b.pull(v), b.pull(w)
			if from == to {
				continue
			}
			if err := add(from, to); err != nil {
				return nil, err
			}
		}
	}
	for i, marks := range sides {
		slices.Sort(marks)
		low, high := b.y0, b.y1
		if i > 1 {
			low, high = b.x0, b.x1
		}
		for k := 0; k+1 < len(marks); k += 2 {
			from, to := max(marks[k], low), min(marks[k+1], high)
			if from >= to {
				continue
			}
			p := [...][2]vertex{
				{{x: b.x0, y: to}, {x: b.x0, y: from}}, {{x: b.x1, y: from}, {x: b.x1, y: to}},
				{{x: from, y: b.y0}, {x: to, y: b.y0}}, {{x: to, y: b.y1}, {x: from, y: b.y1}},
			}[i]
			if err := add(p[0], p[1]); err != nil {
				return nil, err
			}
		}
	}
	return linked(next, starts)
}

// cross notes where a round or slanted edge passes the lines of the box's sides:
// at its own end where it begins on one, else beyond the box, where only the order
// of what is passed counts.
func (b box) cross(sides *[4][]int64, v, w vertex) {
	for i, side := range [4]struct{ v, w, vAlong, wAlong, at, low int64 }{
		{v.x, w.x, v.y, w.y, b.x0, b.y0}, {-v.x, -w.x, v.y, w.y, -b.x1, b.y0},
		{v.y, w.y, v.x, w.x, b.y0, b.x0}, {-v.y, -w.y, v.x, w.x, -b.y1, b.x0},
	} {
		if side.v > side.w {
			side.v, side.w, side.vAlong, side.wAlong = side.w, side.v, side.wAlong, side.vAlong
		}
		switch {
		case side.v == side.at && side.w > side.at:
			sides[i] = append(sides[i], side.vAlong)
		case side.v < side.at && side.w > side.at:
			along := min(side.vAlong, side.wAlong)
			if along < side.low {
				along = max(side.vAlong, side.wAlong)
			}
			sides[i] = append(sides[i], along)
		}
	}
}

// spanned is the smallest box that holds a contour's vertices.
func spanned(c contour) box {
	b := box{c[0].x, c[0].y, c[0].x, c[0].y}
	for _, v := range c {
		b = box{min(b.x0, v.x), min(b.y0, v.y), max(b.x1, v.x), max(b.y1, v.y)}
	}
	return b
}

// beyond is the box with the sides that no seam runs along clear of a contour.
func (b box) beyond(c contour) box {
	a := spanned(c)
	for _, side := range []struct {
		at    *int64
		bound int64
		out   int64
	}{{&b.x0, a.x0, -1}, {&b.x1, a.x1, 1}, {&b.y0, a.y0, -1}, {&b.y1, a.y1, 1}} {
		if (*side.at-side.bound)*side.out >= 0 {
			*side.at = side.bound + side.out
		}
	}
	return b
}

// pull is the place of the box that is nearest to a vertex.
func (b box) pull(v vertex) vertex {
	return vertex{x: min(max(v.x, b.x0), b.x1), y: min(max(v.y, b.y0), b.y1)}
}

// linked walks from edge to edge and puts the contours together to pieces.
func linked(next map[[2]int64][2]vertex, starts [][2]int64) ([][]contour, error) {
	var outer [][]contour
	var holes []contour
	for _, start := range starts {
		var c contour
		for at := start; ; {
			e, ok := next[at]
			if !ok {
				if len(c) > 0 {
					return nil, fmt.Errorf("its outline is open at (%s, %s) mm", mm(at[0]), mm(at[1]))
				}
				break // walked before
			}
			delete(next, at)
			c = append(c, e[0])
			at = [2]int64{e[1].x, e[1].y}
			if at == start {
				break
			}
		}
		switch {
		case len(c) == 0:
		case c.turn() > 0:
			outer = append(outer, []contour{c})
		default:
			holes = append(holes, c)
		}
	}
	slices.SortFunc(outer, func(a, b []contour) int {
		p, q := a[0].foot(), b[0].foot()
		return cmp.Or(cmp.Compare(p.y, q.y), cmp.Compare(p.x, q.x))
	})
	for _, h := range holes {
		i := slices.IndexFunc(outer, func(o []contour) bool { return inside([]around{boxed(o[0], false)}, h[0]) })
		if i < 0 {
			return nil, fmt.Errorf("a hole at (%s, %s) mm lies in no piece", mm(h[0].x), mm(h[0].y))
		}
		outer[i] = append(outer[i], h)
	}
	return outer, nil
}

// foot is a contour's lowest, of those its leftmost vertex.
func (c contour) foot() vertex {
	return slices.MinFunc(c, func(p, q vertex) int { return cmp.Or(cmp.Compare(p.y, q.y), cmp.Compare(p.x, q.x)) })
}
