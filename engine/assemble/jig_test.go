package assemble_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/assemble"
	"sheetsprite/engine/shape"
)

// solidOf is a part without its holes.
func solidOf(o shape.Outline) shape.Region {
	return shape.FromPolygons(shape.Polygon{Outer: o.Outer.Ring()})
}

// A jig's windows are its parts, wider by the clearance, but where too little stood
// between two or fell out of one; the plate keeps the strip everywhere; its rim takes
// what lies below at its level; and it is packed as high as all below.
func TestJigWindows(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	windows, joined, rims, round := 0, 0, 0, 0
	for range rounds() {
		_, s := random(t, r)
		l := s.Layout
		plan := assemble.Build(l, assemble.Options{Thickness: thicknesses(s), Lifts: lifted(r, l)})
		clear, strip := shape.Um(r.IntN(500)), shape.Um(300+r.IntN(3000))
		for h := 1; h <= l.Heights; h++ {
			j, ok := plan.Jig(l, h, clear, strip, 2000)
			if !ok {
				require.Equal(t, 1, h, "only a border is round")
				round++
				continue
			}
			require.NoError(t, j.Plate.Validate())
			plate := shape.FromPolygons(j.Plate.Polygon())
			var own, grown, below shape.Region
			var listed []int
			for _, layer := range l.Layers {
				for _, q := range layer.Parts {
					p := plan.Parts[q.Index]
					switch {
					case layer.Height == h:
						own, grown = own.Union(solidOf(q.Outline)), grown.Union(solidOf(q.Outline).Grow(clear))
						require.LessOrEqual(t, p.Under, j.Pack)
						listed = append(listed, q.Index)
					case layer.Height < h:
						require.LessOrEqual(t, p.Top, j.Pack, "the plate lies on what is below or over it")
						if p.Top > j.Pack-2000 {
							below = below.Union(assemble.Inscribed(shape.Outline{Outer: q.Outline.Outer}))
						}
					}
				}
			}
			require.True(t, plate.Intersect(grown).Empty(), "every part goes through with its clearance")
			var in []int
			for n, hole := range j.Plate.Holes {
				window := shape.FromPolygons(shape.Polygon{Outer: hole.Reversed().Ring()})
				in = append(in, j.Windows[n]...)
				windows++
				if len(j.Windows[n]) > 1 {
					joined++
					continue
				}
				// One part by itself: exactly its shape and the clearance, but for what is
				// narrower than the strip within it, and what that cuts off.
				part := window.Intersect(grown)
				half := (strip + 1) / 2
				closed := part.Grow(half).Shrink(half)
				require.True(t, closed.Subtract(window).Empty())
				for _, p := range window.Subtract(closed).Polygons(shape.BySides) {
					ring := shape.FromPolygons(shape.Polygon{Outer: p.Outer}).Grow(1)
					require.True(t, ring.Subtract(shape.FromPolygons(p)).Subtract(closed).Empty(), "all about it is window: it would fall out")
				}
				w, hh := hole.Bounds().Size()
				bw, bh := window.Intersect(own).Bounds().Size()
				require.Equal(t, [2]shape.Um{bw + 2*clear, bh + 2*clear}, [2]shape.Um{w, hh})
			}
			slices.Sort(in)
			slices.Sort(listed)
			require.Equal(t, listed, in, "each part has one window")
			// Wherever the plate stands, a square of its strip does: opened by one it is
			// what it was (but for a µm where the strip is odd).
			half := strip/2 - 1
			require.True(t, plate.Subtract(plate.Shrink(half).Grow(half)).Empty())
			require.Equal(t, below.Empty(), j.Rim == nil)
			if j.Rim != nil {
				rims++
				require.Equal(t, j.Plate.Outer, j.Rim.Outer, "flush")
				rim := shape.FromPolygons(j.Rim.Polygon())
				require.True(t, rim.Intersect(below.Grow(clear)).Empty())
				// It keeps them in place: moved by more than the clearance, and what the
				// bands beside round edges leave, it meets them.
				off := clear + 401
				for _, by := range []shape.Point{{X: off}, {X: -off}, {Y: off}, {Y: -off}} {
					require.False(t, rim.Intersect(below.Moved(by)).Empty())
				}
			}
		}
	}
	assert.Greater(t, windows, rounds())
	assert.Positive(t, round)
	assert.Positive(t, joined)
	assert.Positive(t, rims)
}
