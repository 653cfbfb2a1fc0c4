package export

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// Test pieces: strict readers take the drawings, the machine files keep to the
// rules, and the ladder's runs through all its powers.
func TestPiecesAreFilesToCut(t *testing.T) {
	p := quay(t, project.NewMachine("Laser", project.LaserCutter), func(p *project.Project) { p.Stocks[2].Laser = project.LaserNever })
	p.Stocks[2].Laser = project.LaserNever
	j := planned(t, p)
	pieces, err := engine.TestPieces(p, j.Plan, engine.Range{Low: 10, High: 60, Steps: 6}, engine.Range{Low: 5, High: 30, Steps: 6})
	require.NoError(t, err)
	data, err := TestPieces(p, pieces)
	require.NoError(t, err)
	again, err := TestPieces(p, pieces)
	require.NoError(t, err)
	assert.Equal(t, data, again)
	_, files := contents(t, data)
	folder := unzipped(t, data)
	machine, args := 0, []string{"../testdata/outside/sheet_dxf.py"}
	for name, text := range files {
		switch filepath.Ext(name) {
		case ".nc":
			machine++
			var c cutter
			c.run(t, text)
			if strings.HasSuffix(name, "-bounds.nc") {
				assert.Zero(t, c.burnt, name)
				assert.Contains(t, files, strings.TrimSuffix(name, "-bounds.nc")+".nc")
				continue
			}
			assert.Positive(t, c.burnt, name)
			if strings.HasSuffix(name, "ladder.nc") {
				for _, s := range []string{"S100", "S200", "S300", "S400", "S500", "S600"} {
					assert.Contains(t, text, s)
				}
			}
		case ".dxf":
			args = append(args, filepath.Join(folder, name))
		case ".svg":
			said, err := exec.Command("rsvg-convert", "-w", "200", "-o", filepath.Join(folder, "t.png"), filepath.Join(folder, name)).CombinedOutput()
			require.NoError(t, err, "needs Debian's librsvg2-bin: %s", said)
		}
	}
	assert.Equal(t, 2*6, machine, "three for each stock that may go on a laser, each with one round its bounds")
	assert.Len(t, args, 1+9)
	out, err := exec.Command("/usr/bin/python3", args...).Output()
	require.NoError(t, err, "needs Debian's python3-ezdxf")
	assert.Equal(t, 9, strings.Count(string(out), `"Errors": [], "Fixes": []`))
	assert.Contains(t, files["README.txt"], "--reading")
	assert.Contains(t, files["README.txt"], "Never leave a running laser alone")
}
