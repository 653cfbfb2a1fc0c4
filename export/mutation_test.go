package export

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// target is a drawing in which every kind of part occurs: one that is wholly
// hidden along its edges, one with a hole, a strip one cell wide, joins.
func target() *project.Project {
	return drawn(3000, grid(
		"...aaaa.....",
		"..abbbba.cc.",
		".abbddbba.c.",
		".abdeedba...",
		".abdeedba.f.",
		".abbddbba.ff",
		"..abbbbagg.f",
		"...aaaa.gghh",
	))
}

// copied is a job with outlines of its own, to be spoilt.
func copied(j Job) Job {
	plan := *j.Plan
	plan.Sprites = append(plan.Sprites[:0:0], plan.Sprites...)
	for i := range plan.Sprites {
		l := *plan.Sprites[i].Layout
		l.Layers = append([]outline.Layer(nil), l.Layers...)
		for k := range l.Layers {
			l.Layers[k].Parts = append([]outline.Part(nil), l.Layers[k].Parts...)
		}
		plan.Sprites[i].Layout = &l
		plan.Sprites[i].Numbers = append(slices.Clone(plan.Sprites[i].Numbers), "A99-1") // of one more
	}
	return Job{j.Project, &plan}
}

// refused says that the bundle of a spoilt job is not let out.
func refused(t *testing.T, j Job, what string) {
	t.Helper()
	err := readback.Check(unpainted(t, j), j.Project)
	if assert.Error(t, err, what) {
		assert.Contains(t, err.Error(), `sprite "Sprite 0"`, what)
	}
}

// Spoilt outlines go into all files alike: only the drawing tells.
func TestSpoiltPlansAreCaught(t *testing.T) {
	for _, variant := range variants {
		switch variant.name {
		case "as it comes", "pins", "square border", "side by side", "apart":
		default:
			continue
		}
		t.Run(variant.name, func(t *testing.T) {
			p := target()
			variant.change(p)
			whole := planned(t, p)
			require.NoError(t, readback.Check(unpainted(t, whole), p))
			for li, layer := range whole.Plan.Sprites[0].Layout.Layers {
				for pi, part := range layer.Parts {
					name := fmt.Sprintf("layer %d, part %d", layer.Number, pi+1)
					spoil := func(what string, change func(l *outline.Layout, parts []outline.Part) []outline.Part) {
						j := copied(whole)
						l := j.Plan.Sprites[0].Layout
						l.Layers[li].Parts = change(l, l.Layers[li].Parts)
						if len(l.Layers[li].Parts) == 0 {
							l.Layers = append(l.Layers[:li:li], l.Layers[li+1:]...)
						}
						refused(t, j, what+": "+name)
					}
					spoil("drop a part", func(_ *outline.Layout, parts []outline.Part) []outline.Part {
						return append(parts[:pi:pi], parts[pi+1:]...)
					})
					for _, d := range []shape.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
						spoil("shift by 1 µm", func(_ *outline.Layout, parts []outline.Part) []outline.Part {
							parts[pi].Outline = part.Outline.Moved(d)
							return parts
						})
					}
					for v := range part.Outline.Outer {
						spoil("shift an edge by 1 µm", func(_ *outline.Layout, parts []outline.Part) []outline.Part {
							c := append(shape.Contour(nil), part.Outline.Outer...)
							w := (v + 1) % len(c)
							if c[v].X == c[w].X {
								c[v].X++
								c[w].X++
							} else {
								c[v].Y--
								c[w].Y--
							}
							parts[pi].Outline.Outer = c
							return parts
						})
					}
					for h, hole := range part.Outline.Holes {
						spoil("turn a hole into a part", func(l *outline.Layout, parts []outline.Part) []outline.Part {
							o := part.Outline
							o.Holes = append(append([]shape.Contour(nil), o.Holes[:h]...), o.Holes[h+1:]...)
							parts[pi].Outline = o
							return append(parts, outline.Part{
								Index: len(whole.Plan.Sprites[0].Numbers), On: part.On, Tree: part.Tree, Bounds: hole.Bounds(),
								Outline: shape.Outline{Outer: hole.Reversed()},
							})
						})
						spoil("fill a hole", func(l *outline.Layout, parts []outline.Part) []outline.Part {
							o := part.Outline
							o.Holes = append(append([]shape.Contour(nil), o.Holes[:h]...), o.Holes[h+1:]...)
							parts[pi].Outline = o
							return parts
						})
					}
				}
			}
			layers := whole.Plan.Sprites[0].Layout.Layers
			for i := range layers {
				for k := range i {
					j := copied(whole)
					ls := j.Plan.Sprites[0].Layout.Layers
					ls[i].Height, ls[k].Height = ls[k].Height, ls[i].Height
					if ls[i].Height == ls[k].Height {
						continue
					}
					refused(t, j, "swap two heights")
					j = copied(whole)
					ls = j.Plan.Sprites[0].Layout.Layers
					ls[i].Parts, ls[k].Parts = ls[k].Parts, ls[i].Parts
					refused(t, j, "swap two layers' parts")
					j = copied(whole)
					ls = j.Plan.Sprites[0].Layout.Layers
					ls[i].Stock, ls[k].Stock = ls[k].Stock, ls[i].Stock
					if ls[i].Stock != ls[k].Stock {
						refused(t, j, "swap two stocks")
					}
				}
			}
		})
	}
}

