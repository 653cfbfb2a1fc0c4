package engine

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// sheetedProject is a project of small noisy sprites in three cards with random
// settings of everything that sheets depend on.
func sheetedProject(seed uint64) *project.Project {
	r := rand.New(rand.NewPCG(seed, 5))
	var pictures []string
	for range 1 + r.IntN(3) {
		w, h, picture := 1+r.IntN(12), 1+r.IntN(12), ""
		last := byte('k')
		for y := range h {
			for x := range w {
				if r.IntN(3) == 0 || x == 0 && y == 0 {
					last = "krw..kK"[r.IntN(7)]
				}
				picture += string(last)
			}
			picture += "\n"
		}
		pictures = append(pictures, picture)
	}
	p := drawn(pictures...)
	for i := range p.Sprites {
		p.Sprites[i].Cell = []shape.Um{2000, 3000, 3333, 5000}[r.IntN(4)]
		p.Sprites[i].Copies = 1 + r.IntN(3)
		if r.IntN(4) == 0 {
			p.Sprites[i].Stack.Style = project.SideBySide
		}
		p.Sprites[i].Stack.Float = []int{0, 0, 2, 3}[r.IntN(4)]
		p.Sprites[i].Stack.FloatBy = []shape.Um{1000, 700}[r.IntN(2)]
	}
	set := &p.Settings
	set.SheetW, set.SheetH = shape.Um(60+r.IntN(150))*shape.Mm, shape.Um(60+r.IntN(150))*shape.Mm
	set.Margin, set.Gap, set.Effort = shape.Um(r.IntN(8000)), shape.Um(r.IntN(2500)), 0
	kerf := shape.Um(2 * r.IntN(150))
	set.Kerf = &kerf
	set.Hold = []project.Hold{project.Tabs, project.Light}[r.IntN(2)]
	set.Border = []shape.Um{0, 0, 1500}[r.IntN(3)]
	set.Corners = []project.Corners{project.Join, project.Join, project.Apart}[r.IntN(3)]
	for i := range p.Stocks {
		p.Stocks[i].Face = []project.Face{"", project.FaceDown}[r.IntN(2)]
	}
	return p
}

func region(o shape.Outline) shape.Region { return shape.FromPolygons(o.Polygon()) }

// Every part is there once per copy, within the margin, the gap from all
// others; moved back by half the kerf, its cut line is the finished shape. What
// has no sheet is told by a finding that says why.
func TestSheetsLoseNothing(t *testing.T) {
	rounds := uint64(20)
	if testing.Short() {
		rounds = 4
	}
	placed := 0
	for seed := range rounds {
		p := sheetedProject(seed)
		require.NoError(t, p.Validate())
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		require.NoError(t, PlanSheets(p, plan, Options{}))
		s := plan.Sheets
		want := 0
		for _, sp := range plan.Sprites {
			want += sp.Parts() * p.Sprites[sp.Index].Copies
		}
		require.Len(t, s.Parts, want, "seed %d", seed)
		codes := map[inspect.Code]bool{}
		for _, f := range plan.Findings {
			codes[f.Code] = true
		}
		once := map[string]int{}
		for i, part := range s.Parts {
			once[fmt.Sprint(part.Sprite, part.Copy, part.Piece.Number)]++
			if part.Sheet < 0 {
				assert.True(t, codes[inspect.KerfCloses] || codes[inspect.PartTooLarge], "seed %d: part %d has no sheet and nothing says why", seed, i)
				continue
			}
			placed++
			sheet := s.List[part.Sheet]
			half := cut.HalfKerf(sheet.Kerf)
			if sheet.Face == project.FaceUp { // else the mirror image
				assert.True(t, congruent(region(part.Line).Shrink(half), region(part.Piece.Part.Outline)), "seed %d, part %d", seed, i)
			}
			assert.True(t, region(part.Piece.Line).Shrink(half).Equal(region(part.Piece.Part.Outline)), "seed %d, part %d", seed, i)
			assert.Equal(t, region(part.Piece.Line), region(part.Piece.Part.Outline).Grow(half), "seed %d, part %d", seed, i)
		}
		for k, n := range once {
			assert.Equal(t, 1, n, k)
		}
		for _, sheet := range s.List {
			inner := shape.FromRects([]shape.Rect{{
				Min: shape.Point{X: p.Settings.Margin, Y: p.Settings.Margin},
				Max: shape.Point{X: sheet.Size.Width - p.Settings.Margin, Y: sheet.Size.Height - p.Settings.Margin},
			}})
			var taken shape.Region
			for _, i := range sheet.Placed {
				o := region(s.Parts[i].Line)
				assert.True(t, o.Subtract(inner).Empty(), "seed %d: part %d lies in the margin", seed, i)
				assert.True(t, o.Intersect(taken).Empty(), "seed %d: part %d overlaps another", seed, i)
				assert.True(t, apart(o, taken, p.Settings.Gap), "seed %d: part %d is nearer than the gap", seed, i)
				taken = taken.Union(o)
			}
			checkRoute(t, p, s, sheet)
		}
	}
	assert.Greater(t, placed, 50)
}

