package colour

import "slices"

// Rounds bounds the rounds in which Reduce moves its colours; it mostly needs
// fewer than twenty.
const Rounds = 40

// Reduce picks at most n colours (n ≥ 1) to stand for all of counts: k-means in OKLab
// (S. P. Lloyd, "Least squares quantization in PCM", 1982), started from the
// colours that lie farthest from those already picked.
//
// Every colour picked is one of counts, so that a clean drawing keeps its own
// colours. Those of keep are picked first, as they are, whether or not they
// occur: thin outlines have few cells, and means would swallow them. Counts
// needn't be in any order; the picks are in the order in which they were made.
// With no more than n colours in counts, all of them are returned in order.
func Reduce(counts []Count, n int, keep ...RGB) []RGB {
	if len(counts) <= n {
		all := make([]RGB, len(counts))
		for i, c := range counts {
			all[i] = c.Colour
		}
		return all
	}
	if len(keep) > n {
		keep = keep[:n]
	}
	points := make([]point, len(counts))
	for i, c := range counts {
		points[i] = point{at: labOf(c.Colour), cells: int64(c.Cells)}
	}
	centres := make([]lab, 0, n)
	for _, c := range keep {
		centres = append(centres, labOf(c))
	}
	centres = spread(points, centres, n)
	settle(points, centres, len(keep))
	return own(counts, points, centres, keep)
}

// point is a colour of the drawing on its way to a centre.
type point struct {
	at     lab
	cells  int64
	centre int   // index of the nearest centre
	apart  int64 // the square of the distance to it
}

// spread adds centres until there are n, or until every point has its own:
// each time the point with the largest distance², weighed by the root of its
// cells, so that neither noise nor a small accent decides alone.
func spread(points []point, centres []lab, n int) []lab {
	for i := range points {
		points[i].apart = 1 << 40 // farther than any two colours
		for k, c := range centres {
			points[i].consider(k, c)
		}
	}
	for len(centres) < n {
		far, most := -1, int64(0)
		for i, p := range points {
			// distance² is below 2^29 once there is a centre, the root below 2^16.
			if pull := p.apart * squareRoot(p.cells); pull > most {
				far, most = i, pull
			}
		}
		if far < 0 {
			break
		}
		c := points[far].at
		for i := range points {
			points[i].consider(len(centres), c)
		}
		centres = append(centres, c)
	}
	return centres
}

// consider takes centre k, at c, if it is nearer than the one p has.
func (p *point) consider(k int, c lab) {
	if d := p.at.apart(c); d < p.apart {
		p.centre, p.apart = k, d
	}
}

// settle moves the centres to the mean of their points, the first fixed ones
// excepted, until nothing changes or Rounds are over.
func settle(points []point, centres []lab, fixed int) {
	type sum struct{ l, a, b, cells int64 }
	for range Rounds {
		sums := make([]sum, len(centres))
		for _, p := range points {
			s := &sums[p.centre]
			s.l += p.at.l * p.cells
			s.a += p.at.a * p.cells
			s.b += p.at.b * p.cells
			s.cells += p.cells
		}
		moved := false
		for k := fixed; k < len(centres); k++ {
			s := sums[k]
			if s.cells == 0 {
				continue
			}
			mean := lab{divide(s.l, s.cells), divide(s.a, s.cells), divide(s.b, s.cells)}
			moved = moved || mean != centres[k]
			centres[k] = mean
		}
		if !moved {
			return
		}
		for i := range points {
			points[i].apart = 1 << 40
			for k, c := range centres {
				points[i].consider(k, c)
			}
		}
	}
}

// own takes for each centre the colour of the drawing nearest to it among
// those that it stands for; a centre that stands for none is left out.
func own(counts []Count, points []point, centres []lab, keep []RGB) []RGB {
	nearest := make([]int, len(centres))
	for k := range nearest {
		nearest[k] = -1
	}
	for i, p := range points {
		if best := nearest[p.centre]; best < 0 || p.apart < points[best].apart ||
			p.apart == points[best].apart && p.cells > points[best].cells {
			nearest[p.centre] = i
		}
	}
	picked := append([]RGB(nil), keep...)
	for k := len(keep); k < len(centres); k++ {
		if nearest[k] >= 0 {
			picked = append(picked, counts[nearest[k]].Colour)
		}
	}
	return picked
}

// Matcher finds the nearest colour of a palette, again and again.
type Matcher struct {
	palette []RGB
	at      []lab
}

// Match prepares a palette, which isn't empty, for Nearest.
func Match(palette []RGB) Matcher {
	m := Matcher{palette, make([]lab, len(palette))}
	for i, c := range palette {
		m.at[i] = labOf(c)
	}
	return m
}

// Nearest is the index of the palette's colour that is nearest to c in OKLab:
// c itself if the palette has it, else of equally near ones the first.
func (m Matcher) Nearest(c RGB) int {
	if i := slices.Index(m.palette, c); i >= 0 {
		return i
	}
	p := point{at: labOf(c), apart: 1 << 40}
	for k, at := range m.at {
		p.consider(k, at)
	}
	return p.centre
}

// Nearest is Match(palette).Nearest(c).
func Nearest(palette []RGB, c RGB) int { return Match(palette).Nearest(c) }

// squareRoot is the largest whole number whose square is at most x, for x
// from 0 up to 2^62.
func squareRoot(x int64) int64 {
	var root int64
	for bit := int64(1) << 30; bit > 0; bit >>= 1 {
		if next := root | bit; next*next <= x {
			root = next
		}
	}
	return root
}
