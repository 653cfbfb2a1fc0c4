package export

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// Jigs are files of the bundle like sheets: drawn, driven, listed, told and read back;
// each is packed as high as the manifest says the parts lie.
func TestJigsAreCut(t *testing.T) {
	rounds := uint64(10)
	if testing.Short() {
		rounds = 3
	}
	plates, rims, machine := 0, 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 91))
		p := randomSheeted(seed)
		p.Settings.SheetW, p.Settings.SheetH = 300*shape.Mm, 300*shape.Mm
		p.Settings.JigClear = shape.Um(r.IntN(600))
		for i := range p.Sprites {
			for h := 1; h <= 4; h++ {
				p.Sprites[i].Stack.Jigs = append(p.Sprites[i].Stack.Jigs, project.Jig{Height: h, Stock: p.Stocks[r.IntN(len(p.Stocks))].ID})
			}
		}
		require.NoError(t, p.Validate())
		j := sheeted(t, p)
		bundle := unpainted(t, j)
		require.NoError(t, readback.Check(bundle, p), "seed %d", seed)
		_, data := contents(t, bundle)
		var m struct {
			Jigs []struct {
				Sprite, Piece, DXF, GCode string
				Height                    int
				Pack                      float64 `json:"pack_mm"`
				Windows                   [][]string
			}
			Parts []struct {
				Sprite string
				Height int
				Lifts  string
				Under  float64 `json:"underside_mm"`
			}
			Findings []struct{ Code string }
		}
		require.NoError(t, json.Unmarshal([]byte(data["job.json"]), &m))
		told := 0
		for _, f := range m.Findings {
			if f.Code == string(inspect.JigNotMade) {
				told++
			}
		}
		wanted := 0
		for _, s := range j.Plan.Sprites {
			wanted += min(4, s.Layout.Heights)
		}
		if len(p.Choice.Parts) > 0 {
			continue
		}
		made := 0
		for _, jig := range m.Jigs {
			assert.Contains(t, data["README.txt"], jig.DXF)
			if jig.GCode != "" {
				machine++
			}
			if jig.Piece == "rim" {
				rims++
				continue
			}
			made++
			for _, q := range m.Parts {
				if q.Sprite == jig.Sprite && q.Height == jig.Height && q.Lifts == "" {
					require.LessOrEqual(t, q.Under, jig.Pack+1e-9)
				}
			}
		}
		plates += made
		require.Equal(t, wanted, made+told, "seed %d", seed)
	}
	assert.Greater(t, plates, int(rounds))
	assert.Positive(t, rims)
	assert.Positive(t, machine)
}

// A jig that its parts don't go through, or that nobody wants, lets no bundle out.
func TestJigsAreReadBack(t *testing.T) {
	p := drawn(5000, grid("aaaaaaa", "abbabba", "aaaaaaa"))
	p.Sprites[0].Stack.Highest = "b"
	p.Sprites[0].Stack.Jigs = []project.Jig{{Height: 2, Stock: p.Stocks[0].ID}}
	j := sheeted(t, p)
	bundle := unpainted(t, j)
	require.NoError(t, readback.Check(bundle, p))
	require.Len(t, j.Plan.Sheets.Jigs, 1)
	require.Len(t, j.Plan.Sheets.Jigs[0].Windows, 2)
	none := *p
	none.Sprites = append([]project.Sprite(nil), p.Sprites...)
	none.Sprites[0].Stack.Jigs = nil
	assert.ErrorContains(t, readback.Check(bundle, &none), "no such jig")
	for what, spoil := range map[string]func(string) string{
		"moved": func(s string) string {
			at := strings.Index(s, `"piece": "plate"`)
			return s[:at] + strings.Replace(s[at:], `"move_mm": [`, `"move_mm": [1`, 1)
		},
		"unnamed": func(s string) string {
			at := strings.Index(s, `"windows"`)
			return s[:at] + strings.Replace(s[at:], `"A2-1"`, `"A2-9"`, 1)
		},
		"clearance": func(s string) string { return strings.Replace(s, `"clearance_mm": 0.2`, `"clearance_mm": 0.3`, 1) },
	} {
		assert.Error(t, readback.Check(edited(t, bundle, "job.json", spoil), p), what)
	}
	// A plate cut for another clearance, which the manifest doesn't say.
	tight := *p
	tight.Settings.JigClear = 0
	k := sheeted(t, &tight)
	k.Plan.Sheets.Jigs[0].Clear = p.Settings.JigClear
	k.Project = p
	assert.ErrorContains(t, readback.Check(unpainted(t, k), p), "doesn't go through its window")
}

// With neither kerf nor tabs a plate's file holds its windows as they are: Shapely's
// mitred buffer of the parts in the layers' files (Debian: python3-ezdxf, python3-shapely).
func TestJigWindowsAreShapelysBuffers(t *testing.T) {
	p := drawn(5000, grid("aaaaaaaaa", "abbaaacca", "abaaaaaca", "aaabbbaaa", "aaaaaaaaa"))
	p.Sprites[0].Stack.Highest = "bc"
	p.Sprites[0].Stack.Jigs = []project.Jig{{Height: 2, Stock: p.Stocks[3].ID}}
	p.Settings.Hold, p.Settings.Kerf = project.Light, new(shape.Um)
	j := sheeted(t, p)
	require.Len(t, j.Plan.Sheets.Jigs, 1)
	jig := j.Plan.Sheets.Jigs[0]
	folder := unzipped(t, unpainted(t, j))
	files, _ := nameFiles(j)
	move := jig.Pieces[0].Move
	args := []string{
		"../testdata/outside/jig_windows.py", mmText(jig.Clear), mmText(move.X), mmText(move.Y),
		filepath.Join(folder, nameJigs(j, files)[0][0].dxf),
	}
	for k, l := range j.Plan.Sprites[0].Layout.Layers {
		if l.Height == 2 {
			args = append(args, filepath.Join(folder, files[0].layers[k]+".dxf"))
		}
	}
	out, err := exec.Command("/usr/bin/python3", args...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	var windows int
	var differ float64
	_, err = fmt.Sscan(string(out), &windows, &differ)
	require.NoError(t, err, "%s", out)
	assert.Equal(t, len(jig.Windows), windows)
	assert.Equal(t, 3, windows)
	assert.InDelta(t, 0, differ, 1e-6)
}
