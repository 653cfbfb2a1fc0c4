package route

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

type instance struct {
	name    string
	optimum shape.Um
	nodes   []shape.Point
}

// instances are read from testdata/published/tsplib.csv, which names its source.
func instances(t testing.TB) []instance {
	f, err := os.Open("../../testdata/published/tsplib.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	number := func(s string) shape.Um {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		require.Equal(t, float64(shape.Um(v)), v, "coordinates are whole")
		return shape.Um(v)
	}
	var out []instance
	for _, row := range rows {
		if len(out) == 0 || out[len(out)-1].name != row[0] {
			out = append(out, instance{name: row[0], optimum: number(row[1])})
		}
		in := &out[len(out)-1]
		in.nodes = append(in.nodes, shape.Point{X: number(row[3]), Y: number(row[4])})
	}
	require.Len(t, out, 4)
	return out
}

// points is an instance as contours of one point each: the first is where the
// machine starts and comes back to.
func (in instance) points() Sheet {
	s := Sheet{Start: in.nodes[0], End: AtStart}
	for _, p := range in.nodes[1:] {
		s.Loops = append(s.Loops, Loop{Contour: shape.Contour{{Point: p}}})
	}
	return s
}

func TestTravelIsCloseToThePublishedOptimum(t *testing.T) {
	for _, in := range instances(t) {
		t.Run(in.name, func(t *testing.T) {
			r, err := Plan(in.points())
			require.NoError(t, err)
			require.Len(t, r.Strokes, len(in.nodes)-1)
			over := float64(r.Travel)/float64(in.optimum) - 1
			t.Logf("%d, optimum %d (%.2f %% over), floor %d", r.Travel, in.optimum, 100*over, r.Floor)
			assert.GreaterOrEqual(t, r.Travel, in.optimum, "nothing is shorter than the optimum")
			assert.LessOrEqual(t, over, 0.03)
			assert.LessOrEqual(t, r.Floor, in.optimum)
		})
	}
}
