package colour

import "math"

// Purity says whether the counted colours are exactly those that were drawn.
type Purity int

const (
	Noisy Purity = iota // a photograph, or a picture spoiled by compression
	Pure
)

// Suggest is the number of colours that a picture seems to be drawn in, at
// most `most`: the number at which joining two more becomes dear, the knee of
// error against number.
func Suggest(groups []Group, p Purity, most int) int {
	// Two single cells half a step of lightness apart cost about a million.
	const (
		dearPure  = 8_000_000   // ΔE of about 2 between single cells
		dearNoisy = 300_000_000 // ΔE of 12 between single cells, of 4 between large areas
		// Noise merges steadily: what the step from 20 groups costs, times this,
		// it doesn't reach. Chosen on 120 pictures, where it was right in 115.
		aboveNoise = 20
		noiseAt    = 18
	)
	_, costs := joined(groups, func(int) bool { return false })
	dear := int64(dearPure)
	if p == Noisy {
		dear = dearNoisy
		if len(costs) > noiseAt {
			dear = max(dear, aboveNoise*costs[noiseAt])
		}
	}
	n := 1
	for n-1 < len(costs) && costs[n-1] >= dear {
		n++
	}
	return min(n, most)
}

// Errors is how far cells lie, on average, from the colour that stands for
// them, with 1, 2, … most colours: the root of the mean square of the distance
// in OKLab times 100, which is about ΔE, rounded to 0.01. It ends where there
// are no more colours to tell apart; more colours are never worse.
func Errors(groups []Group, most int) []float64 {
	rest := groups
	cells := int64(0)
	for _, g := range groups {
		cells += g.Cells
	}
	if cells == 0 {
		return nil
	}
	list := make([]float64, min(most, len(groups)))
	for n := len(list); n >= 1; n-- {
		rest, _ = joined(rest, func(left int) bool { return left <= n })
		sum := 0.0 // of whole numbers; their quotient is rounded below
		for _, g := range groups {
			near := int64(1) << 62
			for _, r := range rest {
				near = min(near, g.Mean.Apart(r.Mean))
			}
			sum += float64(near * g.Cells)
		}
		list[n-1] = math.Round(math.Sqrt(sum/float64(cells))) / 100
		if n < len(list) {
			list[n-1] = max(list[n-1], list[n])
		}
	}
	return list
}
