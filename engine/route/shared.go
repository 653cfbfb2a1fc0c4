package route

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// stretch is a part of an edge along an axis.
type stretch struct {
	upright    bool     // x is at, else y is at
	at         shape.Um // the coordinate that stays
	from, to   shape.Um // of the other one, from < to
	loop, edge int
	forward    bool // the edge runs from `from` to `to`
}

// leaveOut finds what isn't cut of each loop's edges, as tabs that don't
// overlap, sorted by edge and From: its own tabs; what another loop cuts or
// holds already, so that no line is cut twice; and where a later loop has a
// tab on the same line. Of two loops on one line the first in `first` keeps
// it. owners are, for each loop, those that keep some of its line. Edges
// that aren't along an axis are always cut.
func leaveOut(loops []Loop, first []int) (gaps [][]Tab, owners [][]int) {
	rank := make([]int, len(loops))
	for r, l := range first {
		rank[l] = r
	}
	gaps, owners = make([][]Tab, len(loops)), make([][]int, len(loops))
	var all []stretch
	for i, l := range loops {
		gaps[i] = slices.Clone(l.Tabs)
		all = append(all, stretches(l.Contour, i)...)
	}
	slices.SortFunc(all, func(a, b stretch) int {
		return cmp.Or(compareBool(a.upright, b.upright), cmp.Compare(a.at, b.at), cmp.Compare(a.from, b.from),
			cmp.Compare(rank[a.loop], rank[b.loop]), cmp.Compare(a.edge, b.edge))
	})
	for i, a := range all {
		for _, b := range all[i+1:] {
			if b.upright != a.upright || b.at != a.at || b.from >= a.to {
				break
			}
			if a.loop == b.loop {
				continue
			}
			keeps, yields := a, b
			if rank[b.loop] < rank[a.loop] {
				keeps, yields = b, a
			}
			from, to := max(a.from, b.from), min(a.to, b.to)
			gaps[yields.loop] = append(gaps[yields.loop], yields.tab(from, to))
			owners[yields.loop] = append(owners[yields.loop], keeps.loop)
			for _, t := range loops[yields.loop].Tabs {
				if t.Edge != yields.edge {
					continue
				}
				u, v := yields.span(t)
				if u, v = max(u, from), min(v, to); u < v {
					gaps[keeps.loop] = append(gaps[keeps.loop], keeps.tab(u, v))
				}
			}
		}
	}
	for i := range gaps {
		gaps[i] = merged(gaps[i])
		slices.Sort(owners[i])
		owners[i] = slices.Compact(owners[i])
	}
	return gaps, owners
}

func stretches(c shape.Contour, loop int) []stretch {
	var out []stretch
	for e, v := range c {
		w := c[(e+1)%len(c)]
		switch {
		case v.Arc != nil || v.Point == w.Point:
		case v.X == w.X:
			out = append(out, stretch{true, v.X, min(v.Y, w.Y), max(v.Y, w.Y), loop, e, v.Y < w.Y})
		case v.Y == w.Y:
			out = append(out, stretch{false, v.Y, min(v.X, w.X), max(v.X, w.X), loop, e, v.X < w.X})
		}
	}
	return out
}

// tab is the part of the edge between two coordinates.
func (s stretch) tab(from, to shape.Um) Tab {
	if s.forward {
		return Tab{s.edge, from - s.from, to - s.from}
	}
	return Tab{s.edge, s.to - to, s.to - from}
}

// span is the other way about.
func (s stretch) span(t Tab) (from, to shape.Um) {
	if s.forward {
		return s.from + t.From, s.from + t.To
	}
	return s.to - t.To, s.to - t.From
}

// merged sorts tabs and makes one of those that touch or overlap.
func merged(ts []Tab) []Tab {
	slices.SortFunc(ts, func(a, b Tab) int {
		return cmp.Or(cmp.Compare(a.Edge, b.Edge), cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	out := ts[:0]
	for _, t := range ts {
		if n := len(out); n > 0 && out[n-1].Edge == t.Edge && out[n-1].To >= t.From {
			out[n-1].To = max(out[n-1].To, t.To)
			continue
		}
		out = append(out, t)
	}
	return out
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}
