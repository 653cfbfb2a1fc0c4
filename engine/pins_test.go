package engine

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// pinnedProject is a random drawing with pins.
func pinnedProject(r *rand.Rand, n int) *project.Project {
	p := randomSprite(r, n%90) // the small ones
	s := &p.Sprites[0]
	s.Cell = 2000 + shape.Um(r.IntN(6000))
	p.Settings.Pins = []shape.Um{500, 800, 1000, 1500}[r.IntN(4)]
	p.Settings.Border = []shape.Um{0, 0, 2000}[r.IntN(3)]
	p.Settings.Edge = []project.Edge{project.Square, project.Chamfered, project.Round}[r.IntN(3)]
	if r.IntN(3) == 0 {
		s.Stack.Float = 2 + r.IntN(2)
	}
	return p
}

// Holes for pins are seen from nowhere in front, keep their distances, meet no join,
// tab, mark or number, and go through everything below what hides them: by areas,
// on random sprites.
func TestPinsAreHidden(t *testing.T) {
	rounds := 250
	if testing.Short() {
		rounds = 25
	}
	r := rand.New(rand.NewPCG(21, 22))
	found, none := 0, 0
	for n := range rounds {
		p := pinnedProject(r, n)
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		s := plan.Sprites[0]
		name := fmt.Sprintf("sprite %d", n)
		told := slices.ContainsFunc(plan.Findings, func(f inspect.Finding) bool { return f.Code == inspect.PinsNowhere })
		if len(s.Pins) == 0 {
			require.Equal(t, s.Layout.Heights > 1, told, name)
			require.Equal(t, s.bare, s.Layout, name)
			if s.Layout.Heights > 1 {
				none++
				require.False(t, pinsFitSomewhere(p, s), name)
			}
			continue
		}
		require.False(t, told, name)
		require.Len(t, s.Pins, 2, name)
		found++
		checkPins(t, p, s, cut.Parts(s.Layout, s.Numbers[:s.Parts()], cut.Rules(p, s.Stocks), s.Built, Options{}.each), name)
	}
	assert.Greater(t, found, rounds/10)
	assert.Greater(t, none, rounds/10)
}

func partsOf(l *outline.Layout) []*outline.Part {
	var out []*outline.Part
	for i := range l.Layers {
		for k := range l.Layers[i].Parts {
			out = append(out, &l.Layers[i].Parts[k])
		}
	}
	slices.SortFunc(out, func(a, b *outline.Part) int { return a.Index - b.Index })
	return out
}

func covers(r shape.Region, what shape.Rect) bool {
	return shape.FromRects([]shape.Rect{what}).Subtract(r).Empty()
}

func wider(r shape.Rect, d shape.Um) shape.Rect {
	return shape.Rect{Min: r.Min.Sub(shape.Point{X: d, Y: d}), Max: r.Max.Add(shape.Point{X: d, Y: d})}
}

func checkPins(t *testing.T, p *project.Project, s Sprite, pieces []cut.Piece, name string) {
	t.Helper()
	parts, was := partsOf(s.Layout), partsOf(s.bare)
	height := make([]int, len(parts))
	stock := make([]project.Stock, len(parts))
	for _, l := range s.Layout.Layers {
		for _, q := range l.Parts {
			height[q.Index], stock[q.Index] = l.Height, s.Stocks[l.Stock]
		}
	}
	regions := make([]shape.Region, len(parts))
	for i := range was {
		regions[i] = assemble.Inscribed(was[i].Outline)
	}
	holes := make([]int, len(parts))
	for _, pin := range s.Pins {
		w, h := pin.Hole.Size()
		require.Equal(t, [2]shape.Um{p.Settings.Pins, p.Settings.Pins}, [2]shape.Um{w, h}, name)
		through := 0
		for i := range parts {
			in := !shape.FromRects([]shape.Rect{pin.Hole}).Intersect(regions[i]).Empty()
			has := slices.Contains(pin.Parts, i)
			require.Equal(t, in && height[i] < height[pin.Under], has, "%s: part %d", name, i)
			if !has {
				continue
			}
			through++
			holes[i]++
			require.True(t, covers(regions[i], wider(pin.Hole, stock[i].LeastStrip)), "%s: part %d", name, i)
			clearOfLines(t, pieces[i], pin.Hole, name)
		}
		require.Equal(t, height[pin.Under]-1, through, name)
		// Nothing is seen, not even aslant by as much as it floats.
		back := cut.MarkBack
		if hh := height[pin.Under]; s.Built.Floats(hh) {
			back = max(back, s.Built.Gap(hh))
		}
		require.True(t, covers(regions[pin.Under], wider(pin.Hole, back)), name)
		for _, j := range s.Layout.Joins {
			if half := j.Side / 2; slices.Contains(pin.Parts, j.Part) || j.Part == pin.Under {
				box := shape.FromRects([]shape.Rect{wider(shape.Rect{Min: j.At, Max: j.At}, half)})
				require.True(t, box.Intersect(shape.FromRects([]shape.Rect{pin.Hole})).Empty(), name)
			}
		}
	}
	require.True(t, slices.Contains(holes, 2), name) // one part can't turn
	for i := range parts {
		require.Equal(t, holes[i], parts[i].Pins, name)
		require.Equal(t, was[i].Outline, parts[i].Bare(), name)
		require.Equal(t, was[i].Outline.Area()-shape.Um2(holes[i])*shape.Um2(p.Settings.Pins)*shape.Um2(p.Settings.Pins), parts[i].Outline.Area(), name)
		require.NoError(t, parts[i].Outline.Validate(), name)
	}
	// Each colour shows on as much as it did without pins.
	require.Equal(t, shownAreas(s.bare), shownAreas(s.Layout), name)
}

