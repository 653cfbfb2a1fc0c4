package shape

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Packed or not, near or a light second apart, events come in the plain sort's order.
func TestEventsAreSorted(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for round := range 300 {
		reach := []int64{3, 5000, 1 << 29, 1 << 30, 1 << 31, 1 << 40}[round%6]
		by := []int{1, 7, 8, 40}[round%4]
		from := Um(r.Int64N(1<<41) - 1<<40)
		events := make([]event, r.IntN(200))
		for i := range events {
			events[i] = event{from + Um(r.Int64N(reach)), jump{from + Um(r.Int64N(reach)), r.IntN(2*by+1) - by}}
		}
		whole := func(a, b event) int {
			if c := byPlace(a, b); c != 0 {
				return c
			}
			return a.by - b.by
		}
		plain := slices.Clone(events)
		slices.SortFunc(plain, whole)
		sortEvents(events)
		assert.True(t, slices.IsSortedFunc(events, byPlace))
		slices.SortFunc(events, whole) // the order of what is at one place doesn't count
		assert.Equal(t, plain, events)
	}
}
