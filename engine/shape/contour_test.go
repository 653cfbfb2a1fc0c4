package shape

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// disc is a circle of four arcs about c.
func disc(c Point, r Um) Contour {
	arc := func(dx, dy Um) Vertex { return Vertex{c.Add(Point{dx * r, dy * r}), &Arc{Anticlockwise, c, r}} }
	return Contour{arc(1, 0), arc(0, 1), arc(-1, 0), arc(0, -1)}
}

// rounded is a rectangle w × h with corners of radius r.
func rounded(w, h, r Um) Contour {
	return Contour{
		{Point: Point{r, 0}}, {Point{w - r, 0}, &Arc{Anticlockwise, Point{w - r, r}, r}},
		{Point: Point{w, r}}, {Point{w, h - r}, &Arc{Anticlockwise, Point{w - r, h - r}, r}},
		{Point: Point{w - r, h}}, {Point{r, h}, &Arc{Anticlockwise, Point{r, h - r}, r}},
		{Point: Point{0, h - r}}, {Point{0, r}, &Arc{Anticlockwise, Point{r, r}, r}},
	}
}

func TestAreasAndLengthsOfArcs(t *testing.T) {
	half := Contour{{Point{1000, 0}, &Arc{Anticlockwise, Point{}, 1000}}, {Point: Point{-1000, 0}}}
	sixth := Contour{ // end point rounded: 866.03 is 866
		{Point: Point{}}, {Point{1000, 0}, &Arc{Anticlockwise, Point{}, 1000}}, {Point: Point{500, 866}},
	}
	for _, c := range []struct {
		name         string
		contour      Contour
		area, length float64 // exact, by the formulas of school
		tolerance    float64 // relative
	}{
		{"disc", disc(Point{3, 4}, 5000), math.Pi * 25e6, math.Pi * 10000, 1e-7},
		{"half disc", half, math.Pi * 5e5, math.Pi*1000 + 2000, 1e-6},
		{"sixth of a disc", sixth, math.Pi * 1e6 / 6, math.Pi*1000/3 + 2000, 5e-5},
		{"rounded", rounded(20000, 10000, 3000), 200e6 - (4-math.Pi)*9e6, 60000 - 24000 + math.Pi*6000, 1e-6},
	} {
		require.NoError(t, c.contour.Validate(), c.name)
		require.InEpsilon(t, c.area, float64(c.contour.Area()), c.tolerance, c.name)
		require.InDelta(t, c.length, float64(c.contour.Length()), max(0.5, c.length*c.tolerance), c.name)
		back := c.contour.Reversed()
		require.Equal(t, -c.contour.Area(), back.Area(), c.name)
		require.Equal(t, c.contour.Length(), back.Length(), c.name)
		require.Equal(t, c.contour.Bounds(), back.Bounds(), c.name)
		require.Equal(t, c.contour, back.Reversed(), c.name)
		moved := c.contour.Moved(Point{123456, -98765})
		require.Equal(t, c.contour.Area(), moved.Area(), c.name)
		for _, tolerance := range []Um{1, 10, 100} {
			flat := c.contour.Flatten(tolerance)
			// Chords lose at most the tolerance along the whole line, and the
			// rounding another µm.
			lost := float64(c.contour.Area() - flat.Area())
			require.LessOrEqual(t, math.Abs(lost), float64(c.contour.Length())*float64(tolerance+1), c.name)
		}
	}
}

func TestBoundsTakeInArcs(t *testing.T) {
	require.Equal(t, Rect{Point{-4997, -4996}, Point{5003, 5004}}, disc(Point{3, 4}, 5000).Bounds())
	// Two arcs whose ends are away from the extremes.
	lens := Contour{
		{Point{600, 800}, &Arc{Anticlockwise, Point{}, 1000}},
		{Point{-600, 800}, &Arc{Anticlockwise, Point{0, 1600}, 1000}},
	}
	require.Equal(t, Rect{Point{-600, 600}, Point{600, 1000}}, lens.Bounds())
	require.Positive(t, lens.Area())
}

func TestFlattenKeepsItsTolerance(t *testing.T) {
	for _, r := range []Um{50, 1000, 12345, 300000} {
		for _, tolerance := range []Um{1, 7, 50} {
			flat := disc(Point{}, r).Flatten(tolerance)
			for i, p := range flat {
				q := flat[(i+1)%len(flat)]
				mid := math.Hypot(float64(p.X+q.X)/2, float64(p.Y+q.Y)/2)
				require.InDelta(t, float64(r), math.Hypot(float64(p.X), float64(p.Y)), 0.71)
				require.GreaterOrEqual(t, mid, float64(r-tolerance)-0.71)
			}
		}
	}
}

