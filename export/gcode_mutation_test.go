package export

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

var (
	ncPlace = regexp.MustCompile(`[XYIJ]-?[0-9.]+`)
	ncBlock = regexp.MustCompile(`(?m)^(G0 .*\nM[34] .*\n(?:G[123] .*\n)+M5\n)`)
)

// ncMutation changes a machine file so that the machine would do something else.
type ncMutation func(r *rand.Rand, s string) string

// ncMutations are such changes; places are moved by so many µm.
func ncMutations(by int) map[string]ncMutation {
	return map[string]ncMutation{
		"a place off": func(r *rand.Rand, s string) string {
			at := pick(r, ncPlace.FindAllStringIndex(s[:strings.LastIndex(s, "M5\nG0")], -1))
			return s[:at[0]+1] + further(s[at[0]+1:at[1]], by) + s[at[1]:]
		},
		"a line less": func(r *rand.Rand, s string) string {
			at := pick(r, ncBlock.FindAllStringIndex(s, -1))
			return s[:at[0]] + s[at[1]:]
		},
		"a line twice": func(r *rand.Rand, s string) string {
			at := pick(r, ncBlock.FindAllStringIndex(s, -1))
			return s[:at[1]] + s[at[0]:at[1]] + s[at[1]:]
		},
		"two lines swapped": func(r *rand.Rand, s string) string {
			all := ncBlock.FindAllStringIndex(s, -1)
			i := r.IntN(len(all) - 1)
			a, b := all[i], all[i+1]
			return s[:a[0]] + s[b[0]:b[1]] + s[a[1]:b[0]] + s[a[0]:a[1]] + s[b[1]:]
		},
		"a move less": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(`(?m)^G[123] X.*\n`).FindAllStringIndex(s[:strings.LastIndex(s, "M5\nG0")], -1))
			return s[:at[0]] + s[at[1]:]
		},
		"the beam left on": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(`(?m)^G[123] .*\nM5\n`).FindAllStringIndex(s[:strings.LastIndex(s, "M5\nM5")], -1))
			return s[:at[1]-3] + s[at[1]:]
		},
		"the beam left off": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(`(?m)^M[34] .*\n`).FindAllStringIndex(s, -1))
			return s[:at[0]] + s[at[1]:]
		},
		"another power": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(` S[0-9.]+`).FindAllStringIndex(s, -1))
			return s[:at[0]] + " S7" + s[at[1]:]
		},
		"another feed": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(` F[0-9.]+`).FindAllStringIndex(s, -1))
			return s[:at[0]] + " F7" + s[at[1]:]
		},
		"a rapid instead of a cut": func(r *rand.Rand, s string) string {
			at := pick(r, regexp.MustCompile(`(?m)^G1`).FindAllStringIndex(s, -1))
			return s[:at[0]] + "G0" + s[at[1]:]
		},
		"inches":         func(_ *rand.Rand, s string) string { return strings.Replace(s, "G21", "G20", 1) },
		"relative":       func(_ *rand.Rand, s string) string { return strings.Replace(s, "G90", "G91", 1) },
		"no mode":        func(_ *rand.Rand, s string) string { return strings.Replace(s, "G90\n", "", 1) },
		"no end":         func(_ *rand.Rand, s string) string { return strings.Replace(s, "M2\n", "", 1) },
		"half a file":    func(_ *rand.Rand, s string) string { return s[:len(s)/2] },
		"a word unknown": func(_ *rand.Rand, s string) string { return strings.Replace(s, "G21\n", "G21\nG28\n", 1) },
		"a comment open": func(_ *rand.Rand, s string) string { return strings.Replace(s, ")\n", "\n", 1) },
		"an arc the other way round": func(r *rand.Rand, s string) string {
			all := regexp.MustCompile(`(?m)^G[23]`).FindAllStringIndex(s, -1)
			if len(all) == 0 {
				return s
			}
			at := pick(r, all)
			return s[:at[0]] + map[string]string{"G2": "G3", "G3": "G2"}[s[at[0]:at[1]]] + s[at[1]:]
		},
		"seen in a mirror": func(_ *rand.Rand, s string) string {
			return ncPlace.ReplaceAllStringFunc(s, func(w string) string {
				if w[0] == 'X' && w != "X0" {
					return "X" + further(w[1:], by)
				}
				return w
			})
		},
	}
}

