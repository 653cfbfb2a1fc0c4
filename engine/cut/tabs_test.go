package cut

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// tabbed are the tabs of a plate as the middles on its cut line.
func tabbed(o shape.Outline, kerf shape.Um, joins, cover []shape.Rect) (at []shape.Point, wanted int) {
	line, _ := Kerfed(o, kerf)
	t := tabber{finished: o, line: line, gap: project.UsualTab + kerf, joins: joins, cover: cover}
	tabs, wanted := t.outer()
	for _, tab := range append(tabs, t.slugs()...) {
		c := line.Outer
		if tab.Contour > 0 {
			c = line.Holes[tab.Contour-1]
		}
		a, b := c[tab.Edge].Point, c[(tab.Edge+1)%len(c)].Point
		u := unit(b.Sub(a))
		m := (tab.From + tab.To) / 2
		at = append(at, a.Add(shape.Point{X: u.X * m, Y: u.Y * m}))
	}
	return at, wanted
}

func plate(w, h shape.Um) shape.Outline { return shape.Outline{Outer: box(0, 0, w, h)} }

func TestTabsOfPlates(t *testing.T) {
	rect := func(x0, y0, x1, y1 shape.Um) shape.Rect {
		return shape.Rect{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}
	}
	for _, c := range []struct {
		name          string
		plate         shape.Outline
		kerf          shape.Um
		joins, cover  []shape.Rect
		wanted, holds int
		check         func(t *testing.T, at []shape.Point)
	}{
		{name: "a strip hangs by both ends", plate: plate(30000, 2000), wanted: 2, holds: 2, check: func(t *testing.T, at []shape.Point) {
			d := at[0].X - at[1].X
			assert.GreaterOrEqual(t, max(d, -d), shape.Um(20000))
		}},
		{name: "under 4 mm one is enough", plate: plate(3999, 3999), wanted: 1, holds: 1},
		{name: "from 4 mm two", plate: plate(4000, 1000), wanted: 2, holds: 2},
		{name: "a run of tab, kerf and 0.6 mm is enough", plate: plate(1100, 1100), kerf: 100, wanted: 1, holds: 1},
		{name: "a run less than that is none", plate: plate(1099, 1099), kerf: 100, wanted: 1, holds: 0},
		{name: "a large part has more", plate: plate(100000, 100000), wanted: 5, holds: 5},
		{name: "never more than eight", plate: plate(400000, 400000), wanted: 8, holds: 8},
		{
			name: "where edges are hidden they hold", plate: plate(20000, 10000), kerf: 100,
			cover:  []shape.Rect{rect(-5000, -5000, 30000, 3000)}, // the lower edge, and what is beside it
			wanted: 2, holds: 2,
			check: func(t *testing.T, at []shape.Point) {
				for _, p := range at {
					assert.LessOrEqual(t, p.Y, shape.Um(3000), "below the part that hides it")
				}
				d := at[0].X - at[1].X
				assert.GreaterOrEqual(t, max(d, -d), shape.Um(6666))
			},
		},
		{
			name: "a part that ends flush hides nothing", plate: plate(20000, 10000), kerf: 100,
			cover:  []shape.Rect{rect(0, 0, 20000, 3000)},
			wanted: 2, holds: 2,
			check: func(t *testing.T, at []shape.Point) {
				d := at[0].Sub(at[1])
				assert.GreaterOrEqual(t, max(d.X, -d.X), shape.Um(13000), "spread over all of it")
			},
		},
		{
			name: "not in a join", plate: plate(3000, 999), kerf: 0,
			joins:  []shape.Rect{rect(500, -500, 2500, 500), rect(500, 900, 2500, 1100)},
			wanted: 1, holds: 0, // what is left between join and corner is too short, on the short sides too
		},
		{
			name: "slugs need none", plate: shape.Outline{Outer: box(0, 0, 30000, 30000), Holes: []shape.Contour{box(10000, 10000, 24999, 24999).Reversed()}},
			wanted: 2, holds: 2,
		},
		{
			name: "a large slug has two", plate: shape.Outline{Outer: box(0, 0, 30000, 30000), Holes: []shape.Contour{box(10000, 10000, 25000, 25000).Reversed()}},
			wanted: 2, holds: 4,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			at, wanted := tabbed(c.plate, c.kerf, c.joins, c.cover)
			assert.Equal(t, c.wanted, wanted)
			if assert.Len(t, at, c.holds, "%v", at) && c.check != nil {
				c.check(t, at)
			}
		})
	}
}

// A stair has tabs on its straight runs only, and those lie on the cut line.
func TestTabsOfAStair(t *testing.T) {
	var r shape.Ring
	for i := range shape.Um(10) {
		r = append(r, shape.Point{X: i * 900, Y: i * 900}, shape.Point{X: i*900 + 900, Y: i * 900})
	}
	r = append(r, shape.Point{X: 9000, Y: 9000}, shape.Point{X: 0, Y: 9000})
	at, wanted := tabbed(shape.Outline{Outer: r.Contour()}, 100, nil, nil)
	assert.Equal(t, 2, wanted)
	if assert.Len(t, at, 2) {
		for _, p := range at {
			assert.True(t, p.X == -50 || p.Y == 9050, "%v: steps of 0.9 mm have no room", p)
		}
	}
}

// However wide the kerf, a tab lies on an edge of the cut line, clear of its corners:
// inner corners and holes have shorter cut lines than finished edges.
func TestTabsLieOnTheCutLine(t *testing.T) {
	plate := shape.Outline{
		Outer: shape.Ring{{X: 0, Y: 0}, {X: 40000, Y: 0}, {X: 40000, Y: 40000}, {X: 24000, Y: 40000}, {X: 24000, Y: 36000}, {X: 18000, Y: 36000}, {X: 18000, Y: 40000}, {X: 0, Y: 40000}}.Contour(),
		Holes: []shape.Contour{box(10000, 8000, 27000, 25000).Reversed()},
	}
	held := 0
	for kerf := shape.Um(0); kerf <= 5000; kerf += 250 {
		c := Piece{Part: &outline.Part{Outline: plate, Bounds: plate.Bounds()}, Layer: &outline.Layer{}}
		c.Line, c.Faults = Kerfed(plate, kerf)
		require.Empty(t, c.Faults, "kerf %d", kerf)
		c.hold(400+kerf, nil, nil, false)
		for _, tab := range c.Tabs {
			held++
			line := c.Loops()[tab.Contour]
			d := line[(tab.Edge+1)%len(line)].Sub(line[tab.Edge].Point)
			assert.GreaterOrEqual(t, tab.From, lineMargin, "kerf %d", kerf)
			assert.LessOrEqual(t, tab.To, max(d.X, -d.X, d.Y, -d.Y)-lineMargin, "kerf %d", kerf)
		}
	}
	assert.Greater(t, held, 60)
}
