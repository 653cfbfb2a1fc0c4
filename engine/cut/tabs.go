package cut

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// What holds a part in its sheet. Common practice, no source.
const (
	tabMargin   = shape.Um(300) // to the next corner or join, on both sides
	lineMargin  = shape.Um(200) // to the next corner of the cut line, which inner corners bring nearer
	oneTab      = 4 * shape.Mm  // parts smaller than this hold by one
	tabEvery    = 80 * shape.Mm // of the outer contour, where that asks for more than two
	mostTabs    = 8             // of one contour
	tippingSlug = 15 * shape.Mm // shorter side of a hole whose slug may tip into the beam
)

// Tab is a stretch of a cut line that stays uncut. It is as long as what stands
// plus the kerf.
type Tab struct {
	Contour  int      // 0: the outer one, i+1: hole i
	Edge     int      // from that vertex of the cut line to the next
	From, To shape.Um // along the edge of the cut line
}

// tabber finds the places for a part's tabs.
type tabber struct {
	finished, line shape.Outline
	gap            shape.Um     // tab plus kerf
	joins          []shape.Rect // no tab there
	beside         []shape.Rect // other parts of the layer, where holes that hold some need tabs
	cover          []shape.Rect // what lies on the part: not overlapping
}

// spot is a place where a tab could be.
type spot struct {
	edge   int
	at     shape.Um    // its middle along the finished edge
	point  shape.Point // its middle on the finished edge
	hidden bool
}

// outer are the tabs of the outer contour; fewer than wanted where there is no
// room.
func (t tabber) outer() (tabs []Tab, wanted int) {
	w, h := t.finished.Bounds().Size()
	wanted = 1
	if max(w, h) >= oneTab {
		wanted = int(min(max(2, t.finished.Outer.Length()/tabEvery), mostTabs))
	}
	return t.pick(0, t.finished.Outer, t.line.Outer, wanted), wanted
}

// slugs are the tabs of holes whose slugs could tip into the beam.
func (t tabber) slugs() []Tab {
	var tabs []Tab
	for i, h := range t.finished.Holes {
		b := h.Bounds()
		holds := slices.ContainsFunc(t.beside, func(r shape.Rect) bool { return b.Union(r) == b })
		if w, hh := b.Size(); holds || min(w, hh) >= tippingSlug {
			tabs = append(tabs, t.pick(i+1, h, t.line.Holes[i], 2)...)
		}
	}
	return tabs
}

// pick chooses n places: as far from one another as they can be, on edges that
// don't show where that leaves them far enough apart.
func (t tabber) pick(contour int, finished, line shape.Contour, n int) []Tab {
	spots := t.spots(finished, line)
	b := finished.Bounds()
	w, h := b.Size()
	far := shape.Um2(max(w, h)) * shape.Um2(max(w, h)) / 9 // a third of the size, squared
	var chosen []spot
	for len(chosen) < n {
		best, bestAway := -1, shape.Um2(-1)
		for i, s := range spots {
			away := square(s.point.Sub(middle(b)))
			if len(chosen) > 0 {
				away = 1 << 62
			}
			for _, c := range chosen {
				away = min(away, square(s.point.Sub(c.point)))
			}
			if len(chosen) > 0 && !t.clear(s, chosen) {
				continue
			}
			switch {
			case best < 0:
			case s.hidden != spots[best].hidden && len(chosen) == 0:
				if !s.hidden {
					continue
				}
			case s.hidden && !spots[best].hidden && away >= far:
			case !s.hidden && spots[best].hidden && bestAway >= far:
				continue
			case away <= bestAway:
				continue
			}
			best, bestAway = i, away
		}
		if best < 0 {
			break
		}
		chosen = append(chosen, spots[best])
	}
	tabs := make([]Tab, len(chosen))
	for i, s := range chosen {
		// From the finished edge to the cut line's, which may begin elsewhere.
		along := unit(finished[(s.edge+1)%len(finished)].Sub(finished[s.edge].Point))
		d := finished[s.edge].Sub(line[s.edge].Point)
		at := s.at + d.X*along.X + d.Y*along.Y
		tabs[i] = Tab{contour, s.edge, at - t.gap/2, at - t.gap/2 + t.gap}
	}
	slices.SortFunc(tabs, func(a, b Tab) int {
		return cmp.Or(cmp.Compare(a.Edge, b.Edge), cmp.Compare(a.From, b.From))
	})
	return tabs
}

// clear says whether s keeps its distance from tabs on the same edge.
func (t tabber) clear(s spot, chosen []spot) bool {
	for _, c := range chosen {
		if d := c.at - s.at; c.edge == s.edge && max(d, -d) < t.gap+2*tabMargin {
			return false
		}
	}
	return true
}

func square(p shape.Point) shape.Um2 {
	return shape.Um2(p.X)*shape.Um2(p.X) + shape.Um2(p.Y)*shape.Um2(p.Y)
}

func unit(p shape.Point) shape.Point {
	n := max(p.X, -p.X, p.Y, -p.Y)
	return shape.Point{X: p.X / n, Y: p.Y / n}
}

// spots are all places along a contour where there is room, on the contour and on
// its cut line.
func (t tabber) spots(c, line shape.Contour) []spot {
	var out []spot
	for e, v := range c {
		end := c[(e+1)%len(c)].Point
		d := end.Sub(v.Point)
		if v.Arc != nil || d.X != 0 && d.Y != 0 {
			continue
		}
		along := unit(d)
		length := max(d.X, -d.X, d.Y, -d.Y)
		from, to := line[e].Sub(v.Point), line[(e+1)%len(c)].Sub(end)
		free := []stretch{{
			max(tabMargin, from.X*along.X+from.Y*along.Y+lineMargin),
			min(length-tabMargin, length+to.X*along.X+to.Y*along.Y-lineMargin),
		}}
		for _, j := range t.joins {
			if s, ok := over(v.Point, along, length, j); ok {
				free = without(free, stretch{s.from - tabMargin, s.to + tabMargin})
			}
		}
		add := func(list []stretch, hidden bool) {
			for _, s := range list {
				if s.to-s.from < t.gap {
					continue
				}
				at := []shape.Um{(s.from + s.to) / 2}
				if s.to-s.from >= 3*t.gap {
					at = append(at, s.from+(t.gap+1)/2, s.to-(t.gap+1)/2)
				}
				for _, a := range at {
					out = append(out, spot{e, a, v.Point.Add(shape.Point{X: along.X * a, Y: along.Y * a}), hidden})
				}
			}
		}
		add(free, false)
		if h := t.hidden(v.Point, along, length); len(h) > 0 {
			add(within(free, h), true)
		}
	}
	return out
}

// hidden are the stretches of an edge with stock lying over it on both sides.
func (t tabber) hidden(a, along shape.Point, length shape.Um) []stretch {
	side := func(off shape.Point) []stretch {
		var list []stretch
		for _, r := range t.cover {
			// over counts a rectangle's sides as in it: what ends at the edge
			// must not count on its other side.
			q := r
			if off.X+off.Y > 0 {
				q.Max = q.Max.Sub(off)
			} else {
				q.Min = q.Min.Sub(off)
			}
			if s, ok := over(a, along, length, q); ok {
				list = append(list, s)
			}
		}
		return joined(list)
	}
	right := shape.Point{X: along.Y, Y: -along.X}
	left := shape.Point{X: -right.X, Y: -right.Y}
	l := side(left)
	if len(l) == 0 {
		return nil
	}
	return within(l, side(right))
}