func pick[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

// further is a number of mm larger by so many µm.
func further(s string, by int) string {
	whole, part, _ := strings.Cut(s, ".")
	var w, p int
	fmt.Sscan(strings.TrimPrefix(whole, "-"), &w)
	fmt.Sscan((part + "000")[:3], &p)
	um := w*1000 + p
	if strings.HasPrefix(s, "-") {
		um = -um
	}
	return mmText(shape.Um(um + by))
}

// A machine file that is spoilt after it was written is caught, whatever was done
// to it. Where an arc's centre moves by one µm it is the same arc to the µm, and a lead-in may begin
// a µm aside; where the
// tip of a blade comes is known to a few µm.
func TestSpoiltMachineFilesAreCaught(t *testing.T) {
	rounds, kinds := 3, []project.MachineKind{project.LaserCutter, project.Knife}
	borders := []shape.Um{0, 2345}
	if testing.Short() {
		rounds, borders = 1, borders[1:]
	}
	for n := range len(borders) * len(kinds) {
		border, kind := borders[n/len(kinds)], kinds[n%len(kinds)]
		m := project.NewMachine("Machine", kind)
		m.BladeOffset, m.Overcut = 300, 700 // of a knife
		m.Origin = map[shape.Um]project.BedCorner{0: project.LowerLeft, 2345: project.LowerRight}[border]
		p := quay(t, m, func(p *project.Project) {
			p.Settings.Border, p.Settings.Edge = border, project.Round
			p.Settings.Hold = map[shape.Um]project.Hold{0: project.Tabs, 2345: project.Light}[border]
		})
		for i := range p.Bench.Uses {
			p.Bench.Uses[i].Passes = 2
		}
		j := sheeted(t, p)
		bundle, err := Build(j)
		require.NoError(t, err)
		_, files := contents(t, bundle)
		_, sheets := nameFiles(j)
		mutations := ncMutations(map[project.MachineKind]int{project.LaserCutter: 1, project.Knife: 20}[kind])
		names := make([]string, 0, len(mutations))
		for name := range mutations {
			names = append(names, name)
		}
		slices.Sort(names)
		r := rand.New(rand.NewPCG(uint64(n), 3))
		for _, name := range names {
			t.Run(fmt.Sprint(name, " ", kind, border), func(t *testing.T) {
				for range rounds {
					f := pick(r, sheets)
					was := files[f.gcode]
					now := mutations[name](r, was)
					if now == was {
						continue // there was no arc
					}
					if name == "a place off" && regexp.MustCompile(`[IJ]|G0`).MatchString(differing(was, now)) {
						continue
					}
					err := readback.Check(edited(t, bundle, f.gcode, func(string) string { return now }), p)
					if assert.Error(t, err, differing(was, now)) {
						assert.Contains(t, err.Error(), f.gcode)
					}
				}
			})
		}
		t.Run(fmt.Sprint("bounds ", kind, border), func(t *testing.T) {
			for _, change := range []func(string) string{
				func(s string) string { return strings.Replace(s, "G0 ", "M3 S100\nG1 F100 ", 1) },
				func(s string) string { return strings.Replace(s, "M2\n", "", 1) },
				func(s string) string {
					return regexp.MustCompile(`X[1-9][0-9.]*`).ReplaceAllStringFunc(s, func(w string) string { return "X1" })
				},
				func(s string) string { return regexp.MustCompile(`(?m)^G0 X[1-9].*\n`).ReplaceAllString(s, "") },
			} {
				f := sheets[0]
				require.NotEqual(t, files[f.bounds], change(files[f.bounds]))
				err := readback.Check(edited(t, bundle, f.bounds, change), p)
				if assert.Error(t, err) {
					assert.Contains(t, err.Error(), f.bounds)
				}
			}
		})
	}
}

// differing is the first line of b that isn't a's.
func differing(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return fmt.Sprintf("line %d: %s", i+1, y[i])
		}
	}
	return "the end"
}

// A machine file that may not be there is refused, too.
func TestMachineFilesNobodyMayHave(t *testing.T) {
	p := quay(t, project.NewMachine("Laser", project.LaserCutter), nil)
	bundle, err := Build(sheeted(t, p))
	require.NoError(t, err)
	for what, spoil := range map[string]func(p *project.Project){
		"nobody entered power":   func(p *project.Project) { p.Bench.Uses[0].Power = 0 },
		"isn't known to be safe": func(p *project.Project) { p.Stocks[0].Laser = "" },
		"hands get no machine":   func(p *project.Project) { p.Bench.Machines[0].Kind = project.Hand },
		"leaves the sheet or the": func(p *project.Project) {
			p.Bench.Machines[0].BedW, p.Bench.Machines[0].BedH = 20*shape.Mm, 20*shape.Mm
		},
		"asks for M3":             func(p *project.Project) { p.Bench.Machines[0].Beam = project.M3 },
		"isn't what is drawn":     func(p *project.Project) { p.Bench.Machines[0].Origin = project.UpperRight },
		"power and feed are":      func(p *project.Project) { p.Bench.Uses[0].Speed++ },
		"not as often as it must": func(p *project.Project) { p.Bench.Uses[0].Passes, p.Bench.Uses[0].Order = 2, project.WholeSheet },
		"the drawing's next line": func(p *project.Project) { p.Bench.Uses[0].Passes = 2 },
	} {
		q := quay(t, project.NewMachine("Laser", project.LaserCutter), nil)
		spoil(q)
		err := readback.Check(bundle, q)
		if assert.Error(t, err, what) {
			assert.Contains(t, err.Error(), what)
		}
	}
}
