package route

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Small ones first: ranks never fall, but where something inside has a higher
// one; inner before outer holds all the same.
func TestRanksComeInOrder(t *testing.T) {
	raised := 0
	for seed := range uint64(10) {
		rng := rand.New(rand.NewPCG(seed, 3))
		s, parent := nestedSheet(rng, 5, 4)
		for i := range s.Loops {
			s.Loops[i].Rank = rng.IntN(3)
		}
		s.Passes, s.Repeat = 1+int(seed%2), Repeat(seed/2%2)
		r, err := Plan(s)
		require.NoError(t, err)
		requireOrder(t, s, parent, r)
		rank := make([]int, len(s.Loops)) // raised by what lies inside
		for i, l := range s.Loops {
			for p := i; p >= 0; p = parent[p] {
				rank[p] = max(rank[p], l.Rank)
			}
		}
		last := map[int]int{}
		for _, st := range r.Strokes {
			round := 0
			if s.Repeat == WholeSheet {
				round = st.Pass
			}
			require.GreaterOrEqual(t, rank[st.Source], last[round])
			last[round] = rank[st.Source]
			if rank[st.Source] > s.Loops[st.Source].Rank {
				raised++
			}
		}
	}
	assert.Positive(t, raised)
}