// edited is a bundle with one of its files changed.
func edited(t *testing.T, bundle []byte, name string, change func(string) string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(bundle), int64(len(bundle)))
	require.NoError(t, err)
	var out bytes.Buffer
	a, err := newArchive(&out)
	require.NoError(t, err)
	found := false
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		if f.Name == name {
			found = true
			after := change(string(data))
			require.NotEqual(t, string(data), after, name)
			data = []byte(after)
		}
		require.NoError(t, a.add(f.Name, data, packed))
	}
	require.True(t, found, name)
	require.NoError(t, a.close())
	return out.Bytes()
}

var (
	polyline = regexp.MustCompile(`(?s)  0\nLWPOLYLINE\n.*?(  0\n)`)
	svgPath  = regexp.MustCompile(`<path [^>]*>\n`)
	svgX     = regexp.MustCompile(`M([0-9.]+) `)
	dxfX     = regexp.MustCompile(`(?s)LWPOLYLINE.*?\n 10\n([0-9.]+)\n`)
	dxfSize  = regexp.MustCompile(`EXTMAX\n 10\n([0-9.]+)\n`)
)

// nudged adds 1 µm to the number that a pattern finds first.
func nudged(re *regexp.Regexp, s string) string {
	m := re.FindStringSubmatchIndex(s)
	return s[:m[2]] + nudgedNumber(s[m[2]:m[3]]) + s[m[3]:]
}

func nudgedNumber(s string) string {
	whole, part, _ := strings.Cut(s, ".")
	return whole + "." + (part + "000")[:2] + string((part + "000")[2]+1)
}

