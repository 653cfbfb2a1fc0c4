package export

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// laserBench is a bench with every stock of p on its shelf, all but the last
// one with power and speed.
func laserBench(p *project.Project, m project.Machine) *project.Bench {
	b := &project.Bench{Machines: []project.Machine{m}}
	for _, s := range p.Stocks {
		b.Shelf = append(b.Shelf, project.Shelf{Stock: s})
		b.Uses = append(b.Uses, project.Use{
			Machine: m.Name, Stock: s.ID, Power: 40, Speed: 25, MarkPower: 9, MarkSpeed: 80, Passes: 1, Order: project.ContourByContour,
		})
	}
	return b
}

// sheeted is the job of a project with its sheets.
func sheeted(t testing.TB, p *project.Project) Job {
	t.Helper()
	j := planned(t, p)
	require.NoError(t, engine.PlanSheets(p, j.Plan, engine.Options{}))
	engine.PlanAssembly(p, j.Plan, engine.Options{})
	return j
}

// quay is a small drawing with holes and corners, on a machine of the bench.
func quay(t testing.TB, m project.Machine, change func(p *project.Project)) *project.Project {
	p := drawn(3000, grid("aaaaaaaa", "abbbbbba", "ab.cc.ba", "abbcbbba", "aaaaaaaa", "..aaa.aa"), grid("ccc", "c.c", "ccc"))
	p.Stocks, p.Palette = p.Stocks[:3], p.Palette[:3]
	p.Sprites[1].Copies = 2
	p.Settings.Effort = 0
	b := laserBench(p, m)
	if change != nil {
		change(p)
	}
	require.NoError(t, p.PlanOn(b, ""))
	return p
}

func machines() map[string]project.Machine {
	out := map[string]project.Machine{}
	for _, corner := range []project.BedCorner{project.LowerLeft, project.LowerRight, project.UpperLeft, project.UpperRight} {
		m := project.NewMachine("Laser", project.LaserCutter)
		m.Origin = corner
		if corner == project.LowerRight {
			m.Beam, m.Unit, m.FullPower = project.M3, project.PerMinute, 255
		}
		out[string(corner)] = m
	}
	return out
}

// Machine files are read back by a parser that knows where it stands and
// whether its beam is on.
func TestGCodeIsReadBack(t *testing.T) {
	arcs := 0
	for name, m := range machines() {
		for _, border := range []shape.Um{0, 2000} {
			p := quay(t, m, func(p *project.Project) { p.Settings.Border, p.Settings.Edge = border, project.Round })
			j := sheeted(t, p)
			bundle, err := Build(j)
			require.NoError(t, err, name)
			_, files := contents(t, bundle)
			_, sheets := nameFiles(j)
			require.NotEmpty(t, sheets)
			for i, f := range sheets {
				sh := j.Plan.Sheets.List[i]
				require.NotEmpty(t, f.gcode)
				var c cutter
				c.run(t, files[f.gcode])
				arcs += strings.Count(files[f.gcode], "\nG2 ") + strings.Count(files[f.gcode], "\nG3 ")
				w, h := float64(sh.Size.Width)/1000, float64(sh.Size.Height)/1000
				assert.True(t, c.least[0] >= 0 && c.least[1] >= 0 && c.most[0] <= w && c.most[1] <= h, "on the sheet: %v %v", c.least, c.most)
				assert.InDelta(t, float64(sh.Route.Cut+sh.Route.Leads+sh.Route.Marked)/1000, c.burnt, 0.05, "%s %s", name, f.gcode)
				assert.InDelta(t, float64(sh.Route.Travel)/1000, c.moved, 0.05)
				assert.InDelta(t, float64(m.FullPower)*0.4, c.mostPower, 0.51)

				var look cutter
				look.run(t, files[f.bounds])
				assert.Zero(t, look.burnt, "the beam stays off")
				b := boundsOf(&sh)
				bw, bh := b.Size()
				assert.InDelta(t, float64(bw+bh)*2/1000, around(files[f.bounds]), 0.01)
			}
		}
	}
	assert.Positive(t, arcs)
}

// around is the length of the rectangle that a bounds file runs round: all its
// moves but the first and the last.
func around(file string) float64 {
	lines := strings.Split(file, "\n")
	var rapids []string
	for _, l := range lines {
		if strings.HasPrefix(l, "G0") {
			rapids = append(rapids, l)
		}
	}
	sum := 0.0
	var x, y float64
	for i, l := range rapids[:len(rapids)-1] {
		var a, b float64
		fmt.Sscanf(l, "G0 X%f Y%f", &a, &b)
		if i > 0 {
			sum += max(a-x, x-a) + max(b-y, y-b)
		}
		x, y = a, b
	}
	return sum
}

