package regrid

import (
	"math"
	"slices"

	"sheetsprite/engine/regrid/pixels"
)

// This file places the sides of what was photographed to a fraction of a pixel: where,
// along a side, the picture first differs from what lies outside there.

const (
	// profileStep is how far apart, in pixels, the picture is looked at across a side.
	profileStep = 0.5
	// beside is over how many neighbouring places on both sides profiles are averaged, so
	// that noise and texture weigh less.
	beside = 2
	// outsideOf is over how many neighbouring places on both sides what lies outside is
	// judged: a thing that lies there changes it, and so does the light.
	outsideOf = 6
	// leastChange is how far a colour's channels are from what lies outside where
	// something else begins, of 255; and that many times what scatters there.
	leastChange, timesScatter = 10, 3
	// rising is how wide, in pixels, blur makes a side: what is seen so far behind its
	// beginning is what lies within.
	rising = 4
)

// sharpened places each side where the picture changes from what lies outside
// to what is within, looking reach pixels to both sides. False where that shows
// on fewer than two sides.
func sharpened(r *pixels.Raster, c Corners, reach float64) (Corners, bool) {
	var sides [4][2]Point
	found := 0
	for i := range c {
		a, b := c[i], c[(i+1)%4]
		length := distance(a, b)
		if length < 8 {
			return c, false
		}
		nx, ny := -(b.Y-a.Y)/length, (b.X-a.X)/length // inwards: the corners go clockwise
		at, off := sideOf(r, a, b, nx, ny, reach)
		if count := int(min(length/2, 200)); len(at) < count/4 || len(at) < 8 { // hardly differs from what is round it: as it was
			sides[i] = [2]Point{a, b}
			continue
		}
		found++
		p, q := steadyLine(at, off)
		sides[i] = [2]Point{
			{a.X + float64(p*nx), a.Y + float64(p*ny)},
			{b.X + float64((p+q)*nx), b.Y + float64((p+q)*ny)},
		}
	}
	if found < 2 {
		return c, false
	}
	var out Corners
	for i := range out {
		s, t := sides[(i+3)%4], sides[i]
		ux, uy, vx, vy := s[1].X-s[0].X, s[1].Y-s[0].Y, t[1].X-t[0].X, t[1].Y-t[0].Y
		det := float64(ux*vy) - float64(uy*vx)
		if math.Abs(det) < 1e-9 {
			return c, false
		}
		k := (float64((t[0].X-s[0].X)*vy) - float64((t[0].Y-s[0].Y)*vx)) / det
		out[i] = Point{s[0].X + float64(k*ux), s[0].Y + float64(k*uy)}
	}
	_, ok := projectionOf(out)
	return out, ok
}

// sideOf lists where along a side (0 to 1) and how far inwards of it the change shows.
func sideOf(r *pixels.Raster, a, b Point, nx, ny, reach float64) (at, off []float64) {
	count := int(min(distance(a, b)/2, 200))
	n := int(2*reach/profileStep) + 1
	profiles := make([][][4]float64, count)
	place := func(k int) float64 { return 0.04 + 0.92*(float64(k)+0.5)/float64(count) }
	for k := range profiles {
		x, y := a.X+float64(place(k)*(b.X-a.X)), a.Y+float64(place(k)*(b.Y-a.Y))
		profiles[k] = make([][4]float64, n)
		for i := range profiles[k] {
			d := float64(i)*profileStep - reach
			profiles[k][i] = between(r, x+float64(d*nx), y+float64(d*ny))
		}
	}
	profiles = averagedBeside(profiles)
	outer := n / 4 // places across that surely lie outside
	far := make([][]float64, count)
	var scatter []float64
	for k, p := range profiles {
		base := outsideColour(profiles[max(0, k-outsideOf):min(count, k+outsideOf+1)], outer)
		far[k] = make([]float64, n)
		for i, v := range p {
			for c := range 3 {
				far[k][i] = math.Max(far[k][i], math.Abs(v[c]-base[c]))
			}
		}
		scatter = append(scatter, far[k][:outer]...)
	}
	slices.Sort(scatter)
	least := math.Max(leastChange, timesScatter*scatter[len(scatter)*3/4])
	for k, f := range far {
		if d, ok := change(f, least); ok {
			at, off = append(at, place(k)), append(off, d*profileStep-reach)
		}
	}
	return at, off
}

