package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/editor/assembly"
	"sheetsprite/editor/sheets"
	"sheetsprite/engine"
	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export"
)

// aPart is one copy of one part, as it is called.
type aPart struct {
	sprite string
	copy   int
	number string
}

// bundled is a bundle with all that was made of a project.
type bundled struct {
	project *project.Project
	plan    *engine.Planned
	files   map[string][]byte
	parts   map[aPart]bool
	spacers map[aPart]bool
}

// bundledOf plans a project, with its sheets or without, and reads its bundle.
func bundledOf(t *testing.T, p *project.Project, how laid) bundled {
	t.Helper()
	plan, err := engine.Plan(p, engine.Options{})
	require.NoError(t, err)
	if how {
		require.NoError(t, engine.PlanSheets(p, plan, engine.Options{}))
		engine.PlanAssembly(p, plan, engine.Options{})
	}
	data, err := export.Build(export.Job{Project: p, Plan: plan})
	require.NoError(t, err)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	b := bundled{p, plan, map[string][]byte{}, map[aPart]bool{}, map[aPart]bool{}}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		b.files[f.Name], err = io.ReadAll(r)
		require.NoError(t, err)
	}
	for _, s := range plan.Sprites {
		for copy := 1; copy <= p.Sprites[s.Index].Copies; copy++ {
			for _, l := range s.Layout.Layers {
				for _, q := range l.Parts {
					b.parts[aPart{p.Sprites[s.Index].Name, copy, s.Numbers[q.Index]}] = true
				}
			}
			for _, l := range s.Spacers {
				for _, q := range l.Parts {
					b.spacers[aPart{p.Sprites[s.Index].Name, copy, s.Numbers[q.Index]}] = true
				}
			}
		}
	}
	return b
}

// laid says whether parts are laid on sheets.
type laid bool

// all are parts and spacers.
func (b bundled) all() map[aPart]bool {
	out := maps.Clone(b.parts)
	maps.Copy(out, b.spacers)
	return out
}

// single are the numbers of one copy of each sprite, in order.
func single(of map[aPart]bool) []string {
	var out []string
	for q := range of {
		if q.copy == 1 {
			out = append(out, q.number)
		}
	}
	slices.Sort(out)
	return out
}

// readJob is what the test reads of job.json.
type readJob struct {
	Sprites []struct {
		Name            string
		Layers, Spacers []struct {
			Layer, Height int
			Stock, SVG    string
		}
	}
	Sheets []struct{ DXF, SVG, Face string }
	Parts  []struct {
		Number, Sprite, Sheet, Numbered, Lifts string
		Copy, Layer                            int
		RestsOn                                string `json:"rests_on"`
	}
	Findings []struct {
		readPlace
		Places []readPlace
	}
}

type readPlace struct {
	Sprite, Part string
	Layer        int
}

// drawnPath is a path of an SVG file.
type drawnPath struct {
	ID     string `xml:"id,attr"`
	D      string `xml:"d,attr"`
	Stroke string `xml:"stroke,attr"`
}

// numbered is how a number looks in a text.
var numbered = regexp.MustCompile(`[A-HJ-NP-Z]+[1-9][0-9]*-[1-9][0-9]*`)

