package export

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// plate is a drawing with room for pins in which one part goes under two others.
func plate() *project.Project {
	p := drawn(4000, grid("aaaaaaaaaa", "abbbaabbba", "abcbaabbba", "abbbaabbba", "aaaaaaaaaa"))
	p.Settings.Pins = project.UsualPin
	return p
}

// Whatever is drawn, pins are in layers, sheets and manifest, and all is read back.
func TestPinsAreCut(t *testing.T) {
	rounds := uint64(12)
	if testing.Short() {
		rounds = 3
	}
	with := 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 61))
		p := randomSheeted(seed)
		p.Settings.SheetW, p.Settings.SheetH = 300*shape.Mm, 300*shape.Mm
		p.Settings.Pins = []shape.Um{500, 1000}[r.IntN(2)]
		for i := range p.Sprites {
			p.Sprites[i].Cell = 4000 + shape.Um(r.IntN(4000))
		}
		j := sheeted(t, p)
		bundle := unpainted(t, j)
		require.NoError(t, readback.Check(bundle, p), "seed %d", seed)
		_, data := contents(t, bundle)
		var m struct {
			Sprites []struct {
				Pins []struct {
					Side  float64 `json:"side_mm"`
					Parts []string
					Under string
				}
			}
		}
		require.NoError(t, json.Unmarshal([]byte(data["job.json"]), &m))
		for _, s := range m.Sprites {
			for _, pin := range s.Pins {
				with++
				require.Equal(t, float64(p.Settings.Pins)/1000, pin.Side)
				assert.Contains(t, data["README.txt"], "ends under "+pin.Under)
			}
		}
	}
	assert.Greater(t, with, int(rounds)/4)
}

// A pin's hole that is missing, moved, too near an edge or seen lets no bundle out.
func TestPinsAreReadBack(t *testing.T) {
	p := plate()
	good := planned(t, p)
	require.NoError(t, readback.Check(unpainted(t, good), p))
	require.Len(t, good.Plan.Sprites[0].Pins, 2)
	low := good.Plan.Sprites[0].Pins[0].Parts[0]
	for what, change := range map[string]func(holes []shape.Contour) []shape.Contour{
		"missing": func(h []shape.Contour) []shape.Contour { return h[1:] },
		"moved": func(h []shape.Contour) []shape.Contour {
			return append([]shape.Contour{h[0].Moved(shape.Point{X: 1})}, h[1:]...)
		},
		"wider": func(h []shape.Contour) []shape.Contour {
			c := append(shape.Contour(nil), h[0]...)
			c[2].X++
			c[3].X++
			return append([]shape.Contour{c}, h[1:]...)
		},
		"one more": func(h []shape.Contour) []shape.Contour {
			return append([]shape.Contour{h[0].Moved(shape.Point{X: 2000})}, h...)
		},
	} {
		j := copied(good)
		for i := range j.Plan.Sprites[0].Layout.Layers {
			parts := j.Plan.Sprites[0].Layout.Layers[i].Parts
			for k := range parts {
				if parts[k].Index == low {
					parts[k].Outline.Holes = change(parts[k].Outline.Holes)
				}
			}
		}
		refused(t, j, what)
	}
	// Moved everywhere alike, so that the files and the manifest agree.
	pin := good.Plan.Sprites[0].Pins[0]
	var hider shape.Rect
	for _, l := range good.Plan.Sprites[0].Layout.Layers {
		for _, q := range l.Parts {
			if q.Index == pin.Under {
				hider = q.Bounds
			}
		}
	}
	for _, c := range []struct {
		at shape.Um // from the edge of the part that hides it
		ok bool
	}{{500, true}, {498, false}, {-400, false}, {-1500, false}} {
		by := shape.Point{X: hider.Min.X + c.at - pin.Hole.Min.X}
		j := copied(good)
		s := &j.Plan.Sprites[0]
		s.Pins = append(s.Pins[:0:0], s.Pins...)
		s.Pins[0].Hole = shape.Rect{Min: pin.Hole.Min.Add(by), Max: pin.Hole.Max.Add(by)}
		for i := range s.Layout.Layers {
			for k := range s.Layout.Layers[i].Parts {
				q := &s.Layout.Layers[i].Parts[k]
				q.Outline.Holes = append([]shape.Contour(nil), q.Outline.Holes...)
				for n := range q.Outline.Holes {
					if q.Outline.Holes[n].Bounds() == pin.Hole {
						q.Outline.Holes[n] = q.Outline.Holes[n].Moved(by)
					}
				}
			}
		}
		err := readback.Check(unpainted(t, j), p)
		if c.ok {
			assert.NoError(t, err, "%v", c)
		} else if assert.Error(t, err, "%v", c) {
			assert.Contains(t, err.Error(), "pin", "%v", c)
		}
	}
	// A project that wants none takes none.
	p2 := plate()
	p2.Settings.Pins = 0
	assert.ErrorContains(t, readback.Check(unpainted(t, good), p2), "pins")
}