// apart says whether no point of a is nearer to b than the gap along both axes.
func apart(a, b shape.Region, gap shape.Um) bool {
	if gap == 0 {
		return true
	}
	// Two closed regions at a distance of exactly the gap meet in no area when
	// one of them is grown by it.
	return a.Grow(gap).Intersect(b).Empty()
}

// congruent says whether one region is the other, turned by quarters and moved.
func congruent(a, b shape.Region) bool {
	for range 4 {
		if a.Moved(shape.Point{X: -a.Bounds().Min.X, Y: -a.Bounds().Min.Y}).Equal(b.Moved(shape.Point{X: -b.Bounds().Min.X, Y: -b.Bounds().Min.Y})) {
			return true
		}
		var rects []shape.Rect
		for _, r := range a.Rects() {
			rects = append(rects, shape.Rect{Min: shape.Point{X: -r.Max.Y, Y: r.Min.X}, Max: shape.Point{X: -r.Min.Y, Y: r.Max.X}})
		}
		a = shape.FromRects(rects)
	}
	return false
}

// checkRoute holds that the strokes are the cut lines less the tabs, inner
// before outer, marks first.
func checkRoute(t *testing.T, p *project.Project, s *Sheets, sheet Sheet) {
	t.Helper()
	seen := map[int]shape.Um{}
	outerDone := map[int]bool{}
	cutting := false
	for _, st := range sheet.Route.Strokes {
		if st.Kind == route.Marking {
			assert.False(t, cutting, "marks come first")
			continue
		}
		cutting = true
		l := sheet.Loops[st.Source]
		seen[l.Part] += st.Length()
		if l.Inner {
			assert.False(t, outerDone[l.Part], "holes before the outline around them")
		} else {
			outerDone[l.Part] = true
		}
	}
	for _, i := range sheet.Placed {
		part := s.Parts[i]
		want := part.Line.Length()
		for _, tab := range part.Piece.Tabs {
			want -= tab.To - tab.From
			assert.Equal(t, project.UsualTab+sheet.Kerf, tab.To-tab.From, "what stands is the tab's width")
		}
		if p.Settings.Gap > 0 {
			assert.Equal(t, want, seen[i])
		}
	}
}

// pieces are all parts, one copy, without sheets.
func pieces(p *project.Project, plan *Planned) []Part {
	var out []Part
	for i, sp := range plan.Sprites {
		list := cut.Parts(sp.Layout, sp.Numbers[:sp.Parts()], cut.Rules(p, sp.Stocks), sp.Built, Options{}.each)
		for k := range list {
			out = append(out, Part{Sprite: i, Piece: &list[k]})
		}
	}
	return out
}

// Tabs keep off corners and joins; small parts have one, others two or more.
func TestTabsOfParts(t *testing.T) {
	tabs := 0
	for seed := range uint64(40) {
		p := sheetedProject(seed)
		p.Settings.Hold = project.Tabs
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		for _, part := range pieces(p, plan) {
			c := part.Piece
			if len(c.Faults) > 0 {
				continue
			}
			w, h := c.Part.Bounds.Size()
			outer := 0
			for _, tab := range c.Tabs {
				line := c.Loops()[tab.Contour]
				a, b := line[tab.Edge].Point, line[(tab.Edge+1)%len(line)].Point
				d := b.Sub(a)
				n := max(d.X, -d.X, d.Y, -d.Y)
				half := cut.HalfKerf(*p.Settings.Kerf)
				// 0.3 mm of straight finished edge on both sides; the finished
				// edge is shorter or longer than the cut by half a kerf an end.
				assert.GreaterOrEqual(t, tab.From, 300-half)
				assert.LessOrEqual(t, tab.To, n-300+half)
				at := func(u shape.Um) shape.Point { return a.Add(shape.Point{X: d.X / n * u, Y: d.Y / n * u}) }
				for _, j := range plan.Sprites[part.Sprite].Layout.Joins {
					if j.Part == c.Part.Index {
						for _, u := range []shape.Um{tab.From, (tab.From + tab.To) / 2, tab.To} {
							q := at(u).Sub(j.At)
							assert.False(t, max(q.X, -q.X, q.Y, -q.Y) <= j.Side/2, "a tab in a join")
						}
					}
				}
				if tab.Contour == 0 {
					outer++
				}
				tabs++
			}
			switch {
			case max(w, h) < 4*shape.Mm:
				assert.LessOrEqual(t, outer, 1)
			case !c.Loose:
				assert.GreaterOrEqual(t, outer, 2)
			}
			if outer == 0 {
				assert.True(t, c.Loose)
			}
		}
	}
	assert.Greater(t, tabs, 100)
}

