package cut

import (
	"slices"

	"sheetsprite/engine/shape"
)

// stretch is a part of an edge, in µm from its beginning.
type stretch struct{ from, to shape.Um }

// over is the stretch of the edge of a length from a that runs through r or
// along its side.
func over(a, along shape.Point, length shape.Um, r shape.Rect) (stretch, bool) {
	var s stretch
	if along.X != 0 {
		if a.Y < r.Min.Y || a.Y > r.Max.Y {
			return s, false
		}
		s = stretch{(r.Min.X - a.X) * along.X, (r.Max.X - a.X) * along.X}
	} else {
		if a.X < r.Min.X || a.X > r.Max.X {
			return s, false
		}
		s = stretch{(r.Min.Y - a.Y) * along.Y, (r.Max.Y - a.Y) * along.Y}
	}
	s = stretch{max(0, min(s.from, s.to)), min(length, max(s.from, s.to))}
	return s, s.from < s.to
}

// joined sorts stretches and unites those that touch.
func joined(list []stretch) []stretch {
	slices.SortFunc(list, func(a, b stretch) int { return int(a.from - b.from) })
	out := list[:0]
	for _, s := range list {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// within is what two lists, each in order, have in common.
func within(a, b []stretch) []stretch {
	var out []stretch
	for _, s := range a {
		for _, t := range b {
			if c := (stretch{max(s.from, t.from), min(s.to, t.to)}); c.from < c.to {
				out = append(out, c)
			}
		}
	}
	return out
}

// without is list less what lies in cut.
func without(list []stretch, cut stretch) []stretch {
	var out []stretch
	for _, s := range list {
		for _, t := range []stretch{{s.from, min(s.to, cut.from)}, {max(s.from, cut.to), s.to}} {
			if t.from < t.to {
				out = append(out, t)
			}
		}
	}
	return out
}