// The same part has the same name everywhere: in job.json, as id in its layer's
// drawing, among the findings, in the guide's key, steps and mat, marked on the
// sheets, and in what the page shows. Every part is in exactly one step. After an
// edit of what was saved, a part that is cut as before is called as before.
func TestOneNameEverywhere(t *testing.T) {
	rounds := uint64(6)
	if testing.Short() {
		rounds = 2
	}
	var found, marked, spacers, kept int
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 41))
		p := smallProject(r)
		p.Settings.Effort = 0
		p.Settings.SheetW, p.Settings.SheetH = 300*shape.Mm, 400*shape.Mm
		liftSome(r, p)
		require.NoError(t, p.Validate())
		b := bundledOf(t, p, true)
		what := fmt.Sprint("seed ", seed)
		spacers += len(b.spacers)
		var job readJob
		require.NoError(t, json.Unmarshal(b.files["job.json"], &job))
		b.inJob(t, job, what)
		ids := b.inDrawings(t, job, what)
		found += b.inFindings(t, job, what)
		marked += b.onSheets(t, job, what)
		b.inGuide(t, what)
		b.inPage(t, what)

		saved, err := project.Read(bytes.NewReader(b.files["project.json"]))
		require.NoError(t, err)
		repaint(r, saved)
		after := bundledOf(t, saved, false)
		require.NoError(t, json.Unmarshal(after.files["job.json"], &job))
		for cutFrom, id := range after.inDrawings(t, job, what) {
			if was, ok := ids[cutFrom]; ok {
				assert.Equal(t, was, id, what)
				kept++
			}
		}
	}
	assert.Greater(t, found, int(rounds))
	assert.Greater(t, marked, int(rounds))
	assert.Greater(t, spacers, int(rounds))
	assert.Greater(t, kept, int(rounds))
}

// liftSome puts heights of some sprites on spacers.
func liftSome(r *rand.Rand, p *project.Project) {
	for i := range p.Sprites {
		if s := &p.Sprites[i]; r.IntN(3) > 0 {
			s.Cell = shape.Um(7000 + r.IntN(3000))
			s.Stack.FoamStock = p.Stocks[r.IntN(len(p.Stocks))].ID
			if r.IntN(2) == 0 {
				s.Stack.Float, s.Stack.FloatStock = 2, p.Stocks[0].ID
			}
		}
	}
}

// repaint changes some cells, each to a colour, so that the drawings' bounds stay.
func repaint(r *rand.Rand, p *project.Project) {
	for i := range p.Sprites {
		cells := p.Sprites[i].Frames[0].Cells
		for range 2 {
			if k := r.IntN(len(cells)); cells[k] != project.Empty {
				cells[k] = p.Palette[r.IntN(len(p.Palette))].Key
			}
		}
	}
}

func (b bundled) inJob(t *testing.T, job readJob, what string) {
	listed := map[aPart]bool{}
	for _, q := range job.Parts {
		k := aPart{q.Sprite, q.Copy, q.Number}
		require.False(t, listed[k], "%s: %v is listed twice", what, k)
		listed[k] = true
		for _, other := range []string{q.RestsOn, q.Lifts} {
			assert.True(t, other == "" || b.parts[aPart{q.Sprite, q.Copy, other}], "%s: %v", what, q)
		}
	}
	assert.Equal(t, b.all(), listed, what)
}

// inDrawings holds the ids of the layers' drawings against the parts, and gives
// them by what is cut: sprite, height, stock and path.
func (b bundled) inDrawings(t *testing.T, job readJob, what string) map[string]string {
	drawn := map[aPart]bool{}
	ids := map[string]string{}
	for _, s := range job.Sprites {
		for _, l := range slices.Concat(s.Layers, s.Spacers) {
			for _, path := range paths(t, b.files[l.SVG]) {
				k := aPart{s.Name, 1, path.ID}
				require.False(t, drawn[k], "%s: %v is drawn twice", what, k)
				drawn[k] = true
				ids[fmt.Sprintln(s.Name, l.Height, l.Stock, path.D)] = path.ID
			}
		}
	}
	one := b.all()
	maps.DeleteFunc(one, func(q aPart, _ bool) bool { return q.copy > 1 })
	assert.Equal(t, one, drawn, what)
	return ids
}

// paths are those of an SVG file, read by the standard library's XML.
func paths(t *testing.T, file []byte) []drawnPath {
	t.Helper()
	var svg struct {
		Paths []drawnPath `xml:"path"`
		Group struct {
			Paths []drawnPath `xml:"path"`
		} `xml:"g"`
	}
	require.NoError(t, xml.Unmarshal(file, &svg))
	return append(svg.Paths, svg.Group.Paths...)
}