// shownAreas is the area on which each layer's stock shows, from above.
func shownAreas(l *outline.Layout) map[int]shape.Um2 {
	out := map[int]shape.Um2{}
	var above shape.Region
	for _, layer := range slices.Backward(l.Layers) {
		var own shape.Region
		for _, q := range layer.Parts {
			own = own.Union(assemble.Inscribed(q.Outline))
		}
		out[layer.Stock] += own.Subtract(above).Area()
		above = above.Union(own)
	}
	return out
}

// clearOfLines says that no mark, number or tab of a piece meets a hole.
func clearOfLines(t *testing.T, c cut.Piece, hole shape.Rect, name string) {
	t.Helper()
	near := wider(hole, cut.MarkWidth/2)
	line := func(a, b shape.Point) {
		box := shape.Rect{
			Min: shape.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, Max: shape.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)},
		}
		if a.X != b.X && a.Y != b.Y {
			return // strokes of numbers: their box is looked at as a whole
		}
		meets := box.Min.X < near.Max.X && near.Min.X < box.Max.X && box.Min.Y < near.Max.Y && near.Min.Y < box.Max.Y ||
			box.Min.X == box.Max.X && near.Min.X < box.Min.X && box.Min.X < near.Max.X && box.Min.Y < near.Max.Y && near.Min.Y < box.Max.Y ||
			box.Min.Y == box.Max.Y && near.Min.Y < box.Min.Y && box.Min.Y < near.Max.Y && box.Min.X < near.Max.X && near.Min.X < box.Max.X
		require.False(t, meets, "%s: a mark of %s", name, c.Number)
	}
	for _, m := range c.Places {
		for i := range m {
			line(m[i].Point, m[(i+1)%len(m)].Point)
		}
	}
	for _, m := range c.Ticks {
		for i := range m[1:] {
			line(m[i].Point, m[i+1].Point)
		}
	}
	if c.Label != nil {
		w, h := c.Label.Extent()
		box := shape.Rect{Min: c.Label.At.Sub(shape.Point{X: w / 2, Y: h / 2}), Max: c.Label.At.Add(shape.Point{X: w / 2, Y: h / 2})}
		both := shape.FromRects([]shape.Rect{box}).Intersect(shape.FromRects([]shape.Rect{near}))
		require.True(t, both.Empty(), "%s: the number of %s", name, c.Number)
	}
	for _, tab := range c.Tabs {
		require.LessOrEqual(t, tab.Contour, len(c.Part.Outline.Holes)-c.Part.Pins, "%s: a tab of %s", name, c.Number)
	}
}

// pinsFitSomewhere tries places a little apart, one after the other: the plain way.
func pinsFitSomewhere(p *project.Project, s Sprite) bool {
	parts := partsOf(s.bare)
	lifts := assemble.Lifts(p.Sprites[0].Stack, s.bare.Heights, s.Stocks)
	regions, strip, back, fits := make([]shape.Region, len(parts)), make([]shape.Um, len(parts)), make([]shape.Um, len(parts)), make([]bool, len(parts))
	for _, l := range s.bare.Layers {
		for _, q := range l.Parts {
			i := q.Index
			regions[i], strip[i], back[i] = assemble.Inscribed(q.Outline), s.Stocks[l.Stock].LeastStrip, cut.MarkBack
			if lift := lifts[l.Height-1]; lift.Floats() {
				back[i] = max(back[i], lift.Rise())
			}
			back[i] += cut.MarkWidth + 100
			fits[i] = 2*cut.HalfKerf(s.Stocks[l.Stock].Kerf) < p.Settings.Pins
			for _, j := range s.bare.Joins {
				if j.Part == i {
					regions[i] = regions[i].Subtract(shape.FromRects([]shape.Rect{wider(shape.Rect{Min: j.At, Max: j.At}, j.Side/2)}))
				}
			}
		}
	}
	half := (p.Settings.Pins + 1) / 2
	roots := map[int][]shape.Point{}
	for x := shape.Um(0); x < s.bare.Size.X; x += 1733 {
		for y := shape.Um(0); y < s.bare.Size.Y; y += 1733 {
			at := wider(shape.Rect{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x, Y: y}}, half+1)
		top:
			for _, top := range parts {
				if top.On < 0 || !covers(regions[top.Index], wider(at, back[top.Index])) {
					continue
				}
				root := top.On
				for i := top.On; i >= 0; i = parts[i].On {
					if !fits[i] || !covers(regions[i], wider(at, max(strip[i], back[i]))) {
						continue top
					}
					root = i
				}
				roots[root] = append(roots[root], shape.Point{X: x, Y: y})
				break
			}
		}
	}
	for root, list := range roots {
		w, h := parts[root].Bounds.Size()
		least := float64(max(max(w, h)/3, 4*p.Settings.Pins)) + 1
		for i, a := range list {
			for _, b := range list[:i] {
				d := a.Sub(b)
				if float64(d.X)*float64(d.X)+float64(d.Y)*float64(d.Y) >= least*least {
					return true
				}
			}
		}
	}
	return false
}