// All marks on parts, widened to the line's width, lie within what the parts
// on top cover (their joins, which may hang free, not counted) less half a
// millimetre, or less the foam that lifts them, which get their corners ticked
// only: by area, exactly; slanted strokes of letters as their boxes.
func TestMarksAreHidden(t *testing.T) {
	marks, labels, ticks := 0, 0, 0
	for seed := range uint64(60) {
		p := sheetedProject(seed)
		for i := range p.Stocks {
			p.Stocks[i].Face = project.FaceUp
		}
		plan, err := Plan(p, Options{})
		require.NoError(t, err)
		for _, part := range pieces(p, plan) {
			c, l := part.Piece, plan.Sprites[part.Sprite].Layout
			var cover shape.Region // of the marks' middles and their width
			stack := plan.Sprites[part.Sprite].Built
			for _, layer := range l.Layers {
				for _, q := range layer.Parts {
					if q.On != c.Part.Index {
						continue
					}
					r := region(q.Outline)
					for _, j := range l.Joins {
						if j.Part == q.Index {
							half := shape.Point{X: j.Side / 2, Y: j.Side / 2}
							r = r.Subtract(shape.FromRects([]shape.Rect{{Min: j.At.Sub(half), Max: j.At.Add(half)}}))
						}
					}
					back := shape.Um(500)
					if stack.Floats(layer.Height) {
						back = max(back, stack.Gap(layer.Height))
					}
					cover = cover.Union(r.Shrink(back))
				}
			}
			var lines []shape.Rect
			add := func(a, b shape.Point) {
				w := shape.Point{X: cut.MarkWidth / 2, Y: cut.MarkWidth / 2}
				lines = append(lines, shape.Rect{
					Min: shape.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}.Sub(w),
					Max: shape.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}.Add(w),
				})
				marks++
			}
			for _, m := range c.Places {
				for i, v := range m {
					add(v.Point, m[(i+1)%len(m)].Point)
				}
			}
			for _, m := range c.Ticks {
				ticks++
				add(m[0].Point, m[1].Point)
				add(m[1].Point, m[2].Point)
			}
			for _, m := range c.Strokes(false) {
				labels++
				for i := range m[1:] {
					add(m[i].Point, m[i+1].Point)
				}
			}
			out := shape.FromRects(lines).Subtract(cover)
			assert.Zero(t, out.Area(), "seed %d, part %s", seed, c.Number)
		}
	}
	assert.Greater(t, marks, 1000)
	assert.Greater(t, labels, 20)
	assert.Greater(t, ticks, 20)
}

// The harbour at its own settings: the sheets come out the same whoever works.
func TestSheetsDependOnNoWorkers(t *testing.T) {
	f, err := os.Open("../testdata/harbour/harbour.json")
	require.NoError(t, err)
	defer f.Close()
	p, err := project.Read(f)
	require.NoError(t, err)
	p.Settings.Effort, p.Sprites = 0, p.Sprites[:2]
	plan, err := Plan(p, Options{Workers: 2})
	require.NoError(t, err)
	var all []*Sheets
	for _, workers := range []int{1, 3} {
		require.NoError(t, PlanSheets(p, plan, Options{Workers: workers}))
		all = append(all, plan.Sheets)
	}
	search, err := StartSheets(p, plan, Options{}) // as the page does it
	require.NoError(t, err)
	search.Run(Options{})
	best, _, err := search.Best(Options{})
	require.NoError(t, err)
	for _, other := range []*Sheets{all[1], best} {
		require.Equal(t, len(all[0].List), len(other.List))
		for i := range all[0].List {
			assert.Equal(t, all[0].List[i].Route, other.List[i].Route)
		}
	}
}

// Worked by hand: a square of 10 mm begun at the machine's corner 10 mm away
// along x, cut at 20 mm/s, travel at 100 mm/s, a = 1000 mm/s². A travel of 10 mm
// is just a triangle, as 100²/1000 = 10 mm are needed: 2·√(10/1000) = 0.2 s. An
// edge takes 10/20 + 20/1000 = 0.52 s, as corners of a square are passed at rest.
// So 0.2 + 4·0.52 + 0.2 = 2.48 s; in mm/min at 1200 the same.
func TestSecondsOfASheet(t *testing.T) {
	corner := func(x, y shape.Um) shape.Vertex { return shape.Vertex{Point: shape.Point{X: x, Y: y}} }
	r := route.Route{Strokes: []route.Stroke{{
		Path:   shape.Contour{corner(10000, 0), corner(20000, 0), corner(20000, 10000), corner(10000, 10000)},
		Closed: true, Kind: route.Cutting,
	}}}
	m := project.NewMachine("Laser", project.LaserCutter)
	assert.Equal(t, 3, seconds(m, project.Use{Speed: 20}, shape.Point{}, r))
	m.Unit = project.PerMinute
	assert.Equal(t, 3, seconds(m, project.Use{Speed: 1200}, shape.Point{}, r))
	assert.Equal(t, 5, seconds(m, project.Use{Speed: 600}, shape.Point{}, r), "0.4 + 4·1.01 = 4.44 s")
	assert.Equal(t, 0, seconds(m, project.Use{}, shape.Point{}, route.Route{}))
}
