package assemble_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/assemble"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

// random is a project of one sprite of patches, planned.
func random(t *testing.T, r *rand.Rand) (*project.Project, engine.Sprite) {
	t.Helper()
	p := projecttest.Cards(1+r.IntN(6), func(stock *project.Stock) { stock.Thickness = shape.Um(100 + r.IntN(2000)) })
	s := project.NewSprite("quay", 1+r.IntN(12), 1+r.IntN(12))
	s.Cell = 2000 + shape.Um(r.IntN(12000))
	s.Stack.Style = []project.Style{project.Fewest, project.Fewest, project.SideBySide, project.ByHand}[r.IntN(4)]
	if r.IntN(4) == 0 {
		p.Settings.Corners = project.Apart
	}
	if r.IntN(3) == 0 {
		p.Settings.Border = shape.Um(r.IntN(6000))
		p.Settings.Edge = []project.Edge{project.Square, project.Chamfered, project.Round}[r.IntN(3)]
	}
	projecttest.Patches(r, &s, p.Palette)
	p.Sprites = []project.Sprite{s}
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	return p, plan.Sprites[0]
}

// lifted is random lifts for a layout's heights.
func lifted(r *rand.Rand, l *outline.Layout) []assemble.Lift {
	lifts := make([]assemble.Lift, l.Heights)
	for i := range lifts {
		lifts[i] = assemble.Lift{Kind: assemble.Kind(r.IntN(3)), Thick: shape.Um(100 + r.IntN(3000))}
	}
	return lifts
}

func thicknesses(s engine.Sprite) []shape.Um {
	var out []shape.Um
	for _, st := range s.Stocks {
		out = append(out, st.Thickness)
	}
	return out
}

func rounds() int {
	if testing.Short() {
		return 30
	}
	return 160
}

func TestEveryPartOnceAndNothingBeneathWhatLies(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for n := range rounds() {
		_, s := random(t, r)
		plan := assemble.Build(s.Layout, assemble.Options{Thickness: thicknesses(s), Lifts: lifted(r, s.Layout)})
		require.Len(t, plan.Parts, s.Parts())
		shapes := byIndex(s.Layout)
		var placed []int
		for _, step := range plan.Steps {
			require.NotEmpty(t, step.Parts)
			for _, i := range step.Parts {
				p := plan.Parts[i]
				require.Equal(t, step.Stock, p.Stock)
				require.Equal(t, step.Height, p.Height)
				require.NotContains(t, placed, i, n)
				if p.On >= 0 {
					require.Contains(t, placed, p.On, n)
				}
				// In plan, too: whatever lies there already and overlaps is lower.
				for _, k := range placed {
					if overlap(shapes[i], shapes[k]) {
						require.Less(t, plan.Parts[k].Top, p.Under+1, "%d: part %d goes beneath part %d", n, i, k)
					}
				}
				placed = append(placed, i)
			}
		}
		require.Len(t, placed, len(plan.Parts))
	}
}

// overlap says whether two parts share area in plan. A raster of its own, so
// that the regions' algebra isn't its own judge; backers reach beyond the
// cells, so they are asked only where the other one is.
func overlap(a, b *outline.Part) bool {
	lo := shape.Point{X: max(a.Bounds.Min.X, b.Bounds.Min.X), Y: max(a.Bounds.Min.Y, b.Bounds.Min.Y)}
	hi := shape.Point{X: min(a.Bounds.Max.X, b.Bounds.Max.X), Y: min(a.Bounds.Max.Y, b.Bounds.Max.Y)}
	pa, pb := rings(a.Outline), rings(b.Outline)
	step := max(101, (hi.X-lo.X)/37, (hi.Y-lo.Y)/37)
	for y := lo.Y + 50; y < hi.Y; y += step {
		for x := lo.X + 50; x < hi.X; x += step {
			if inside(pa, x, y) && inside(pb, x, y) {
				return true
			}
		}
	}
	return false
}

func byIndex(l *outline.Layout) map[int]*outline.Part {
	out := map[int]*outline.Part{}
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			out[l.Layers[i].Parts[k].Index] = &l.Layers[i].Parts[k]
		}
	}
	return out
}

func rings(o shape.Outline) []shape.Ring {
	out := []shape.Ring{o.Outer.Flatten(1)}
	for _, h := range o.Holes {
		out = append(out, h.Flatten(1))
	}
	return out
}

// inside counts the edges that a ray to the right crosses.
func inside(rs []shape.Ring, x, y shape.Um) bool {
	in := false
	for _, ring := range rs {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y > y) != (b.Y > y) {
				at := float64(a.X) + float64(b.X-a.X)*float64(y-a.Y)/float64(b.Y-a.Y)
				in = in != (at > float64(x))
			}
		}
	}
	return in
}

// The cross-section over the middle of each cell adds up: what lies there, from
// the board up, leaves no gap but the lifts and ends at the highest face.
func TestTheCrossSectionAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	for n := range rounds() {
		_, s := random(t, r)
		plan := assemble.Build(s.Layout, assemble.Options{Thickness: thicknesses(s), Lifts: lifted(r, s.Layout)})
		highest := shape.Um(0)
		for row := range s.Layout.Rows {
			for col := range s.Layout.Cols {
				at := s.Layout.Grid.Add(shape.Point{
					X: shape.Um(col)*s.Layout.Cell + s.Layout.Cell/2, Y: shape.Um(row)*s.Layout.Cell + s.Layout.Cell/2,
				})
				z := shape.Um(0)
				for _, layer := range s.Layout.Layers {
					for _, part := range layer.Parts {
						if !inside(rings(part.Outline), at.X, at.Y) {
							continue
						}
						p := plan.Parts[part.Index]
						z += plan.Lifts[layer.Height-1].Rise()
						require.Equal(t, z, p.Under, n)
						z += s.Stocks[layer.Stock].Thickness
						require.Equal(t, z, p.Top, n)
					}
				}
				highest = max(highest, z)
			}
		}
		require.Equal(t, highest, plan.Total, n)
	}
}