// inFindings counts the places that name a part.
func (b bundled) inFindings(t *testing.T, job readJob, what string) (n int) {
	for i, f := range job.Findings {
		for _, q := range append(f.Places, f.readPlace) {
			if q.Part != "" {
				assert.True(t, b.all()[aPart{q.Sprite, 1, q.Part}], "%s: %v", what, q)
				n++
			}
		}
		assert.Equal(t, len(b.plan.Findings[i].Places), len(f.Places), what)
	}
	codes := map[inspect.Code]bool{}
	for _, f := range b.plan.Findings {
		codes[f.Code] = true
		for _, q := range f.Places { // only where two parts meet, or of a whole sprite, there is none
			assert.True(t, q.Part != "" || q.Layer == 0 || f.Code == inspect.KerfMeets, "%s: %v", what, f)
		}
	}
	return n
}

// onSheets reads the numbers that are marked on the sheets' drawings, by the
// strokes of the font, whatever way they lie.
func (b bundled) onSheets(t *testing.T, job readJob, what string) (n int) {
	for _, sh := range job.Sheets {
		var want []string
		for _, q := range job.Parts {
			if q.Sheet == sh.DXF && q.Numbered != "map" {
				want = append(want, q.Number)
			}
		}
		var lines []stroke
		for _, path := range paths(t, b.files[sh.SVG]) {
			if path.Stroke == "#6a51a3" { // as the file's own legend says
				lines = append(lines, strokeOf(t, path.D))
			}
		}
		got := readNumbers(lines, slices.Compact(slices.Sorted(slices.Values(want))))
		slices.Sort(got)
		slices.Sort(want)
		assert.Equal(t, want, got, "%s: %s", what, sh.SVG)
		n += len(got)
	}
	return n
}

// stroke is an open line in µm.
type stroke []shape.Point

// strokeOf reads the path data of a mark: M, H, V and L with absolute mm.
func strokeOf(t *testing.T, d string) stroke {
	t.Helper()
	var out stroke
	um := func(s string) shape.Um {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return shape.Um(v*1000 + 0.5)
	}
	for _, m := range regexp.MustCompile(`([MLHV])([0-9.]+)(?: ([0-9.]+))?`).FindAllStringSubmatch(d, -1) {
		var at shape.Point
		if len(out) > 0 {
			at = out[len(out)-1]
		}
		switch m[1] {
		case "H":
			at.X = um(m[2])
		case "V":
			at.Y = um(m[2])
		default:
			at = shape.Point{X: um(m[2]), Y: um(m[3])}
		}
		out = append(out, at)
	}
	return out
}

// key is a stroke as a text, the same from either end.
func (s stroke) key() string {
	back := slices.Clone(s)
	slices.Reverse(back)
	return min(fmt.Sprint(s), fmt.Sprint(back))
}

// readNumbers finds which of the numbers stand in a drawing, as often as they do:
// each is looked for in all sizes, turned and mirrored, by its bar and then the
// rest of its strokes.
func readNumbers(lines []stroke, numbers []string) (found []string) {
	there := map[string]int{}
	for _, l := range lines {
		there[l.key()]++
	}
	for _, number := range numbers {
		for _, look := range looksOf(number) {
			bar := look[len(look)-1]
			for _, l := range lines {
				if len(l) != 2 || l[1].Sub(l[0]) != bar[1].Sub(bar[0]) && l[0].Sub(l[1]) != bar[1].Sub(bar[0]) {
					continue
				}
				by := l[0].Sub(bar[0])
				if l[1].Sub(l[0]) != bar[1].Sub(bar[0]) {
					by = l[1].Sub(bar[0])
				}
				all := true
				for _, s := range look {
					all = all && there[s.moved(by).key()] > 0
				}
				if all {
					for _, s := range look {
						there[s.moved(by).key()]--
					}
					found = append(found, number)
				}
			}
		}
	}
	for _, n := range there {
		for range n {
			found = append(found, "a stroke of no number")
		}
	}
	return found
}

func (s stroke) moved(by shape.Point) stroke {
	out := make(stroke, len(s))
	for i, q := range s {
		out[i] = q.Add(by)
	}
	return out
}

