package nest

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

type rectangleSet struct {
	name    string
	optimum shape.Um
	job     Job
}

// rectangleSets are read from testdata/published/rectangles.csv, which names
// its source. One unit is a millimetre; the strip is a sheet of its width and
// twice the optimal height.
func rectangleSets(t testing.TB) []rectangleSet {
	f, err := os.Open("../../testdata/published/rectangles.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var sets []rectangleSet
	for _, row := range rows {
		var v [5]shape.Um
		for i := 1; i < 5; i++ {
			n, err := strconv.Atoi(row[i])
			require.NoError(t, err)
			v[i] = shape.Um(n) * shape.Mm
		}
		if len(sets) == 0 || sets[len(sets)-1].name != row[0] {
			sets = append(sets, rectangleSet{name: row[0], optimum: v[2], job: Job{
				Supply: Supply{Sheets: []Sheets{{Size: Size{v[1], 2 * v[2]}}}},
			}})
		}
		s := &sets[len(sets)-1]
		s.job.Pieces = append(s.job.Pieces, Piece{ID: strconv.Itoa(len(s.job.Pieces)), Outline: box(v[3], v[4]), Copies: 1})
	}
	require.Len(t, sets, 7)
	return sets
}

// The published sets fill their strips exactly, so the optimum is known.
// Effort 3 is held to what is promised of effort 7, which searches 300 times as long.
func TestRectanglesComeCloseToTheirStrips(t *testing.T) {
	var sum float64
	for _, s := range rectangleSets(t) {
		n, err := Nest(s.job, 3, 2)
		require.NoError(t, err)
		require.Empty(t, judge(s.job, n))
		require.Len(t, n.Sheets, 1)
		over := float64(n.Sheets[0].Used.Max.Y)/float64(s.optimum) - 1
		t.Logf("%s: %d rectangles, %.2f %% over the optimum", s.name, len(s.job.Pieces), 100*over)
		assert.GreaterOrEqual(t, over, 0.0, s.name)
		assert.LessOrEqual(t, over, 0.08, s.name)
		sum += over
	}
	t.Logf("on average %.2f %%", 100*sum/7)
	assert.LessOrEqual(t, sum/7, 0.04)
}

func BenchmarkRectanglesEffort7(b *testing.B) {
	for _, s := range rectangleSets(b) {
		b.Run(s.name, func(b *testing.B) {
			for b.Loop() {
				n, err := Nest(s.job, 7, 2)
				require.NoError(b, err)
				b.ReportMetric(100*(float64(n.Sheets[0].Used.Max.Y)/float64(s.optimum)-1), "%over")
			}
		})
	}
}
