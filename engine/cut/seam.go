package cut

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// cutAcross is a box cut in two along a line, and what speaks against that line.
type cutAcross struct {
	low, high []Shard // before the line and behind it
	seams     []Seam
	torn      []shape.Outline // what the line makes of those that it runs through
	rank      [6]int64        // the less the better, the first one first
}

// leastPiece is what a piece is at least wide and high where that can be: smaller
// ones shift when they are glued. Common practice, no source.
const leastPiece = 20 * shape.Mm

// cuts are the ways of cutting a box because of the piece p in it, the best first: few pieces, none of them
// small, a seam that shows little, few parts that fall asunder, a short seam,
// halves that are alike.
func (s *splitter) cuts(box []Shard, p Shard) []cutAcross {
	b := p.Outline.Bounds()
	w, h := b.Size()
	half := HalfKerf(s.rule.Kerf)
	across, up := shape.Um(most), shape.Um(most) // lines that are needed either way
	var room Room
	for _, r := range s.rule.Rooms {
		for _, q := range []Room{r, {W: r.H, H: r.W, Grain: r.Grain}} {
			if q != r && r.Grain {
				continue
			}
			x, y := lines(w, q.W-2*half), lines(h, q.H-2*half)
			if x < most && y < most && (x+1)*(y+1) < (across+1)*(up+1) {
				across, up, room = x, y, q
			}
		}
	}
	if across == most {
		return nil
	}
	var out []cutAcross
	if across > 0 {
		out = s.lines(out, box, leftOf, b.Min.X, b.Max.X, s.grid.X, room.W-2*half, across)
	}
	if up > 0 {
		out = s.lines(out, box, below, b.Min.Y, b.Max.Y, s.grid.Y, room.H-2*half, up)
	}
	slices.SortStableFunc(out, func(a, b cutAcross) int {
		for i := range a.rank {
			if c := cmp.Compare(a.rank[i], b.rank[i]); c != 0 {
				return c
			}
		}
		return 0
	})
	return out
}

// most is more lines than any part needs.
const most = 1 << 20

// lines is how many lines cut a length into pieces of at most room.
func lines(length, room shape.Um) shape.Um {
	if room <= 0 {
		return most
	}
	return min((length+room-1)/room-1, most)
}

// lines adds the cuts along the grid's lines between low and high: what lies
// before one has room, what lies behind it needs one line less, or as few more as
// can be.
func (s *splitter) lines(out []cutAcross, box []Shard, first side, low, high, grid, room, needed shape.Um) []cutAcross {
	k := (low - grid) / s.cell
	for at := grid + k*s.cell; at < high && s.tries <= mostTries; at += s.cell {
		if at <= low || at-low > room || s.avoided(box, first, at) {
			continue
		}
		s.tries++
		if c, ok := s.along(box, first, at); ok {
			c.rank[0] = max(0, int64(lines(high-at, room)-(needed-1)))
			out = append(out, c)
		}
	}
	return out
}

// avoided says whether a line runs through a join, an opened corner or a pin.
func (s *splitter) avoided(box []Shard, first side, at shape.Um) bool {
	return slices.ContainsFunc(s.avoid, func(r shape.Rect) bool {
		within := first == leftOf && r.Min.X < at && at < r.Max.X || first == below && r.Min.Y < at && at < r.Max.Y
		return within && slices.ContainsFunc(box, func(p Shard) bool { return !meet(r, p.Outline.Bounds()).Empty() })
	})
}

// holds says whether all that a cut makes can be cut with its kerf. It is asked only of
// cuts that are taken: of a large part there are hundreds.
func (s *splitter) holds(c *cutAcross) bool {
	return !slices.ContainsFunc(c.torn, func(o shape.Outline) bool {
		_, faults := Kerfed(o, s.rule.Kerf)
		return len(faults) > 0
	})
}

// along cuts a box along a line. ok is false where the line leaves nothing on a side.
func (s *splitter) along(box []Shard, first side, at shape.Um) (c cutAcross, ok bool) {
	second, low, high := rightOf, box[0].Within, box[0].Within
	if first == leftOf {
		low.Max.X, high.Min.X = at, at
	} else {
		second, low.Max.Y, high.Min.Y = above, at, at
	}
	var sizes [2]shape.Um2
	for _, p := range box {
		a, alongA, okA := halve(p.Outline, first, at)
		b, alongB, okB := halve(p.Outline, second, at)
		if !okA || !okB {
			return c, false
		}
		cut := len(a) > 0 && len(b) > 0
		for i, side := range [2][]shape.Outline{a, b} {
			for _, o := range side {
				if cut {
					c.torn = append(c.torn, o)
					if w, h := o.Bounds().Size(); min(w, h) < leastPiece {
						c.rank[1]++
					}
				}
				sizes[i] += o.Area()
				if i == 0 {
					c.low = append(c.low, s.shard(o, low))
				} else {
					c.high = append(c.high, s.shard(o, high))
				}
			}
		}
		for _, st := range within(alongA, alongB) {
			seam := Seam{From: shape.Point{X: at, Y: st.from}, To: shape.Point{X: at, Y: st.to}}
			if first == below {
				seam = Seam{From: shape.Point{X: st.from, Y: at}, To: shape.Point{X: st.to, Y: at}}
			}
			seam.Shows = s.shows(seam)
			c.seams = append(c.seams, seam)
			c.rank[2] += int64(seam.Shows)
			c.rank[4] += int64(st.to - st.from)
		}
	}
	c.rank[3] = int64(len(c.low) + len(c.high))
	c.rank[5] = int64(max(sizes[0]-sizes[1], sizes[1]-sizes[0]))
	return c, len(c.low) > 0 && len(c.high) > 0
}

// shows is how much of a seam no single part covers on both sides, by as much as
// a hand may be off.
func (s *splitter) shows(seam Seam) shape.Um {
	d := seam.To.Sub(seam.From)
	length := d.X + d.Y
	b := shape.Point{X: s.back, Y: s.back}
	if d.X > 0 {
		b.X = 0
	} else {
		b.Y = 0
	}
	band := shape.FromRects([]shape.Rect{{Min: seam.From.Sub(b), Max: seam.To.Add(b)}})
	free := []stretch{{0, length}}
	for _, c := range s.covers {
		if meet(c.Bounds(), band.Bounds()).Empty() {
			continue
		}
		hidden := []stretch{{0, length}}
		for _, r := range band.Subtract(c).Rects() {
			if d.X > 0 {
				hidden = without(hidden, stretch{r.Min.X - seam.From.X, r.Max.X - seam.From.X})
			} else {
				hidden = without(hidden, stretch{r.Min.Y - seam.From.Y, r.Max.Y - seam.From.Y})
			}
		}
		for _, h := range hidden {
			free = without(free, h)
		}
	}
	var sum shape.Um
	for _, f := range free {
		sum += f.to - f.from
	}
	return sum
}