// looksOf are the strokes of a number, its bar last, in every size and every way
// in which it can lie on a sheet.
func looksOf(number string) (looks [][]stroke) {
	for _, unit := range []shape.Um{250, 220, 188} { // letters of 2 mm, 1.76 mm and 1.5 mm
		lines := cut.Label{Text: number, Unit: unit}.Lines()
		for way := range 8 {
			var look []stroke
			for _, c := range lines {
				var s stroke
				for _, v := range c {
					q := v.Point
					if way&1 > 0 {
						q.X = -q.X
					}
					if way&2 > 0 {
						q.Y = -q.Y
					}
					if way&4 > 0 {
						q.X, q.Y = q.Y, q.X
					}
					s = append(s, q)
				}
				look = append(look, s)
			}
			looks = append(looks, look)
		}
	}
	return looks
}

// inGuide reads the guide's text: no number stands in it that isn't a part's, each
// part is placed once, and the mat has each with as many copies as there are.
func (b bundled) inGuide(t *testing.T, what string) {
	path := filepath.Join(t.TempDir(), "guide.pdf")
	require.NoError(t, os.WriteFile(path, b.files["guide.pdf"], 0o600))
	out, err := exec.Command("pdftotext", path, "-").Output()
	require.NoError(t, err)
	text := strings.Join(strings.Fields(string(out)), " ")
	told := numbered.FindAllString(text, -1)
	slices.Sort(told)
	assert.Equal(t, single(b.all()), slices.Compact(told), what)

	var placed []string
	list := `(` + numbered.String() + `(?:, ` + numbered.String() + `)*)`
	for _, m := range regexp.MustCompile(list+` on (?:`+numbered.String()+`|the board)\.`).FindAllStringSubmatch(text, -1) {
		placed = append(placed, strings.Split(m[1], ", ")...)
	}
	slices.Sort(placed)
	assert.Equal(t, single(b.parts), placed, "%s: each part is in one step", what)
	for _, s := range b.plan.Sprites {
		words := []string{"", "two", "3"}[b.project.Sprites[s.Index].Copies-1]
		for _, n := range s.Numbers {
			got := ""
			if m := regexp.MustCompile(n + `(?:, spacer under [^ ]+)?, ([^ ]+) of these`).FindStringSubmatch(text); m != nil {
				got = m[1]
			}
			assert.Equal(t, words, got, "%s: copies of %s", what, n)
		}
	}
}

// inPage holds the models of the page's views against the parts.
func (b bundled) inPage(t *testing.T, what string) {
	m := sheets.Build(b.project, b.plan, export.SheetPaths(export.Job{Project: b.project, Plan: b.plan}))
	shown := map[aPart]bool{}
	for _, q := range m.Parts {
		shown[aPart{q.Sprite, q.Copy, q.Number}] = true
		assert.True(t, q.On == "" || b.parts[aPart{q.Sprite, q.Copy, q.On}], what)
	}
	assert.Equal(t, b.all(), shown, what)
	assert.Len(t, m.Parts, len(shown), what)
	for _, f := range m.Findings {
		for _, n := range f.Parts {
			assert.Contains(t, single(b.all()), n, what)
		}
	}

	a, told := assembly.Build(b.project, b.plan)
	shown = map[aPart]bool{}
	for i, s := range a.Sprites {
		steps := map[string]int{}
		for _, step := range s.Steps {
			for _, k := range step.Parts {
				steps[s.Parts[k].Number]++
			}
		}
		assert.Len(t, steps, len(s.Parts), what)
		for k, q := range s.Parts {
			assert.Equal(t, 1, steps[q.Number], what)
			assert.Equal(t, q.Number, told.Sprites[i].Parts[k].Number, what)
			for c := range q.Places {
				for _, n := range append([]string{q.Number}, q.Lifts...) {
					k := aPart{s.Name, c + 1, n}
					require.False(t, shown[k], "%s: %v is shown twice", what, k)
					shown[k] = true
				}
			}
		}
	}
	assert.Equal(t, b.all(), shown, what)
}
