package route

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// thousand is a sheet of about a thousand parts, a third of them with holes.
func thousand() (Sheet, []int) {
	return nestedSheet(rand.New(rand.NewPCG(1000, 1)), 33, 33)
}

// nearestFirstVertex is the textbook order: always to the nearest contour
// that may come next, each begun (and, closed, ended) at its first vertex;
// lines between tabs one after the other.
func nearestFirstVertex(s Sheet, parent []int) shape.Um {
	waits := make([]int, len(parent))
	for _, p := range parent {
		if p >= 0 {
			waits[p]++
		}
	}
	done := make([]bool, len(parent))
	var sum shape.Um
	here := s.Start
	for range parent {
		best, far, lines := -1, shape.Um(0), []shape.Contour(nil)
		for i, l := range s.Loops {
			if done[i] || waits[i] > 0 {
				continue
			}
			ls := []shape.Contour{append(append(shape.Contour{}, l.Contour...), l.Contour[0])}
			if len(l.Tabs) > 0 {
				ls = openLines(l.Contour, l.Tabs)
			}
			if d := length(here, ls[0][0].Point); best < 0 || d < far {
				best, far, lines = i, d, ls
			}
		}
		for _, l := range lines {
			sum += length(here, l[0].Point)
			here = l[len(l)-1].Point
		}
		done[best] = true
		if p := parent[best]; p >= 0 {
			waits[p]--
		}
	}
	return sum
}

func TestTravelOfAThousandParts(t *testing.T) {
	s, parent := thousand()
	require.Greater(t, len(s.Loops), 1000)
	r, err := Plan(s)
	require.NoError(t, err)
	requireOrder(t, s, parent, r)
	plain := nearestFirstVertex(s, parent)
	t.Logf("%d contours: travel %.3f m, nearest neighbour from first vertices %.3f m (%.1f %% less), floor %.3f m (%.2f times)",
		len(s.Loops), float64(r.Travel)/1e6, float64(plain)/1e6, 100*(1-float64(r.Travel)/float64(plain)),
		float64(r.Floor)/1e6, float64(r.Travel)/float64(r.Floor))
	assert.LessOrEqual(t, float64(r.Travel), 0.8*float64(plain))
}

func BenchmarkPlan1000(b *testing.B) {
	s, _ := thousand()
	for b.Loop() {
		r, err := Plan(s)
		require.NoError(b, err)
		b.ReportMetric(float64(r.Travel)/float64(r.Floor), "travel/floor")
	}
}
