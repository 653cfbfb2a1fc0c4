package route

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// Closed cuts begin on straight runs away from corners, cut what they cut
// before; lead-ins lie in the waste, clear of all cuts.
func TestBeginningsAndLeadIns(t *testing.T) {
	inner := shape.Rect{Min: shape.Point{X: -2000, Y: -2000}, Max: shape.Point{X: 200000, Y: 200000}}
	leads, moved := 0, 0
	for seed := range uint64(8) {
		rng := rand.New(rand.NewPCG(seed, 77))
		s, parent := nestedSheet(rng, 5, 4)
		s.Passes, s.End = 1+int(seed%3), AtStart
		s.Repeat = Repeat(seed % 2)
		r, err := Plan(s)
		require.NoError(t, err)
		was := r.Strokes
		r.Strokes = append([]Stroke(nil), was...)
		r.BeginOnRuns(s.Start, AtStart)
		r.LeadIns(s.Start, AtStart, 500, 100, inner, s.Loops)
		requireOrder(t, s, parent, r)
		var leadsSum, travel shape.Um
		here := s.Start
		for i, st := range r.Strokes {
			require.Equal(t, was[i].Length(), st.Length())
			travel += length(here, st.From())
			here = st.Finish()
			if !st.Closed {
				require.Nil(t, st.Lead)
				continue
			}
			require.Equal(t, was[i].Path.Ring().Area(), st.Path.Ring().Area())
			if st.Begin() != was[i].Begin() {
				moved++
			}
			a := st.Path
			before, after := length(a[len(a)-1].Point, a[0].Point), length(a[0].Point, a[1].Point)
			require.GreaterOrEqual(t, min(before, after), shape.Um(400), "off the corners")
			if st.Lead == nil {
				continue
			}
			require.Zero(t, st.Pass)
			leads++
			leadsSum += length(*st.Lead, st.Begin())
			holds := 0
			for _, l := range s.Loops {
				ring := l.Contour.Ring()
				if ring.Where(*st.Lead) == shape.Inside {
					holds++
				}
				for e, v := range ring {
					w := ring[(e+1)%len(ring)]
					d := boxGap(shape.Ring{v, w}.Bounds(), shape.Ring{*st.Lead, st.Begin()}.Bounds())
					own := min(v.X, w.X) <= st.Begin().X && st.Begin().X <= max(v.X, w.X) && min(v.Y, w.Y) <= st.Begin().Y && st.Begin().Y <= max(v.Y, w.Y)
					require.True(t, own || d >= 400, "clear of all else")
				}
			}
			require.Zero(t, holds%2, "in the waste")
		}
		travel += length(here, s.Start)
		assert.Equal(t, leadsSum, r.Leads)
		assert.Equal(t, travel, r.Travel)
	}
	assert.Greater(t, leads, 30)
	assert.Greater(t, moved, 30)
}

// Worked by hand: 0.5 mm of lead-in, a square of 10 mm begun in the middle of
// an edge; at 10 mm/s and 1000 mm/s² a move takes s/v + v/a. The lead-in 0.06 s,
// half edges 0.51 s each, three edges 1.01 s each; the way there, 10 mm at
// 100 mm/s, 0.2 s, and from the line back 10.5 mm, 0.205 s.
func TestTimeOfALeadIn(t *testing.T) {
	from := shape.Point{X: 10000}
	s := Stroke{
		Path: shape.Contour{
			{Point: shape.Point{X: 10500}}, {Point: shape.Point{X: 10500, Y: -5000}}, {Point: shape.Point{X: 20500, Y: -5000}},
			{Point: shape.Point{X: 20500, Y: 5000}}, {Point: shape.Point{X: 10500, Y: 5000}},
		},
		Closed: true, Lead: &from,
	}
	m := Motion{Cut: 10 * shape.Mm, Mark: shape.Mm, Travel: 100 * shape.Mm, Accel: 1000 * shape.Mm}
	want := 60 + 2*510 + 3*1010 + 200 + 205
	assert.InDelta(t, time.Duration(want)*time.Millisecond, Route{Strokes: []Stroke{s}}.Estimate(shape.Point{}, AtStart, m), float64(time.Millisecond))
}

func TestNoLeadInWhereThereIsNoRoom(t *testing.T) {
	s := Sheet{Loops: []Loop{{Contour: square(0, 0, 5000)}, {Contour: square(5300, 0, 5000)}, {Contour: square(20000, 20000, 700)}}}
	r, err := Plan(s)
	require.NoError(t, err)
	r.BeginOnRuns(s.Start, Anywhere)
	all := shape.Rect{Min: shape.Point{X: -9000, Y: -9000}, Max: shape.Point{X: 99000, Y: 99000}}
	r.LeadIns(s.Start, Anywhere, 500, 100, all, s.Loops)
	for _, st := range r.Strokes {
		if st.Source == 2 {
			assert.Nil(t, st.Lead, "edges of 0.7 mm are no runs")
			assert.Contains(t, []shape.Um{20000, 20700}, st.Begin().X)
		}
	}
	r.LeadIns(s.Start, Anywhere, 500, 100, shape.Rect{Max: shape.Point{X: 99000, Y: 99000}}, s.Loops)
	for _, st := range r.Strokes {
		if st.Lead != nil {
			assert.True(t, st.Lead.X >= 0 && st.Lead.Y >= 0, "within the margins: %v", *st.Lead)
		}
	}
}

// Two squares share a side, so that one is cut as a whole and the other as an open
// line: a lead-in onto the shared side would burn into the neighbour.
func TestNoLeadInThroughTheNeighbourOnASharedLine(t *testing.T) {
	all := shape.Rect{Min: shape.Point{X: -9000, Y: -9000}, Max: shape.Point{X: 99000, Y: 99000}}
	leads := 0
	for _, start := range []shape.Point{{X: 5000, Y: 2500}, {X: -9000, Y: 2500}, {X: 90000, Y: 2500}, {X: 5000, Y: 90000}} {
		s := Sheet{Loops: []Loop{{Contour: square(0, 0, 5000)}, {Contour: square(5000, 0, 5000)}}, Start: start}
		r, err := Plan(s)
		require.NoError(t, err)
		r.BeginOnRuns(s.Start, Anywhere)
		r.LeadIns(s.Start, Anywhere, 500, 100, all, s.Loops)
		for _, st := range r.Strokes {
			if st.Lead == nil {
				continue
			}
			leads++
			for _, l := range s.Loops {
				assert.NotEqual(t, shape.Inside, l.Contour.Ring().Where(*st.Lead))
			}
		}
	}
	assert.Positive(t, leads)
}
