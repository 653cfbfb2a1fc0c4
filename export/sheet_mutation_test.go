package export

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// sheetVariants are ways in which sheets differ.
var sheetVariants = map[string]func(p *project.Project){
	"tabs":             func(p *project.Project) {},
	"light":            func(p *project.Project) { p.Settings.Hold = project.Light },
	"edges shared":     func(p *project.Project) { p.Settings.Gap = 0 },
	"no kerf":          func(p *project.Project) { p.Settings.Kerf = new(shape.Um) },
	"an odd kerf":      func(p *project.Project) { k := shape.Um(151); p.Settings.Kerf = &k },
	"round border":     func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 2345, project.Round },
	"chamfered border": func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 3*shape.Mm, project.Chamfered },
	"side by side": func(p *project.Project) {
		for i := range p.Sprites {
			p.Sprites[i].Stack.Style = project.SideBySide
		}
		p.Settings.Border = 2 * shape.Mm
	},
	"face down": func(p *project.Project) {
		for i := range p.Stocks {
			p.Stocks[i].Face = project.FaceDown
		}
	},
	"round, face down": func(p *project.Project) {
		p.Settings.Border, p.Settings.Edge = 2345, project.Round
		for i := range p.Stocks {
			p.Stocks[i].Face = project.FaceDown
		}
	},
}

// All kinds of sheets are read back and found right.
func TestSheetsAreReadBack(t *testing.T) {
	for name, change := range sheetVariants {
		t.Run(name, func(t *testing.T) {
			p := quay(t, project.NewMachine("Laser", project.LaserCutter), nil)
			change(p)
			j := sheeted(t, p)
			require.NotEmpty(t, j.Plan.Sheets.List)
			require.NoError(t, readback.Check(unpainted(t, j), p))
		})
	}
}

// A plan whose sheets are spoilt goes into both files alike: only the finished
// contours and the manifest tell.
func TestSpoiltSheetsAreCaught(t *testing.T) {
	for name, change := range sheetVariants {
		if testing.Short() && name != "tabs" && name != "round, face down" {
			continue
		}
		t.Run(name, func(t *testing.T) {
			p := quay(t, project.NewMachine("Laser", project.LaserCutter), nil)
			change(p)
			refuse := func(what string, spoil func(s *engine.Sheets)) {
				t.Helper()
				j := sheeted(t, p)
				spoil(j.Plan.Sheets)
				err := readback.Check(unpainted(t, j), p)
				if assert.Error(t, err, what) {
					assert.Contains(t, err.Error(), "sheets/", what)
				}
			}
			firstCut := func(s *engine.Sheets) *route.Stroke {
				for i := range s.List[0].Route.Strokes {
					if st := &s.List[0].Route.Strokes[i]; st.Kind == route.Cutting {
						return st
					}
				}
				require.Fail(t, "nothing is cut")
				return nil
			}
			refuse("a line moved by 20 µm", func(s *engine.Sheets) {
				st := firstCut(s)
				st.Path = st.Path.Moved(shape.Point{X: 20})
			})
			refuse("a line left out", func(s *engine.Sheets) {
				r := &s.List[0].Route
				r.Strokes = r.Strokes[:len(r.Strokes)-1]
			})
			refuse("a line cut twice", func(s *engine.Sheets) {
				r := &s.List[0].Route
				r.Strokes = append(r.Strokes, r.Strokes[len(r.Strokes)-1])
			})
			refuse("a line that belongs to nothing", func(s *engine.Sheets) {
				r := &s.List[0].Route
				r.Strokes = append(r.Strokes, route.Stroke{
					Path: shape.Contour{{Point: shape.Point{X: 7001, Y: 7001}}, {Point: shape.Point{X: 7001, Y: 9001}}}, Kind: route.Cutting,
				})
			})
			refuse("another place", func(s *engine.Sheets) { s.Parts[0].Move.X += 50 })
			refuse("another turn", func(s *engine.Sheets) { s.Parts[0].Turn++ })
			if p.Settings.Kerf == nil || *p.Settings.Kerf > 0 {
				refuse("finished size", func(s *engine.Sheets) { s.List[0].Kerf = 0 })
			}
			// Where cuts go round, straight ones next to them end somewhere within
			// half a kerf, which may add up to a tab.
			if p.Settings.Hold == project.Tabs && p.Settings.Border == 0 {
				refuse("a tab less", func(s *engine.Sheets) {
					c := *s.Parts[0].Piece
					c.Tabs = c.Tabs[1:]
					s.Parts[0].Piece = &c
				})
			}
		})
	}
}

// Files of sheets that are spoilt after they were written are caught.
func TestSpoiltSheetFilesAreCaught(t *testing.T) {
	p := quay(t, project.NewMachine("Laser", project.LaserCutter), nil)
	j := sheeted(t, p)
	bundle, err := Build(j)
	require.NoError(t, err)
	_, sheets := nameFiles(j)
	f := sheets[0]
	for _, c := range []struct {
		what, file string
		change     func(string) string
	}{
		{"drop a line", f.dxf, func(s string) string {
			m := polyline.FindStringSubmatchIndex(s)
			return s[:m[0]] + s[m[2]:]
		}},
		{"drop a line", f.svg, func(s string) string {
			m := svgPath.FindStringIndex(s)
			return s[:m[0]] + s[m[1]:]
		}},
		{"shift by 1 µm", f.dxf, func(s string) string { return nudged(dxfX, s) }},
		{"shift by 1 µm", f.svg, func(s string) string { return nudged(svgX, s) }},
		{"another layer", f.dxf, func(s string) string { return strings.ReplaceAll(s, "\nCUT-", "\nFOO-") }},
		{"a script", f.svg, func(s string) string {
			return strings.Replace(s, "<title>", "<script>alert(1)</script><title>", 1)
		}},
		{"another size", f.dxf, func(s string) string { return nudged(dxfSize, s) }},
		{"a part less", "job.json", func(s string) string { return strings.Replace(s, `"in_layer": 1`, `"in_layer": 9`, 1) }},
		{"another kerf", "job.json", func(s string) string {
			return regexp.MustCompile(`"kerf_mm": [0-9.]+`).ReplaceAllString(s, `"kerf_mm": 0.2`)
		}},
		{"another number", "job.json", func(s string) string { return strings.Replace(s, `"number": "A2-1"`, `"number": "A2-77"`, 1) }},
		{"on nothing that is there", "job.json", func(s string) string {
			return strings.Replace(s, `"rests_on": "A1-1"`, `"rests_on": "part-1"`, 1)
		}},
		{"a copy twice", "job.json", func(s string) string { return strings.Replace(s, `"copy": 2`, `"copy": 1`, 1) }},
	} {
		t.Run(c.what+" in "+c.file, func(t *testing.T) {
			err := readback.Check(edited(t, bundle, c.file, c.change), p)
			require.Error(t, err)
			t.Log(err)
		})
	}
}
