package shape

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"
)

// shapelyCase and shapelyAnswer are testdata/shapely_buffer.py's.
type shapelyCase struct {
	Region [][]Ring `json:"region"`
	D      Um       `json:"d"`
	Join   string   `json:"join"`
	Ours   [][]Ring `json:"ours"`
}

type shapelyAnswer struct {
	Area    float64 `json:"area"`
	Pieces  int     `json:"pieces"`
	Holes   int     `json:"holes"`
	Differs float64 `json:"differs"`
	Near    float64 `json:"near"`
}

// MarshalJSON writes a point as [x, y].
func (p Point) MarshalJSON() ([]byte, error) { return json.Marshal([2]Um{p.X, p.Y}) }

func askShapely(t *testing.T, cases []shapelyCase) []shapelyAnswer {
	t.Helper()
	in, err := json.Marshal(cases)
	require.NoError(t, err)
	cmd := exec.Command("/usr/bin/python3", "testdata/shapely_buffer.py")
	cmd.Stdin = bytes.NewReader(in)
	var out, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &stderr
	require.NoError(t, cmd.Run(), "this check needs the Debian package python3-shapely: %s", stderr.String())
	var answers []shapelyAnswer
	require.NoError(t, json.Unmarshal(out.Bytes(), &answers))
	require.Len(t, answers, len(cases))
	return answers
}

func ringsOf(ps []Polygon) [][]Ring {
	out := make([][]Ring, len(ps))
	for i, p := range ps {
		out[i] = append([]Ring{p.Outer}, p.Holes...)
	}
	return out
}

// randomCells is a region of random cells, connected loosely.
func randomCells(rng *rand.Rand, w, h int, cell Um, fill float64) Region {
	var rects []Rect
	for y := range h {
		for x := range w {
			if rng.Float64() < fill {
				p := Point{Um(x) * cell, Um(y) * cell}
				rects = append(rects, Rect{p, p.Add(Point{cell, cell})})
			}
		}
	}
	return FromRects(rects)
}

// TestGrowAndShrinkAreShapelysMitredBuffer: Shapely (GEOS) with mitred joins
// grows and shrinks axis-parallel polygons with square corners as we do.
func TestGrowAndShrinkAreShapelysMitredBuffer(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	var cases []shapelyCase
	var ours []Region
	for i := range 150 {
		cell := Um(1000 + 7*i)
		// Not a simple fraction of the cell, so that nothing touches by
		// chance: there Shapely's rounding would decide.
		d := cell*Um(rng.IntN(160)-80)/100 + 1
		r := randomCells(rng, 1+rng.IntN(9), 1+rng.IntN(9), cell, 0.3+0.5*rng.Float64()).Grow(3)
		grown := r.Grow(d)
		ours = append(ours, grown)
		cases = append(cases, shapelyCase{ringsOf(r.Polygons(BySides)), d, "mitre", ringsOf(grown.Polygons(BySides))})
	}
	for i, a := range askShapely(t, cases) {
		require.InDelta(t, a.Area, float64(ours[i].Area()), 1, "case %d", i)
		require.InDelta(t, 0, a.Differs, 1, "case %d", i)
		ps := ours[i].Polygons(BySides)
		holes := 0
		for _, p := range ps {
			holes += len(p.Holes)
		}
		require.Equal(t, [2]int{a.Pieces, a.Holes}, [2]int{len(ps), holes}, "case %d", i)
	}
}

// TestRoundBorderIsShapelysRoundBuffer: Shapely's arcs are 256 chords to a
// quarter turn, inside ours by at most d·(1−cos(π/1024)), under 1/200,000 of d.
func TestRoundBorderIsShapelysRoundBuffer(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	var cases []shapelyCase
	var ours [][]Outline
	for i := range 300 {
		cell := Um(1000 + 13*i)
		d := cell*Um(1+rng.IntN(250))/100 + 1
		r := randomCells(rng, 1+rng.IntN(9), 1+rng.IntN(9), cell, 0.1+0.6*rng.Float64()).Grow(2)
		if r.Empty() {
			continue
		}
		border := r.Border(d, RoundCorners)
		var flat []Polygon
		for _, o := range border {
			require.NoError(t, o.Validate(), "case %d", i)
			flat = append(flat, o.Flatten(1))
		}
		ours = append(ours, border)
		cases = append(cases, shapelyCase{ringsOf(r.Polygons(BySides)), d, "round", ringsOf(flat)})
	}
	for i, a := range askShapely(t, cases) {
		holes, area, length := 0, Um2(0), Um(0)
		for _, o := range ours[i] {
			holes += len(o.Holes)
			area += o.Area()
			length += o.Length()
		}
		require.Equal(t, [2]int{a.Pieces, a.Holes}, [2]int{len(ours[i]), holes}, "case %d", i)
		require.LessOrEqual(t, math.Abs(float64(area)-a.Area), float64(length), "case %d", i)
		// Only at the tips of sharp notches, whose ends are rounded, may the
		// two be farther apart than 2 µm.
		require.LessOrEqual(t, a.Near, 100.0, "case %d", i)
	}
}
