package colour

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// noisy makes cells around each of the centres, as a photograph would.
func noisy(centres []RGB, cells []int, spread int) []Count {
	var h Histogram
	seed := uint32(7)
	near := func(v uint8) uint8 {
		seed = seed*1664525 + 1013904223
		return uint8(min(255, max(0, int(v)+int(seed>>16)%(2*spread+1)-spread)))
	}
	for i, c := range centres {
		for range cells[i] {
			h.Add(RGB{near(c.R), near(c.G), near(c.B)}, 1)
		}
	}
	return h.Counts()
}

func TestReduceKeepsFew(t *testing.T) {
	counts := []Count{{RGB{9, 9, 9}, 1}, {RGB{200, 0, 0}, 5}}
	assert.Equal(t, []RGB{{9, 9, 9}, {200, 0, 0}}, Reduce(counts, 2))
	assert.Equal(t, []RGB{{9, 9, 9}, {200, 0, 0}}, Reduce(counts, 24))
}

func TestReduceFindsTheCentres(t *testing.T) {
	centres := []RGB{{20, 20, 24}, {200, 40, 40}, {60, 120, 200}, {240, 230, 210}, {250, 200, 40}}
	counts := noisy(centres, []int{300, 900, 900, 2000, 40}, 6)
	picked := Reduce(counts, 5)
	assert.Len(t, picked, 5)
	for _, c := range centres {
		assert.Less(t, Difference(c, picked[Nearest(picked, c)]), 3.0, "%v", c)
	}
}

func TestReduceOutlineSurvives(t *testing.T) {
	outline := RGB{18, 16, 20}
	counts := noisy([]RGB{{90, 60, 40}, {200, 40, 40}, {60, 120, 200}, {240, 230, 210}}, []int{4000, 4000, 4000, 4000}, 30)
	counts = append(counts, Count{outline, 12})
	picked := Reduce(counts, 4, outline)
	assert.Len(t, picked, 4)
	assert.Contains(t, picked, outline)
	assert.Equal(t, []RGB{outline}, Reduce(counts, 1, outline, RGB{1, 2, 3}))
}

// Whatever comes in: at most n, each one of the drawing's, none twice, the
// same whichever way round the counts come in.
func TestReduceProperties(t *testing.T) {
	for n := 1; n <= 40; n += 3 {
		var counts []Count
		for i, c := range some(60 + 10*n) {
			counts = append(counts, Count{c, 1 + i%17})
		}
		picked := Reduce(counts, n)
		assert.LessOrEqual(t, len(picked), n)
		assert.NotEmpty(t, picked)
		for i, c := range picked {
			assert.True(t, slices.ContainsFunc(counts, func(k Count) bool { return k.Colour == c }))
			assert.NotContains(t, picked[:i], c)
		}
		assert.Equal(t, picked, Reduce(slices.Clone(counts), n))
	}
}

// The picks must serve the drawing about as well as any: no single exchange of
// a pick for a colour of the drawing may halve the error.
func TestReduceIsNearAnOptimum(t *testing.T) {
	var counts []Count
	for i, c := range some(60) {
		counts = append(counts, Count{c, 1 + i%5})
	}
	cost := func(palette []RGB) (sum int64) {
		for _, c := range counts {
			sum += labOf(c.Colour).apart(labOf(palette[Nearest(palette, c.Colour)])) * int64(c.Cells)
		}
		return sum
	}
	picked := Reduce(counts, 8)
	base := cost(picked)
	for k := range picked {
		for _, c := range counts {
			other := slices.Clone(picked)
			other[k] = c.Colour
			assert.Greater(t, cost(other)*5, base*4)
		}
	}
}

func TestHistogram(t *testing.T) {
	var h Histogram
	assert.Empty(t, h.Counts())
	h.Add(RGB{3, 2, 1}, 2)
	h.Add(RGB{1, 2, 3}, 1)
	h.Add(RGB{3, 2, 1}, 1)
	assert.Equal(t, []Count{{RGB{1, 2, 3}, 1}, {RGB{3, 2, 1}, 3}}, h.Counts())
}

// More colours than are told apart: memory stays bounded, no cell is lost, and
// the order of the colours doesn't matter.
func TestHistogramBounded(t *testing.T) {
	colours := some(3 * MaxCounted)
	var forth, back Histogram
	for i := range colours {
		forth.Add(colours[i], 1)
		back.Add(colours[len(colours)-1-i], 1)
		if len(forth.bins) > MaxCounted {
			t.Fatal("more bins than allowed")
		}
	}
	assert.Equal(t, forth.Counts(), back.Counts())
	cells := 0
	for _, c := range forth.Counts() {
		cells += c.Cells
	}
	assert.Equal(t, len(colours), cells)
}
