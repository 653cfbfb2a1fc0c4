package export

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// unzipped writes the files of a bundle below a temporary folder.
func unzipped(t *testing.T, bundle []byte) string {
	t.Helper()
	folder := t.TempDir()
	z, err := zip.NewReader(bytes.NewReader(bundle), int64(len(bundle)))
	require.NoError(t, err)
	for _, f := range z.File {
		path := filepath.Join(folder, filepath.FromSlash(f.Name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		r, err := f.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
	return folder
}

// outsiders are projects whose bundles readers that aren't ours look at.
func outsiders(t *testing.T) map[string]*project.Project {
	round := target()
	round.Settings.Border, round.Settings.Edge = 2000, project.Round
	chamfered := target()
	chamfered.Settings.Border, chamfered.Settings.Edge = 1100, project.Chamfered
	beside := target()
	sideBySide(beside)
	hostile := target()
	hostile.Name = "\u202e\"><script>alert(1)</script>\x01"
	hostile.Sprites[0].Name = `../../x"><script>alert(1)</script>` + "\u202e\u0001🦀]]>"
	hostile.Stocks[0].Name = "0\nSECTION\n  0\nEOF"
	return map[string]*project.Project{
		"plain": target(), "round": round, "chamfered": chamfered, "side by side": beside, "hostile": hostile,
		"harbour": harbour(t), "pins": plate(),
	}
}

// dxfReport is what testdata/outside/dxf_layers.py says of a file.
type dxfReport struct {
	Path, Version string
	Units, GDAL   int
	Errors, Fixes []string
	Bounds        [4]float64
	Layers        map[string]struct {
		Contours, Parts int
		Area            float64
		Simple          bool
	}
}

// Every DXF goes through ezdxf's recover without an error or a fix, through
// GDAL's reader, and Shapely finds our areas in it (Debian: python3-ezdxf,
// python3-shapely, python3-gdal).
func TestOutsideReadersTakeTheDXF(t *testing.T) {
	for name, p := range outsiders(t) {
		t.Run(name, func(t *testing.T) {
			j := planned(t, p)
			folder := unzipped(t, unpainted(t, j))
			type expected struct {
				size   shape.Point
				layers map[string]outline.Layer
			}
			want := map[string]expected{}
			args := []string{"../testdata/outside/dxf_layers.py"}
			files, _ := nameFiles(j)
			add := func(path string, l *outline.Layout, layers map[string]outline.Layer) {
				path = filepath.Join(folder, path)
				want[path] = expected{l.Size, layers}
				args = append(args, path)
			}
			for i, s := range j.Plan.Sprites {
				all := map[string]outline.Layer{}
				for k, l := range s.Layout.Layers {
					layer := "CUT-" + files[i].names[k]
					all[layer] = l
					add(files[i].layers[k]+".dxf", s.Layout, map[string]outline.Layer{layer: l})
				}
				add(files[i].all, s.Layout, all)
			}
			cmd := exec.Command("/usr/bin/python3", args...)
			var said bytes.Buffer
			cmd.Stderr = &said
			out, err := cmd.Output()
			require.NoError(t, err, "needs Debian's python3-ezdxf, python3-shapely and python3-gdal: %s", said.String())
			reports := 0
			for d := json.NewDecoder(bytes.NewReader(out)); d.More(); reports++ {
				var r dxfReport
				require.NoError(t, d.Decode(&r))
				w := want[r.Path]
				assert.Empty(t, r.Errors, r.Path)
				assert.Empty(t, r.Fixes, r.Path)
				assert.Equal(t, "AC1015", r.Version)
				assert.Equal(t, 4, r.Units)
				require.Len(t, r.Layers, len(w.layers), r.Path)
				contours := 0
				for layer, l := range w.layers {
					got := r.Layers[layer]
					contours += got.Contours
					var area shape.Um2
					for _, part := range l.Parts {
						area += part.Outline.Area()
					}
					assert.Equal(t, len(l.Parts), got.Parts, "%s %s", r.Path, layer)
					assert.True(t, got.Simple, "%s %s", r.Path, layer)
					// Shapely counts in doubles: 1e-9 of an area; arcs are cut up there,
					// which takes off up to 1e-7 of each.
					assert.InEpsilon(t, float64(area)/1e6, got.Area, 1e-7, "%s %s", r.Path, layer)
				}
				assert.Equal(t, contours, r.GDAL, r.Path)
				if len(w.layers) > 1 {
					for i, v := range []shape.Um{0, 0, w.size.X, w.size.Y} {
						assert.InDelta(t, float64(v)/1000, r.Bounds[i], 1e-4, r.Path)
					}
				}
			}
			assert.Equal(t, len(want), reports)
		})
	}
}

// pxPerMm is at which scale librsvg draws: a pixel is 25 µm, and all edges of
// these drawings lie on multiples of that, so that no pixel is half covered.
const pxPerMm = 40

// librsvg draws the layer's SVG as we do, pixel for pixel (Debian: librsvg2-bin).
func TestLibrsvgDrawsTheSVG(t *testing.T) {
	for _, name := range []string{"plain", "side by side", "hostile"} {
		t.Run(name, func(t *testing.T) {
			j := planned(t, outsiders(t)[name])
			folder := unzipped(t, unpainted(t, j))
			files, _ := nameFiles(j)
			for i, s := range j.Plan.Sprites {
				for k, l := range s.Layout.Layers {
					path := filepath.Join(folder, files[i].layers[k]+".svg")
					got := rsvg(t, path, s)
					w, h := got.Rect.Dx(), got.Rect.Dy()
					want := plainRaster(t, l, w, h)
					wrong := 0
					c := s.Stocks[l.Stock].Colour
					for y := range h {
						for x := range w {
							p := got.NRGBAAt(x, y)
							// 1 of 255: librsvg scales by a rounded number.
							in, out := p.A >= 254 && p.R == c.R && p.G == c.G && p.B == c.B, p.A <= 1
							if want[y*w+x] && !in || !want[y*w+x] && !out {
								wrong++
							}
						}
					}
					assert.Zero(t, wrong, "%s: pixels that differ", path)
				}
			}
		})
	}
}

// Where edges are round, librsvg's picture has our area: each pixel at the edge
// is off by at most 1/2 of its cover, mostly by far less, so 1e-3 is generous.
func TestLibrsvgDrawsArcs(t *testing.T) {
	j := planned(t, outsiders(t)["round"])
	folder := unzipped(t, unpainted(t, j))
	s := j.Plan.Sprites[0]
	files, _ := nameFiles(j)
	got := rsvg(t, filepath.Join(folder, files[0].layers[0]+".svg"), s)
	cover := 0
	for i := 3; i < len(got.Pix); i += 4 {
		cover += int(got.Pix[i])
	}
	var area shape.Um2
	for _, p := range s.Layout.Layers[0].Parts {
		area += p.Outline.Area()
	}
	assert.InEpsilon(t, float64(area)/1e6, float64(cover)/255/pxPerMm/pxPerMm, 1e-3)
}

func rsvg(t *testing.T, path string, s engine.Sprite) *image.NRGBA {
	t.Helper()
	w, h := int(s.Layout.Size.X*pxPerMm/shape.Mm), int(s.Layout.Size.Y*pxPerMm/shape.Mm)
	out := filepath.Join(t.TempDir(), "out.png")
	said, err := exec.Command("rsvg-convert", "--unlimited", "-w", strconv.Itoa(w), "-h", strconv.Itoa(h), "-o", out, path).CombinedOutput()
	require.NoError(t, err, "needs Debian's librsvg2-bin: %s", said)
	assert.Empty(t, strings.TrimSpace(string(said)))
	f, err := os.Open(out)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, image.Rect(0, 0, w, h), img.Bounds())
	n, ok := img.(*image.NRGBA)
	require.True(t, ok, "%T", img)
	return n
}

// plainRaster says of each pixel whether its centre lies in a part, by counting
// the edges to its left: the plain way.
func plainRaster(t *testing.T, l outline.Layer, w, h int) []bool {
	t.Helper()
	const px = shape.Mm / pxPerMm
	in := make([]bool, w*h)
	contour := func(c shape.Contour) {
		for i, v := range c {
			n := c[(i+1)%len(c)]
			require.Zero(t, v.X%px+v.Y%px, "an edge lies between pixels")
			if v.X != n.X {
				continue
			}
			for y := min(v.Y, n.Y) / px; y < max(v.Y, n.Y)/px; y++ {
				row := (h - 1 - int(y)) * w
				for x := int(v.X / px); x < w; x++ {
					in[row+x] = !in[row+x]
				}
			}
		}
	}
	for _, p := range l.Parts {
		contour(p.Outline.Outer)
		for _, hole := range p.Outline.Holes {
			contour(hole)
		}
	}
	return in
}