// Where all stocks are equally thick, no part of a layer lies higher than
// another.
func TestEqualThicknessLiesLevel(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	uneven := 0
	for range rounds() {
		_, s := random(t, r)
		thick := thicknesses(s)
		lifts := lifted(r, s.Layout)
		mixed := assemble.Build(s.Layout, assemble.Options{Thickness: thick, Lifts: lifts})
		uneven += len(mixed.Uneven(s.Layout))
		for i := range thick {
			thick[i] = 300
		}
		level := assemble.Build(s.Layout, assemble.Options{Thickness: thick, Lifts: lifts})
		require.Empty(t, level.Uneven(s.Layout))
	}
	assert.Positive(t, uneven, "with mixed thicknesses some layers do")
}

// Pads and spacers show neither from the front nor from 45°: no edge of the part
// comes nearer than the gap is high, a millimetre at least. They lie on what is
// below, apart from one another, and hold the centre of area.
func TestPadsAndSpacersAreHiddenAndHold(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	pads, spacers, refused := 0, 0, 0
	for n := range rounds() {
		_, s := random(t, r)
		lifts := lifted(r, s.Layout)
		plan := assemble.Build(s.Layout, assemble.Options{Thickness: thicknesses(s), Lifts: lifts})
		shapes := byIndex(s.Layout)
		refused += len(plan.Refused)
		for i, p := range plan.Parts {
			lift := plan.Lifts[p.Height-1]
			require.Equal(t, lift.Kind == assemble.Foam, len(p.Pads) > 0, n)
			require.Equal(t, lift.Kind == assemble.Spacer, len(p.Spacers) > 0, n)
			what := fmt.Sprintf("round %d, part %d", n, i)
			var held []shape.Point
			for k, pad := range p.Pads {
				pads++
				w, h := pad.Size()
				require.GreaterOrEqual(t, min(w, h), 3*shape.Mm, what)
				hidden(t, shapes, p, pad, max(shape.Mm, lift.Thick), what)
				for _, other := range p.Pads[:k] {
					require.False(t, pad.Min.X < other.Max.X && other.Min.X < pad.Max.X && pad.Min.Y < other.Max.Y && other.Min.Y < pad.Max.Y, what)
				}
				held = append(held, pad.Min, pad.Max, shape.Point{X: pad.Min.X, Y: pad.Max.Y}, shape.Point{X: pad.Max.X, Y: pad.Min.Y})
			}
			for _, sp := range p.Spacers {
				spacers++
				require.NoError(t, sp.Validate(), what)
				for _, q := range shape.FromPolygons(sp.Polygon()).Rects() {
					hidden(t, shapes, p, q, max(shape.Mm, lift.Rise()), what)
				}
				held = append(held, sp.Outer.Ring()...)
			}
			if len(held) > 0 {
				holds(t, rings(shapes[i].Outline), held, what)
			}
		}
	}
	assert.Greater(t, pads, rounds())
	assert.Greater(t, spacers, rounds()/4)
	assert.Positive(t, refused)
}

// hidden requires that r lies within the part, back from all its edges, and
// within what the part rests on.
func hidden(t *testing.T, shapes map[int]*outline.Part, p assemble.Part, r shape.Rect, back shape.Um, what string) {
	t.Helper()
	clear := func(rs []shape.Ring, by shape.Um) {
		t.Helper()
		require.True(t, inside(rs, (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2), what)
		for _, ring := range rs {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				const pieces = 16 // of a slanted edge, whose extent is larger than it is
				for k := range shape.Um(pieces) {
					c := shape.Point{X: a.X + (b.X-a.X)*k/pieces, Y: a.Y + (b.Y-a.Y)*k/pieces}
					d := shape.Point{X: a.X + (b.X-a.X)*(k+1)/pieces, Y: a.Y + (b.Y-a.Y)*(k+1)/pieces}
					dx := max(min(c.X, d.X)-r.Max.X, r.Min.X-max(c.X, d.X), 0)
					dy := max(min(c.Y, d.Y)-r.Max.Y, r.Min.Y-max(c.Y, d.Y), 0)
					crosses := min(c.X, d.X) < r.Max.X && max(c.X, d.X) > r.Min.X && min(c.Y, d.Y) < r.Max.Y && max(c.Y, d.Y) > r.Min.Y
					require.False(t, crosses, what)
					require.GreaterOrEqual(t, math.Hypot(float64(dx), float64(dy)), float64(by), what)
				}
			}
		}
	}
	clear(rings(shapes[p.Index].Outline), back)
	if p.On >= 0 {
		clear(rings(shapes[p.On].Outline), 0)
	}
}

// holds requires that the centre of area lies within the hull of points: in no
// direction is it farther out than all of them.
func holds(t *testing.T, rs []shape.Ring, held []shape.Point, what string) {
	t.Helper()
	var area, cx, cy float64
	for _, ring := range rs { // the surveyor's formula; holes run the other way
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			cross := float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
			area += cross / 2
			cx += float64(a.X+b.X) * cross / 6
			cy += float64(a.Y+b.Y) * cross / 6
		}
	}
	cx, cy = cx/area, cy/area
	for k := range 720 {
		sin, cos := math.Sincos(float64(k) * math.Pi / 360)
		out := math.Inf(-1)
		for _, p := range held {
			out = max(out, float64(p.X)*cos+float64(p.Y)*sin)
		}
		require.LessOrEqual(t, cx*cos+cy*sin, out+250, what) // round edges are taken to 0.2 mm
	}
}