func TestRingsAsContours(t *testing.T) {
	p := Polygon{Outer: Ring{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, Holes: []Ring{{{2, 2}, {2, 5}, {4, 5}, {4, 2}}}}
	o := p.Outline()
	require.NoError(t, p.Validate())
	require.NoError(t, o.Validate())
	require.Equal(t, p, o.Polygon())
	require.Equal(t, p, o.Flatten(1))
	require.Equal(t, p.Area(), o.Area())
	require.Equal(t, p.Perimeter(), o.Length())
	require.Equal(t, p.Bounds(), o.Bounds())
	require.Panics(t, func() { Outline{Outer: disc(Point{}, 5)}.Polygon() })
}

func TestValidateNamesTheRule(t *testing.T) {
	for _, c := range []struct {
		want string
		err  error
	}{
		{"at least 4", Ring{{0, 0}, {1, 0}, {1, 1}}.Validate()},
		{"no axis", Ring{{0, 0}, {4, 0}, {5, 5}, {0, 5}}.Validate()},
		{"twice in a row", Ring{{0, 0}, {4, 0}, {4, 0}, {4, 5}, {0, 5}}.Validate()},
		{"in one line", Ring{{0, 0}, {2, 0}, {4, 0}, {4, 5}, {0, 5}}.Validate()},
		{"touch", Ring{{0, 0}, {2, 0}, {2, 2}, {4, 2}, {4, 4}, {2, 4}, {2, 2}, {0, 2}}.Validate()},
		{"touch", Ring{{0, 0}, {9, 0}, {9, 3}, {5, 3}, {5, 0}, {3, 0}, {3, 3}, {0, 3}}.Validate()},
		{"wrong way", Polygon{Outer: Ring{{0, 0}, {0, 4}, {4, 4}, {4, 0}}}.Validate()},
		{"wrong way", Polygon{Outer: Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, Holes: []Ring{{{1, 1}, {2, 1}, {2, 2}, {1, 2}}}}.Validate()},
		{"outside", Polygon{Outer: Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, Holes: []Ring{{{6, 1}, {6, 2}, {7, 2}, {7, 1}}}}.Validate()},
		{"in hole", Polygon{Outer: Ring{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, Holes: []Ring{{{1, 1}, {1, 8}, {8, 8}, {8, 1}}, {{2, 2}, {2, 3}, {3, 3}, {3, 2}}}}.Validate()},
		{"touch", Polygon{Outer: Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, Holes: []Ring{{{0, 1}, {0, 2}, {2, 2}, {2, 1}}}}.Validate()},
		{"radius", Contour{{Point: Point{0, 0}}, {Point{9, 0}, &Arc{Anticlockwise, Point{9, 3}, 0}}, {Point: Point{9, 9}}}.Validate()},
		{"from its centre", Contour{{Point: Point{0, 0}}, {Point{90, 0}, &Arc{Anticlockwise, Point{90, 30}, 30}}, {Point: Point{90, 90}}}.Validate()},
		{"half turn", Contour{{Point{1000, 0}, &Arc{Clockwise, Point{}, 1000}}, {Point: Point{0, 1000}}}.Validate()},
		{"at least 2", Contour{{}}.Validate()},
		{"touch", Outline{Outer: rounded(2000, 2000, 500), Holes: []Contour{{{Point: Point{0, 1000}}, {Point: Point{900, 1100}}, {Point: Point{900, 900}}}}}.Validate()},
	} {
		require.ErrorContains(t, c.err, c.want)
	}
	require.NoError(t, rounded(2000, 2000, 500).Validate())
}

func TestPlaces(t *testing.T) {
	// An arrow, slanted edges included.
	r := Ring{{0, 0}, {10, 0}, {10, -5}, {20, 5}, {10, 15}, {10, 10}, {0, 10}}
	for p, want := range map[Point]Place{
		{5, 5}: Inside, {15, 5}: Inside, {19, 5}: Inside, {11, -3}: Inside,
		{0, 0}: On, {20, 5}: On, {15, 0}: On, {10, -2}: On, {3, 10}: On, {0, 7}: On,
		{-1, 0}: Outside, {21, 5}: Outside, {15, -1}: Outside, {5, 11}: Outside, {-3, 10}: Outside, {5, -5}: Outside,
	} {
		require.Equal(t, want, r.Where(p), "%v", p)
		require.Equal(t, want, r.Reversed().Where(p), "%v", p)
	}
	square := func(a, b Um) Ring { return Ring{{a, a}, {b, a}, {b, b}, {a, b}} }
	require.True(t, square(0, 9).Holds(square(0, 9)))
	require.True(t, square(0, 9).Holds(square(0, 5)))
	require.False(t, square(0, 5).Holds(square(0, 9)))
	require.False(t, square(0, 5).Holds(square(5, 9)))
	// All corners of the cross on the square, and the other way round.
	step := Ring{{0, 0}, {9, 0}, {9, 9}, {5, 9}, {5, 5}, {0, 5}}
	require.True(t, square(0, 9).Holds(step))
	require.False(t, step.Holds(Ring{{0, 5}, {5, 5}, {5, 9}, {0, 9}}))
	holed := Polygon{Outer: square(0, 9), Holes: []Ring{square(3, 6).Reversed()}}
	for p, want := range map[Point]Place{{1, 1}: Inside, {3, 4}: On, {4, 4}: Outside, {9, 9}: On, {10, 4}: Outside} {
		require.Equal(t, want, holed.Where(p), "%v", p)
	}
}
