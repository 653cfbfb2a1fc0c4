package nest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// rounds is a number of rounds, a tenth where tests are to be short.
func rounds(n int) int {
	if testing.Short() {
		return max(1, n/10)
	}
	return n
}

func TestNothingOverlapsNothingIsLost(t *testing.T) {
	for seed := range uint64(rounds(120)) {
		rng := rand.New(rand.NewPCG(seed, 1))
		j := randomJob(rng)
		s, err := Start(j)
		require.NoError(t, err, "seed %d", seed)
		first := s.Best()
		require.Empty(t, judge(j, first), "seed %d, first answer", seed)
		s.Improve(1, 2)
		best := s.Best()
		require.Empty(t, judge(j, best), "seed %d, after a round", seed)
		if len(best.Unplaced) == len(first.Unplaced) && len(best.Apart) == len(first.Apart) {
			assert.LessOrEqual(t, sheetsFrom(best), sheetsFrom(first), "seed %d", seed)
		}
		checkTogether(t, j, best, seed)
	}
}

// sheetsFrom counts the full sheets used.
func sheetsFrom(n Nesting) int {
	c := 0
	for _, s := range n.Sheets {
		if s.Origin == FromSheets {
			c++
		}
	}
	return c
}

// checkTogether wants each group on one sheet, copy by copy, or in Apart.
func checkTogether(t *testing.T, j Job, n Nesting, seed uint64) {
	t.Helper()
	apart := map[Apart]bool{}
	for _, a := range n.Apart {
		apart[a] = true
	}
	on := map[Apart]int{}
	for _, p := range n.Placements {
		g := Apart{j.Pieces[p.Piece].Together, p.Copy}
		if g.Together == "" || apart[g] {
			continue
		}
		if sheet, ok := on[g]; ok {
			require.Equal(t, sheet, p.Sheet, "seed %d: %v lies on two sheets and isn't reported", seed, g)
		}
		on[g] = p.Sheet
	}
}

func TestImprovingNeverMakesItWorse(t *testing.T) {
	for seed := range uint64(rounds(15)) {
		j := randomJob(rand.New(rand.NewPCG(seed, 2)))
		s, err := Start(j)
		require.NoError(t, err)
		for range 3 {
			before := s.best.cost
			better := s.Improve(1, 1)
			c := s.best.cost.compare(before)
			require.LessOrEqual(t, c, 0, "seed %d", seed)
			require.Equal(t, c < 0, bool(better), "seed %d", seed)
		}
	}
}

func TestTheSameAnswerWithAnyNumberOfWorkers(t *testing.T) {
	for seed := range uint64(rounds(8)) {
		j := randomJob(rand.New(rand.NewPCG(seed, 3)))
		one, err := Nest(j, 1, 1)
		require.NoError(t, err)
		three, err := Nest(j, 1, 3)
		require.NoError(t, err)
		require.Equal(t, one, three, "seed %d", seed)
	}
}

func TestHeldPlacementsStay(t *testing.T) {
	for seed := range uint64(rounds(30)) {
		rng := rand.New(rand.NewPCG(seed, 4))
		j := randomJob(rng)
		before, err := Nest(j, 0, 1)
		require.NoError(t, err)
		for _, p := range before.Placements {
			if rng.IntN(2) == 0 {
				j.Fixed = append(j.Fixed, p)
			}
		}
		n, err := Nest(j, 1, 2)
		require.NoError(t, err)
		require.Empty(t, judge(j, n), "seed %d", seed)
		require.Empty(t, n.Released, "seed %d", seed)
		for _, f := range j.Fixed {
			require.Contains(t, n.Placements, f, "seed %d", seed)
		}
		checkTogether(t, j, n, seed)
	}
}

func TestPlacementsThatDontHoldAreReleased(t *testing.T) {
	j := Job{
		Pieces: []Piece{{ID: "a", Outline: box(10_000, 10_000), Copies: 5, Turns: AsDrawn}},
		Supply: Supply{Sheets: []Sheets{{Size{50_000, 50_000}, 2}}, Margins: Even(5000)},
		Gap:    1000,
		Fixed: []Placement{
			{Copy: 0, At: shape.Point{X: 5000, Y: 5000}},
			{Copy: 1, At: shape.Point{X: 15_999, Y: 5000}},
			{Copy: 2, At: shape.Point{X: 35_001, Y: 5000}},
			{Copy: 3, At: shape.Point{X: 5000, Y: 5000}, Sheet: 2},
			{Copy: 4, At: shape.Point{X: 16_000, Y: 5000}, Turn: 1},
		},
	}
	n, err := Nest(j, 0, 1)
	require.NoError(t, err)
	assert.Empty(t, judge(j, n))
	assert.Equal(t, []Released{
		{j.Fixed[1], TooClose}, {j.Fixed[2], OutsideSheet}, {j.Fixed[3], NoSuchSheet}, {j.Fixed[4], TurnedWrong},
	}, n.Released)
	assert.Equal(t, j.Fixed[0], n.Placements[0])
	assert.Len(t, n.Placements, 5)
}