// Files that are spoilt after they were written are caught, each kind alone.
func TestSpoiltFilesAreCaught(t *testing.T) {
	p := target()
	j := planned(t, p)
	bundle, err := Build(j)
	require.NoError(t, err)
	files, _ := nameFiles(j)
	f := files[0]
	second := len(f.layers) - 2
	dropFirst := func(re *regexp.Regexp) func(string) string {
		return func(s string) string {
			m := re.FindStringSubmatchIndex(s)
			end := m[1]
			if len(m) > 2 {
				end = m[2]
			}
			return s[:m[0]] + s[end:]
		}
	}
	holed := -1
	for i, l := range j.Plan.Sprites[0].Layout.Layers {
		if len(l.Parts[0].Outline.Holes) > 0 {
			holed = i
		}
	}
	require.NotEqual(t, -1, holed, "the drawing has a part with a hole")
	reverse := func(s string) string { // the second polyline of the file
		all := polyline.FindAllStringSubmatchIndex(s, 2)
		// Matches overlap by their last line, so the second one is looked for anew.
		from := all[0][2]
		m := polyline.FindStringSubmatchIndex(s[from:])
		body := s[from : from+m[2]]
		head, rest, _ := strings.Cut(body, " 10\n")
		vs := strings.Split(rest, " 10\n")
		for i, k := 0, len(vs)-1; i < k; i, k = i+1, k-1 {
			vs[i], vs[k] = vs[k], vs[i]
		}
		return s[:from] + head + " 10\n" + strings.Join(vs, " 10\n") + s[from+m[2]:]
	}
	for _, c := range []struct {
		what, file string
		change     func(string) string
	}{
		{"drop a part", f.layers[0] + ".dxf", dropFirst(polyline)},
		{"drop a part", f.layers[0] + ".svg", dropFirst(svgPath)},
		{"drop a part", f.all, dropFirst(polyline)},
		{"shift by 1 µm", f.layers[second] + ".dxf", func(s string) string { return nudged(dxfX, s) }},
		{"shift by 1 µm", f.layers[second] + ".svg", func(s string) string { return nudged(svgX, s) }},
		{"shift by 1 µm", f.all, func(s string) string { return nudged(dxfX, s) }},
		{"turn a hole into a part", f.layers[holed] + ".dxf", reverse},
		{"turn a hole into a part", f.layers[holed] + ".svg", func(s string) string {
			return strings.Replace(s, "ZM", `Z"/>`+"\n"+`<path id="part-999" fill="#000000" fill-rule="evenodd" d="M`, 1)
		}},
		{"swap two heights", "job.json", func(s string) string {
			s = strings.Replace(s, `"height": 1,`, `"height": 9,`, 1)
			return strings.Replace(strings.Replace(s, `"height": 2,`, `"height": 1,`, 1), `"height": 9,`, `"height": 2,`, 1)
		}},
		{"another size", f.layers[second] + ".dxf", func(s string) string { return nudged(dxfSize, s) }},
		{"another unit", f.layers[0] + ".dxf", func(s string) string {
			return strings.Replace(s, "$INSUNITS\n 70\n4\n", "$INSUNITS\n 70\n1\n", 1)
		}},
		{"something more to cut", f.layers[0] + ".svg", func(s string) string {
			return strings.Replace(s, "</svg>", `<rect width="1" height="1"/></svg>`, 1)
		}},
		{"a script", f.layers[0] + ".svg", func(s string) string {
			return strings.Replace(s, "<title>", "<script>alert(1)</script><title>", 1)
		}},
		{"a larger drawing", f.layers[0] + ".svg", func(s string) string {
			return regexp.MustCompile(`width="(\d+)`).ReplaceAllString(s, `width="1$1`)
		}},
		{"a wrong corner area", "job.json", func(s string) string {
			return regexp.MustCompile(`"corner_mm2": [0-9.]+`).ReplaceAllString(s, `"corner_mm2": 0.000001`)
		}},
		{"a wrong number of parts", "job.json", func(s string) string {
			return strings.Replace(s, `"parts": 1,`, `"parts": 2,`, 1)
		}},
		{"a name twice", f.layers[second] + ".svg", func(s string) string {
			return regexp.MustCompile(` id="[^"]*"`).ReplaceAllString(s, ` id="A1-1"`)
		}},
		{"another stock", "job.json", func(s string) string {
			return strings.Replace(s, `"stock": "`+p.Stocks[0].ID, `"stock": "`+p.Stocks[9].ID, 1)
		}},
	} {
		t.Run(c.what+" in "+c.file, func(t *testing.T) {
			err := readback.Check(edited(t, bundle, c.file, c.change), p)
			require.Error(t, err)
			t.Log(err)
		})
	}
}

// A spoilt job gives an error and no byte.
func TestBuildLetsNothingSpoiltOut(t *testing.T) {
	j := copied(planned(t, target()))
	l := j.Plan.Sprites[0].Layout
	l.Layers[2].Parts[0].Outline = l.Layers[2].Parts[0].Outline.Moved(shape.Point{X: 1})
	data, err := Build(j)
	assert.ErrorContains(t, err, "the cutting files would not show the drawing, so none were written: sprite \"Sprite 0\", layer 3, row ")
	assert.Nil(t, data)
	var out bytes.Buffer
	assert.Error(t, Bundle(&out, j))
	assert.Zero(t, out.Len())
}

// A bundle of another drawing is refused, with the place where it differs.
func TestTheMessageSaysWhere(t *testing.T) {
	p := target()
	bundle, err := Build(planned(t, p))
	require.NoError(t, err)
	p.Sprites[0].Frames[0].Cells[3*12+4] = 'b'
	err = readback.Check(bundle, p)
	assert.ErrorContains(t, err, `sprite "Sprite 0", row 4, column 5: `+p.Stocks[4].ID+" shows where the drawing has "+p.Stocks[1].ID)
	p.Sprites[0].Name = "Other"
	assert.ErrorContains(t, readback.Check(bundle, p), `sprite "Other": the manifest has sprite "Sprite 0" in its place`)
}