// No machine file without power and speed, for a stock that must never be
// lasered or of which nobody knows, or for a hand; a knife cuts all. The drawings come all the same.
func TestWhoGetsAMachineFile(t *testing.T) {
	laser := project.NewMachine("Laser", project.LaserCutter)
	for name, c := range map[string]struct {
		machine project.Machine
		change  func(p *project.Project)
		files   int
		code    inspect.Code
	}{
		"all entered":     {laser, nil, 3, ""},
		"unknown":         {laser, func(p *project.Project) { p.Bench.Shelf[0].Stock.Laser, p.Stocks[0].Laser = "", "" }, 2, inspect.StockUnknown},
		"never":           {laser, func(p *project.Project) { p.Stocks[1].Laser = project.LaserNever }, 2, inspect.StockNeverLaser},
		"never, by name":  {laser, func(p *project.Project) { p.Stocks[1].Name = "Soft PVC" }, 2, inspect.StockNeverLaser},
		"power not known": {laser, func(p *project.Project) { p.Bench.Uses[2].Power = 0 }, 2, inspect.PowerUnknown},
		"knife":           {project.NewMachine("Knife", project.Knife), nil, 3, ""},
		"knife, vinyl":    {project.NewMachine("Knife", project.Knife), func(p *project.Project) { p.Stocks[1].Name = "Soft PVC" }, 3, ""},
		"knife, pressure": {project.NewMachine("Knife", project.Knife), func(p *project.Project) { p.Bench.Uses[2].Power = 0 }, 2, ""},
		"hand":            {project.NewMachine("Hand", project.Hand), nil, 0, ""},
		"sheet over bed": {laser, func(p *project.Project) {
			p.Bench.Machines[0].BedW, p.Bench.Machines[0].BedH = 90*shape.Mm, 90*shape.Mm
		}, 0, inspect.SheetOverBed},
	} {
		t.Run(name, func(t *testing.T) {
			p := quay(t, c.machine, nil)
			if c.change != nil {
				c.change(p)
			}
			j := sheeted(t, p)
			_, files := contents(t, unpainted(t, j))
			count := map[string]int{}
			for f := range files {
				if strings.HasPrefix(f, "sheets/") {
					count[filepath.Ext(f)]++
				}
			}
			assert.Equal(t, 3, count[".dxf"])
			assert.Equal(t, 3, count[".svg"])
			assert.Equal(t, 2*c.files, count[".nc"])
			if c.code != "" {
				found := false
				for _, f := range j.Plan.Findings {
					found = found || f.Code == c.code
				}
				assert.True(t, found, "a finding says why")
			}
			if c.machine.Kind == project.Knife {
				for _, part := range j.Plan.Sheets.Parts {
					assert.Empty(t, part.Piece.Tabs, "a knife leaves closed contours")
					assert.False(t, part.Piece.Loose)
				}
			}
		})
	}
}