// averagedBeside is the profiles, each the mean of those beside it.
func averagedBeside(profiles [][][4]float64) [][][4]float64 {
	out := make([][][4]float64, len(profiles))
	for k := range profiles {
		near := profiles[max(0, k-beside):min(len(profiles), k+beside+1)]
		out[k] = make([][4]float64, len(profiles[k]))
		for i := range out[k] {
			for c := range 4 {
				for _, p := range near {
					out[k][i][c] += p[i][c]
				}
				out[k][i][c] /= float64(len(near))
			}
		}
	}
	return out
}

// outsideColour is the median, channel by channel, of the outermost places of some
// profiles.
func outsideColour(profiles [][][4]float64, outer int) (base [3]float64) {
	v := make([]float64, 0, len(profiles)*outer)
	for c := range base {
		v = v[:0]
		for _, p := range profiles {
			for _, q := range p[:outer] {
				v = append(v, q[c])
			}
		}
		slices.Sort(v)
		base[c] = v[len(v)/2]
	}
	return base
}

// change is where, in steps, a profile is half way from nothing to what comes first; a
// thin bright strip before a dark one counts.
func change(far []float64, least float64) (float64, bool) {
	const lasting = 3 // steps: shorter is noise
	for i := 1; i+lasting < len(far); i++ {
		if slices.Min(far[i:i+lasting]) < least {
			continue
		}
		level := slices.Max(far[i:min(len(far), i+rising/profileStep)]) / 2
		for ; i > 0 && far[i] >= level; i-- {
		}
		for ; i+1 < len(far) && far[i+1] < level; i++ {
		}
		if i+1 == len(far) {
			return 0, false
		}
		return float64(i) + (level-far[i])/max(far[i+1]-far[i], 1e-9), true
	}
	return 0, false
}

// settledSides sharpens the sides, first looking far and then near.
func settledSides(r *pixels.Raster, c Corners, far, near float64) Corners {
	for _, reach := range []float64{far, near, near} {
		if next, ok := sharpened(r, c, reach); ok {
			c = next
		}
	}
	return c
}

// leastBow is by how many pixels a side must bulge to be taken for one that a
// lens has bent.
const leastBow = 1

// steadyLine fits off = p + q·at, whatever a few of the values are. Where the
// side is bent, it is the line through the bent side's ends.
func steadyLine(at, off []float64) (p, q float64) {
	if fit := steady(at, off, 3); math.Abs(fit[2]) > leastBow {
		return fit[0], fit[1]
	}
	fit := steady(at, off, 2)
	return fit[0], fit[1]
}

// steady fits off = fit[0] + fit[1]·at + fit[2]·4·at·(1-at), the last term only
// if asked for three; what lies far off weighs little.
func steady(at, off []float64, terms int) (fit [3]float64) {
	sorted := slices.Clone(off)
	slices.Sort(sorted)
	fit[0] = sorted[len(sorted)/2]
	wide := 4.0 // in turns less, so that a bow isn't taken for outliers
	for range 12 {
		var a [5][6]float64
		for i := range 5 {
			a[i][i] = 1e-9
		}
		for k, x := range at {
			t := [3]float64{1, x, 4 * x * (1 - x)}
			rest := off[k]
			for i := range terms {
				rest -= float64(fit[i] * t[i])
			}
			d := rest / wide
			w := 1 / (1 + float64(d*d))
			w *= w
			for i := range terms {
				for j := range terms {
					a[i][j] += float64(w * t[i] * t[j])
				}
				a[i][5] += float64(w * t[i] * off[k])
			}
		}
		solution := solved(a)
		copy(fit[:terms], solution[:terms])
		wide = math.Max(0.7, wide*0.75)
	}
	return fit
}