// ezdxf's recover finds neither errors nor fixes in the sheets, and reads the
// route's lines in its order; librsvg draws them.
func TestOutsideReadersTakeTheSheets(t *testing.T) {
	laser := project.NewMachine("Laser", project.LaserCutter)
	for name, change := range map[string]func(p *project.Project){
		"tabs":         nil,
		"light":        func(p *project.Project) { p.Settings.Hold = project.Light },
		"edges shared": func(p *project.Project) { p.Settings.Gap = 0 },
		"round border": func(p *project.Project) { p.Settings.Border, p.Settings.Edge = 2500, project.Round },
		"face down": func(p *project.Project) {
			for i := range p.Stocks {
				p.Stocks[i].Face = project.FaceDown
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			p := quay(t, laser, nil)
			if change != nil {
				change(p)
			}
			j := sheeted(t, p)
			folder := unzipped(t, unpainted(t, j))
			_, sheets := nameFiles(j)
			args := []string{"../testdata/outside/sheet_dxf.py"}
			for _, f := range sheets {
				args = append(args, filepath.Join(folder, f.dxf))
			}
			cmd := exec.Command("/usr/bin/python3", args...)
			var said bytes.Buffer
			cmd.Stderr = &said
			out, err := cmd.Output()
			require.NoError(t, err, "needs Debian's python3-ezdxf: %s", said.String())
			d := json.NewDecoder(bytes.NewReader(out))
			for i, f := range sheets {
				var r struct {
					Version       string
					Units         int
					Errors, Fixes []string
					Lines         [][]any
				}
				require.NoError(t, d.Decode(&r))
				assert.Empty(t, r.Errors)
				assert.Empty(t, r.Fixes)
				assert.Equal(t, "AC1015", r.Version)
				assert.Equal(t, 4, r.Units)
				strokes := j.Plan.Sheets.List[i].Route.Strokes
				require.Len(t, r.Lines, len(strokes))
				for k, st := range strokes {
					layer := "CUT-"
					if st.Kind == route.Marking {
						layer = "MARK-"
					}
					assert.Equal(t, layer+f.stock, r.Lines[k][0])
					assert.Equal(t, bool(st.Closed), r.Lines[k][1])
					first := r.Lines[k][2].([]any)
					assert.InDelta(t, float64(st.Begin().X)/1000, first[0], 1e-9)
					assert.InDelta(t, float64(st.Begin().Y)/1000, first[1], 1e-9)
					assert.InDelta(t, float64(st.Length())/1000, r.Lines[k][3], 0.0006*float64(len(st.Path)+1), "each edge is rounded to the µm")
				}
				png := filepath.Join(folder, "sheet.png")
				said, err := exec.Command("rsvg-convert", "-w", "300", "-o", png, filepath.Join(folder, f.svg)).CombinedOutput()
				require.NoError(t, err, "needs Debian's librsvg2-bin: %s", said)
				assert.Empty(t, string(said))
			}
		})
	}
}

func TestSheetsInTheManifest(t *testing.T) {
	p := quay(t, project.NewMachine("Laser", project.LaserCutter), func(p *project.Project) { p.Sprites[0].Cell = 9 * shape.Mm })
	j := sheeted(t, p)
	_, files := contents(t, unpainted(t, j))
	var job struct {
		Sheets []struct {
			Stock, DXF, SVG, GCode, Face string
			Parts                        int
			Cut                          float64 `json:"cut_mm"`
		}
		Parts []struct {
			Number, Sprite, Sheet, Stock string
			Copy                         int
			RestsOn                      string `json:"rests_on"`
			Height, Pads                 int
			Under                        float64 `json:"underside_mm"`
		}
		Totals struct {
			Parts, Sheets int
			Cut           float64 `json:"cut_mm"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(files["job.json"]), &job))
	assert.Len(t, job.Parts, job.Totals.Parts)
	assert.Len(t, job.Sheets, job.Totals.Sheets)
	cut, parts := 0.0, 0
	for _, s := range job.Sheets {
		cut += s.Cut
		parts += s.Parts
		assert.Equal(t, "up", s.Face)
		for _, f := range []string{s.DXF, s.SVG, s.GCode} {
			assert.Contains(t, files, f)
		}
	}
	assert.InDelta(t, job.Totals.Cut, cut, 1e-6)
	assert.Equal(t, job.Totals.Parts, parts)
	// Each part but the lowest rests on one that is one height lower; all card is
	// 0.3 mm thick, on tape of 0.1 mm, and the larger sprite on 3 mm of foam.
	heights := map[string]int{}
	for _, q := range job.Parts {
		heights[fmt.Sprint(q.Sprite, q.Copy, q.Number)] = q.Height
	}
	pads := 0
	for _, q := range job.Parts {
		below := heights[fmt.Sprint(q.Sprite, q.Copy, q.RestsOn)]
		assert.Equal(t, q.Height-1, below)
		assert.Equal(t, q.Height == 1, q.RestsOn == "")
		floats := q.Sprite == p.Sprites[0].Name
		assert.Equal(t, floats && q.Height == 1, q.Pads > 0, q.Number)
		pads += q.Pads
		assert.InDelta(t, map[bool]float64{true: 3, false: 0.1}[floats]+float64(q.Height-1)*0.4, q.Under, 1e-9)
		assert.Contains(t, files, q.Sheet)
	}
	assert.Positive(t, pads)
	assert.True(t, strings.HasPrefix(files["guide.pdf"], "%PDF-"))
	for _, k := range works {
		assert.Contains(t, files["README.txt"], k.colour)
		assert.Contains(t, files["README.txt"], *k.says)
	}
}
